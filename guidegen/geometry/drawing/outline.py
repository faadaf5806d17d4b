"""Paths of one piece in → the one outline among them, and the holes of a compound path."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.geometry.drawing.checks import path_problem, where_text
from guidegen.geometry.drawing.joins import (
    GAP,
    Joined,
    counter_clockwise,
    is_closed,
    join_strokes,
)
from guidegen.geometry.drawing.records import DrawnPath, Role, SvgDrawing
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.measures import run_area
from guidegen.geometry.outline.records import Edge, Run, Shape
from guidegen.problems import Checked, Problem
from guidegen.units import mm_text


@dataclass(frozen=True, slots=True)
class Outline:
    """The outline that was found."""

    ring: Run
    """Counter-clockwise."""
    holes: tuple[Run, ...]
    """Of a compound path."""
    path: DrawnPath
    """Where it is drawn: the first path, where several make it up."""
    used: tuple[DrawnPath, ...]


def find_outline(drawing: SvgDrawing, paths: Sequence[DrawnPath]) -> Checked[Outline | None]:
    """The outline of a piece; None, and a problem, where there is none or no telling which."""
    chosen = [path for path in paths if path.role is Role.OUTLINE]
    if not chosen:
        chosen = yield from _unmarked(drawing, paths)
    if not chosen:
        return None
    strokes = [stroke for path in chosen for stroke in path.subpaths]
    joined = join_strokes(strokes)
    if joined.opens:
        yield _open(drawing, chosen, joined)
        return None
    # All counter-clockwise, so that areas can be compared; the largest encloses the others.
    rings = sorted(map(counter_clockwise, joined.rings), key=run_area, reverse=True)
    outline = Outline(rings[0], tuple(rings[1:]), chosen[0], tuple(chosen))
    second = _second_outline(drawing, outline)
    if second is not None:
        yield second
        return None
    return outline


def _unmarked(drawing: SvgDrawing, paths: Sequence[DrawnPath]) -> Checked[list[DrawnPath]]:
    """Without a path of class outline: the only closed path without a class, or all open ones."""
    plain = [path for path in paths if path.role is Role.NONE]
    closed = [path for path in plain if any(is_closed(stroke) for stroke in path.subpaths)]
    if len(closed) == 1:
        return closed
    if len(closed) > 1:
        names = ", ".join(f"{path.title} (line {path.place.line})" for path in closed[:6])
        message = f"is one of {len(closed)} closed paths without a class: {names}"
        cure = (
            'give one the class "outline" and the others "hole", "texture" and so on; or name '
            "the group of one piece behind a # in the build file"
        )
        yield path_problem("drawing-which-outline", closed[0], message, cure)
        return []
    if not plain:
        message = "there is no outline in the drawing"
        cure = (
            'give the outline\'s path the class or id "outline"; turn texts and clones into paths'
        )
        yield Problem("drawing-empty", drawing.place, "", message, cure)
    return plain


def _open(drawing: SvgDrawing, chosen: Sequence[DrawnPath], joined: Joined) -> Problem:
    message = (
        f"is open: the outline has a gap of {mm_text(joined.gap, 2)} mm"
        f"{where_text(drawing, joined.at)}"
    )
    cure = f"join the ends there; gaps up to {GAP} mm are closed for you"
    return path_problem("drawing-open", chosen[0], message, cure)


def _second_outline(drawing: SvgDrawing, outline: Outline) -> Problem | None:
    """A problem where another ring is not a hole of a compound path."""
    edges = (Edge("outline", outline.ring),)
    for ring in outline.holes:
        fault = fault_of(Shape(edges, (ring,)))
        outside = fault is not None and "outside" in fault[0]
        # Inside the one path that is the outline a ring is a window, as editors subtract shapes;
        # drawn as a path of its own it might as well be a second piece.
        if outside or len(outline.used) > 1:
            where = where_text(drawing, fault[1] if fault else None)
            message = f"is not the only outline: there is a second one{where}"
            cure = (
                "put each piece into a group of its own and name it behind a # in the build file; "
                'a window in the piece has the class "hole"'
            )
            return path_problem("drawing-two-outlines", outline.path, message, cure)
    return None
