"""What every drawing must keep, read back from its SVG text."""

import re
from dataclasses import dataclass
from math import cos, radians, sin
from xml.etree import ElementTree

from guidegen.pictures.pen.lettering import LEAST, text_width

SVG = "{http://www.w3.org/2000/svg}"
DRAWN = {"path", "rect", "circle", "text"}


@dataclass(frozen=True)
class Lettering:
    """One text with the box that it takes, y downward."""

    words: str
    size: float
    left: float
    top: float
    right: float
    bottom: float


def parse(svg: str) -> ElementTree.Element:
    """The root of a drawing. Raises where it is not well-formed."""
    return ElementTree.fromstring(svg)  # noqa: S314 - our own drawing


def elements(svg: str, tag: str, css: str = "") -> list[ElementTree.Element]:
    """Elements of one kind, and of one class where given."""
    found = parse(svg).iter(SVG + tag)
    return [e for e in found if not css or css in e.get("class", "").split()]


def words(svg: str) -> list[str]:
    """All that is written in a drawing, in order."""
    return [e.text or "" for e in elements(svg, "text")]


def description(svg: str) -> str:
    """The text alternative."""
    found = parse(svg).find(SVG + "desc")
    return (found.text or "") if found is not None else ""


def path_points(data: str) -> list[tuple[float, float]]:
    """End points of a path's commands, in drawing coordinates."""
    points: list[tuple[float, float]] = []
    for command, numbers in re.findall(r"([MLCAZl])([^MLCAZl]*)", data):
        values = [float(n) for n in re.findall(r"-?\d*\.?\d+", numbers)]
        if command in "ML":
            points.append((values[0], values[1]))
        elif command == "l":
            for right, down in zip(values[::2], values[1::2], strict=True):
                points.append((points[-1][0] + right, points[-1][1] + down))
        elif command in "CA":
            points.append((values[-2], values[-1]))
    return points


def lettering(svg: str) -> list[Lettering]:
    """Every text with its box, turned where it is turned."""
    found = []
    for element in elements(svg, "text"):
        size = float(element.get("font-size", "0"))
        weight = int(element.get("font-weight", "400"))
        text = element.text or ""
        width = text_width(text, size, weight)
        x, y = float(element.get("x", "0")), float(element.get("y", "0"))
        start = {"middle": -width / 2, "end": -width}.get(element.get("text-anchor", ""), 0.0)
        corners = [
            (start, 0.0),
            (start + width, 0.0),
            (start, -0.7 * size),
            (start + width, -0.7 * size),
        ]
        turn = re.match(r"rotate\((-?[\d.]+)", element.get("transform", ""))
        angle = radians(float(turn[1])) if turn else 0.0
        turned = [
            (x + a * cos(angle) - b * sin(angle), y + a * sin(angle) + b * cos(angle))
            for a, b in corners
        ]
        xs, ys = [a for a, _ in turned], [b for _, b in turned]
        found.append(Lettering(text, size, min(xs), min(ys), max(xs), max(ys)))
    return found


def check_drawing(svg: str) -> None:
    """Well-formed, named, described; every mark has a class; lettering is large and inside."""
    root = parse(svg)
    title = root.find(SVG + "title")
    assert title is not None and title.text
    assert description(svg)
    for element in root.iter():
        if element.tag.removeprefix(SVG) in DRAWN:
            assert element.get("class"), ElementTree.tostring(element)[:120]
    _, _, width, height = (float(n) for n in root.get("viewBox", "").split())
    assert (
        root.get("width") == f"{width:g}mm"
        or abs(float((root.get("width") or "0mm")[:-2]) - width) < 1e-3
    )
    for x, y in marks(root):
        assert -0.6 <= x <= width + 0.6 and -0.6 <= y <= height + 0.6, (x, y)
    for item in lettering(svg):
        assert item.size >= LEAST, item
        assert item.left >= -0.05 and item.right <= width + 0.05, (item, width)
        assert item.top >= -0.05 and item.bottom <= height + 0.05, (item, height)


def marks(root: ElementTree.Element) -> list[tuple[float, float]]:
    """Ends of lines and corners of boxes, in drawing coordinates."""
    found = [p for e in root.iter(SVG + "path") for p in path_points(e.get("d", ""))]
    for element in root.iter(SVG + "rect"):
        x, y, width, height = (float(element.get(n, "0")) for n in ("x", "y", "width", "height"))
        found += [(x, y), (x + width, y + height)]
    return found


def ids(svg: str) -> list[str]:
    """All ids of a drawing."""
    return [e.get("id", "") for e in parse(svg).iter() if e.get("id")]
