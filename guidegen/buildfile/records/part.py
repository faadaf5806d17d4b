"""One part of a build file: its shape, its material, and what is done to its edges and face."""

from enum import StrEnum
from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.constructions.inscriptions import Inscription
from guidegen.buildfile.records.constructions.sewing import Dart, Pleat
from guidegen.buildfile.records.fastening import PointLine, Points
from guidegen.buildfile.records.meanings import (
    DrawingFile,
    LivingNote,
    MaterialRef,
    PartRef,
    SheetRef,
    SizeRef,
    StepRef,
    StrapRef,
    Translated,
    Verbatim,
)
from guidegen.buildfile.yaml.fields import Id, Model, Quantity


class Hand(StrEnum):
    """How a part relates to the two sides of a body."""

    ONE = "one"
    """Cut as drawn."""
    PAIR = "pair"
    """Cut once as drawn (left) and once mirrored (right)."""


class AllowanceKind(StrEnum):
    """Why an edge is longer than the finished one."""

    SEAM = "seam"
    OVERLAP = "overlap"
    TRIM = "trim"


class Allowance(Model):
    """Extra foam along an edge."""

    kind: AllowanceKind
    """Its purpose."""
    width: Quantity
    """mm, outside the finished line."""


class Bevel(Model):
    """An edge that is not cut square."""

    angle: Quantity
    """degrees from square; 45 on both strips makes a square corner. With `to`, at the edge's start;
    less than 0 the other way round."""
    to: Quantity | None = None
    """degrees from square at the edge's end, where the bevel turns evenly from one to the other."""
    direction: Literal["inward", "outward"]
    """inward: the inner face ends smaller, and the edge is undercut; outward: the outer face ends
    smaller."""


class Groove(Model):
    """A V cut into the back, to fold there."""

    fold: Quantity
    """degrees that the foam will turn."""
    floor: Quantity = Field(default=2, validate_default=True)
    """mm of foam left under the cut."""
    at: Quantity = Field(default=0, validate_default=True)
    """mm from the middle of the piece, across the groove."""
    angle: Quantity = Field(default=0, validate_default=True)
    """degrees of the groove's line from level."""


class FaceRing(Model):
    """A circle on the face of a part, on which the rim of a tube stands."""

    at: tuple[Quantity, Quantity] = Field(default=(0, 0), validate_default=True)
    """mm right and up from the middle of this part."""
    girth: Quantity
    """mm round it, at the middle of the foam that stands there: as long as the rim."""
    start: Quantity = Field(default=90, validate_default=True)
    """degrees from the right, counter-clockwise, where the rim begins and its closing seam stands;
    90 is above."""


class FaceLine(Model):
    """A line on the face of a part, on which an edge of another part stands."""

    line: PointLine | None = None
    """A straight line."""
    along: Id | None = None
    """An edge of this part that it follows, from that edge's start to its end."""
    inset: Quantity = Field(default=0, validate_default=True)
    """mm from that edge inward."""
    groove: int | None = Field(None, ge=1, le=100)
    """A V-groove of this part, by its number in the order of the build file."""
    ring: FaceRing | None = None
    """A circle on which a tube stands, such as a horn."""

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if sum(way is not None for way in (self.line, self.along, self.groove, self.ring)) != 1:
            raise ValueError("expected exactly one of line, along, groove and ring")
        return self


class Split(Model):
    """Where a piece that fits on no sheet of its material may be cut in two."""

    at: Quantity = Field(default=0, validate_default=True)
    """mm from the middle of the piece, across the line."""
    angle: Quantity = Field(default=0, validate_default=True)
    """degrees of the line from level."""
    step: StepRef
    """Step in which the sections are joined again, edge to edge."""
    glue: MaterialRef
    """Material that joins them; one that the step uses."""


class Placement(Model):
    """Where another part lies on this one: drawn as a placement line."""

    part: PartRef
    """The part that is laid on."""
    at: tuple[Quantity, Quantity] = Field(default=(0, 0), validate_default=True)
    """mm right and up from the middle of this part. With from-edge: mm to the right of the edge's
    middle, and mm free from the edge; with from-corner: mm free from its two edges; with along:
    the second is mm free from the edge."""
    from_edge: Id | None = None
    """Edge from which the place is measured: the part lies upright along it, also on a cone."""
    from_corner: tuple[Id, Id] | None = None
    """Two straight edges from which the place is measured."""
    along: Id | None = None
    """Edge along which a strip is bent, as a band along the rim of a tube."""
    angle: Quantity = Field(default=0, validate_default=True)
    """degrees, counter-clockwise."""
    overhang: Quantity | None = None
    """mm by which it is meant to stand over this part's edge; by default a layer on a bend may by
    4 per cent of its length."""

    @model_validator(mode="after")
    def _one_origin(self) -> Self:
        ways = (self.from_edge, self.from_corner, self.along)
        if sum(way is not None for way in ways) > 1:
            raise ValueError("expected at most one of from-edge, from-corner and along")
        return self


class EdgeSpan(Model):
    """A named edge of a drawn outline."""

    start: Id = Field(alias="from")
    """Corner where it begins, counter-clockwise."""
    end: Id = Field(alias="to")
    """Corner where it ends."""


class Spread(Model):
    """A line where a drawn template is cut and opened."""

    line: Id
    """Id of the spread line in the drawing."""
    opens: Quantity
    """mm that it opens in this size; negative closes."""
    hinge: Literal["none", "start", "end"] = "none"
    """none: opens by the same width all along; start or end: that end of the line stays shut."""


class GradeRule(Model):
    """How far one corner of a drawing moves in this size."""

    dx: Quantity = Field(default=0, validate_default=True)
    """mm to the right."""
    dy: Quantity = Field(default=0, validate_default=True)
    """mm upward."""


class Scale(Model):
    """Plain enlargement, the last resort of grading."""

    x: Quantity = Field(default=1, validate_default=True)
    """Factor across."""
    y: Quantity = Field(default=1, validate_default=True)
    """Factor upright."""


SHRINKS_TO = 0.4
"""Share of its drawn length that an edge keeps at least, unless the part says otherwise. Our
choice: neighbouring sizes differ by less than a tenth, five of them by less than half."""


class BodyPlace(StrEnum):
    """Part of the body that a part of the build sits on."""

    HEAD = "head"
    CROWN = "crown"
    """Over the head, from behind to the front."""
    NECK = "neck"
    CHEST = "chest"
    BACK = "back"
    SHOULDER = "shoulder"
    UPPER_ARM = "upper-arm"
    ELBOW = "elbow"
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
    """Place on the body."""
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
    strap: StrapRef | None = None
    """The strap over whose middle it lies, instead of a part, as a pad that a hand holds."""
    leans: Quantity = Field(default=0, validate_default=True)
    """degrees from lying flat on it: 90 stands upright on its lower edge."""
    turned: Quantity = Field(default=0, validate_default=True)
    """degrees, counter-clockwise, as seen from above or outside."""
    up: Quantity = Field(default=0, validate_default=True)
    """mm by which it stands higher, on what is not drawn, or lower."""
    behind: bool = False
    """True where it lies behind that part, as a pane behind a window."""


class Part(Model):
    """One shape with its material, count and hand."""

    name: Translated
    """For readers."""
    also: tuple[Translated, ...] = Field((), max_length=12)
    """Other words for it: readers find it by them."""
    label: Verbatim
    """Short code written on the template and on the foam, such as A1."""
    material: SheetRef
    """Sheet material in stock.yaml."""
    shape: Id
    """A computed shape, 'drawing', or 'lining'."""
    dimensions: dict[Id, Quantity] = Field(default_factory=dict)
    """Measures of a computed shape."""
    lining_of: PartRef | None = None
    """Part whose finished outline a lining takes, with its hand and its copies."""
    inset: Quantity = Field(default=0, validate_default=True)
    """mm by which a lining stays behind the edges of that part, all round."""
    drawing: DrawingFile | None = None
    """SVG file in the guide's folder, with #id where it holds several pieces."""
    drawing_per_size: dict[SizeRef, DrawingFile] = Field(default_factory=dict)
    """A drawing for each size, instead of grading."""
    edges: dict[Id, EdgeSpan] = Field(default_factory=dict)
    """Named edges of a drawing, between its corners."""
    spread: tuple[Spread, ...] = ()
    """Spread lines of a drawing."""
    grade: dict[Id, GradeRule] = Field(default_factory=dict)
    """Grade rules by corner of a drawing."""
    scale: Scale | None = None
    """Plain scaling of a drawing."""
    shrinks_to: float = Field(SHRINKS_TO, gt=0, le=1)
    """Share of its drawn length that each edge of a graded drawing keeps at least; what shrinks
    more is told as an error of grading."""
    on_fold: Id | None = None
    """Edge that lies on the fold: the template is one half. 'centre' for computed shapes; a lining
    takes the fold of the part that it lines."""
    hand: Hand = Hand.ONE
    """one, or pair; a lining takes it from the part that it lines."""
    copies: Quantity = Field(default=1, validate_default=True)
    """How many to cut (of each hand); of a lining as many as of its part, if left out."""
    spare: Quantity = Field(default=0, validate_default=True)
    """How many more to cut in case some are lost."""
    allowances: dict[Id, Allowance] = Field(default_factory=dict)
    """Extra foam by edge."""
    bevels: dict[Id, Bevel] = Field(default_factory=dict)
    """Bevels by edge."""
    grooves: tuple[Groove, ...] = Field((), max_length=100)
    """V-grooves on the back."""
    lines: dict[Id, FaceLine] = Field(default_factory=dict, max_length=40)
    """Lines on its face by name, on which edges of other parts stand; those that its drawing names
    need no entry."""
    splits: tuple[Split, ...] = Field((), max_length=4)
    """Where it may be cut in sections, in the order in which lines are taken; only in sizes in
    which it fits on no sheet, and no more lines than it needs."""
    pleats: tuple[Pleat, ...] = Field((), max_length=40)
    """Pleats of a cloth part, which is drawn as it is when they are folded."""
    darts: tuple[Dart, ...] = Field((), max_length=40)
    """Darts of a cloth part, which is drawn with the cloth that they take."""
    inscriptions: tuple[Inscription, ...] = Field((), max_length=40)
    """Words and emblems on its face."""
    placements: tuple[Placement, ...] = ()
    """Other parts that are laid on this one."""
    points: dict[Id, Points] = Field(default_factory=dict, max_length=40)
    """Rows of holes, rivets, studs, slots and snaps."""
    formed: bool | None = None
    """True where it keeps a curve that a step must give it, false where it holds one without; left
    out, computed shapes that go around something are formed, and plates and drawings are not."""
    flexes: bool = False
    """True where it bends while it is worn: only flexible glue and coats hold there."""
    worn: Worn | None = None
    """What of the body it sits on, where its dimensions and what it is joined to do not say so."""
    stands: Stands | None = None
    """What it stands or lies on, where neither a placement nor a body says so."""
    texture: Translated | None = None
    """What texture the face gets, in words; the area is hatched."""
    note: LivingNote | None = None
    """One line printed beside the template."""
