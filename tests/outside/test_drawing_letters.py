"""Advance widths of our lettering table against the font files that are embedded."""

from pathlib import Path
from string import ascii_letters, digits

import fontpkg_barlow_condensed
import pytest
from fontTools.ttLib import TTFont

from guidegen.pictures.pen.lettering import CAP_HEIGHT, text_width

FILES = Path(fontpkg_barlow_condensed.__file__).parent / "files"
SAMPLES = (
    "Lamp-cuff A1L × 12",
    "½ ¾ 45° ±0.5 mm",
    "Größe, naïve, Ångström",
    "0123456789",
    "“Why?”",
)


@pytest.mark.parametrize(("weight", "file"), [(400, "Regular"), (600, "SemiBold")])
def test_text_widths_are_those_of_the_font(weight, file):
    """Source: the hmtx and OS/2 tables of Barlow Condensed 1.408 (OFL)."""
    font = TTFont(FILES / f"BarlowCondensed-{file}.ttf")
    names, widths = font.getBestCmap(), font["hmtx"]
    units = font["head"].unitsPerEm
    for words in SAMPLES:
        true = sum(widths[names[ord(letter)]][0] for letter in words) / units * 10
        # An accent may narrow the letter beneath it a little: never is less room reckoned.
        accented = 0.01 * true if not words.isascii() else 0
        assert true - 0.001 <= text_width(words, 10, weight) <= true + 0.001 + accented, words
    for letter in ascii_letters + digits:
        known = widths[names[ord(letter)]][0] / units * 10
        assert text_width(letter, 10, weight) == pytest.approx(known), letter
    assert font["OS/2"].sCapHeight / units == pytest.approx(CAP_HEIGHT)
