"""Letters of a document in → faces for those that its own families lack out: Greek, Cyrillic, more.

Noto Sans is a variable font of 2 MB: a document gets the alphabets that it uses, cut from it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from guidegen.render.fonts.fonts import FAMILIES, FOLDER, font_files

PACKAGE = "fontpkg_noto_sans"
UPRIGHT, SLANTED = "NotoSans[wdth,wght].ttf", "NotoSans-Italic[wdth,wght].ttf"

FALLBACKS = {"Barlow Condensed": "Noto Sans Condensed", "Atkinson Hyperlegible": "Noto Sans"}
"""Family that stands in for the letters which another one lacks."""

WIDTHS = {"Noto Sans Condensed": 70.0, "Noto Sans": 100.0}
"""Per cent of the usual width: as wide as the letters beside which they stand."""

FACES = {
    "Noto Sans Condensed": ((400, "normal"), (600, "normal")),
    "Noto Sans": ((400, "normal"), (400, "italic"), (700, "normal")),
}
"""Weight and style of each face that is cut: the nearest one is taken for others."""


@dataclass(frozen=True, slots=True)
class Fallback:
    """Font files by the names under which they are served, and the rules that name them."""

    files: dict[str, bytes]
    css: str


def with_fallbacks(css: str) -> str:
    """Rules that name our families, with the one beside each that stands in for it."""
    for family, other in FALLBACKS.items():
        css = css.replace(f'"{family}"', f'"{family}", "{other}"')
    return css


def fallback_fonts(texts: Iterable[str]) -> Fallback:
    """What the letters of `texts` need besides our own families; empty for Latin words."""
    pages = _pages({ord(letter) for text in texts for letter in set(text)})
    if not pages:
        return Fallback({}, "")
    served, rules = {}, []
    for family, faces in FACES.items():
        for weight, style in faces:
            name = f"{FOLDER}{family.replace(' ', '')}-{weight}-{style}.ttf"
            served[name] = _face(family, weight, style, pages)
            rules.append(
                f'@font-face {{ font-family: "{family}"; font-weight: {weight};'
                f' font-style: {style}; src: url("{name}"); }}'
            )
    return Fallback(served, "\n".join(rules))


def label_face(weight: int, letters: Iterable[str]) -> bytes:
    """A face beside Barlow Condensed with those of `letters` that it lacks; empty for none."""
    pages = _pages({ord(letter) for letter in letters})
    return _face("Noto Sans Condensed", weight, "normal", pages) if pages else b""


@cache
def own_letters(family: str) -> frozenset[int]:
    """Unicode numbers of the letters that one of our families has."""
    from guidegen.render.fonts.font_subsets import letters_in  # noqa: PLC0415 - large and rare

    return letters_in(font_files()[f"{FOLDER}{FAMILIES[family][1]}-Regular.ttf"])


@cache
def spare_letters() -> frozenset[int]:
    """Unicode numbers of the letters of Noto Sans."""
    from guidegen.render.fonts.font_subsets import letters_in  # noqa: PLC0415 - large and rare

    return letters_in(_source(UPRIGHT))


def _pages(letters: set[int]) -> frozenset[int]:
    """Which rows of 256 letters are needed: alphabets are cut whole, and so cut once."""
    own = frozenset.intersection(*(own_letters(family) for family in FAMILIES))
    pages = frozenset(code >> 8 for code in (letters - own) & spare_letters())
    # Words are set with the spaces and marks between them.
    return pages | {0x00, 0x20} if pages else pages


@cache
def _source(name: str) -> bytes:
    return (files(PACKAGE) / "files" / name).read_bytes()


@cache
def _face(family: str, weight: int, style: str, pages: frozenset[int]) -> bytes:
    from guidegen.render.fonts.font_subsets import cut_face  # noqa: PLC0415 - large and rare

    source = _cut_source(SLANTED if style == "italic" else UPRIGHT, pages)
    return cut_face(source, weight=weight, width=WIDTHS[family])


@cache
def _cut_source(name: str, pages: frozenset[int]) -> bytes:
    from guidegen.render.fonts.font_subsets import cut_letters  # noqa: PLC0415 - the same

    return cut_letters(_source(name), [code for code in spare_letters() if code >> 8 in pages])
