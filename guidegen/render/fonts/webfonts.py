"""Faces that come with guidegen → small WOFF2 files for the site out.

Letters are kept for Latin languages, with the signs that guides use.
"""

from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from guidegen.render.text.links import THEME_FOLDER

FACES: Mapping[str, str] = {
    "label-400.woff2": "BarlowCondensed-Regular.ttf",
    "label-600.woff2": "BarlowCondensed-SemiBold.ttf",
    "text-400.woff2": "AtkinsonHyperlegible-Regular.ttf",
    "text-700.woff2": "AtkinsonHyperlegible-Bold.ttf",
    "text-italic.woff2": "AtkinsonHyperlegible-Italic.ttf",
}
"""Font file of every face that the site uses, by the name of the face."""

FIRST_FACES = {
    "label-faces.css": ("Barlow Condensed", {"label-400.woff2": 400, "label-600.woff2": 600}),
    "text-faces.css": ("Atkinson Hyperlegible", {"text-400.woff2": 400, "text-700.woff2": 700}),
}
"""Family and weights of the faces that every page is set in, by style sheet. They stand in it as
data: a page waits for its style sheets, so no word is set twice, and a browser that reads a page
from a disc, where it may load no fonts, has them too."""

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


CUT = Path(__file__).parent / "cut"
"""The faces, cut to these letters. They follow from the font packages and come with guidegen: to
cut them takes seconds, and every first press would wait for it."""


def web_fonts() -> dict[str, bytes]:
    """All faces of the site by path from out/."""
    made = {name: _face_rules(*faces) for name, faces in FIRST_FACES.items()}
    first = {face for _, weights in FIRST_FACES.values() for face in weights}
    made |= {face: cut_face(face) for face in FACES if face not in first}
    return {f"{THEME_FOLDER}/{name}": data for name, data in made.items()}


def _face_rules(family: str, weights: Mapping[str, int]) -> bytes:
    """A style sheet with these faces in it."""
    rules = (
        f'@font-face{{font-family:"{family}";font-weight:{weight};font-display:block;'
        f"src:url(data:font/woff2;base64,{b64encode(cut_face(face)).decode()})"
        'format("woff2")}\n'
        for face, weight in weights.items()
    )
    return "".join(rules).encode()


@cache
def cut_face(face: str) -> bytes:
    """A face of the site as WOFF2, by its name."""
    return (CUT / face).read_bytes()
