"""A booklet in → what a print shop asks for: boxes, crop marks, inks, and the profile they are for.

Without a profile of the print shop's, a booklet is meant for one black ink: the cheapest way to
print, on any press, and signal words are told apart by their words and symbols.
"""

import re
import struct
from dataclasses import dataclass
from uuid import NAMESPACE_URL, uuid5

from guidegen.render.pdf.finish import Intent, Marks, PressSheet, prepare_press
from guidegen.render.pdf.xmp import Facts, press_packet

BLEED = 3.0
"""mm. Common practice, no source."""

MARGIN = 10.0
"""mm around the page. Our choice: bleed, marks and 2 mm to spare."""

MARK_LENGTH = 5.0
"""mm of a crop mark, which begins where the bleed ends. Common practice, no source."""

NEUTRAL = 0.08
"""How far red, green and blue of a grey may differ, of 1. Our choice: ink, rules and most faces of
foam are printed in black alone, so that fine lines cannot blur when plates are a hair off."""

GRAY_NAME = "One black ink"


@dataclass(frozen=True, slots=True)
class Press:
    """The press of a print shop."""

    profile: bytes
    """ICC output profile."""
    inks: int
    """1 or 4."""
    name: str


_COLOUR = re.compile(rb"^([\d.]+) ([\d.]+) ([\d.]+) (rg|RG)$", re.MULTILINE)


def press_pdf(data: bytes, facts: Facts, *, lights: bytes, press: Press | None = None) -> bytes:
    """The booklet as PDF/X-4 with bleed and crop marks, for one black ink or for `press`.

    `lights` is the sRGB profile of photos, and of colours where the press has four inks.
    """
    intent = Intent(gray_profile(), 1, GRAY_NAME)
    if press is not None:
        intent = Intent(press.profile, press.inks, press.name)
    identity = str(uuid5(NAMESPACE_URL, "\n".join((facts.title, facts.date, facts.author))))
    return prepare_press(
        data,
        packet=press_packet(facts, identity),
        info={**facts.info, "/Trapped": "/False", "/GTS_PDFXVersion": "PDF/X-4"},
        intent=intent,
        lights=lights,
        sheet=PressSheet(BLEED, MARGIN, crop_marks),
        repaint=paint_black if intent.components == 1 else paint_neutrals_black,
    )


def crop_marks(width: float, height: float) -> Marks:
    """Two lines at each corner of a page, outside of the bleed; mm from its lower left corner."""
    near, far = BLEED, BLEED + MARK_LENGTH
    upright = tuple(
        (x, y, x, to_y)
        for x in (0.0, width)
        for y, to_y in ((-near, -far), (height + near, height + far))
    )
    level = tuple(
        (x, y, to_x, y)
        for y in (0.0, height)
        for x, to_x in ((-near, -far), (width + near, width + far))
    )
    return upright + level


def paint_black(content: bytes) -> bytes:
    """Content of a page with its colours as greys of the same luminance.

    Colour operators stand alone on their lines in what WeasyPrint writes.
    """

    def gray(found: re.Match[bytes]) -> bytes:
        red, green, blue = (float(found[n]) for n in (1, 2, 3))
        operator = b"g" if found[4] == b"rg" else b"G"
        return f"{gray_of(red, green, blue):.4f} ".encode() + operator

    return _COLOUR.sub(gray, content)


def paint_neutrals_black(content: bytes) -> bytes:
    """The same for greys and nearly grey colours alone; others are left as they are.

    DeviceGray is printed in black ink alone where a press has four (ISO 32000-1:2008, 10.3.3).
    """

    def gray(found: re.Match[bytes]) -> bytes:
        values = [float(found[n]) for n in (1, 2, 3)]
        if max(values) - min(values) > NEUTRAL:
            return found[0]
        return paint_black(found[0])

    return _COLOUR.sub(gray, content)


def gray_of(red: float, green: float, blue: float) -> float:
    """The grey that is as light as a colour of sRGB, all of 0 to 1.

    Luminance after IEC 61966-2-1, as WCAG 2.2 quotes it.
    """
    light = 0.2126 * _to_light(red) + 0.7152 * _to_light(green) + 0.0722 * _to_light(blue)
    return _from_light(light)


def _to_light(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _from_light(light: float) -> float:
    return light * 12.92 if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055


def gray_profile() -> bytes:
    """An ICC profile of an output device with one black ink, whose greys are those of sRGB.

    ICC.1:2010 (profile version 4.3), 8.5.3: a monochrome output profile has a description, a
    copyright, the white of the medium and one curve. No dates but that of the standard.
    """
    curve = [round(_to_light(n / 255) * 65535) for n in range(256)]
    tags = {
        b"desc": _words(GRAY_NAME),
        b"cprt": _words("No copyright, use freely"),
        b"wtpt": b"XYZ \0\0\0\0" + _fixed(*WHITE),
        b"kTRC": struct.pack(">4s4xI256H", b"curv", 256, *curve),
    }
    table, body = struct.pack(">I", len(tags)), b""
    start = 128 + 4 + 12 * len(tags)
    for name, value in tags.items():
        table += struct.pack(">4sII", name, start + len(body), len(value))
        body += value + b"\0" * (-len(value) % 4)
    size = start + len(body)
    header = struct.pack(
        ">I4sI4s4s4s6H4s4sI4s4sQI",
        size, b"\0\0\0\0", 0x04300000, b"prtr", b"GRAY", b"XYZ ", 2010, 12, 1, 0, 0, 0,
        b"acsp", b"\0\0\0\0", 0, b"\0\0\0\0", b"\0\0\0\0", 0, 0,
    ) + _fixed(*WHITE)  # fmt: skip
    return header.ljust(128, b"\0") + table + body


WHITE = (0.9642, 1.0, 0.8249)
"""XYZ of the illuminant D50 (ICC.1:2010, 7.2.16)."""


def _fixed(*values: float) -> bytes:
    """s15Fixed16Number (ICC.1:2010, 4.6)."""
    return struct.pack(f">{len(values)}i", *(round(value * 65536) for value in values))


def _words(text: str) -> bytes:
    """multiLocalizedUnicodeType with one text in English (ICC.1:2010, 10.13)."""
    data = text.encode("utf-16-be")
    return struct.pack(">4s4xII2s2sII", b"mluc", 1, 12, b"en", b"US", len(data), 28) + data
