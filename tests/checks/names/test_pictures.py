"""Sizes of pictures, read from their headers, agree with another reader of pictures."""

import io

import pytest
from PIL import Image
from samples import SITE, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.names.pictures import check_folder, pixel_size


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
