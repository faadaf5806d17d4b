"""Paths of a drawing in → what is wrong with them: scale, duplicates, crossings, specks."""

from collections.abc import Sequence

from guidegen.geometry.areas import farthest_apart, fault_of
from guidegen.geometry.drawing_records import Drawing, DrawnPath, DrawnPiece, Role
from guidegen.geometry.measures import bounds, flatten, run_length
from guidegen.geometry.records import Edge, Point, Run, Shape
from guidegen.geometry.svg_reader import SvgValueError, length_unit, read_length
from guidegen.problems import Problem, Severity
from guidegen.units import SVG_UNITS_PER_MM, mm_text

SCALE_SLACK = 0.1
"""mm; how much a scale line may differ, with another 0.1 % of its length. Our choice: editors
round coordinates, and 0.1 % is under what a printer itself adds."""

TINY = 1.0
"""mm; a line shorter, or a hole narrower, than this is a slip of the hand. Our choice."""

SAME = 0.05
"""mm; lines nearer than this all along are drawn twice. Our choice: the finest print."""

_DPI_SLIPS = [(made, read) for made in (72, 90, 96) for read in (72, 90, 96) if made != read]
_OTHER_SLIPS = {
    25.4: "inches were taken for mm, or the other way round",
    1 / 25.4: "mm were taken for inches, or the other way round",
    10.0: "mm were taken for cm, or the other way round",
    0.1: "cm were taken for mm, or the other way round",
    72 / 25.4: "mm were taken for points",
    25.4 / 72: "points were taken for mm",
    96 / 25.4: "mm were taken for px",
    25.4 / 96: "px were taken for mm",
}
"""Measured by stated length, and what explains it."""


def path_problem(
    code: str,
    path: DrawnPath,
    message: str,
    cure: str = "",
    severity: Severity = Severity.ERROR,
) -> Problem:
    """A problem about one path of a drawing."""
    return Problem(code, severity, path.place, "", f"{path.title} {message}", cure)


def scale_problems(drawing: Drawing) -> list[Problem]:
    """Scale lines that are not as long as they say; a drawing in px without any scale line."""
    lines = [path for path in drawing.paths if path.role is Role.SCALE]
    if not lines and not drawing.physical:
        message = "the drawing's width and height are in px, so its real size is not certain"
        cure = (
            "set the document's width and height in mm, cm or in; or draw a line with the class "
            '"scale" and data-length="100 mm" beside the piece'
        )
        return [Problem("drawing-no-unit", Severity.ERROR, drawing.place, "", message, cure)]
    return [problem for line in lines for problem in _scale_line(line)]


def _scale_line(line: DrawnPath) -> list[Problem]:
    cure = 'write it as data-length="100 mm"'
    unit = length_unit(line.length)
    if unit not in {"mm", "cm", "in"}:
        message = "is a scale line but does not say how long it is in mm, cm or in"
        return [path_problem("drawing-scale", line, message, cure)]
    try:
        stated = read_length(line.length) / SVG_UNITS_PER_MM
    except SvgValueError as error:
        return [path_problem("drawing-scale", line, str(error), cure)]
    if stated <= 0:
        return [path_problem("drawing-scale", line, "is a scale line of no length", cure)]
    measured = sum(run_length(subpath.run) for subpath in line.subpaths)
    if abs(measured - stated) <= SCALE_SLACK + stated / 1000:
        return []
    message = (
        f"should be {mm_text(stated, 2)} mm long but measures {mm_text(measured, 2)} mm"
        f"{_slip(measured / stated)}"
    )
    factor = f"{stated / measured * 100:.2f}" if measured else "100"
    cure = f"correct the document's size, or enlarge everything to {factor} %"
    return [path_problem("drawing-scale", line, message, cure)]


def _slip(ratio: float) -> str:
    """What a well-known ratio betrays; empty for others."""
    for made, read in _DPI_SLIPS:
        if abs(ratio * read / made - 1) < 0.005:
            return f": the drawing was made at {made} units to the inch and read at {read}"
    for known, words in _OTHER_SLIPS.items():
        if abs(ratio / known - 1) < 0.005:
            return f": {words}"
    return ""


def tiny_problems(paths: Sequence[DrawnPath]) -> list[Problem]:
    """Lines too short to mean anything."""
    found: list[Problem] = []
    for path in paths:
        length = sum(run_length(subpath.run) for subpath in path.subpaths)
        if path.role is not Role.CORNER and length < TINY:
            message = f"is only {mm_text(length, 2)} mm long"
            found.append(path_problem("drawing-tiny", path, message, "delete it, or enlarge it"))
    return found


def duplicate_problems(paths: Sequence[DrawnPath]) -> list[Problem]:
    """Paths that lie on one another: they would be cut or printed twice."""
    strokes = [
        (run_length(subpath.run), bounds((subpath.run,)), subpath.run, path)
        for path in paths
        if path.role is not Role.CORNER
        for subpath in path.subpaths
    ]
    strokes.sort(key=lambda stroke: stroke[:2])
    found: list[Problem] = []
    for index, (length, box, run, path) in enumerate(strokes):
        for other_length, other_box, other, twin in strokes[index + 1 : index + 6]:
            if other_length - length > 2 * SAME or len(found) >= 10:
                break
            near = all(abs(a - b) <= SAME for a, b in zip(box, other_box, strict=True))
            if near and twin is not path and farthest_apart(flatten(run), flatten(other)) <= SAME:
                first, second = sorted((path, twin), key=lambda p: p.place)
                message = f"lies on {first.title} (line {first.place.line})"
                found.append(path_problem("drawing-duplicate", second, message, "delete one"))
    return found


def outline_problems(
    drawing: Drawing, piece: DrawnPiece, holes: Sequence[tuple[Run, DrawnPath]]
) -> list[Problem]:
    """An outline that crosses itself; holes that leave it or meet each other."""
    edges = (Edge("outline", piece.ring()),)
    found: list[Problem] = []
    fault = fault_of(Shape(edges))
    if fault is not None:
        message, at = fault
        code = "drawing-crossing" if "crosses" in message else "drawing-tiny"
        text = f"{piece.title}: {message}{where_text(drawing, at)}"
        cure = "undo the crossing in your editor" if "crosses" in message else ""
        return [Problem(code, Severity.ERROR, piece.place, "", text, cure)]
    for ring, path in holes:
        crossing = fault_of(Shape((Edge("hole", ring),)))
        fault = fault_of(Shape(edges, (ring,))) if crossing is None else None
        if crossing is not None:
            message, at = crossing[0].replace("outline", "hole"), crossing[1]
            code = "drawing-crossing" if "crosses" in message else "drawing-tiny"
            text = f"as a hole: {message}{where_text(drawing, at)}"
            found.append(path_problem(code, path, text))
        elif fault is not None:
            text = f": {fault[0]}{where_text(drawing, fault[1])}"
            found.append(path_problem("drawing-hole", path, text))
    if not found and holes:
        fault = fault_of(Shape(edges, tuple(ring for ring, _ in holes)))
        if fault is not None:
            text = f": {fault[0]}{where_text(drawing, fault[1])}"
            found.append(path_problem("drawing-hole", holes[0][1], text))
    return found


def where_text(drawing: Drawing, at: Point | None) -> str:
    """Where a point lies, as editors count: from the page's upper left."""
    if at is None:
        return ""
    return f" near x {mm_text(at[0], 1)} mm, y {mm_text(drawing.height - at[1], 1)} mm"
