"""Pages of PDFs in → sheets of paper on which they lie, at true scale."""

from collections.abc import Sequence
from dataclasses import dataclass

import pikepdf

from guidegen.render.pdf.finish.base import open_pdf, save_pdf
from guidegen.units import POINTS_PER_MM

MARK_WIDTH = 0.25
"""PDF units; width of marks for folding and cutting. Common practice, no source: a hairline."""

type Marks = tuple[tuple[float, float, float, float], ...]
"""Thin lines, each from (x, y) to (x, y), in mm."""


@dataclass(frozen=True, slots=True)
class PlacedPage:
    """A page of another PDF where it lies on a sheet, not scaled; mm from the lower left corner."""

    source: int
    """Which PDF, from 0."""
    page: int
    """Which of its pages, from 0."""
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class SheetSide:
    """One side of a sheet of paper, in mm."""

    width: float
    height: float
    placed: tuple[PlacedPage, ...] = ()
    marks: Marks = ()


def place_pages(
    sources: Sequence[bytes], sides: Sequence[SheetSide], *, title: str, language: str
) -> bytes:
    """A PDF of sheets on which pages of `sources` lie, to print on both sides at true scale.

    Viewers are asked to turn the paper over its short edge (ISO 32000-1:2008, table 150, /Duplex).
    Raises OutputError for a source that cannot be read.
    """
    made = pikepdf.new()
    forms: dict[tuple[int, int], pikepdf.Object] = {}
    for number, data in enumerate(sources):
        with open_pdf(data) as pdf:
            for index, page in enumerate(pdf.pages):
                forms[number, index] = made.copy_foreign(page.as_form_xobject())
    for side in sides:
        box = [0, 0, side.width * POINTS_PER_MM, side.height * POINTS_PER_MM]
        page = made.add_blank_page(page_size=(box[2], box[3]))
        page.obj.Resources = pikepdf.Dictionary(
            XObject=pikepdf.Dictionary(
                {f"/P{n}": forms[p.source, p.page] for n, p in enumerate(side.placed)}
            )
        )
        page.obj.Contents = made.make_stream(_side_content(side))
    made.Root.Lang = pikepdf.String(language)
    made.docinfo["/Title"] = title
    made.Root.ViewerPreferences = pikepdf.Dictionary(
        PrintScaling=pikepdf.Name("/None"),
        Duplex=pikepdf.Name.DuplexFlipShortEdge,
        PickTrayByPDFSize=True,
        DisplayDocTitle=True,
    )
    return save_pdf(made)


def _side_content(side: SheetSide) -> bytes:
    lines = [
        f"q 1 0 0 1 {_points(p.x)} {_points(p.y)} cm /P{n} Do Q" for n, p in enumerate(side.placed)
    ]
    return "\n".join([*lines, mark_content(side.marks)]).encode()


def mark_content(marks: Marks) -> str:
    """Operators that draw thin black lines."""
    lines = [f"q {MARK_WIDTH} w 0 G"] if marks else []
    for x, y, to_x, to_y in marks:
        lines.append(f"{_points(x)} {_points(y)} m {_points(to_x)} {_points(to_y)} l S")
    return "\n".join([*lines, "Q"] if marks else [])


def _points(mm: float) -> str:
    """PDF units, to a thousandth."""
    return f"{mm * POINTS_PER_MM + 0.0:.3f}"
