"""What others made and every site ships, and under which licence: one table for site and author.

The texts lie beside the files that they are about, so that whoever copies a folder of `out/` takes
the licence along.
"""

from dataclasses import dataclass
from importlib.resources import files

from guidegen.words import msg


@dataclass(frozen=True, slots=True)
class Shipped:
    """One work in a site that its author did not make."""

    name: str
    purpose: str
    """What it is there for, in the source language."""
    licence: str
    """SPDX expression (SPDX License List 3)."""
    holder: str
    """The copyright notice; it stands in the text as well."""
    source: str
    """Where it comes from; empty for guidegen itself."""
    files: tuple[str, ...]
    """Patterns of its files from `out/`, a language's own folder left out."""
    text: str
    """Path of the licence's text from the same place."""
    origin: tuple[str, str]
    """Python package and file in it from which the text is taken."""

    @property
    def data(self) -> bytes:
        """The licence's text, UTF-8."""
        package, name = self.origin
        return (files(package) / name).read_bytes()


THEME_FILES, SEARCH_FILES, MEASURED_FILES = "theme.files", "search.files", "measured.files"
"""Folders of a site, from `out/`."""

GUIDEGEN = Shipped(
    "guidegen",
    msg("pages, styles, scripts, signs, drawings of hands and tools"),
    "MIT",
    "Copyright (c) 2026 the authors of guidegen",
    "",
    (
        f"{THEME_FILES}/site.css",
        f"{THEME_FILES}/*.js",
        f"{THEME_FILES}/icon*",
        "worker.js",
        "*/sign.files/*.svg",
    ),
    f"{THEME_FILES}/guidegen-licence.txt",
    ("guidegen", "licences/guidegen.txt"),
)
LABELS = Shipped(
    "Barlow Condensed",
    msg("headings and labels, on pages and in documents"),
    "OFL-1.1",
    "Copyright 2017 The Barlow Project Authors",
    "https://github.com/jpt/barlow",
    (f"{THEME_FILES}/label-faces.css",),
    f"{THEME_FILES}/label-licence.txt",
    ("fontpkg_barlow_condensed", "LICENSE"),
)
TEXTS = Shipped(
    "Atkinson Hyperlegible",
    msg("running text, on pages and in documents"),
    "OFL-1.1",
    "Copyright 2020 Braille Institute of America, Inc.",
    "https://www.brailleinstitute.org/freefont/",
    (f"{THEME_FILES}/text-faces.css", f"{THEME_FILES}/text-italic.woff2"),
    f"{THEME_FILES}/text-licence.txt",
    ("fontpkg_atkinson_hyperlegible", "LICENSE"),
)
OTHER_LETTERS = Shipped(
    "Noto Sans",
    msg("letters that the other two lack, in documents alone"),
    "OFL-1.1",
    "Copyright 2022 The Noto Project Authors",
    "https://github.com/notofonts/latin-greek-cyrillic",
    (),
    f"{THEME_FILES}/other-letters-licence.txt",
    ("fontpkg_noto_sans", "LICENSE"),
)
SEARCHING = Shipped(
    "Pagefind",
    msg("searching the site, once somebody types"),
    "MIT AND BSD-3-Clause AND BlueOak-1.0.0 AND GPL-3.0-only",
    "Copyright 2022 Pagefind",
    "https://github.com/Pagefind/pagefind",
    (f"{SEARCH_FILES}/*.js", f"{SEARCH_FILES}/wasm.*"),
    f"{SEARCH_FILES}/search-licence.txt",
    ("guidegen", "licences/search.txt"),
)

MEASURED = Shipped(
    "Pyodide, Python, GEOS",
    msg("templates to measure, once somebody asks for them"),
    "MPL-2.0 AND PSF-2.0 AND LGPL-2.1-or-later AND LGPL-3.0-or-later",
    "Copyright (C) Pyodide contributors",
    "https://github.com/pyodide/pyodide, https://github.com/libgeos/geos, "
    "https://github.com/chrispahm/geos-wasm",
    (f"{MEASURED_FILES}/core-*",),
    f"{MEASURED_FILES}/programs-licence.txt",
    ("guidegen", "licences/measured.txt"),
)
"""Shipped by sites with made-to-measure alone."""
MEASURED_LIBRARIES = f"{MEASURED_FILES}/libraries-licence.txt"
"""Licences of the libraries that go with it, as they are installed; press gathers them."""
GEOS_LICENCE = f"{MEASURED_FILES}/geos-licence.txt"

SHIPPED = (GUIDEGEN, LABELS, TEXTS, OTHER_LETTERS, SEARCHING)
"""Everything, in the order in which it is told."""
