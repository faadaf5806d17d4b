"""Photos that were computed, with what they show known: the outline comes back, or a reason why not."""

import io

import numpy as np
import pytest
from benchmarks import photo_scenes as scenes
from benchmarks import trace_photos
from benchmarks.photo_camera import View, take
from PIL import Image

from guidegen.app.commands.bench.trace import TraceOptions, write_frame
from guidegen.app.commands.bench.trace import trace_photos as run_trace
from guidegen.bench.photos.records import Asked, TemplatePhoto
from guidegen.bench.photos.trace import trace
from guidegen.errors import ContentError, UsageError
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble

SMALL = {
    "width": 900,
    "height": 675,
    "blur": 0.6,
    "noise": 0.004,
    "lean": 18.0,
    "bent": (0.04, 0.01),
}


def made(seed, kind="card", layout="around", **view: object):
    """A small template of 180 by 130 mm and its photo."""
    rng = np.random.default_rng(seed)
    scene = scenes.scene(rng, kind, layout, 180.0, 130.0)
    return scene, take(rng, scene, View(**{**SMALL, **view}))


@pytest.fixture(scope="module")
def card(tmp_path_factory):
    """A card template, its photo as a file with a place in its EXIF, and what the command writes."""
    scene, photo = made(3, jpeg=90)
    folder = tmp_path_factory.mktemp("trace")
    image = Image.open(io.BytesIO(photo.data))
    exif = Image.Exif()
    exif[0x010E] = "SECRET-PLACE"
    image.save(folder / "card.jpg", quality=92, exif=exif)
    result = run_trace(TraceOptions((folder / "card.jpg",), folder / "out"))
    return scene, folder, result


def test_outline_of_a_card_is_found(card):
    """Every place of the outline lies within 0.3 mm, with its holes and at most twice the segments."""
    scene, _, result = card
    found = result.trace
    points, truth = trace_photos.dense(found.outline.run), scenes.along(scene.ring, 0.1)
    moved, _ = trace_photos.aligned(points, truth, points)
    assert trace_photos.cKDTree(truth).query(moved)[0].max() < 0.3
    assert trace_photos.cKDTree(moved).query(truth)[0].max() < 0.3
    assert len(found.holes) == len(scene.holes)
    assert len(found.outline.run) <= 2 * len(scene.ring)
    assert found.trust.total < 0.5


def test_drawing_is_read_as_a_part(card):
    """What is written is taken by the reader of drawings as it is, with named corners."""
    _, folder, result = card
    text = (folder / "out" / "template.svg").read_text()
    drawing, problems = read_drawing(text, "template.svg")
    assert problems == ()
    piece, problems = assemble(drawing, "")
    assert problems == ()
    assert len(piece.holes) == len(result.trace.holes)
    assert 'id="corner-a"' in text


def test_nothing_of_the_photo_but_its_pixels_is_kept(card):
    """Words in a photo's EXIF stand in no file that is written; the summary says what to type next."""
    _, folder, result = card
    for path in (folder / "out").iterdir():
        assert b"SECRET" not in path.read_bytes()
        assert b"Exif" not in path.read_bytes()
    assert "guidegen proof" in result.summary()


@pytest.mark.parametrize(
    ("codes", "layout", "view"),
    [
        ({"trace-no-strips"}, "one", {}),
        # What little stands out may be the grain of the ground, which goes on under the strips.
        (
            {"trace-nothing", "trace-touches"},
            "around",
            {"card": (0.3, 0.3, 0.3), "ground": (0.31, 0.3, 0.3), "grain": 0.1},
        ),
    ],
)
def test_photo_that_does_not_suffice_is_refused(codes, layout, view):
    """One strip alone, and a card on a ground of its own colour, are refused with their reason."""
    _, photo = made(3, layout=layout, **view)
    picture = TemplatePhoto("a.png", np.asarray(Image.open(io.BytesIO(photo.data))))
    with pytest.raises(ContentError) as refused:
        trace([picture], Asked())
    assert refused.value.problems[0].code in codes
    assert "expected" in str(refused.value)


def test_hostile_files_are_refused(tmp_path):
    """What is no photo, has too many pixels, or another ending, is refused before it is unpacked."""
    image = Image.new("RGB", (80, 80))
    image.save(tmp_path / "plain.png")
    bomb = bytearray((tmp_path / "plain.png").read_bytes())
    bomb[16:24] = (60_000).to_bytes(4, "big") * 2
    (tmp_path / "bomb.png").write_bytes(bomb)
    (tmp_path / "words.jpg").write_text("no photo")
    (tmp_path / "cut.png").write_bytes((tmp_path / "plain.png").read_bytes()[:60])
    (tmp_path / "photo.heic").write_bytes(b"x")
    for name in ("bomb.png", "words.jpg", "cut.png", "photo.heic"):
        with pytest.raises(ContentError) as refused:
            run_trace(TraceOptions((tmp_path / name,), tmp_path / "out"))
        assert refused.value.problems[0].code == "trace-photo", name
    with pytest.raises(ContentError, match="expected at least two strips"):
        run_trace(TraceOptions((tmp_path / "plain.png",), tmp_path / "out"))
    with pytest.raises(UsageError):
        run_trace(TraceOptions((tmp_path / "none.jpg",), tmp_path / "out"))
    assert not (tmp_path / "out").exists()


def test_frame_is_written_for_both_papers(tmp_path):
    """--frame writes a PDF and its pages as SVG for A4 and US Letter."""
    names = {path.name for path in write_frame(tmp_path / "strips").files}
    assert {"strips-a4.pdf", "strips-letter.pdf", "strips-a4-1.svg", "strips-letter-3.svg"} <= names
    assert (tmp_path / "strips" / "strips-a4.pdf").read_bytes().startswith(b"%PDF")
