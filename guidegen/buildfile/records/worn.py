"""How the finished thing is worn or stands: what a part sits on, how high, which way it faces."""

from enum import StrEnum

from pydantic import Field

from guidegen.buildfile.records.meanings import PartRef
from guidegen.buildfile.yaml.fields import Id, Model, Quantity


class BodyPlace(StrEnum):
    """Part of the body that a part of the build sits on."""

    HEAD = "head"
    NECK = "neck"
    CHEST = "chest"
    BACK = "back"
    SHOULDER = "shoulder"
    UPPER_ARM = "upper-arm"
    FOREARM = "forearm"
    HAND = "hand"
    WAIST = "waist"
    HIP = "hip"
    THIGH = "thigh"
    KNEE = "knee"
    SHIN = "shin"
    INSTEP = "instep"


class Facing(StrEnum):
    """Which way the middle of a part looks; left and right are the wearer's."""

    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"
    OUTSIDE = "outside"
    """Away from the middle of the body: left on the left side."""
    INSIDE = "inside"


class Worn(Model):
    """What of a body a part sits on. A pair sits on both sides; a single one on the left."""

    on: BodyPlace
    up: Quantity = Field(default=0, validate_default=True)
    """mm by which it sits higher than by itself."""
    aside: Quantity = Field(default=0, validate_default=True)
    """mm round the body from where it would sit by itself, to the right as seen from outside."""
    faces: Facing | None = None
    """Where its middle looks; by itself to the front, to the back on the back, outward on limbs."""
    off: Quantity | None = None
    """mm between the body and the foam; by itself its backing, or that of its stack, or 5."""
    pitch: Quantity | None = None
    """mm from middle to middle of several copies, in a row round the body."""


class Stands(Model):
    """What a part stands or lies on. One that others go under may leave everything out."""

    on: PartRef | None = None
    """The part under it; the ground without one."""
    at: tuple[Quantity, Quantity] = Field(default=(0, 0), validate_default=True)
    """mm right and up from the middle of that part."""
    along: Id | None = None
    """Edge of that part along which it lies, flush with it, as a strip at a hem."""
    leans: Quantity = Field(default=0, validate_default=True)
    """degrees from lying flat on it: 90 stands upright on its lower edge."""
    turned: Quantity = Field(default=0, validate_default=True)
    """degrees, counter-clockwise, as seen from above or outside."""
    up: Quantity = Field(default=0, validate_default=True)
    """mm by which it stands higher, on what is not drawn, or lower."""
    behind: bool = False
    """True where it lies behind that part, as a pane behind a window."""
