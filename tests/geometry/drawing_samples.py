"""Drawings of a few lines for tests: a piece, how it is graded, the shape that comes of it."""

from dataclasses import replace

from geometry.kit_samples import guide_file

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point, Run, Shape
from guidegen.geometry.parts.drawn import drawn_shape
from guidegen.problems import Problem

SIZES = """\
measurements:
  calf: {name: Calf girth, take: Around the widest part.}
  ankle: {name: Ankle girth, take: Around the bones.}
sizes:
  S: {calf: 330, ankle: 220}
  M: {calf: 360, ankle: 240}
  L: {calf: 395, ankle: 262}
drawn-for: M
"""

CORNERS = """\
<circle id="corner-a" cx="20" cy="20" r="2"/>
<circle id="corner-b" cx="20" cy="80" r="2"/>
<circle id="corner-c" cx="120" cy="80" r="2"/>
<circle id="corner-d" cx="120" cy="20" r="2"/>
"""
"""Corners of PLATE, counter-clockwise from the upper left, as an editor draws it."""

PLATE = '<path id="outline" d="M20,20 H120 V80 H20 Z"/>' + CORNERS
"""A plate of 100 by 60 mm; in the shape's own axes its lower left corner is at (20, 70)."""

PLATE_EDGES = """\
    edges:
      left: {from: a, to: b}
      bottom: {from: b, to: c}
      right: {from: c, to: d}
      top: {from: d, to: a}
"""

LEG = """\
<path id="outline" d="M40,30 C20,90 45,150 45,200 L45,260 L155,260 L155,200
  C155,150 180,90 160,30 C130,40 70,40 40,30 Z"/>
<g id="corners">
  <circle id="corner-left-top" cx="40" cy="30" r="2"/>
  <circle id="corner-left-bottom" cx="45" cy="260" r="2"/>
  <circle id="corner-right-bottom" cx="155" cy="260" r="2"/>
  <circle id="corner-right-top" cx="160" cy="30" r="2"/>
</g>
<circle class="hole" cx="60" cy="60" r="4"/>
<circle class="hole" cx="140" cy="60" r="4"/>
<path class="fold" d="M30,120 C80,130 120,130 170,120"/>
<line id="spread-left" x1="70" y1="20" x2="70" y2="270"/>
<line id="spread-right" x1="130" y1="20" x2="130" y2="270"/>
<line id="spread-length" x1="0" y1="150" x2="200" y2="150"/>
"""
"""A shin plate, symmetrical about x = 100, with three spread lines."""

LEG_EDGES = """\
    edges:
      left: {from: left-top, to: left-bottom}
      bottom: {from: left-bottom, to: right-bottom}
      right: {from: right-bottom, to: right-top}
      top: {from: right-top, to: left-top}
"""


def svg(body: str, width: float = 200, height: float = 300) -> str:
    """A drawing in mm with `body` in it."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">\n{body}\n</svg>\n'
    )


def drawn_guide(body: str, part: str = "", head: str = SIZES, piece: str = "") -> GuideFile:
    """A guide with one part, drawn in plate.svg; `part` are more lines of it, indented by 4."""
    name = "plate.svg#" + piece if piece else "plate.svg"
    text = (
        f"{head}parts:\n  plate:\n    name: Plate\n    label: P\n    material: foam-5\n"
        f"    shape: drawing\n    drawing: '{name}'\n{part}"
    )
    drawing = body if body.lstrip().startswith(("<svg", "<?xml", "<!", "<html")) else svg(body)
    return replace(
        guide_file(text),
        drawings={"plate.svg": drawing},
        drawing_files={"plate.svg": "content/test/plate.svg"},
    )


def try_drawing(
    body: str, part: str = "", size: str = "M", *, head: str = SIZES, piece: str = ""
) -> tuple[Shape | None, list[Problem]]:
    """The shape of the drawn part in a size, and all problems."""
    file = drawn_guide(body, part, head, piece)
    numbers, problems = size_numbers(file, size)
    assert problems == []
    return drawn_shape(file, "plate", file.guide.parts["plate"], numbers)


def good_drawing(body: str, part: str = "", size: str = "M", **more: str) -> Shape:
    """The shape of a drawn part without any problem."""
    shape, problems = try_drawing(body, part, size, **more)
    assert problems == [], [str(problem) for problem in problems]
    assert shape is not None
    return shape


def codes(body: str, part: str = "", size: str = "M", **more: str) -> list[str]:
    """Codes of all problems of a drawn part."""
    return [problem.code for problem in try_drawing(body, part, size, **more)[1]]


def good_piece(body: str) -> DrawnPiece:
    """The one piece of a drawing without problems, before grading."""
    drawing, problems = read_drawing(svg(body), "plate.svg")
    assert problems == ()
    assert drawing is not None
    piece, found = assemble(drawing, "")
    assert found == ()
    assert piece is not None
    return piece


def corner_points(run: Run) -> list[Point]:
    """Points of a run, rounded to a thousandth of a millimetre."""
    return [(round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in flatten(run)]
