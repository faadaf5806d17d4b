"""The handbook's chapter on drawings says what the code does, and its sample works."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from geometry.drawing_samples import drawn_guide
from geometry.kit_samples import guide_file

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.geometry.drawing.budget import MOST_ELEMENTS, MOST_POINTS
from guidegen.geometry.drawing.corners import MAX_CORNERS, REACH
from guidegen.geometry.drawing.joins import GAP, MAX_STROKES
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import MAX_RING_CHORDS
from guidegen.geometry.drawing.records import ROLE_WORDS, Role
from guidegen.geometry.drawing.svg_document import MAX_ELEMENTS, MAX_TEXT
from guidegen.geometry.drawing.svg_reader import MAX_CHORDS, MAX_SEGMENTS
from guidegen.geometry.grading.spread_bridge import ROUNDING
from guidegen.geometry.grading.spread_close import BAND
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import LineKind, Shape
from guidegen.geometry.outline.unfold import unfold
from guidegen.geometry.parts.drawn import drawn_shape

PACKAGE = Path(__file__).parents[3] / "guidegen"
CHAPTER = (PACKAGE / "handbook" / "draw" / "drawings.md").read_text(encoding="utf-8")
SAMPLE = (PACKAGE / "handbook" / "draw" / "sample-drawing.svg").read_text(encoding="utf-8")

SIZES = """\
measurements:
  chest: {name: Chest girth, take: Around the fullest part.}
  back_length: {name: Back length, take: From neck to waist.}
sizes:
  S: {chest: 900, back_length: 400}
  M: {chest: 980, back_length: 420}
  L: {chest: 1080, back_length: 445}
drawn-for: M
"""


def example() -> str:
    """The part of a build file that the chapter shows."""
    match = re.search(r"```yaml\n(parts:\n.*?)```", CHAPTER, re.DOTALL)
    assert match is not None
    return match[1]


def sample_shape(size: str) -> Shape:
    """The sample drawing in one size, by the chapter's own build file."""
    file = replace(guide_file(SIZES + example()), drawings={"sample-drawing.svg": SAMPLE})
    numbers, problems = size_numbers(file, size)
    shape, found = drawn_shape(file, "back", file.guide.parts["back"], numbers)
    assert problems + found == []
    assert shape is not None
    return shape


@pytest.mark.parametrize(("size", "wider", "longer"), [("S", -20, -20), ("M", 0, 0), ("L", 25, 25)])
def test_the_sample_is_made_in_every_size(size, wider, longer):
    """The chapter's example grades its drawing, and the half unfolds on its fold."""
    shape, drawn = sample_shape(size), sample_shape("M")
    assert [edge.name for edge in shape.edges] == [
        "fold", "hem", "side-seam", "armhole", "shoulder", "neckline",
    ]  # fmt: skip
    fold, was = run_length(shape.edge("fold").run), run_length(drawn.edge("fold").run)
    assert fold == pytest.approx(was + longer)
    hem, before = run_length(shape.edge("hem").run), run_length(drawn.edge("hem").run)
    assert hem == pytest.approx(before + wider, abs=0.3)
    assert len(unfold(shape, "fold").holes) == 4


def test_the_sample_shows_every_role():
    """Each word of the chapter's table is used in the sample drawing, save the centre line."""
    drawing, problems = read_drawing(SAMPLE, "sample-drawing.svg")
    assert problems == ()
    assert drawing is not None
    assert {path.role for path in drawing.paths} == set(Role) - {Role.CENTRE, Role.NONE}
    kinds = {line.kind for line in sample_shape("M").lines}
    assert {LineKind.FOLD, LineKind.TEXTURE, LineKind.ENGRAVE, LineKind.PLACEMENT} <= kinds


def test_the_chapter_explains_every_word():
    """The table of the chapter has every word that makes a role, and no other."""
    table = CHAPTER.split("## What a path is")[1].split("##")[0]
    words = {
        word
        for row in re.findall(r"^\| (`.+?) \|", table, re.MULTILINE)
        for word in re.findall(r"`(\w+)`", row)
    }
    assert words == set(ROLE_WORDS)


def test_the_chapter_explains_every_code():
    """Each code that drawings and their grading can bring is in the chapter's last table."""
    listed = set(re.findall(r"`([a-z-]+)`", CHAPTER.split("## What is refused")[1]))
    sources = [
        path
        for name in ("drawing", "grading")
        for path in sorted((PACKAGE / "geometry" / name).glob("*.py"))
    ]
    used = set()
    for path in sources:
        text = path.read_text(encoding="utf-8")
        used |= set(re.findall(r'"(drawing-[a-z-]+)"', text)) - {"drawing-per-size"}
        used |= set(re.findall(r'job\.note\(\s*"([a-z-]+)"', text))
    assert len(used) > 25
    assert used - listed == set()


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (GAP, "Ends up to {:g} mm apart"),
        (REACH, "at most {:g} mm beside it"),
        (ROUNDING, "up to {:g} mm to either side"),
        (MAX_TEXT / 1e6, "At most {:g} MB"),
        (MAX_STROKES, "{:g} lines"),
        (MAX_CORNERS, "{:g} corners"),
    ],
)
def test_the_chapter_states_the_limits(value, words):
    """Numbers in the chapter are those of the code."""
    assert words.format(value) in " ".join(CHAPTER.split())


def test_the_chapter_states_the_larger_limits():
    """Limits that the chapter writes with a comma, or in words, are those of the code."""
    assert (MAX_ELEMENTS, MAX_SEGMENTS) == (20_000, 10_000)
    assert (MAX_CHORDS, MAX_RING_CHORDS) == (20_000, 2_000)
    words = " ".join(CHAPTER.split())
    assert "20,000 elements, 10,000 segments that come to 20,000 points" in words
    assert "(2,000 for the outline and holes of one piece)" in words
    assert (MOST_ELEMENTS, MOST_POINTS) == (12_000, 40_000)
    assert "All drawings of a guide together: 12,000 elements and 40,000 points" in words
    assert BAND == 3
    assert "three times as wide" in CHAPTER


def test_a_guide_may_use_the_sample_as_it_is():
    """The sample drawing alone, without edges or grading, is a sound part."""
    file = drawn_guide(SAMPLE)
    shape, problems = drawn_shape(
        file, "plate", file.guide.parts["plate"], size_numbers(file, "M")[0]
    )
    assert problems == []
    assert shape is not None
    assert len(shape.edges) == 6
