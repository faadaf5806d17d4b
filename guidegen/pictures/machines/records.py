"""What cutters, plotters and lasers are told: lines on layers, in mm, y upward."""

from dataclasses import dataclass
from enum import StrEnum

from guidegen.geometry.outline.records import Run
from guidegen.words import msg

LASER_NOTE = msg(
    "Never cut PVC or vinyl, or a foam that may hold it, with a laser: it gives off chlorine and "
    "hydrogen chloride, which are toxic and corrosive. Ask the foam's supplier what it is made "
    "of, read its safety data sheet and the laser's manual, use extraction, and never leave a "
    "laser alone."
)
"""Common practice, no source."""


class Layer(StrEnum):
    """Names of layers in machine files; each line lies on exactly one."""

    CUT = "cut"
    """Outlines and holes."""
    SCORE = "score"
    """Folds and engravings on the face."""
    GROOVE = "groove-on-back"
    """Middle lines of V-grooves on the back: not for this side."""
    MARK = "mark"
    """Match marks."""
    GUIDE = "guide"
    """Placements, centre lines, glue lines, texture rims: to draw with a pen, not to cut."""
    BEVEL = "bevel"
    """Where slanted edges end on the smaller face."""
    LABEL = "label"
    """Codes of pieces."""


@dataclass(frozen=True, slots=True)
class MachineLine:
    """A run on its layer."""

    layer: Layer
    run: Run
    closed: bool


@dataclass(frozen=True, slots=True)
class MachineLabel:
    """A piece's code at a point inside it."""

    words: str
    x: float
    y: float
    size: float
    """mm; letter size."""


@dataclass(frozen=True, slots=True)
class MachineDrawing:
    """One piece, or one foam sheet of a cut plan, in true size; its lower left is the origin."""

    title: str
    width: float
    height: float
    lines: tuple[MachineLine, ...]
    labels: tuple[MachineLabel, ...]
