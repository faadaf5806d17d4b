"""Pages of a booklet in → the sides of sheets on which they lie, to fold and staple in the fold.

Sheets are nested: the first is the outermost and holds the cover. Everything in mm.
"""

from dataclasses import dataclass

from guidegen.render.pdf.finish import Marks, PlacedPage, SheetSide
from guidegen.units import PAPERS, Paper

HALVES = {"a4": "a5", "letter": "half-letter"}
"""For each paper that is folded, the page that it gives twice (ISO 216; ANSI/ASME Y14.1)."""

PAPER_THICKNESS = 0.1
"""mm; one sheet of office paper of 80 g/m² (20 lb). Common practice, no source."""

FOLD_MARK = (7.0, 11.0)
"""mm from the edge of the sheet, where the mark for the fold begins and ends: outside of what a
printer leaves blank (units.PRINTER_MARGIN_SIDE), inside of the pages' margin."""

STAPLE_LENGTH = 12.0
"""mm; length of the mark for a staple. Common practice, no source: 24/6 staples are 12 mm wide."""


@dataclass(frozen=True, slots=True)
class FoldedSheet:
    """One sheet: the numbers of its pages, from 1, left and right; None is left blank."""

    outside: tuple[int | None, int | None]
    inside: tuple[int | None, int | None]


@dataclass(frozen=True, slots=True)
class Imposed:
    """Sides of all sheets, each sheet's outside and then its inside, and figures for the note."""

    sides: tuple[SheetSide, ...]
    pages: int
    creep: float
    """mm by which the innermost sheet stands out from the outermost."""

    @property
    def sheets(self) -> int:
        """How many sheets of paper."""
        return len(self.sides) // 2


def fill_pages(pages: int) -> int:
    """Pages of a stapled booklet: the next multiple of four, since a folded sheet has four."""
    return -(-pages // 4) * 4


def impose_leaves(pages: int) -> tuple[FoldedSheet, ...]:
    """Sheets from the outermost, for `pages` pages that follow one another.

    A folded sheet is two leaves that hold all sheets inside it between them. Read from the front,
    its first leaf comes before all of those (outside right, then inside left, where one turns it),
    its second leaf after them (inside right, then outside left). So the outermost sheet takes the
    first two pages and the last two, the next sheet two more from each end, and so on: sheet s
    from 0 of a booklet of n pages has n − 2s and 1 + 2s outside, 2 + 2s and n − 1 − 2s inside.
    """
    full = fill_pages(pages)

    def known(number: int) -> int | None:
        return number if number <= pages else None

    return tuple(
        FoldedSheet(
            (known(full - 2 * s), known(1 + 2 * s)), (known(2 + 2 * s), known(full - 1 - 2 * s))
        )
        for s in range(full // 4)
    )


def creep_shift(sheet: int) -> float:
    """mm by which the pages of a sheet, from 0 for the outermost, are moved to the fold.

    Each sheet wraps the ones inside it and pushes them out by its thickness, so that their outer
    margins would shrink when the edge is trimmed. Common practice, no source.
    """
    return sheet * PAPER_THICKNESS


def impose(pages: int, paper: str, page: Paper, source: int = 0) -> Imposed:
    """Sides of sheets of `paper`, lying, for a booklet of `pages` pages of half its size or less.

    Smaller pages lie at the fold, in the middle of the height. Raises KeyError for a paper that
    is not in PAPERS. `source` numbers the booklet's PDF.
    """
    sheet = PAPERS[paper]
    leaves = impose_leaves(pages)
    sides = []
    for number, leaf in enumerate(leaves):
        shift = creep_shift(number)
        marks = _fold_marks(sheet) + (_staple_marks(sheet) if number == 0 else ())
        for numbers, drawn in ((leaf.outside, marks), (leaf.inside, ())):
            placed = _place(sheet, page, numbers, shift)
            laid = tuple(PlacedPage(source, number - 1, x, y) for number, x, y in placed)
            sides.append(SheetSide(sheet.height, sheet.width, laid, drawn))
    return Imposed(tuple(sides), pages, creep_shift(max(0, len(leaves) - 1)))


def _place(
    sheet: Paper, page: Paper, numbers: tuple[int | None, int | None], shift: float
) -> list[tuple[int, float, float]]:
    """(Number, x, y) of the pages that meet at the fold, moved to it by `shift`."""
    fold, y = sheet.height / 2, (sheet.width - page.height) / 2
    places = (fold - page.width + shift, fold - shift)
    return [(n, x, y) for n, x in zip(numbers, places, strict=True) if n is not None]


def _fold_marks(sheet: Paper) -> Marks:
    """A short line at either end of the fold."""
    fold, top = sheet.height / 2, sheet.width
    start, end = FOLD_MARK
    return ((fold, start, fold, end), (fold, top - end, fold, top - start))


def _staple_marks(sheet: Paper) -> Marks:
    """Where two staples go: a quarter of the height from either end of the fold."""
    fold, half = sheet.height / 2, STAPLE_LENGTH / 2
    return tuple(
        (fold, middle - half, fold, middle + half)
        for middle in (sheet.width / 4, sheet.width * 3 / 4)
    )
