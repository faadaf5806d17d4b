"""What a drawing holds: paths, words and groups in mm, y upward, ready for any writer.

Render turns a Drawing into SVG, PDF or DXF; nobody reads a written file back to learn what is in
it. Curves stay lines, arcs and cubics until a writer needs something else.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.geometry.outline.records import Point, Run

INK = "#1d2327"
"""Colour of lines and letters: near black, so that cheap printers use black alone."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a line is drawn."""

    width: float
    """mm on the drawing."""
    dash: tuple[float, ...] = ()
    """mm of dash, gap, dash, …; empty for a continuous line."""
    colour: str = INK
    cap: str = "butt"


@dataclass(frozen=True, slots=True)
class Path:
    """Runs as one shape; several rings make holes (even-odd rule)."""

    runs: tuple[Run, ...]
    stroke: Stroke | None
    fill: str = "none"
    opacity: float = 1.0
    """Of the fill."""
    closed: bool = False
    css: str = ""
    """Classes by which a theme recolours it on screen."""


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A level rectangle by its lower left corner; mm."""

    x: float
    y: float
    width: float
    height: float
    stroke: Stroke | None = None
    fill: str = "none"
    css: str = ""


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    centre: Point
    radius: float
    """mm."""
    stroke: Stroke | None = None
    fill: str = "none"
    css: str = ""


@dataclass(frozen=True, slots=True)
class Lettering:
    """One line of words on its base line."""

    at: Point
    words: str
    size: float
    """mm."""
    anchor: str = "start"
    """Which part of the words lies at `at`: 'start', 'middle' or 'end'."""
    angle: float = 0.0
    """degrees, counter-clockwise."""
    weight: int = 400
    colour: str = INK
    css: str = ""
    length: float | None = None
    """mm that the words give as a number alone (ISO 129-1), as rounded as it is written."""


@dataclass(frozen=True, slots=True)
class Group:
    """Things that belong together."""

    items: tuple["Item", ...]
    title: str = ""
    """Its name for readers."""
    css: str = ""
    id: str = ""
    """Unique among all drawings of a page; empty for none."""
    layer: str = ""
    """Layer of a file that can switch it; empty for what is always shown."""
    shows: str = ""
    """What a click on it shows; empty where it is no switch."""
    data: tuple[tuple[str, str], ...] = ()
    """Names and values for the scripts of a page, which move or name the group."""
    clip: Rectangle | None = None
    """What is seen of it; None shows all."""


type Item = Path | Rectangle | Circle | Lettering | Group


@dataclass(frozen=True, slots=True, eq=False, weakref_slot=True)
class Drawing:
    """A whole drawing, its lower left at the origin; one object is one drawing.

    Two drawings are not compared by what they hold, which would take as long as writing them:
    so a writer can keep what it wrote of each.
    """

    width: float
    """mm."""
    height: float
    """mm."""
    title: str
    """Its text alternative in a few words."""
    description: str
    """The rest of its text alternative; may be empty."""
    items: tuple[Item, ...]
    mirrored_page: bool = False
    """True where it stands among words that run from right to left."""


def groups(items: tuple[Item, ...]) -> Iterator[Group]:
    """All groups at any depth, outer ones first, in drawing order."""
    for item in items:
        if isinstance(item, Group):
            yield item
            yield from groups(item.items)


def letterings(items: tuple[Item, ...]) -> Iterator[Lettering]:
    """All words at any depth, in drawing order."""
    for item in items:
        if isinstance(item, Group):
            yield from letterings(item.items)
        elif isinstance(item, Lettering):
            yield item
