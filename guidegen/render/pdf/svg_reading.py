"""Drawings that pictures.canvas wrote in → plain paths, texts and groups out, in mm, y downward.

Reads back what our own canvas writes: absolute M, L, C, A and Z, rectangles, circles, level clip
rectangles, and words with a size, an anchor and a turn. It is not a reader of SVG at large.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from math import atan2, ceil, cos, hypot, pi, sin, sqrt, tan
from xml.etree import ElementTree

type Pair = tuple[float, float]
type Step = tuple[str, tuple[Pair, ...]]
"""'M', 'L', 'C' or 'Z' with its points."""

ARC_ERROR = 0.002
"""mm; how far the Bézier curves that stand for an arc may leave it. Our choice: a twenty-fifth of
what is promised for printed outlines."""

_TOKENS = re.compile(r"[MLCAZ]|-?[0-9.]+(?:e-?[0-9]+)?")
_ROTATE = re.compile(r"rotate\((-?[0-9.]+)")
_CLIP = re.compile(r"url\(#([^)]+)\)")
_SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True, slots=True)
class Paint:
    """How a shape is painted; empty colours are not painted."""

    stroke: str = ""
    width: float = 0.0
    dash: tuple[float, ...] = ()
    cap: str = "butt"
    fill: str = ""
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class PathItem:
    """A path with its paint."""

    steps: tuple[Step, ...]
    paint: Paint


@dataclass(frozen=True, slots=True)
class TextItem:
    """One line of words on its base line."""

    at: Pair
    words: str
    size: float
    weight: int
    anchor: str
    angle: float
    """degrees, clockwise, since y runs downward."""
    colour: str


@dataclass(slots=True)
class GroupItem:
    """Things that belong together."""

    items: list["Item"] = field(default_factory=list)
    clip: tuple[float, float, float, float] | None = None
    """Left, top, width, height of what is shown; None shows all."""
    layer: str = ""
    """Name of the layer that switches it; empty for none."""
    shows: str = ""
    """What a click on it shows; empty where it is no switch."""


type Item = PathItem | TextItem | GroupItem


@dataclass(frozen=True, slots=True)
class Drawing:
    """A whole page."""

    width: float
    height: float
    """mm."""
    root: GroupItem
    title: str


def read_drawing(svg: str) -> Drawing:
    """A page from its SVG text."""
    # Our own canvas wrote it and escaped every word in it: no entities can be in there.
    root = ElementTree.fromstring(svg)  # noqa: S314 - our own canvas wrote it
    clips = {
        clip.get("id", ""): _rectangle(clip[0])
        for clip in root.iter(f"{_SVG}clipPath")
        if len(clip)
    }
    group = GroupItem()
    for child in root:
        _read(child, group, clips)
    title = root.findtext(f"{_SVG}title") or ""
    return Drawing(_length(root, "width"), _length(root, "height"), group, title)


def _length(root: ElementTree.Element, name: str) -> float:
    return float(root.get(name, "0mm").removesuffix("mm"))


def _rectangle(node: ElementTree.Element) -> tuple[float, float, float, float]:
    x, y, width, height = (float(node.get(name, "0")) for name in ("x", "y", "width", "height"))
    return (x, y, width, height)


def _read(
    node: ElementTree.Element,
    group: GroupItem,
    clips: dict[str, tuple[float, float, float, float]],
) -> None:
    match node.tag.removeprefix(_SVG):
        case "g":
            found = _CLIP.search(node.get("clip-path", ""))
            inner = GroupItem(
                clip=clips.get(found[1]) if found else None,
                layer=node.get("data-layer", ""),
                shows=node.get("data-show", ""),
            )
            for child in node:
                _read(child, inner, clips)
            group.items.append(inner)
        case "path":
            steps = tuple(read_path(node.get("d", "")))
            group.items.append(PathItem(steps, _paint(node)))
        case "rect":
            x, y, width, height = _rectangle(node)
            corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
            box: list[Step] = [("M", corners[:1]), *(("L", (at,)) for at in corners[1:]), ("Z", ())]
            group.items.append(PathItem(tuple(box), _paint(node)))
        case "circle":
            centre = (float(node.get("cx", "0")), float(node.get("cy", "0")))
            radius = float(node.get("r", "0"))
            start = (centre[0] + radius, centre[1])
            ring: list[Step] = [("M", (start,)), *_sweep(centre, radius, 0, 2 * pi), ("Z", ())]
            group.items.append(PathItem(tuple(ring), _paint(node)))
        case "text":
            group.items.append(_text(node))


def _paint(node: ElementTree.Element) -> Paint:
    fill, stroke = node.get("fill", "none"), node.get("stroke", "none")
    return Paint(
        stroke="" if stroke == "none" else stroke,
        width=float(node.get("stroke-width", "1")),
        dash=tuple(float(length) for length in node.get("stroke-dasharray", "").split()),
        cap=node.get("stroke-linecap", "butt"),
        fill="" if fill == "none" else fill,
        opacity=float(node.get("fill-opacity", "1")),
    )


def _text(node: ElementTree.Element) -> TextItem:
    turn = _ROTATE.search(node.get("transform", ""))
    return TextItem(
        at=(float(node.get("x", "0")), float(node.get("y", "0"))),
        words="".join(node.itertext()),
        size=float(node.get("font-size", "0")),
        weight=int(node.get("font-weight", "400")),
        anchor=node.get("text-anchor", "start"),
        angle=float(turn[1]) if turn else 0.0,
        colour=node.get("fill", "#000000"),
    )


def read_path(data: str) -> Iterator[Step]:
    """Path data as steps; arcs become Bézier curves within ARC_ERROR."""
    tokens = iter(_TOKENS.findall(data))
    here = start = (0.0, 0.0)

    def pair() -> Pair:
        return (float(next(tokens)), float(next(tokens)))

    for token in tokens:
        match token:
            case "M":
                here = start = pair()
                yield "M", (here,)
            case "L":
                here = pair()
                yield "L", (here,)
            case "C":
                points = (pair(), pair(), pair())
                here = points[2]
                yield "C", points
            case "A":
                radius, _ = pair()
                next(tokens)
                large, sweep = next(tokens), next(tokens)
                end = pair()
                yield from _arc(here, end, radius, large == "1", sweep == "1")
                here = end
            case "Z":
                here = start
                yield "Z", ()
            case other:
                raise ValueError(f"unexpected {other!r} in path data")


def _arc(start: Pair, end: Pair, radius: float, large: bool, clockwise: bool) -> Iterator[Step]:
    """Centre of a circular arc from its ends, then its curves (SVG 2, appendix B.2.4)."""
    dx, dy = (end[0] - start[0]) / 2, (end[1] - start[1]) / 2
    half = hypot(dx, dy)
    if not half or not radius:
        yield "L", (end,)
        return
    radius = max(radius, half)
    rise = sqrt(max(0.0, radius * radius - half * half)) / half
    side = 1.0 if large == clockwise else -1.0
    centre = (start[0] + dx + side * rise * dy, start[1] + dy - side * rise * dx)
    first = atan2(start[1] - centre[1], start[0] - centre[0])
    turn = atan2(end[1] - centre[1], end[0] - centre[0]) - first
    if clockwise and turn < 0:
        turn += 2 * pi
    elif not clockwise and turn > 0:
        turn -= 2 * pi
    curves = list(_sweep(centre, radius, first, turn))
    # The end is written as it stands, so that the next segment meets it exactly.
    last = curves[-1][1]
    yield from curves[:-1]
    yield "C", (last[0], last[1], end)


def _sweep(centre: Pair, radius: float, first: float, turn: float) -> Iterator[Step]:
    """An arc as Bézier curves; the error of one over an angle a is about r * a**6 / 13500."""
    step = min(pi / 2, (13500 * ARC_ERROR / radius) ** (1 / 6))
    count = max(1, ceil(abs(turn) / step))
    part = turn / count
    reach = 4 / 3 * tan(part / 4) * radius
    for number in range(count):
        a, b = first + part * number, first + part * (number + 1)
        p0 = (centre[0] + radius * cos(a), centre[1] + radius * sin(a))
        p3 = (centre[0] + radius * cos(b), centre[1] + radius * sin(b))
        yield (
            "C",
            (
                (p0[0] - reach * sin(a), p0[1] + reach * cos(a)),
                (p3[0] + reach * sin(b), p3[1] - reach * cos(b)),
                p3,
            ),
        )


def find_switches(group: GroupItem) -> Iterator[tuple[str, tuple[Pair, Pair]]]:
    """What each switch shows, with the upper left and lower right corner of its first shape."""
    for item in group.items:
        if not isinstance(item, GroupItem):
            continue
        first = next((one for one in item.items if isinstance(one, PathItem)), None)
        if item.shows and first:
            points = [point for _, points in first.steps for point in points]
            xs, ys = [x for x, _ in points], [y for _, y in points]
            yield item.shows, ((min(xs), min(ys)), (max(xs), max(ys)))
        yield from find_switches(item)
