"""Font packages in → font files by name, and the style rules that use them.

Everything that is printed is set in these two families, embedded; no system font is needed.
"""

from functools import cache
from importlib.resources import files

FAMILIES: dict[str, tuple[str, str]] = {
    "Barlow Condensed": ("fontpkg_barlow_condensed", "BarlowCondensed"),
    "Atkinson Hyperlegible": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible"),
}
"""For each family its package and the beginning of its file names. Both have the SIL Open Font
License."""

FACES: dict[str, tuple[tuple[str, int, str], ...]] = {
    "Barlow Condensed": (
        ("Regular", 400, "normal"),
        ("SemiBold", 600, "normal"),
        ("Bold", 700, "normal"),
    ),
    "Atkinson Hyperlegible": (
        ("Regular", 400, "normal"),
        ("Italic", 400, "italic"),
        ("Bold", 700, "normal"),
        ("BoldItalic", 700, "italic"),
    ),
}
"""For each family the faces in use: end of the file name, weight, style."""

FOLDER = "fonts/"
"""Folder of the names under which font files are served."""


@cache
def face_file(family: str, face: str) -> bytes:
    """TrueType file of one face, such as 'SemiBold'."""
    package, stem = FAMILIES[family]
    return (files(package) / "files" / f"{stem}-{face}.ttf").read_bytes()


@cache
def _files() -> tuple[tuple[str, bytes], ...]:
    found: list[tuple[str, bytes]] = []
    for family, (_, stem) in FAMILIES.items():
        found.extend(
            (f"{FOLDER}{stem}-{face}.ttf", face_file(family, face)) for face, _, _ in FACES[family]
        )
    return tuple(found)


def font_files() -> dict[str, bytes]:
    """TrueType files by name, 'fonts/….ttf'."""
    return dict(_files())


def font_css(families: tuple[str, ...] = tuple(FAMILIES)) -> str:
    """@font-face rules for the files of `font_files`, with relative addresses."""
    return "\n".join(
        f'@font-face {{ font-family: "{family}"; font-weight: {weight}; font-style: {style};'
        f' src: url("{FOLDER}{FAMILIES[family][1]}-{face}.ttf"); }}'
        for family in families
        for face, weight, style in FACES[family]
    )
