"""Lengths, paper sizes and tolerances, each with its source.

Everything inside guidegen is in millimetres and degrees. This module is a leaf:
every stage may import it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

MM_PER_INCH = 25.4
"""How many millimetres is one inch? Exact: international yard and pound agreement, 1959."""

POINTS_PER_MM = 72 / MM_PER_INCH
"""How many PDF units is one millimetre? ISO 32000-1:2008, 8.3.2.3: a unit is 1/72 in."""

SVG_UNITS_PER_MM = 96 / MM_PER_INCH
"""How many CSS pixels is one millimetre? CSS Values and Units: 1 in = 96 px."""

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH}
"""Unit names that an author may write, and their length in mm."""

FLATTEN_TOLERANCE = 0.02
"""mm; how far a flattened curve may leave the true one. Our choice: under half of the 0.05 mm
that is promised for printed outlines, so that flattening never uses up that promise."""

SEAM_TOLERANCE = 1.0
"""mm; how much two edges of a seam may differ in length. Common practice, no source: foam
stretches and squeezes by this much along a hand-length seam without showing it."""

TEST_SQUARE_MM = 50.0
"""mm; side of the square that a reader measures before cutting."""

TEST_SQUARE_IN = 2 * MM_PER_INCH
"""mm; side of the square for inch rulers: two inches."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, upright."""

    name: str
    """Name in file names and options, lower case."""
    title: str
    """Name for readers."""
    width: float
    """mm; the short side."""
    height: float
    """mm; the long side."""

    @property
    def area(self) -> float:
        """mm²."""
        return self.width * self.height


PAPERS: dict[str, Paper] = {
    paper.name: paper
    for paper in (
        # ISO 216:2007, trimmed sizes of the A series.
        Paper("a5", "A5", 148, 210),
        Paper("a4", "A4", 210, 297),
        Paper("a3", "A3", 297, 420),
        Paper("a1", "A1", 594, 841),
        Paper("a0", "A0", 841, 1189),
        # ANSI/ASME Y14.1 sizes A and B, and US Legal, in inches.
        Paper("half-letter", "Half Letter", 5.5 * MM_PER_INCH, 8.5 * MM_PER_INCH),
        Paper("letter", "US Letter", 8.5 * MM_PER_INCH, 11 * MM_PER_INCH),
        Paper("legal", "US Legal", 8.5 * MM_PER_INCH, 14 * MM_PER_INCH),
        Paper("tabloid", "Tabloid", 11 * MM_PER_INCH, 17 * MM_PER_INCH),
    )
}

LEAST_SHARE = 0.9
"""Of its area that a paper keeps on a page that it shares with others. Our choice: A4 keeps 94 % of
it beside US Letter, and a booklet of both grows by no page in twenty."""


def group_papers(names: Sequence[str]) -> list[tuple[str, ...]]:
    """Papers that can share one layout, in their order: A4 with US Letter, A3 with Tabloid.

    Raises KeyError for a paper that is not in PAPERS.
    """
    groups: list[tuple[str, ...]] = []
    for name in names:
        for index, group in enumerate(groups):
            page = common_page((*group, name))
            sheets = (PAPERS[one] for one in (*group, name))
            if all(page.area >= LEAST_SHARE * sheet.area for sheet in sheets):
                groups[index] = (*group, name)
                break
        else:
            groups.append((name,))
    return groups


def common_page(names: Sequence[str]) -> Paper:
    """The largest page that lies on each of some papers; the paper itself if there is one.

    Raises KeyError for a paper that is not in PAPERS, ValueError without any.
    """
    sheets = [PAPERS[name] for name in names]
    if len(sheets) == 1:
        return sheets[0]
    return Paper(
        "-".join(sheet.name for sheet in sheets),
        " / ".join(sheet.title for sheet in sheets),
        min(sheet.width for sheet in sheets),
        min(sheet.height for sheet in sheets),
    )


ROLLS: dict[str, float] = {
    "roll-24in": 24 * MM_PER_INCH,
    "roll-36in": 36 * MM_PER_INCH,
    "roll-914mm": 914.0,
}
"""Widths in mm of plotter rolls. Common practice, no source."""

PRINTER_MARGIN_SIDE = 6.35
"""mm; left and right. 18 pt, the unprintable margin that generic ink-jet and laser drivers state
(OpenPrinting cups, ppdc/sample.drv, HWMargins)."""

PRINTER_MARGIN_END = 12.7
"""mm; top and bottom. 36 pt, ink-jet drivers in the same file."""


def mm_text(value: float, digits: int = 0) -> str:
    """Millimetres as a person writes them: no needless zeros, no negative zero."""
    text = f"{value:.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def inch_text(value: float, denominator: int = 16) -> str:
    """Millimetres as inches with the nearest fraction of `denominator`: 82.55 -> '3 1/4'."""
    sixteenths = round(abs(value) / MM_PER_INCH * denominator)
    whole, rest = divmod(sixteenths, denominator)
    sign = "-" if value < 0 and sixteenths else ""
    if not rest:
        return f"{sign}{whole}"
    part = Fraction(rest, denominator)
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"
