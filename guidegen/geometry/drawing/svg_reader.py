"""Path data, basic shapes and transforms of SVG in → runs of lines, arcs and cubics out.

The only module that imports svgelements. That library reads the grammar of paths and transforms
and solves elliptical arcs; lengths are read here, since units must be exact. Quadratic curves
become the same cubic; arcs that are circles after all transforms stay arcs, others become cubics.
"""

import re
from math import atan2, ceil, cos, degrees, hypot, isfinite, radians, sin
from typing import NamedTuple

import svgelements

from guidegen.geometry.drawing.curves import ellipse_cubics
from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.outline.measures import segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment
from guidegen.units import MM_PER_INCH, MM_PER_UNIT, SVG_UNITS_PER_MM

MAX_SEGMENTS = 10_000
"""Segments in one drawing. Our choice: a traced photo has more, a template never."""
MAX_CHORDS = 20_000
"""Chords that stand for all lines of one drawing. Our choice: 80 m of curves of 100 mm radius."""
MAX_EXTENT = 20_000.0
"""mm from the page's corner. Our choice: longer than any roll of paper."""

SHAPES = frozenset({"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
"""Elements that draw a line."""

_PX = {
    "": 1.0,
    "px": 1.0,
    **{unit: mm * SVG_UNITS_PER_MM for unit, mm in MM_PER_UNIT.items() if unit != "m"},
    "q": SVG_UNITS_PER_MM / 4,
    "pt": MM_PER_INCH / 72 * SVG_UNITS_PER_MM,
    "pc": MM_PER_INCH / 6 * SVG_UNITS_PER_MM,
}
"""User units (px) of one unit; CSS Values and Units Level 3, 6.2: 1 in = 96 px = 72 pt = 6 pc."""

NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
"""A number in SVG, as a regular expression; SVG 1.1, 4.2."""

_LENGTH = re.compile(rf"\s*({NUMBER})\s*([a-zA-Z%]*)\s*")
_TOKEN = re.compile(rf"(?P<number>{NUMBER})|(?P<command>[MmZzLlHhVvCcSsQqTtAa])|[\s,]+")
_NUMBERS_EACH = {"m": 2, "l": 2, "h": 1, "v": 1, "c": 6, "s": 4, "q": 4, "t": 2, "a": 5, "z": 0}
"""Least numbers of one segment: the flags of an arc may stand together, as in 0110."""

_TRANSFORM = re.compile(r"(?:[\s,]*[a-zA-Z]+\s*\([^()]*\))*[\s,]*")
_ARGUMENT = re.compile(rf"{NUMBER}(?:[a-zA-Z]{{1,4}}|%)?")

_SLIPS = (ValueError, TypeError, IndexError, AttributeError, ZeroDivisionError, OverflowError)
"""What svgelements raises on values that it cannot read."""


class SvgValueError(ValueError):
    """A value in a drawing cannot be read; the message ends a sentence about the element."""


class Affine(NamedTuple):
    """x' = a*x + c*y + e, y' = b*x + d*y + f; SVG 1.1, 7.4."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def after(self, inner: "Affine") -> "Affine":
        """This transform applied to what `inner` gives."""
        x, y = self.vector((inner.a, inner.b)), self.vector((inner.c, inner.d))
        return Affine(*x, *y, *self.point((inner.e, inner.f)))

    def vector(self, v: Point) -> Point:
        """A difference of points after the transform."""
        return (self.a * v[0] + self.c * v[1], self.b * v[0] + self.d * v[1])

    def point(self, p: Point) -> Point:
        """A point after the transform."""
        return (self.a * p[0] + self.c * p[1] + self.e, self.b * p[0] + self.d * p[1] + self.f)


def read_length(text: str, whole: float = 0.0) -> float:
    """A length in user units (px at 96 to the inch); a percentage is of `whole`.

    Raises SvgValueError for what is no length.
    """
    match = _LENGTH.fullmatch(text)
    if match is None:
        raise SvgValueError(f'has the length "{text[:30]}", which is not a number with a unit')
    number, unit = float(match[1]), match[2].lower()
    if unit == "%":
        return number / 100 * whole
    if unit not in _PX:
        raise SvgValueError(f'has the unit "{unit[:10]}"; expected mm, cm, in, pt, pc or px')
    return number * _PX[unit]


def length_unit(text: str) -> str:
    """The unit of a length, lower case; empty for a bare number or no length at all."""
    match = _LENGTH.fullmatch(text)
    return match[2].lower() if match else ""


def read_transform(text: str) -> Affine:
    """The matrix of a transform attribute. Raises SvgValueError."""
    if not text or text == "none":
        return Affine()
    # Length first: the patterns are linear, but svgelements is handed nothing of unknown length.
    if len(text) > 2000 or not _TRANSFORM.fullmatch(text) or not _has_numbers(text):
        raise SvgValueError(f'has the transform "{text[:40]}", which cannot be read')
    try:
        m = svgelements.Matrix(text)
        values = Affine(*(float(v) for v in (m.a, m.b, m.c, m.d, m.e, m.f)))
    except _SLIPS:
        raise SvgValueError(f'has the transform "{text[:40]}", which cannot be read') from None
    # 1e308 twice is a number to the library; all geometry behind would be nan.
    if not all(isfinite(v) for v in values):
        raise SvgValueError(f'has the transform "{text[:40]}", which has no finite value')
    return values


def _has_numbers(text: str) -> bool:
    """Whether all arguments are numbers: svgelements passes over others, as in scale(nan)."""
    arguments = re.findall(r"\(([^()]*)\)", text)
    return all(
        _ARGUMENT.search(words) and not _ARGUMENT.sub(" ", words).strip(" ,\t\r\n")
        for words in arguments
    )


def viewport_affine(
    box: tuple[float, float, float, float], view_box: str, aspect: str
) -> tuple[Affine, tuple[float, float]]:
    """Transform of a viewport (x, y, width, height in px), and the size of its content's space.

    Raises SvgValueError for a viewBox that cannot be read.
    """
    x, y, width, height = box
    if not view_box:
        return Affine(e=x, f=y), (width, height)
    numbers = re.findall(NUMBER, view_box)
    if len(numbers) != 4 or float(numbers[2]) <= 0 or float(numbers[3]) <= 0:
        raise SvgValueError(f'has the viewBox "{view_box[:40]}"; expected x, y, width and height')
    view = tuple(float(number) for number in numbers)
    text = svgelements.Viewbox.viewbox_transform(*box, *view, " ".join(aspect.split()) or None)
    return read_transform(text), (view[2], view[3])


def count_segments(data: str) -> int:
    """About how many segments path data has, at least.

    Raises SvgValueError for what is not path data.
    """
    position, total, numbers, command = 0, 0, 0, ""
    while position < len(data):
        # Counted on the text, before svgelements makes an object of every segment: a file of 2 MB
        # has some hundred thousand.
        match = _TOKEN.match(data, position)
        if match is None or (not command and match.lastgroup == "number"):
            raise SvgValueError(f'has path data that cannot be read at "{data[position:][:20]}"')
        if match.lastgroup == "command":
            if not command and match[0] not in "Mm":
                raise SvgValueError("has path data that does not begin with M")
            total += _share(command, numbers)
            command, numbers = match[0].lower(), 0
        elif match.lastgroup == "number":
            numbers += 1
        position = match.end()
    return total + _share(command, numbers)


def _share(command: str, numbers: int) -> int:
    """Least number of segments of one command with so many numbers."""
    if not command:
        return 0
    each = _NUMBERS_EACH[command]
    # The flags of arcs may run together, so only their least number is known here.
    if numbers < each or (command != "a" and each and numbers % each) or (not each and numbers):
        raise SvgValueError(f"has path data with too few or too many numbers after {command}")
    return ceil(numbers / each) if each else 1


def _check_data(data: str) -> None:
    if count_segments(data) > MAX_SEGMENTS:
        raise SvgValueError(f"has more than {MAX_SEGMENTS} segments; simplify it in your editor")


def shape_subpaths(
    tag: str,
    attributes: dict[str, str],
    space: tuple[float, float],
    affine: Affine,
    reach: float = MAX_EXTENT,
) -> tuple[Subpath, ...]:
    """The strokes of a path or basic shape after `affine`; percentages are of `space`.

    No curve may bend through a point more than `reach` mm from its ends. Raises SvgValueError.
    """
    try:
        strokes = _subpaths(_segments(tag, attributes, space), affine)
        _check_bends(strokes, reach)
        return strokes
    except SvgValueError:
        raise
    except _SLIPS:
        raise SvgValueError("has data that cannot be read to its end") from None


def _check_bends(strokes: tuple[Subpath, ...], reach: float) -> None:
    for stroke in strokes:
        for segment in stroke.run:
            if not isinstance(segment, Cubic):
                continue
            for control in (segment.control1, segment.control2):
                far = min(
                    hypot(control[0] - x, control[1] - y) for x, y in (segment.start, segment.end)
                )
                if far > reach:
                    raise SvgValueError(
                        f"bends through a point {far / 1000:.1f} m from its ends, which is out of "
                        "all proportion to the page"
                    )


def _segments(
    tag: str, attributes: dict[str, str], space: tuple[float, float]
) -> "list[svgelements.PathSegment]":
    # What a percentage of a radius refers to; SVG 1.1, 7.10.
    diagonal = hypot(*space) / 2**0.5

    def at(name: str, whole: float) -> float:
        return read_length(attributes.get(name) or "0", whole)

    if tag == "path":
        _check_data(attributes.get("d", ""))
        return list(svgelements.Path(attributes.get("d", "")))
    if tag in {"polyline", "polygon"}:
        data = attributes.get("points", "").strip()
        _check_data(f"M{data}" if data else "")
        close = "z" if tag == "polygon" else ""
        return list(svgelements.Path(f"M{data}{close}")) if data else []
    if tag == "line":
        x1, y1, x2, y2 = (at(n, space[n[0] == "y"]) for n in ("x1", "y1", "x2", "y2"))
        return list(svgelements.Path(f"M{x1!r},{y1!r}L{x2!r},{y2!r}"))
    if tag == "rect":
        return _rect(attributes, at("x", space[0]), at("y", space[1]), space)
    rx, ry = (
        (at("r", diagonal),) * 2 if tag == "circle" else (at("rx", space[0]), at("ry", space[1]))
    )
    if rx <= 0 or ry <= 0:
        return []
    shape = svgelements.Ellipse(at("cx", space[0]), at("cy", space[1]), rx, ry)
    return list(svgelements.Path(shape))


def _rect(
    attributes: dict[str, str], x: float, y: float, space: tuple[float, float]
) -> "list[svgelements.PathSegment]":
    """A rectangle; a corner radius given once counts for both ways (SVG 1.1, 9.2)."""
    width = read_length(attributes.get("width") or "0", space[0])
    height = read_length(attributes.get("height") or "0", space[1])
    if width <= 0 or height <= 0:
        return []
    given = [attributes.get(name, "").replace("auto", "") for name in ("rx", "ry")]
    rx = read_length(given[0] or given[1] or "0", space[0])
    ry = read_length(given[1] or given[0] or "0", space[1])
    rx, ry = min(max(rx, 0.0), width / 2), min(max(ry, 0.0), height / 2)
    return list(svgelements.Path(svgelements.Rect(x, y, width, height, rx, ry)))


def _subpaths(segments: "list[svgelements.PathSegment]", affine: Affine) -> tuple[Subpath, ...]:
    """Segments split at every move and after every close."""
    strokes: list[Subpath] = []
    run: list[Segment] = []

    def finish(closed: bool) -> None:
        if run:
            strokes.append(Subpath(_tidy(run), closed))
        run.clear()

    for segment in segments:
        if isinstance(segment, svgelements.Move):
            finish(False)
            continue
        run.extend(_convert(segment, affine))
        if isinstance(segment, svgelements.Close):
            finish(True)
    finish(False)
    return tuple(stroke for stroke in strokes if stroke.run)


def _convert(segment: "svgelements.PathSegment", affine: Affine) -> list[Segment]:
    def at(point: "svgelements.Point") -> Point:
        x, y = affine.point((float(point.x), float(point.y)))
        if not (isfinite(x) and isfinite(y) and max(abs(x), abs(y)) <= MAX_EXTENT):
            raise SvgValueError(f"lies more than {MAX_EXTENT / 1000:g} m from the page")
        return (x, y)

    start, end = at(segment.start), at(segment.end)
    if isinstance(segment, svgelements.CubicBezier):
        return [Cubic(start, at(segment.control1), at(segment.control2), end)]
    if isinstance(segment, svgelements.QuadraticBezier):
        q = at(segment.control)
        return [Cubic(start, _toward(start, q), _toward(end, q), end)]
    if isinstance(segment, svgelements.Arc) and segment.sweep:
        return _arc(segment, affine)
    return [Line(start, end)]


def _toward(end: Point, control: Point) -> Point:
    """Control point of the cubic that equals a quadratic: two thirds of the way."""
    return (end[0] + (control[0] - end[0]) * 2 / 3, end[1] + (control[1] - end[1]) * 2 / 3)


def _arc(arc: "svgelements.Arc", affine: Affine) -> list[Segment]:
    """An elliptical arc: centre + cos(t) * u + sin(t) * v, with t from t0 to t0 + sweep."""
    centre = affine.point((arc.center.x, arc.center.y))
    u = affine.vector((arc.prx.x - arc.center.x, arc.prx.y - arc.center.y))
    v = affine.vector((arc.pry.x - arc.center.x, arc.pry.y - arc.center.y))
    start = affine.point((arc.start.x, arc.start.y))
    end = affine.point((arc.end.x, arc.end.y))
    sweep = degrees(float(arc.sweep))
    det = u[0] * v[1] - u[1] * v[0]
    radius = hypot(*u)
    if not isfinite(radius * det):
        raise SvgValueError("has an arc that is out of range")
    # A bow of less than a tenth of a micron is straight.
    if abs(det) < 1e-9 or (abs(sweep) < 1 and radius * (1 - cos(radians(sweep) / 2)) < 1e-4):
        return [Line(start, end)]
    even = abs(hypot(*v) - radius) < 1e-6 * radius
    if even and abs(u[0] * v[0] + u[1] * v[1]) < 1e-6 * radius * radius:
        first = degrees(atan2(start[1] - centre[1], start[0] - centre[0]))
        return [Arc(centre, radius, first, sweep if det > 0 else -sweep)]
    x, y = start[0] - centre[0], start[1] - centre[1]
    t0 = atan2((u[0] * y - u[1] * x) / det, (x * v[1] - y * v[0]) / det)
    return list(ellipse_cubics((centre, u, v), t0, radians(sweep), (start, end)))


def _tidy(run: list[Segment]) -> Run:
    """The run without segments of no length, and neighbouring arcs of one circle as one."""
    kept: list[Segment] = []
    for segment in run:
        match segment:
            case Line(start=start, end=end) if hypot(end[0] - start[0], end[1] - start[1]) < 1e-6:
                continue
            case Cubic(start=p, control1=q, control2=r, end=s) if (
                max(hypot(t[0] - p[0], t[1] - p[1]) for t in (q, r, s)) < 1e-6
            ):
                continue
            case Arc() if kept and isinstance(kept[-1], Arc):
                joined = _join_arcs(kept[-1], segment)
                if joined is not None:
                    kept[-1] = joined
                    continue
        kept.append(segment)
    return tuple(kept)


def _join_arcs(first: Arc, second: Arc) -> Arc | None:
    close = hypot(first.centre[0] - second.centre[0], first.centre[1] - second.centre[1]) < 1e-5
    alike = close and abs(first.radius - second.radius) < 1e-5 and first.sweep * second.sweep > 0
    start, last = segment_start(second), first.start_angle + first.sweep
    meets = hypot(
        first.centre[0] + first.radius * cos(radians(last)) - start[0],
        first.centre[1] + first.radius * sin(radians(last)) - start[1],
    )
    sweep = first.sweep + second.sweep
    if not alike or meets > 1e-5 or abs(sweep) > 360 + 1e-6:
        return None
    return Arc(first.centre, first.radius, first.start_angle, min(360.0, max(-360.0, sweep)))
