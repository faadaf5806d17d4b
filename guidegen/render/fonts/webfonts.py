"""Font packages in → small WOFF2 files for the site out.

Letters are kept for Latin languages, with the signs that guides use; the same packages give the
same bytes.
"""

from collections.abc import Mapping
from functools import cache, partial

from guidegen.render.fonts.font_subsets import subset_woff2
from guidegen.render.fonts.fonts import FOLDER, font_files
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.links import THEME_FOLDER

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

LETTERS = tuple(code for first, last in _RANGES for code in range(first, last + 1))


def web_fonts(cache: DocumentCache | None = None) -> dict[str, bytes]:
    """All faces of the site by path from out/: found, or cut."""
    cache = cache or DocumentCache()
    sources = font_files()
    letters = repr(LETTERS)
    return {
        (path := f"{THEME_FOLDER}/{name}"): cache.make(
            path, (sources[FOLDER + file], letters), partial(_cut_face, file)
        )
        for name, file in FACES.items()
    }


@cache
def _cut_face(file: str) -> bytes:
    return subset_woff2(font_files()[FOLDER + file], LETTERS)
