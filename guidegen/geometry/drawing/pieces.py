"""A drawing in → one piece of it: outline, holes, corners, inner lines, spread lines."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from guidegen.geometry.drawing.checks import (
    duplicate_problems,
    outline_problems,
    path_problem,
    tiny_problems,
)
from guidegen.geometry.drawing.corners import cut_at_corners, named_twice
from guidegen.geometry.drawing.joins import (
    GAP,
    MAX_STROKES,
    clockwise,
    close_ring,
    counter_clockwise,
    is_closed,
    join_strokes,
)
from guidegen.geometry.drawing.outline import Outline, find_outline
from guidegen.geometry.drawing.records import (
    LINE_KINDS,
    DrawnPath,
    DrawnPiece,
    Role,
    SpreadLine,
    SvgDrawing,
)
from guidegen.geometry.drawing.roles import name_steps, plain_name
from guidegen.geometry.outline.curves import straight_ends
from guidegen.geometry.outline.measures import chord_count
from guidegen.geometry.outline.records import InnerLine, LineKind, Run
from guidegen.problems import Checked, Problem, collect, has_errors
from guidegen.units import mm_text

MAX_RING_CHORDS = 2_000
"""Chords that stand for the outline and the holes of a piece. Our choice: some 8 m of curves of
100 mm radius; where a graded outline of more goes to and fro, looking for thin places in it takes
over five seconds for each size."""


def paths_of(drawing: SvgDrawing, piece: str) -> tuple[DrawnPath, ...]:
    """The paths inside the group (or the path) with a name; all of them where it is empty.

    A label counts before an id: editors show labels, and a copy keeps the label of what it was
    copied from while its id is made up.
    """
    if not piece:
        return drawing.paths
    wanted = "-".join(name_steps(piece))
    return tuple(path for path in drawing.paths if wanted in path.groups) or tuple(
        path for path in drawing.paths if piece in path.ids or wanted in map(plain_name, path.ids)
    )


@lru_cache(maxsize=256)
def assemble(drawing: SvgDrawing, piece: str) -> tuple[DrawnPiece | None, tuple[Problem, ...]]:
    """One piece of a drawing, and what is wrong with it; None where it has no sound outline."""
    found, problems = collect(_assemble(drawing, piece))
    return (None if has_errors(problems) else found), tuple(problems)


def _assemble(drawing: SvgDrawing, piece: str) -> Checked[DrawnPiece | None]:
    paths = [p for p in paths_of(drawing, piece) if p.role not in {Role.NOTE, Role.SCALE}]
    strokes = sum(len(path.subpaths) for path in paths)
    if strokes > MAX_STROKES:
        message = f"is one of {strokes} lines; at most {MAX_STROKES} can be read for one piece"
        yield path_problem("drawing-too-large", paths[0], message)
        return None
    tiny = tiny_problems(paths)
    yield from tiny
    left_out = {problem.place for problem in tiny}
    # Specks go before the outline is looked for: one more closed speck would make two outlines.
    paths = [path for path in paths if path.place not in left_out]
    yield from duplicate_problems(paths)
    outline = yield from find_outline(drawing, paths)
    marks = [path for path in paths if path.role is Role.CORNER]
    # Asked before the outline is: without one all the rest is looked at in the same round.
    yield from named_twice(marks)
    own_holes = yield from _holes(paths)
    lines = yield from _lines(paths)
    spreads = yield from _spreads(paths)
    if outline is None:
        return None
    if too_long := _too_long(outline, paths):
        yield too_long
        return None
    corners, stretches = yield from cut_at_corners(outline.ring, marks)
    holes = [*((ring, outline.path) for ring in outline.holes), *own_holes]
    found = DrawnPiece(
        corners,
        stretches,
        # Holes run clockwise: on every ring of a shape the foam is on the left.
        tuple(clockwise(ring) for ring, _ in holes),
        lines,
        spreads,
        outline.path.place,
        outline.path.title,
    )
    # On the assembled piece, which has no specks and no gaps any more: both would look like
    # faults.
    yield from outline_problems(drawing, found, holes)
    yield from _left_out(paths, outline)
    return found


def _too_long(outline: Outline, paths: Sequence[DrawnPath]) -> Problem | None:
    """An outline with its holes of more points than a piece may have."""
    rings = [outline.ring, *outline.holes]
    rings += [stroke.run for path in paths if path.role is Role.HOLE for stroke in path.subpaths]
    if sum(chord_count(segment) for ring in rings for segment in ring) <= MAX_RING_CHORDS:
        return None
    message = f"has an outline of more than {MAX_RING_CHORDS} points, its curves taken apart"
    cure = "simplify the path in your editor"
    return path_problem("drawing-too-large", outline.path, message, cure)


def _holes(paths: Sequence[DrawnPath]) -> Checked[list[tuple[Run, DrawnPath]]]:
    holes: list[tuple[Run, DrawnPath]] = []
    for path in paths:
        if path.role is Role.HOLE:
            rings = yield from _rings(path)
            holes += ((ring, path) for ring in rings)
    return holes


def _rings(path: DrawnPath) -> Checked[tuple[Run, ...]]:
    """The closed rings of a path that has to be closed."""
    joined = join_strokes(path.subpaths)
    if joined.opens:
        message = (
            f"is open: {mm_text(joined.gap, 2)} mm are missing; a {path.role} has to be closed"
        )
        cure = f"join its ends; gaps up to {GAP} mm are closed for you"
        yield path_problem("drawing-open", path, message, cure)
    return joined.rings


def _lines(paths: Sequence[DrawnPath]) -> Checked[tuple[InnerLine, ...]]:
    lines: list[InnerLine] = []
    for path in paths:
        kind = LINE_KINDS.get(path.role)
        if kind is LineKind.TEXTURE:
            rings = yield from _rings(path)
            lines += [InnerLine(kind, counter_clockwise(ring), path.name) for ring in rings]
        elif kind is not None:
            # Lines that nobody cuts may stay open: only a texture has an inside.
            runs = (close_ring(s.run) if is_closed(s) else s.run for s in path.subpaths)
            lines += [InnerLine(kind, run, path.name) for run in runs]
    return tuple(lines)


def _spreads(paths: Sequence[DrawnPath]) -> Checked[tuple[SpreadLine, ...]]:
    found: dict[str, SpreadLine] = {}
    for path in paths:
        if path.role is not Role.SPREAD:
            continue
        run = tuple(segment for subpath in path.subpaths for segment in subpath.run)
        ends = straight_ends(run)
        if not path.name:
            cure = 'give it a label or id such as "spread-girth"'
            yield path_problem("drawing-spread", path, "is a spread line without a name", cure)
        elif path.name in found:
            message = f'is a second spread line called "{path.name}"'
            yield path_problem("drawing-spread", path, message, "give each its own name")
        elif ends is None or len(path.subpaths) != 1:
            message = "is not one straight line, as a spread line has to be"
            yield path_problem("drawing-spread", path, message)
        else:
            found[path.name] = SpreadLine(path.name, *ends, path.place)
    return tuple(found.values())


def _left_out(paths: Sequence[DrawnPath], outline: Outline) -> Iterator[Problem]:
    cure = (
        "give it a class: outline, hole, fold, placement, texture, engrave, centre, spread, "
        "corner, scale, or note to leave it out without a word"
    )
    for path in paths:
        if path.role is Role.NONE and path not in outline.used:
            yield path_problem("drawing-unnamed", path, "has no class, so it is left out", cure)
