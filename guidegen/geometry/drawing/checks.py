"""Paths of one piece in → what is wrong with them: specks, duplicates, crossings, stray holes."""

from collections.abc import Sequence
from itertools import pairwise

from guidegen.geometry.drawing.curves import chord_gap, longest
from guidegen.geometry.drawing.records import DrawnPath, DrawnPiece, Role, SvgDrawing
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.outline.records import Edge, Point, Run, Shape
from guidegen.problems import Problem
from guidegen.units import mm_text

TINY = 1.0
"""mm; a line shorter, or a hole narrower, than this is a slip of the hand. Our choice."""

SAME = 0.05
"""mm; lines nearer than this all along are drawn twice. Our choice: the finest print."""

MAX_COMPARED = 500
"""Pairs of lines in one box that are compared point by point. Our choice."""

_CUT = frozenset({Role.OUTLINE, Role.HOLE, Role.NONE})
"""Roles whose lines a knife follows."""


def path_problem(
    code: str,
    path: DrawnPath,
    message: str,
    cure: str = "",
) -> Problem:
    """A problem about one path of a drawing."""
    text = f"{path.title}{message}" if message.startswith(":") else f"{path.title} {message}"
    return Problem(code, path.place, "", text, cure)


def tiny_problems(paths: Sequence[DrawnPath]) -> list[Problem]:
    """Lines too short to mean anything."""
    found: list[Problem] = []
    for path in paths:
        length = sum(longest(subpath.run) for subpath in path.subpaths)
        if path.role is not Role.CORNER and length < TINY:
            message = f"is only {mm_text(length, 2)} mm long"
            found.append(path_problem("drawing-tiny", path, message, "delete it, or enlarge it"))
    return found


def duplicate_problems(paths: Sequence[DrawnPath]) -> list[Problem]:
    """Lines of one role that lie on one another: they would be cut or printed twice."""
    strokes = [
        (bounds((subpath.run,)), subpath.run, path)
        for path in paths
        if path.role is not Role.CORNER
        for subpath in path.subpaths
    ]
    # By the left side of their boxes, so that the inner loop may end at the first one that begins
    # farther right; a drawing of 500 lines would make 125,000 pairs otherwise.
    strokes.sort(key=lambda stroke: stroke[0])
    found: list[Problem] = []
    compared = 0
    for index, (box, run, path) in enumerate(strokes):
        for other_box, other, twin in strokes[index + 1 :]:
            if other_box[0] - box[0] > SAME or len(found) >= 10:
                break
            # A placement line on a hole is meant; two lines for the knife, whatever they are
            # called, are not.
            alike = twin.role is path.role or {twin.role, path.role} <= _CUT
            near = all(abs(a - b) <= SAME for a, b in zip(box, other_box, strict=True))
            if not (alike and near):
                continue
            compared += 1
            if compared > MAX_COMPARED:
                return found  # so many boxes of one size are no slip of the hand
            # Both ways: a short line on a long one is no duplicate.
            if _lies_on(run, other) and _lies_on(other, run):
                first, second = sorted((path, twin), key=lambda p: p.place)
                message = f"lies on {first.title} (line {first.place.line})"
                found.append(path_problem("drawing-duplicate", second, message, "delete one"))
    return found


def _lies_on(run: Run, other: Run) -> bool:
    """True where some twenty points of a run lie on another one."""
    points = flatten(run)
    # Chosen: twenty points against all chords of the other. Lines that part for more than a
    # twentieth of their length are seen to part.
    sample = points[:: max(1, len(points) // 20)]
    chords = list(pairwise(flatten(other)))
    return all(min(chord_gap(point, *chord) for chord in chords) <= SAME for point in sample)


def outline_problems(
    drawing: SvgDrawing, piece: DrawnPiece, holes: Sequence[tuple[Run, DrawnPath]]
) -> list[Problem]:
    """An outline that crosses itself; holes that leave it or meet each other."""
    edges = (Edge("outline", piece.ring()),)
    # The outline by itself first: a crossing in it would be blamed on the holes.
    fault = fault_of(Shape(edges))
    if fault is not None:
        cure = "undo the crossing in your editor" if "crosses" in fault[0] else ""
        text = f"{piece.title}: {fault[0]}{where_text(drawing, fault[1])}"
        return [Problem(_fault_code(fault[0]), piece.place, "", text, cure)]
    whole = fault_of(Shape(edges, tuple(ring for ring, _ in holes)))
    if whole is None:
        return []
    # Then each hole by itself, which names the one at fault; only if none is, they meet each
    # other.
    found = [problem for ring, path in holes for problem in _hole(drawing, edges, ring, path)]
    text = f": {whole[0]}{where_text(drawing, whole[1])}"
    return found or [path_problem("drawing-hole", holes[0][1], text)]


def _hole(
    drawing: SvgDrawing, edges: tuple[Edge, ...], ring: Run, path: DrawnPath
) -> list[Problem]:
    """What is wrong with one hole by itself."""
    fault = fault_of(Shape((Edge("hole", ring),)))
    if fault is not None:
        words = fault[0].replace("the outline", "the hole")
        text = f": {words}{where_text(drawing, fault[1])}"
        return [path_problem(_fault_code(words), path, text)]
    fault = fault_of(Shape(edges, (ring,)))
    if fault is None:
        return []
    return [path_problem("drawing-hole", path, f": {fault[0]}{where_text(drawing, fault[1])}")]


def _fault_code(words: str) -> str:
    return "drawing-crossing" if "crosses" in words else "drawing-tiny"


def where_text(drawing: SvgDrawing, at: Point | None) -> str:
    """Where a point lies, as editors count: from the page's upper left."""
    if at is None:
        return ""
    return f" near x {mm_text(at[0], 1)} mm, y {mm_text(drawing.height - at[1], 1)} mm"
