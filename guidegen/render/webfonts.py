"""Font packages in → small WOFF2 files for the site out.

The only module that imports fontTools. Letters are kept for Latin languages, with the signs that
guides use; the same packages give the same bytes.
"""

import io
from collections.abc import Mapping
from functools import cache

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from guidegen.render.fonts import FOLDER, font_files

FACES: Mapping[str, str] = {
    "label-400.woff2": "BarlowCondensed-Regular.ttf",
    "label-600.woff2": "BarlowCondensed-SemiBold.ttf",
    "text-400.woff2": "AtkinsonHyperlegible-Regular.ttf",
    "text-700.woff2": "AtkinsonHyperlegible-Bold.ttf",
    "text-italic.woff2": "AtkinsonHyperlegible-Italic.ttf",
}
"""Font file of every face that the site uses, by the name that style sheets load."""

FIRST_FACES = ("label-400.woff2", "label-600.woff2", "text-400.woff2", "text-700.woff2")
"""What the top of every page is set in. Asked for early, so that no text is set twice."""

_RANGES = (
    (0x20, 0x7E),  # Basic Latin
    (0xA0, 0x17F),  # Latin-1 Supplement, Latin Extended-A
    (0x2009, 0x2044),  # spaces, dashes, quotation marks, fraction slash
    (0x20AC, 0x20AC),  # euro sign
    (0x2190, 0x2193),  # arrows
    (0x2212, 0x2265),  # minus, less or equal, greater or equal
)
"""Unicode ranges that are kept, where a font has them."""


@cache
def web_fonts() -> Mapping[str, bytes]:
    """All faces of the site by file name."""
    sources = font_files()
    return {name: subset_woff2(sources[FOLDER + file]) for name, file in FACES.items()}


def subset_woff2(data: bytes) -> bytes:
    """A TrueType font cut down to the kept ranges, as WOFF2."""
    font = TTFont(io.BytesIO(data), recalcTimestamp=False)
    options = Options()
    options.flavor = "woff2"
    options.layout_features = ["kern", "liga", "tnum", "frac", "ccmp", "mark", "locl"]
    options.hinting = False
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]  # names, and the licence with its address
    subsetter = Subsetter(options)
    subsetter.populate(
        unicodes=[code for first, last in _RANGES for code in range(first, last + 1)]
    )
    subsetter.subset(font)
    font.flavor = "woff2"
    stream = io.BytesIO()
    font.save(stream, reorderTables=True)
    return stream.getvalue()
