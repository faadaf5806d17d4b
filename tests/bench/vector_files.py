"""PDF and DXF files in, what redraw makes of them."""

import io

import pytest
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from guidegen.bench.vectors.records import VectorError
from guidegen.bench.vectors.redraw import Redrawn, Wishes, redraw
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.geometry.drawing.records import DrawnPiece


def drawn(data: bytes, **wishes: object) -> Redrawn:
    """A file redrawn, without any error in the new drawing."""
    made = redraw(data, "a", "a.svg", Wishes(**wishes))
    assert [str(p) for p in made.problems if p.code != "drawing-unnamed"] == []
    return made


def piece(made: Redrawn, name: str = "piece-1") -> DrawnPiece:
    """One piece of a drawing, as a build file gets it."""
    drawing, _ = read_drawing(made.svg, "a.svg")
    assert drawing is not None
    found, _ = assemble(drawing, name)
    assert found is not None
    return found


def refusal(data: bytes, **wishes: object) -> str:
    """Why a file is refused."""
    with pytest.raises(VectorError) as caught:
        redraw(data, "a", "a.svg", Wishes(**wishes))
    return str(caught.value)


def pdf(*pages: object, size: tuple[float, float] = (210, 297)) -> bytes:
    """A PDF whose pages are drawn by functions, in mm."""
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(size[0] * mm, size[1] * mm), invariant=1)
    for draw in pages:
        canvas.scale(mm, mm)
        canvas.setLineWidth(0.3)
        draw(canvas)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def ring(canvas: Canvas, *points: tuple[float, float]) -> None:
    """A closed line through points."""
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    path.close()
    canvas.drawPath(path)
