"""A photo as a telephone saves it: detailed, heavy, and full of what its owner would not tell."""

import io

import numpy as np
from PIL import Image

MAKER = "Optical works of nowhere"
PLACE = 0x8825
"""Tag of the place in Exif (JEITA CP-3451)."""


def camera_photo(seed: int, size: tuple[int, int] = (1600, 1200)) -> bytes:
    """JPEG with soft shapes, texture and grain, and with maker and place in its Exif."""
    chance = np.random.default_rng(seed)

    def noise(wide: int, high: int) -> Image.Image:
        points = chance.integers(0, 255, (high, wide, 3), dtype=np.uint8)
        return Image.fromarray(points).resize(size, Image.Resampling.BICUBIC)

    picture = Image.blend(noise(12, 9), noise(200, 150), 0.2)
    grain = chance.normal(0, 6, (size[1], size[0], 1))
    points = (np.asarray(picture, dtype=float) + grain).clip(0, 255).astype(np.uint8)
    exif = Image.Exif()
    exif[0x010F] = MAKER
    exif.get_ifd(PLACE)[2] = (48.0, 8.0, 0.0)
    stream = io.BytesIO()
    Image.fromarray(points).save(stream, "JPEG", quality=88, exif=exif, comment=MAKER.encode())
    return stream.getvalue()
