"""Sizes of pictures, read from their headers, agree with another reader of pictures."""

import io
from dataclasses import replace

import pytest
from PIL import Image
from samples import SITE, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.names.pictures import check_folder, check_pictures, pixel_size


def _picture(kind, size):
    """A picture of one colour, as a reference library writes it."""
    stream = io.BytesIO()
    Image.new("RGB", size).save(stream, kind)
    return stream.getvalue()


def _header(width, height):
    """A PNG that says it is so wide and high; what follows is cut off."""
    small = _picture("PNG", (1, 1))
    # ISO/IEC 15948, 11.2.2: width and height are the first eight bytes of the header's data.
    return small[:16] + width.to_bytes(4) + height.to_bytes(4) + small[24:33]


@pytest.mark.parametrize("size", [(1, 1), (640, 3), (17, 1000)])
@pytest.mark.parametrize(
    ("kind", "ending", "mode", "options"),
    [
        ("PNG", "png", "RGB", {}),
        ("PNG", "png", "P", {}),
        ("JPEG", "jpg", "RGB", {}),
        ("JPEG", "jpeg", "L", {"progressive": True, "comment": b"words"}),
        ("WEBP", "webp", "RGB", {}),
        ("WEBP", "webp", "RGB", {"lossless": True}),
        ("WEBP", "webp", "RGBA", {"exif": b"Exif\x00\x00"}),
    ],
)
def test_pixels_are_those_that_were_written(kind, ending, mode, options, size):
    """Pictures that Pillow, a reference library, writes have the width and height it was given."""
    stream = io.BytesIO()
    Image.new(mode, size).save(stream, kind, **options)
    assert pixel_size(stream.getvalue(), ending) == size


@pytest.mark.parametrize(
    ("name", "said"),
    [("de", "language de"), ("plans", "things of its own"), ("translated", "things of its own"),
     ("con", "Windows"), ("en", ""), ("lamp", "")],
)  # fmt: skip
def test_folders_that_are_taken(tmp_path, name, said):
    """A guide cannot lie where a language's pages or kept plans do; they would be lost unseen."""
    content = write_content(tmp_path, site=SITE + "languages: [en, de]\n")
    (content / "cuff").rename(content / name)
    read = read_content(content)
    found = [problem.message for problem in check_folder(read, read.guides[0])]
    assert len(found) == bool(said)
    assert all(said in message for message in found)


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("cuff.png", _picture("PNG", (9, 9)), ""),
        (
            "cuff.png",
            _picture("WEBP", (9, 9)),
            "expected a picture in the format png, found something else",
        ),
        ("cuff.PNG", b"words", "expected a picture in the format png, found something else"),
        ("cuff.svg", b"<svg/>", ""),
        ("cuff.png", _header(9_000, 9_000), "9000 × 9000 pixels; expected at most 64 million"),
    ],
    ids=["right", "other format", "no picture", "drawing", "too many pixels"],
)
def test_a_picture_is_what_its_name_says_and_small_enough(tmp_path, name, data, said):
    """Headers alone are read; drawings are looked at elsewhere."""
    read = read_content(write_content(tmp_path))
    file = replace(read.guides[0], pictures={name: data})
    found = [
        (problem.code, problem.place.file, problem.message)
        for problem in check_pictures(read, file)
    ]
    assert [message.startswith(said) for _, _, message in found] == [True] * bool(said)
    assert all(place.endswith(f"cuff/{name}") for _, place, _ in found)
