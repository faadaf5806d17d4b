"""Kerned letters against HarfBuzz, the shaping library of browsers and desktops (in Pillow's wheels)."""

import io
from importlib.resources import files
from itertools import pairwise

import pytest
from fontTools.ttLib import TTFont
from PIL import ImageFont, features

from guidegen.buildfile.read.kerning import kerning, pair_tables
from guidegen.buildfile.read.letters import FACES, outline_text

WORDS = ("AVATAR", "TIDE", "To Ty LT", "QUAY 7", "Wave", "r.y.", "1774")


def font_file(face: str) -> io.BytesIO:
    """The file of a face."""
    package, name = FACES[face]
    return io.BytesIO((files(package) / "files" / name).read_bytes())


@pytest.mark.skipif(not features.check("raqm"), reason="this build of Pillow has no HarfBuzz")
@pytest.mark.parametrize("face", FACES)
def test_words_are_as_long_as_a_shaping_library_sets_them(face: str) -> None:
    """The sum of a word's kerning is what HarfBuzz takes off its letters one by one, in units."""
    font = ImageFont.truetype(font_file(face), 1000, layout_engine=ImageFont.Layout.RAQM)
    tables = pair_tables(TTFont(font_file(face)))
    for word in WORDS:
        plain = ["-liga", "-calt"]
        set_so = font.getlength(word, features=plain)
        loose = font.getlength(word, features=[*plain, "-kern"])
        own = sum(kerning(tables, glyph(one), glyph(two)) for one, two in pairwise(word))
        assert own == pytest.approx(set_so - loose, abs=0.5), word


def glyph(letter: str) -> str:
    """The name of a letter's glyph in both families (Adobe glyph list)."""
    names = {" ": "space", ".": "period", "1": "one", "7": "seven", "4": "four"}
    return names.get(letter, letter)


@pytest.mark.parametrize("face", FACES)
def test_kerned_letters_stand_nearer(face: str) -> None:
    """In AV both letters keep their outlines, and V begins by A's advance and the pair's kerning to
    the right of where it begins alone (advances and capitals as the font's tables have them)."""
    font = TTFont(font_file(face))
    pair, missing = outline_text(face, "AV")
    first, second = (outline_text(face, one)[0] for one in "AV")
    assert missing == frozenset()
    assert pair.startswith(first)
    moved = pair.removeprefix(first).split()
    shift = float(moved[1]) - float(second.split()[1])
    kerned = kerning(pair_tables(font), "A", "V")
    assert kerned < 0
    assert shift == pytest.approx(
        (font["hmtx"]["A"][0] + kerned) / font["OS/2"].sCapHeight, abs=2e-5
    )
