"""Figures of the handbook's chapter on shapes: each outline with the names of its edges.

./start python tests/geometry/shape_figures.py draws them anew.
"""

from pathlib import Path

from geometry.shapes.test_shapes import build, dimensions

from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.geometry.outline.curves import along, inward_normal, point_at
from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment
from guidegen.geometry.shapes.registry import BUILDERS
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

FOLDER = Path(__file__).parents[2] / "guidegen" / "handbook" / "draw" / "shapes"

EXAMPLES: dict[str, dict[str, float]] = {
    "tapered-tube": {"slant_top": 40.0, "scallops_bottom": 5.0},
    "horn-segment": {"bend": 100.0},
    "belt": {"girth": 260.0, "holes": 5.0, "tip": 20.0, "overlap": 100.0, "width": 40.0},
    "gore": {"arc": 130.0},
    "ridge": {"radius": 180.0},
    "ring-segment": {"lean": 60.0, "width": 50.0},
    "box": {"lean": 8.0},
}
"""Dimensions that show more of a shape than its plainest form."""

WIDEST = 130.0
"""mm of a shape on its figure."""
MARGIN = 24.0
LETTERS = 4.5


def figure(name: str) -> str:
    """The outline of one shape as SVG, with the names of its edges beside them."""
    example = EXAMPLES.get(name, {})
    shape = build(name, **example)
    left, low, right, high = bounds((shape.ring(),))
    factor = min(1.0, WIDEST / (right - left), WIDEST / (high - low))
    canvas = Canvas(
        (right - left) * factor + 2 * MARGIN,
        (high - low) * factor + 2 * MARGIN,
        f"Shape {name}",
        f"{SHAPES[name].help} Edges: {', '.join(edge.name for edge in shape.edges)}.",
        ENGLISH,
    )

    def placed(run: Run) -> Run:
        return tuple(_scaled(segment, factor, (left, low)) for segment in run)

    rings = [placed(shape.ring()), *(placed(hole) for hole in shape.holes)]
    canvas.path(rings, Stroke(0.5), fill="#e9eef2", closed=True)
    folds = BUILDERS[name].folds
    dashed = [line.run for line in shape.lines]
    dashed += [fold.run for fold in (folds(dimensions(name, **example), 5) if folds else ())]
    for run in dashed:
        canvas.path([placed(run)], Stroke(0.25, (2, 1)))
    for edge in shape.edges:
        _name_edge(canvas, edge.name, placed(edge.run))
    return svg_file(canvas.drawing()) + "\n"


def _scaled(segment: Segment, factor: float, origin: Point) -> Segment:
    def at(point: Point) -> Point:
        return (
            (point[0] - origin[0]) * factor + MARGIN,
            (point[1] - origin[1]) * factor + MARGIN,
        )

    match segment:
        case Line(start=start, end=end):
            return Line(at(start), at(end))
        case Arc(centre=centre, radius=radius, start_angle=start_angle, sweep=sweep):
            return Arc(at(centre), radius * factor, start_angle, sweep)
        case Cubic(start=start, control1=control1, control2=control2, end=end):
            return Cubic(at(start), at(control1), at(control2), at(end))


def _name_edge(canvas: Canvas, name: str, run: Run) -> None:
    """The name outside the middle of an edge (of darts: inside), with a short line to it."""
    # In the middle of a row of scales there is a slit.
    point, direction = point_at(run, run_length(run) * (0.416 if len(run) > 20 else 0.5))
    inward = inward_normal(direction)
    if name.startswith("dart"):
        inward = (-inward[0], -inward[1])
    canvas.line(along(point, inward, 1.5), along(point, inward, -3), Stroke(0.25))
    x, y = along(point, inward, -4.5)
    anchor = "middle" if abs(inward[0]) < 0.5 else "start" if inward[0] < 0 else "end"
    drop = LETTERS * (0.35 + 0.35 * max(-1.0, min(1.0, inward[1] * 1.2)))
    canvas.text((x, y - drop), name, LETTERS, anchor=anchor)


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for shape_name in SHAPES:
        (FOLDER / f"{shape_name}.svg").write_text(figure(shape_name), encoding="utf-8")
