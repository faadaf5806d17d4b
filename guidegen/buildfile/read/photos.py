"""A photo as its author saved it in → smaller copies without hidden data out.

The only module that imports Pillow. A photo is opened in the one format that its name says, after
its header has shown that it is small enough to be unpacked. Place, time and camera stay behind.
"""

import io
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache

from PIL import Image, ImageCms, ImageFile, ImageOps, features

FORMATS = {"png": "PNG", "jpg": "JPEG", "jpeg": "JPEG", "webp": "WEBP"}
"""Pillow's name of the format of each ending."""

TURNED = frozenset({5, 6, 7, 8})
"""Orientations of Exif (JEITA CP-3451, tag 0x0112) that swap width and height."""

QUALITY = 82
"""Of JPEG, of 100. Our choice: no blocks can be seen at arm's length."""

QUALITIES = {"avif": (60, 50, 40, 30, 20), "webp": (82, 70, 55, 40, 25)}
"""From the best to the least, of 100: the first whose copy is light enough is taken. Our choice."""

HAS_AVIF = features.check("avif")
"""Whether this Pillow writes AVIF: most wheels do (from 11.3 on), builds of systems may not."""

_REFUSED = (OSError, SyntaxError, ValueError, TypeError, OverflowError, EOFError, MemoryError)
"""What Pillow raises for files that are broken or lie about themselves."""


def photo_fault(data: bytes, ending: str) -> str:
    """Why a photo cannot be unpacked; empty where it can."""
    try:
        with _unforgiving(), _opened(data, ending) as image:
            image.load()
    except _REFUSED as error:
        return " ".join(str(error).split())[:120] or type(error).__name__
    return ""


@contextmanager
def _unforgiving() -> Iterator[None]:
    """A file that ends too soon is refused: other libraries turn that off for all."""
    lenient = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient


def photo_size(data: bytes, ending: str) -> tuple[int, int]:
    """Width and height in pixels as it is seen, turned upright. Raises ValueError."""
    try:
        with _opened(data, ending) as image:
            turned = image.getexif().get(0x0112) in TURNED
            return (image.height, image.width) if turned else (image.width, image.height)
    except _REFUSED as error:
        raise ValueError(f"cannot read the photo: {error}") from None


def photo_pixels(data: bytes, ending: str) -> tuple[int, int, bytes]:
    """Width, height and red, green, blue of each pixel by rows, upright, in sRGB.

    To be asked once the header has shown that they are few enough. Raises ValueError.
    """
    try:
        with _unforgiving(), _opened(data, ending) as image:
            picture = _upright(image, max(image.size)).convert("RGB")
            return picture.width, picture.height, picture.tobytes()
    except _REFUSED as error:
        raise ValueError(" ".join(str(error).split())[:120] or type(error).__name__) from None


@lru_cache(maxsize=256)
def photo_copy(data: bytes, ending: str, width: int, kind: str, most: int = 0) -> bytes:
    """The photo upright, at most `width` pixels wide, in sRGB: 'avif', 'webp', 'jpeg' or 'png'.

    AVIF and WebP get coarser until they have `most` bytes, or their least quality; 0 sets no bound.
    Nothing but pixels is kept; the same photo gives the same bytes. Raises ValueError.
    """
    try:
        with _opened(data, ending) as image:
            picture = _upright(image, width)
            alpha = "A" in picture.getbands() and kind != "jpeg"
            bare = Image.new("RGBA" if alpha else "RGB", picture.size, "white")
            bare.paste(picture, mask=None if alpha else _mask(picture))
    except _REFUSED as error:
        raise ValueError(f"cannot read the photo: {error}") from None
    copy = b""
    for quality in QUALITIES.get(kind, (QUALITY,)):
        copy = _packed(bare, kind, quality)
        if not most or len(copy) <= most:
            break
    return copy


def _packed(bare: Image.Image, kind: str, quality: int) -> bytes:
    stream = io.BytesIO()
    match kind:
        case "avif":
            # One thread: several cut the picture up by their number, and give other bytes.
            bare.save(stream, "AVIF", quality=quality, speed=8, codec="aom", max_threads=1)
        case "webp":
            bare.save(stream, "WEBP", quality=quality, method=4)
        case "jpeg":
            bare.save(stream, "JPEG", quality=quality, progressive=True, optimize=True)
        case _:
            bare.save(stream, "PNG", optimize=True)
    return stream.getvalue()


def has_alpha(data: bytes, ending: str) -> bool:
    """Whether some of the picture may be seen through."""
    try:
        with _opened(data, ending) as image:
            return image.has_transparency_data
    except _REFUSED:
        return False


def _opened(data: bytes, ending: str) -> Image.Image:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of metadata that is thrown away all the same
        return Image.open(io.BytesIO(data), formats=[FORMATS[ending.lower()]])


def _upright(image: Image.Image, width: int) -> Image.Image:
    """RGB or RGBA, turned as the camera was held, and no wider than asked."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        orientation = image.getexif().get(0x0112)
        wide, high = image.size if orientation not in TURNED else (image.height, image.width)
        size = (min(width, wide), max(1, round(high * min(width, wide) / wide)))
        across = size if orientation not in TURNED else (size[1], size[0])
        image.draft("RGB", across)
        profile = image.info.get("icc_profile")
        image.load()
        picture: Image.Image = image
        if picture.mode not in {"RGB", "RGBA"}:
            picture = picture.convert("RGBA" if image.has_transparency_data else "RGB")
        if across != picture.size:
            picture = picture.resize(across, Image.Resampling.LANCZOS, reducing_gap=3.0)
        picture = _in_srgb(picture, profile if image.mode == picture.mode else None)
        picture.getexif()[0x0112] = orientation or 1
        return ImageOps.exif_transpose(picture)


def _in_srgb(picture: Image.Image, profile: object) -> Image.Image:
    """Colours of another RGB space, as telephones use it, in sRGB (IEC 61966-2-1)."""
    if not isinstance(profile, bytes) or picture.mode != "RGB":
        return picture
    try:
        return (
            ImageCms.profileToProfile(
                picture, io.BytesIO(profile), ImageCms.createProfile("sRGB"), outputMode="RGB"
            )
            or picture
        )
    except (ImageCms.PyCMSError, *_REFUSED):
        return picture  # a broken profile says nothing about colours


def _mask(picture: Image.Image) -> Image.Image | None:
    return picture.getchannel("A") if "A" in picture.getbands() else None
