"""Sizes of pictures, read from their headers, agree with another reader of pictures."""

import io

import pytest
from PIL import Image

from guidegen.checks.pictures import pixel_size


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
