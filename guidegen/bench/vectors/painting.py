"""Operators of a PDF page in → the paths that it paints, in mm, as a viewer would show them.

ISO 32000-1:2008, 8.4 graphics state, 8.5 paths, 8.6 colours, 8.10 forms, 14.6 marked content.
Only lines are followed: words and pictures are counted, so that their author can be told.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from math import sqrt
from typing import Protocol

from guidegen.bench.vectors.records import MAX_SEGMENTS, FoundPath, LineBox, StrokeLook
from guidegen.bench.vectors.tokens import Operand, Operation
from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.drawing.svg_reader import Affine
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Cubic, Line, Point, Segment

MAX_DEPTH = 8
"""Forms inside one another. Our choice."""
MAX_SAVED = 200
"""Graphics states kept at once. Our choice: viewers stop at a few dozen."""
MAX_WORK = 400_000
"""Operators of a page, those of forms counted anew each time. Our choice."""
FARTHEST = 20_000.0
"""mm from the page's corner: as for drawings."""


class PaintError(Exception):
    """A page that cannot be read; the message is a sentence about it."""


class PageNames(Protocol):
    """What names in content stand for."""

    def layer(self, name: str) -> str | None:
        """Name of the layer that marked content belongs to; None where it is no layer."""

    def is_hidden(self, layer: str) -> bool:
        """Whether a layer is switched off."""

    def spot(self, name: str) -> str:
        """Name of the ink of a colour space; empty where it has none of its own."""

    def line(self, name: str) -> tuple[float | None, tuple[float, ...] | None]:
        """Line width and dashes that a set of parameters brings."""

    def form(self, name: str) -> "PaintedForm | None":
        """A form to be drawn; None for a picture, or what is not there."""


@dataclass(frozen=True, slots=True)
class PaintedForm:
    """Content with a name, which pages draw as a whole."""

    content: Iterable[Operation]
    matrix: Affine
    box: LineBox | None
    """In the form's own units."""
    resources: PageNames
    layer: str = ""


@dataclass(frozen=True, slots=True)
class _State:
    affine: Affine
    look: StrokeLook = field(default_factory=lambda: StrokeLook(width=1.0))
    """Width and dashes in user units."""
    face: str = "#000000"
    spots: tuple[str, str] = ("", "")
    """Inks of line and face."""
    clip: LineBox | None = None


@dataclass
class PaintedPage:
    """What came of a page."""

    paths: list[FoundPath] = field(default_factory=list)
    pictures: int = 0
    texts: int = 0
    hidden: dict[str, None] = field(default_factory=dict)
    left_out: dict[str, int] = field(default_factory=dict)
    operators: int = 0
    segments: int = 0


def paint(content: Iterable[Operation], resources: PageNames, affine: Affine) -> PaintedPage:
    """The paths of a page; `affine` takes its units to mm. Raises PaintError."""
    painted = PaintedPage()
    _Painter(painted, resources, _State(affine)).run(content)
    return painted


_LINE_OUT = {"S": (False, False), "s": (True, False), "n": (False, False)}
_FACES = {"f": False, "F": False, "f*": False, "B": False, "B*": False, "b": True, "b*": True}
_STROKES = {"S", "s", "B", "B*", "b", "b*"}
_ENDS = {*_LINE_OUT, *_FACES}


class _Painter:
    """Follows one content and the forms in it."""

    def __init__(
        self, painted: PaintedPage, resources: PageNames, state: _State, depth: int = 0
    ) -> None:
        self.painted, self.resources, self.state, self.depth = painted, resources, state, depth
        self.saved: list[_State] = []
        self.marks: list[str | None] = []
        self.strokes: list[Subpath] = []
        self.run_now: list[Segment] = []
        self.start: Point = (0.0, 0.0)
        self.at: Point = (0.0, 0.0)
        self.clips = False

    def run(self, content: Iterable[Operation]) -> None:
        """Carry out all operators."""
        for operator, operands in content:
            self.painted.operators += 1
            if self.painted.operators > MAX_WORK:
                raise PaintError("it draws forms inside forms without end")
            numbers = [one for one in operands if isinstance(one, float)]
            if operator in _PATHS:
                if len(numbers) >= _PATHS[operator]:
                    self._extend(operator, numbers[-_PATHS[operator] :] if numbers else [])
            elif operator in _ENDS:
                self._end(operator)
            elif operator in {"W", "W*"}:
                self.clips = True
            else:
                self._other(operator, operands, numbers)

    # --- paths ---

    def _point(self, x: float, y: float) -> Point:
        x, y = self.state.affine.point((x, y))
        if not max(abs(x), abs(y)) <= FARTHEST:
            raise PaintError(f"a line on it leads more than {FARTHEST / 1000:g} m away")
        return (x, y)

    def _extend(self, operator: str, numbers: Sequence[float]) -> None:
        points = [self._point(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=False)]
        match operator:
            case "m":
                self._finish(closed=False)
                self.start = self.at = points[0]
            case "l":
                self._add(Line(self.at, points[0]))
            case "c":
                self._add(Cubic(self.at, points[0], points[1], points[2]))
            case "v":
                self._add(Cubic(self.at, self.at, points[0], points[1]))
            case "y":
                self._add(Cubic(self.at, points[0], points[1], points[1]))
            case "h":
                self._close()
            case "re":
                x, y, width, height = numbers
                self._finish(closed=False)
                corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
                first, *others = [self._point(*corner) for corner in corners]
                self.start = self.at = first
                for corner in others:
                    self._add(Line(self.at, corner))
                self._close()

    def _add(self, segment: Line | Cubic) -> None:
        self.painted.segments += 1
        if self.painted.segments > MAX_SEGMENTS:
            raise PaintError(f"the file has more than {MAX_SEGMENTS} segments of lines")
        if segment != Line(self.at, self.at):
            self.run_now.append(segment)
        self.at = segment.end

    def _close(self) -> None:
        if self.at != self.start:
            self._add(Line(self.at, self.start))
        self._finish(closed=True)
        self.at = self.start

    def _finish(self, *, closed: bool) -> None:
        if self.run_now:
            self.strokes.append(Subpath(tuple(self.run_now), closed))
        self.run_now = []

    def _end(self, operator: str) -> None:
        if operator in {"s", "b", "b*"} and self.run_now:
            self._close()
        self._finish(closed=False)
        strokes, self.strokes = tuple(self.strokes), []
        if strokes and operator != "n":
            self._paint(strokes, line=operator in _STROKES, face=operator in _FACES)
        if self.clips and strokes:
            self._clip(bounds(tuple(stroke.run for stroke in strokes)))
        self.clips = False

    def _paint(self, strokes: tuple[Subpath, ...], *, line: bool, face: bool) -> None:
        state, scale = self.state, _scale(self.state.affine)
        layer = next((mark for mark in reversed(self.marks) if mark), "")
        if layer and self.resources.is_hidden(layer):
            self.painted.hidden[layer] = None
            return
        spot = state.spots[0] if line else state.spots[1]
        look = replace(
            state.look,
            layer=layer or spot,
            colour=state.look.colour if line else state.face,
            width=state.look.width * scale if line else 0.0,
            dash=tuple(length * scale for length in state.look.dash) if line else (),
            face=state.face if face else "",
        )
        if face and not line:
            # A face has no open sides: viewers close each of its rings (8.5.3.3).
            strokes = tuple(replace(stroke, closed=True) for stroke in strokes)
        self.painted.paths.append(FoundPath(strokes, look, state.clip))

    def _clip(self, box: LineBox) -> None:
        self.state = replace(self.state, clip=_common(self.state.clip, box))

    # --- all else ---

    def _other(self, operator: str, operands: list[Operand], numbers: list[float]) -> None:
        """What is neither a path nor its painting."""
        painted = self.painted
        name = next((one for one in operands if isinstance(one, str)), "")
        if operator in _STATES:
            self._change(operator, operands, numbers)
        elif operator in _COLOURS:
            self._colour(operator, name, numbers)
        elif operator == "gs":
            self._parameters(*self.resources.line(name))
        elif operator == "Do":
            self._draw(name)
        elif operator in {"BMC", "BDC"}:
            self._begin_mark(operands)
        elif operator == "EMC":
            del self.marks[-1:]
        elif operator in _TEXTS:
            painted.texts += 1
        elif operator == "ID":
            painted.pictures += 1
        elif operator == "sh":
            painted.left_out["shading"] = painted.left_out.get("shading", 0) + 1

    def _change(self, operator: str, operands: list[Operand], numbers: list[float]) -> None:
        """Save, bring back or change the graphics state."""
        state = self.state
        match operator:
            case "q":
                if len(self.saved) < MAX_SAVED:
                    self.saved.append(state)
            case "Q":
                if self.saved:
                    self.state = self.saved.pop()
            case "cm" if len(numbers) == 6:
                self.state = replace(state, affine=state.affine.after(Affine(*numbers)))
            case "w" if numbers:
                self.state = replace(state, look=replace(state.look, width=abs(numbers[-1])))
            case "d":
                dash = next((one for one in operands if isinstance(one, tuple)), ())
                self.state = replace(state, look=replace(state.look, dash=_dashes(dash)))

    def _parameters(self, width: float | None, dash: tuple[float, ...] | None) -> None:
        look = self.state.look
        if width is not None:
            look = replace(look, width=width)
        if dash is not None:
            look = replace(look, dash=_dashes(dash))
        self.state = replace(self.state, look=look)

    def _begin_mark(self, operands: list[Operand]) -> None:
        names = [one for one in operands if isinstance(one, str)]
        layer = self.resources.layer(names[1]) if names[:1] == ["/OC"] and len(names) > 1 else None
        if len(self.marks) < MAX_SAVED:
            self.marks.append(layer)

    def _colour(self, operator: str, name: str, numbers: list[float]) -> None:
        line = operator.isupper()
        spots = list(self.state.spots)
        if operator.lower() == "cs":
            spots[0 if line else 1] = self.resources.spot(name)
            colour = "#000000"
        else:
            if operator.lower() not in {"sc", "scn"}:
                spots[0 if line else 1] = ""
            colour = colour_of(numbers, tint=bool(spots[0 if line else 1]))
        self.state = replace(self.state, spots=(spots[0], spots[1]))
        if line:
            self.state = replace(self.state, look=replace(self.state.look, colour=colour))
        else:
            self.state = replace(self.state, face=colour)

    def _draw(self, name: str) -> None:
        form = self.resources.form(name)
        if form is None:
            self.painted.pictures += 1
            return
        if self.depth >= MAX_DEPTH:
            raise PaintError("it draws forms inside forms without end")
        state = replace(self.state, affine=self.state.affine.after(form.matrix))
        if form.box is not None:
            left, low, right, high = form.box
            corners = [(left, low), (right, low), (right, high), (left, high)]
            points = [state.affine.point(corner) for corner in corners]
            xs, ys = [x for x, _ in points], [y for _, y in points]
            state = replace(state, clip=_common(state.clip, (min(xs), min(ys), max(xs), max(ys))))
        inner = _Painter(self.painted, form.resources, state, self.depth + 1)
        inner.marks = [*self.marks, form.layer or None]
        inner.run(form.content)


_PATHS = {"m": 2, "l": 2, "c": 6, "v": 4, "y": 4, "h": 0, "re": 4}
_STATES = {"q", "Q", "cm", "w", "d"}
_TEXTS = {"Tj", "TJ", "'", '"'}
_COLOURS = {"G", "g", "RG", "rg", "K", "k", "CS", "cs", "SC", "sc", "SCN", "scn"}


def _scale(affine: Affine) -> float:
    """By how much lengths grow, on the average of all directions."""
    return sqrt(abs(affine.a * affine.d - affine.b * affine.c))


def _dashes(lengths: Sequence[float]) -> tuple[float, ...]:
    return tuple(lengths) if any(length > 0 for length in lengths) else ()


def _common(first: LineBox | None, second: LineBox) -> LineBox:
    if first is None:
        return second
    return (
        max(first[0], second[0]),
        max(first[1], second[1]),
        min(first[2], second[2]),
        min(first[3], second[3]),
    )


def colour_of(numbers: Sequence[float], *, tint: bool = False) -> str:
    """#rrggbb of one number of grey, three of light or four of ink, each from 0 to 1.

    From ink after ISO 32000-1:2008, 10.3.5: red is 1 - cyan - black, and so on. A `tint` counts
    the other way round: 1 is full ink.
    """
    match len(numbers):
        case 1:
            parts = [1 - numbers[0] if tint else numbers[0]] * 3
        case 3:
            parts = list(numbers)
        case 4:
            parts = [1 - min(1.0, ink + numbers[3]) for ink in numbers[:3]]
        case _:
            parts = [0.0, 0.0, 0.0]
    return "#" + "".join(f"{round(255 * min(1.0, max(0.0, part))):02x}" for part in parts)
