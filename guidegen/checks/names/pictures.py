"""A folder's name and the size of its pictures are what every machine can take."""

import struct
from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.file_names import DEVICE_NAMES
from guidegen.buildfile.read.fingerprint import KEPT
from guidegen.buildfile.read.photos import photo_fault
from guidegen.problems import Place, Problem

MAX_PIXELS = 64_000_000
"""Pixels of one picture. Our choice: more than a large camera; unpacked 256 MB, and no more."""

_JPEG_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
"""Markers of a frame header, which holds height and width; ITU-T T.81 (1992), table B.1."""


def check_folder(content: Content, file: GuideFile) -> Iterator[Problem]:
    """The guide's folder can exist on Windows, and is no folder that guidegen uses itself."""
    taken = dict.fromkeys(KEPT, "guidegen keeps things of its own in a folder of this name")
    for language in content.site.languages[1:]:
        taken[language.casefold()] = f"the pages in the language {language} lie there"
    taken |= dict.fromkeys(DEVICE_NAMES, "it cannot be a folder on Windows")
    if file.id in taken:
        message = f'"{file.id}" is no name for a guide: {taken[file.id]}; expected another one'
        yield file.source.problem("folder-name", (), message)


def check_pictures(content: Content, file: GuideFile) -> Iterator[Problem]:
    """A picture has the format that its name says, and few enough pixels to be unpacked."""
    folder = file.source.file.rpartition("/")[0]
    for name, data in file.pictures.items():
        ending = name.rpartition(".")[2].lower()
        if ending == "svg":
            continue
        place = Place(f"{folder}/{name}")
        size = pixel_size(data, ending)
        if size is None:
            message = f"expected a picture in the format {ending}, found something else"
            yield Problem("file-kind", place, "", message)
        elif size[0] * size[1] > MAX_PIXELS:
            message = (
                f"{size[0]} × {size[1]} pixels; expected at most {MAX_PIXELS // 10**6} million"
            )
            yield Problem("too-large-file", place, "", message)
        elif fault := photo_fault(data, ending):
            message = f"the picture cannot be unpacked: {fault}"
            yield Problem("broken-picture", place, "", message)


def pixel_size(data: bytes, ending: str) -> tuple[int, int] | None:
    """Width and height from the header alone; None where it is not a picture of that format."""
    reader = {"png": _png, "jpg": _jpeg, "jpeg": _jpeg, "webp": _webp}.get(ending)
    try:
        size = reader(data) if reader is not None else None
    except (struct.error, IndexError):
        return None
    return size if size is not None and min(size) > 0 else None


def _png(data: bytes) -> tuple[int, int] | None:
    """W3C, Portable Network Graphics (third edition), 5.2 and 11.2.1."""
    if not data.startswith(b"\x89PNG\r\n\x1a\n") or data[12:16] != b"IHDR":
        return None
    width, height = struct.unpack_from(">II", data, 16)
    return width, height


def _jpeg(data: bytes) -> tuple[int, int] | None:
    """ITU-T T.81 (1992), annex B: segments up to the frame header."""
    position = 2
    while data.startswith(b"\xff\xd8") and data[position] == 0xFF:
        marker = data[position + 1]
        if marker == 0xFF:  # a fill byte
            position += 1
            continue
        if marker in _JPEG_FRAMES:
            height, width = struct.unpack_from(">HH", data, position + 5)
            return width, height
        position += 2 + max(2, struct.unpack_from(">H", data, position + 2)[0])
    return None


def _webp(data: bytes) -> tuple[int, int] | None:
    """RFC 9649, 2.5 to 2.7: the canvas, or the one frame."""
    if data[:4] != b"RIFF" or data[8:12] != b"WEBP":
        return None
    kind = data[12:16]
    if kind == b"VP8X":
        return (
            int.from_bytes(data[24:27], "little") + 1,
            int.from_bytes(data[27:30], "little") + 1,
        )
    if kind == b"VP8L":
        bits = struct.unpack_from("<I", data, 21)[0]
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if kind == b"VP8 ":
        width, height = struct.unpack_from("<HH", data, 26)
        return width & 0x3FFF, height & 0x3FFF
    return None
