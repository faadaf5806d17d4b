"""Runs, texts and groups in → one SVG text out; y turns from upward to downward here only.

The only module that imports svgwrite. Colours are written as attributes, so that a PDF needs no
style sheet, and every element may carry a class, so that a theme can recolour it on screen.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from math import ceil, cos, radians, sin

import svgwrite
from svgwrite.base import BaseElement
from svgwrite.container import Group

from guidegen.geometry.outline.measures import segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run
from guidegen.words import ENGLISH, Words

FONT = "'Barlow Condensed', 'Noto Sans Condensed', sans-serif"
"""Family for all lettering in drawings: narrow, so that labels fit small pieces; the second one
has the alphabets that the first one lacks."""

_LENGTH = re.compile(r"[0-9]+([.,][0-9]+)?")
"""A dimension that is a length in mm, as ISO 129-1 writes it: a number alone."""

INK = "#1d2327"
"""Colour of lines and letters: near black, so that cheap printers use black alone."""

_FORBIDDEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a line is drawn."""

    width: float
    """mm on the drawing."""
    dash: tuple[float, ...] = ()
    """mm of dash, gap, dash, …; empty for a continuous line."""
    colour: str = INK
    cap: str = "butt"


class Canvas:
    """A drawing of `width` by `height` mm, origin at the lower left, y upward."""

    def __init__(
        self,
        width: float,
        height: float,
        title: str,
        description: str = "",
        lang: Words = ENGLISH,
    ) -> None:
        """`title` and `description` are the text alternative of the whole drawing."""
        self.width, self.height = width, height
        self.lang = lang
        """How the drawing says things and writes numbers."""
        self._drawing = svgwrite.Drawing(
            size=(f"{_number(width)}mm", f"{_number(height)}mm"),
            viewBox=f"0 0 {_number(width)} {_number(height)}",
            debug=False,
        )
        self._drawing["role"] = "img"
        if lang.direction == "rtl":
            # A drawing is laid out from the left whatever its page is: texts begin there.
            self._drawing["direction"] = "ltr"
        self._drawing["font-family"] = FONT
        self._drawing["stroke-linejoin"] = "round"
        self._drawing["fill"] = "none"
        self._drawing.set_desc(title=_clean(title), desc=_clean(description) or None)
        self._stack: list[BaseElement] = [self._drawing]
        self._ids = 0

    def path(
        self,
        runs: Iterable[Run],
        stroke: Stroke | None,
        *,
        fill: str = "none",
        css: str = "",
        closed: bool = False,
        opacity: float = 1.0,
    ) -> None:
        """Draw runs as one path; several rings make holes (even-odd rule)."""
        data = " ".join(path_data(run, self.height, closed=closed) for run in runs if run)
        if not data:
            return
        element = self._drawing.path(d=data, fill=fill)
        if fill != "none":
            element["fill-rule"] = "evenodd"
            if opacity < 1:
                element["fill-opacity"] = _number(opacity)
        self._stroke(element, stroke)
        self._add(element, css)

    def line(self, start: Point, end: Point, stroke: Stroke, *, css: str = "") -> None:
        """Draw a straight line."""
        self.path([(Line(start, end),)], stroke, css=css)

    def rectangle(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        stroke: Stroke | None,
        *,
        fill: str = "none",
        css: str = "",
    ) -> None:
        """Draw a rectangle by its lower left corner."""
        element = self._drawing.rect(
            insert=(_number(x), _number(self.height - y - height)),
            size=(_number(width), _number(height)),
            fill=fill,
        )
        self._stroke(element, stroke)
        self._add(element, css)

    def circle(
        self,
        centre: Point,
        radius: float,
        stroke: Stroke | None,
        *,
        fill: str = "none",
        css: str = "",
    ) -> None:
        """Draw a circle."""
        element = self._drawing.circle(
            center=(_number(centre[0]), _number(self.height - centre[1])),
            r=_number(radius),
            fill=fill,
        )
        self._stroke(element, stroke)
        self._add(element, css)

    def text(
        self,
        point: Point,
        words: str,
        size: float,
        *,
        anchor: str = "start",
        angle: float = 0.0,
        weight: int = 400,
        colour: str = INK,
        css: str = "",
    ) -> None:
        """Write `words` with the base line at `point`; `size` in mm, `angle` counter-clockwise."""
        x, y = _number(point[0]), _number(self.height - point[1])
        element = self._drawing.text(_clean(words), insert=(x, y), fill=colour)
        element["font-size"] = _number(size)
        if anchor != "start":
            element["text-anchor"] = anchor
        if weight != 400:
            element["font-weight"] = str(weight)
        if angle:
            element["transform"] = f"rotate({_number(-angle)} {x} {y})"
        if css == "dimension" and _LENGTH.fullmatch(words):
            element["data-mm"] = words.replace(",", ".")  # so that a page can show inches
        self._add(element, css)

    @contextmanager
    def group(
        self,
        *,
        css: str = "",
        title: str = "",
        id: str = "",
        data: Mapping[str, str] | None = None,
    ) -> Iterator[None]:
        """Everything drawn inside belongs together; `title` names it for readers.

        `data` becomes data-… attributes, for scripts that move or name the group.
        """
        group = self._drawing.g()
        for name, value in (data or {}).items():
            group[f"data-{name}"] = _clean(value)
        if title:
            group.set_desc(title=_clean(title))
        if id:
            group["id"] = id
        self._add(group, css)
        self._stack.append(group)
        try:
            yield
        finally:
            self._stack.pop()

    @contextmanager
    def clipped(self, x: float, y: float, width: float, height: float, id: str) -> Iterator[None]:
        """Cut everything drawn inside off at a rectangle; `id` must be unique in the page."""
        clip = self._drawing.clipPath(id=id)
        clip.add(
            self._drawing.rect(
                insert=(_number(x), _number(self.height - y - height)),
                size=(_number(width), _number(height)),
            )
        )
        self._drawing.defs.add(clip)
        group: Group = self._drawing.g(clip_path=f"url(#{id})")
        self._add(group, "")
        self._stack.append(group)
        try:
            yield
        finally:
            self._stack.pop()

    def svg(self) -> str:
        """The drawing as SVG text, without XML declaration, ready to stand inside HTML."""
        return str(self._drawing.tostring())

    def _stroke(self, element: BaseElement, stroke: Stroke | None) -> None:
        if stroke is None:
            return
        element["stroke"] = stroke.colour
        element["stroke-width"] = _number(stroke.width)
        if stroke.dash:
            element["stroke-dasharray"] = " ".join(_number(length) for length in stroke.dash)
        if stroke.cap != "butt":
            element["stroke-linecap"] = stroke.cap

    def _add(self, element: BaseElement, css: str) -> None:
        if css:
            element["class"] = css
        self._stack[-1].add(element)


def path_data(run: Run, height: float, *, closed: bool = False) -> str:
    """SVG path data of a run, y turned downward from `height`."""

    def at(point: Point) -> str:
        return f"{_number(point[0])} {_number(height - point[1])}"

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


def _arc_data(arc: Arc, at: Callable[[Point], str]) -> Iterator[str]:
    """SVG arcs of at most 120 degrees each: longer ones lose accuracy in some readers."""

    pieces = max(1, ceil(abs(arc.sweep) / 120))
    for number in range(1, pieces + 1):
        angle = radians(arc.start_angle + arc.sweep * number / pieces)
        end = (
            arc.centre[0] + arc.radius * cos(angle),
            arc.centre[1] + arc.radius * sin(angle),
        )
        turn = 0 if arc.sweep > 0 else 1
        radius = _number(arc.radius)
        yield f"A{radius} {radius} 0 0 {turn} {at(end)}"


def _number(value: float) -> str:
    """A coordinate with a precision of a ten-thousandth of a millimetre, always written alike."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def _clean(words: str) -> str:
    """Text without the control characters that XML does not allow."""
    return _FORBIDDEN.sub("", words)
