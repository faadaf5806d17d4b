"""Runs of an outline in → path data of SVG out; y turns from upward to downward here."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import ceil, cos, radians, sin

from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.parabolas import parabola_control
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run

LONG = 12
"""Straight lines in a row from which on each point is written from the one before."""
FINEST = 10_000
"""Steps of a coordinate in a mm."""


def path_data(run: Run, height: float, *, closed: bool = False) -> str:
    """SVG path data of a run, y turned downward from `height` mm."""

    def at(point: Point) -> str:
        return f"{number(point[0])} {number(height - point[1])}"

    if len(run) > LONG and all(isinstance(segment, Line) for segment in run):
        return _line_data([segment_start(run[0]), *map(segment_end, run)], height, closed=closed)
    if (curves := _parabolas(run)) is not None:
        return _curve_data(curves, segment_start(run[0]), height, closed=closed)
    parts = [f"M{at(segment_start(run[0]))}"]
    for segment in run:
        match segment:
            case Line(end=end):
                parts.append(f"L{at(end)}")
            case Cubic(control1=c1, control2=c2, end=end):
                parts.append(f"C{at(c1)} {at(c2)} {at(end)}")
            case Arc():
                parts.extend(_arc_data(segment, at))
    if closed:
        parts.append("Z")
    return "".join(parts)


def _line_data(points: Sequence[Point], height: float, *, closed: bool) -> str:
    """The same of a long row of straight lines, each point from the one before: half as many bytes.

    Steps are differences of rounded points, so that roundings do not add up.
    """
    whole = [_whole(point, height) for point in points]
    parts = [f"M{number(whole[0][0] / FINEST)} {number(whole[0][1] / FINEST)}l"]
    for here, after in pairwise(whole):
        _step(parts, here, after)
    return "".join(parts) + ("Z" if closed else "")


def _parabolas(run: Run) -> list[tuple[Point | None, Point]] | None:
    """Control point, or None for a straight line, and end of each segment; None where others are
    among them, or no parabola is."""
    found: list[tuple[Point | None, Point]] = []
    for segment in run:
        control = parabola_control(segment) if isinstance(segment, Cubic) else None
        if control is None and not isinstance(segment, Line):
            return None
        found.append((control, segment_end(segment)))
    return found if any(control is not None for control, _ in found) else None


def _curve_data(
    curves: list[tuple[Point | None, Point]], start: Point, height: float, *, closed: bool
) -> str:
    """A long row of parabolas and straight lines, each from the point before.

    A control point that mirrors the one before is not written, so a smooth line takes no more room
    than its corners would; mirrored is what was written, lest roundings add up.
    """
    here = _whole(start, height)
    parts = [f"M{number(here[0] / FINEST)} {number(here[1] / FINEST)}"]
    mirror, last = here, "M"
    for control, end in curves:
        there = _whole(end, height)
        told = _whole(control, height) if control is not None else None
        letter = "l" if told is None else "t" if last in "qt" and told == mirror else "q"
        if letter != last or letter == "q":
            parts.append(letter)
        if letter == "q" and told is not None:
            _step(parts, here, told)
        _step(parts, here, there)
        if told is not None:
            mirror = (2 * there[0] - told[0], 2 * there[1] - told[1])
        here, last = there, letter
    return "".join(parts) + ("Z" if closed else "")


def _whole(point: Point, height: float) -> tuple[int, int]:
    """A point in steps of a coordinate, downward."""
    return round(point[0] * FINEST), round((height - point[1]) * FINEST)


def _step(parts: list[str], here: tuple[int, int], there: tuple[int, int]) -> None:
    """The way from one point to another, with a space only where one must stand."""
    for value in ((there[0] - here[0]) / FINEST, (there[1] - here[1]) / FINEST):
        said = number(value).replace("0.", ".", 1) if abs(value) < 1 else number(value)
        parts.append(said if said[0] == "-" or parts[-1][-1].isalpha() else f" {said}")


def _arc_data(arc: Arc, at: Callable[[Point], str]) -> Iterator[str]:
    """SVG arcs of at most 120 degrees each: longer ones lose accuracy in some readers."""

    pieces = max(1, ceil(abs(arc.sweep) / 120))
    for part in range(1, pieces + 1):
        angle = radians(arc.start_angle + arc.sweep * part / pieces)
        end = (
            arc.centre[0] + arc.radius * cos(angle),
            arc.centre[1] + arc.radius * sin(angle),
        )
        turn = 0 if arc.sweep > 0 else 1
        radius = number(arc.radius)
        yield f"A{radius} {radius} 0 0 {turn} {at(end)}"


def number(value: float) -> str:
    """A coordinate with a precision of a ten-thousandth of a millimetre, always written alike."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text
