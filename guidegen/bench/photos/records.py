"""What a trace is asked for, and what it makes."""

from dataclasses import dataclass
from enum import StrEnum

from guidegen.bench.photos.arrays import Array, Pixels
from guidegen.bench.photos.fitting.whole import Fitted


class What(StrEnum):
    """What a template is."""

    ANY = "any"
    """Whichever it looks like."""
    CARD = "card"
    """Cut out: an edge on another ground."""
    PEN = "pen"
    """Drawn: a closed line on paper."""


@dataclass(frozen=True, slots=True)
class TemplatePhoto:
    """A photo that was unpacked."""

    name: str
    """As the author would type it."""
    pixels: Pixels


@dataclass(frozen=True, slots=True)
class Asked:
    """How photos are to be read."""

    what: What = What.ANY
    thick: float = 0.0
    """mm of the template: its upper edge is nearer to the camera than the strips are."""
    ruler: float = 200.0
    """mm that the line on a printed strip measures."""


@dataclass(frozen=True, slots=True)
class Trust:
    """How far the outline may be off, and why."""

    camera: float
    """mm: twice the standard deviation of what camera and strips leave open, at its worst."""
    edge: float
    """mm from a quarter to three quarters of the way from dark to bright."""
    fit: float
    """mm: root mean square between measured places and the segments."""
    worst: float
    """mm: the largest of these, away from corners."""
    strips_px: float
    """px: root mean square at the corners of markers."""
    detail: float
    """px that a mm has in the photo, on average."""
    total: float
    """mm: within this the outline lies, as far as a photo can tell."""


@dataclass(frozen=True, slots=True)
class Trace:
    """An outline with all that is in it, in mm, its lower left at the margin."""

    outline: Fitted
    holes: tuple[Fitted, ...]
    marks: tuple[Fitted, ...]
    what: What
    trust: Trust
    photo: Pixels
    """What the drawing shows, from above."""
    whiskers: tuple[Array, ...]
    """For places along the outline: where it is, and where it was measured."""
    size: tuple[float, float]
    """mm: width and height of drawing and photo."""
    strips: tuple[int, ...]
    """Numbers of the strips that were read, from 1."""
    notes: tuple[str, ...] = ()
    """What an author should look at."""
