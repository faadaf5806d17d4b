"""Pieces in mm in → an SVG drawing as guidegen and any editor read it.

Each piece is a group, and in it each layer or colour. Circles and arcs stay what they are.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from guidegen.bench.vectors.parts import FoundLine, FoundPart
from guidegen.geometry.drawing.records import Role
from guidegen.geometry.drawing.roles import plain_name
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Segment

MARGIN = 10.0
"""mm of page around all that is drawn."""
GAP = 20.0
"""mm between sheets of one file."""
DIGITS = 4
"""Decimals of a mm: rounding moves no point by more than 0.00005 mm."""


@dataclass(frozen=True, slots=True)
class NamedPiece:
    """A piece with the name that a build file finds it by."""

    name: str
    part: FoundPart
    shift: Point = (0.0, 0.0)
    """mm by which it is moved on the drawing."""


@dataclass(frozen=True, slots=True)
class ScaleLine:
    """A line whose true length the author has stated."""

    drawn: float
    """mm in the drawing."""
    length: float
    """mm in the world."""


def laid_out(sheets: Sequence[Sequence[FoundPart]]) -> list[NamedPiece]:
    """All pieces of a file with names, its sheets side by side."""
    named: list[NamedPiece] = []
    right, pieces, rests = 0.0, 0, 0
    for parts in sheets:
        if not parts:
            continue
        left = min(part.box[0] for part in parts)
        high = max(part.box[3] for part in parts)
        shift = (right - left, -high)
        for part in parts:
            pieces += part.has_outline
            rests += not part.has_outline
            name = f"piece-{pieces}" if part.has_outline else f"rest-{rests}"
            named.append(NamedPiece(name, part, shift))
        right += max(part.box[2] for part in parts) - left + GAP
    return named


def write_drawing(title: str, parts: Sequence[NamedPiece], scales: Sequence[ScaleLine]) -> str:
    """The SVG text; the same for the same input."""
    boxes = [(p.part.box, p.shift) for p in parts]
    left = min(box[0] + shift[0] for box, shift in boxes) - MARGIN
    low = min(box[1] + shift[1] for box, shift in boxes) - MARGIN
    right = max(box[2] + shift[0] for box, shift in boxes) + MARGIN
    high = max(box[3] + shift[1] for box, shift in boxes) + MARGIN
    # Below all else, a line of each length that was stated: reading measures it again.
    low -= GAP * len(scales)
    size = f'width="{_number(right - left)}mm" height="{_number(high - low)}mm"'
    view = f'viewBox="0 0 {_number(right - left)} {_number(high - low)}"'
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view}>',
        f"  <title>{escape(title)}</title>",
        '  <g fill="none" stroke-width="0.25">',
    ]
    for part in parts:
        origin = (left - part.shift[0], high - part.shift[1])
        lines += _part_lines(part, origin)
    for number, scale in enumerate(scales):
        lines.append(_scale_line(scale, high - low - MARGIN - GAP * number))
    return "\n".join([*lines, "  </g>", "</svg>", ""])


def _part_lines(part: NamedPiece, origin: Point) -> Iterator[str]:
    yield f"    <g id={quoteattr(part.name)}>"
    order = list(dict.fromkeys((one.name, one.role) for one in part.part.lines))
    ranked = sorted(part.part.lines, key=lambda one: order.index((one.name, one.role)))
    numbers: dict[str, int] = {}
    for (name, role), group in groupby(ranked, key=lambda one: (one.name, one.role)):
        members = list(group)
        stem = f"{part.name}-{plain_name(name) or 'lines'}"
        numbers[stem] = numbers.get(stem, 0) + 1
        ident = stem if numbers[stem] == 1 else f"{stem}-{numbers[stem]}"
        css = f' class="{role}"' if role is not Role.NONE else ""
        colour = quoteattr(members[0].colour)
        yield f"      <g id={quoteattr(ident)} data-name={quoteattr(name)}{css} stroke={colour}>"
        for line in members:
            yield f'        <path d="{path_data(line, origin)}"/>'
        yield "      </g>"
    yield "    </g>"


def _scale_line(scale: ScaleLine, y: float) -> str:
    length = f"{scale.length:.10g} mm"
    data = f"M{_number(MARGIN)},{_number(y)}H{_number(MARGIN + scale.drawn)}"
    return f'    <path class="scale" data-length="{length}" stroke="#808080" d="{data}"/>'


def _number(value: float) -> str:
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def path_data(line: FoundLine, origin: Point) -> str:
    """Path data of a line, y downward from `origin`, the upper left of the drawing in mm."""

    def at(point: Point) -> str:
        return f"{_number(point[0] - origin[0])},{_number(origin[1] - point[1])}"

    run = [part for segment in line.stroke.run for part in _halves(segment)]
    words = [f"M{at(segment_start(run[0]))}"]
    for number, segment in enumerate(run):
        match segment:
            case Line(end=end):
                # The last side of a closed line is drawn by closing it.
                if number < len(run) - 1 or not line.stroke.closed:
                    words.append(f"L{at(end)}")
            case Arc(radius=radius, sweep=sweep):
                turn = 0 if sweep > 0 else 1
                size = _number(radius)
                words.append(f"A{size},{size} 0 0 {turn} {at(segment_end(segment))}")
            case Cubic(control1=first, control2=second, end=end):
                words.append(f"C{at(first)} {at(second)} {at(end)}")
    return "".join(words) + ("Z" if line.stroke.closed else "")


def _halves(segment: Segment) -> Iterator[Segment]:
    """A segment; an arc of more than a third of a circle in parts, which rounding cannot spoil."""
    if not isinstance(segment, Arc) or abs(segment.sweep) <= 120:
        yield segment
        return
    count = 2 if abs(segment.sweep) <= 240 else 3
    sweep = segment.sweep / count
    for number in range(count):
        start = segment.start_angle + sweep * number
        yield Arc(segment.centre, segment.radius, start, sweep)
