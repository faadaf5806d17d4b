"""Font files in → smaller ones with the letters that are needed out.

Letters that parts bear are read in buildfile/read/letters.py. The same files give the same bytes.
"""

import io
from collections.abc import Collection

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont


def letters_in(data: bytes) -> frozenset[int]:
    """Unicode numbers of the letters that a font has."""
    return frozenset(TTFont(io.BytesIO(data), lazy=True).getBestCmap())


def subset_woff2(data: bytes, letters: Collection[int]) -> bytes:
    """A TrueType font cut down to some letters, as WOFF2."""
    font = TTFont(io.BytesIO(data), recalcTimestamp=False)
    options = Options()
    options.flavor = "woff2"
    options.layout_features = ["kern", "liga", "tnum", "frac", "ccmp", "mark", "locl"]
    options.hinting = False
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]  # names, and the licence with its address
    _cut(font, options, letters)
    font.flavor = "woff2"
    return _saved(font)


def cut_letters(data: bytes, letters: Collection[int]) -> bytes:
    """A TrueType font cut down to some letters, without kerning, which would double its size."""
    font = TTFont(io.BytesIO(data), recalcTimestamp=False, lazy=True)
    for table in ("GDEF", "GPOS", "GSUB"):
        if table in font:
            del font[table]
    options = Options()
    options.hinting = False
    _cut(font, options, letters)
    return _saved(font)


def cut_face(data: bytes, *, weight: int, width: float) -> bytes:
    """One face of a variable TrueType font; weight and width as in CSS."""
    font = TTFont(io.BytesIO(data), recalcTimestamp=False)
    instantiateVariableFont(font, {"wght": weight, "wdth": width}, inplace=True)
    return _saved(font)


def _cut(font: TTFont, options: Options, letters: Collection[int]) -> None:
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=sorted(letters))
    subsetter.subset(font)


def _saved(font: TTFont) -> bytes:
    stream = io.BytesIO()
    font.save(stream, reorderTables=True)
    return stream.getvalue()
