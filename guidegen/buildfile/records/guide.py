"""guide.yaml: one build, from measurements to the last step."""

from enum import StrEnum
from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.fastening import Fastening, Fit, Points, Strap
from guidegen.buildfile.records.meanings import (
    DrawingFile,
    EdgeRef,
    ForAuthor,
    LongProse,
    MaterialRef,
    PartRef,
    Prose,
    ProseLine,
    SheetRef,
    SizeRef,
    StepRef,
    Translated,
    Verbatim,
)
from guidegen.buildfile.records.steps import (
    Picture,
    Sequence,
    SequenceUse,
    Stage,
    Step,
    StepRepeat,
    Trouble,
    Use,
    Video,
    Waiver,
)
from guidegen.buildfile.records.stock import Rate
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.buildfile.yaml.fields import (
    Date,
    Id,
    Model,
    Quantity,
    SizeId,
    ValueName,
)

__all__ = [
    "Allowance", "AllowanceKind", "Bevel", "Change", "EdgeSpan", "GradeRule", "Groove", "Guide",
    "Hand", "Layer", "Measurement", "Part", "Picture", "Placement", "Question", "Scale", "Seam",
    "Sequence", "SequenceUse", "Spread", "Stack", "Stage", "Step", "StepRepeat", "Suppression",
    "Trouble", "Use", "Video", "Waiver",
]  # fmt: skip


class Measurement(Model):
    """A girth or length of the wearer."""

    name: Translated
    """Term for readers, after ISO 8559-1 where it has one."""
    take: Prose
    """How to take it, for someone who never has."""
    least: Quantity | None = None
    """mm; smaller values are questioned."""
    most: Quantity | None = None
    """mm; larger values are questioned."""
    leads: bool = False
    """True where the size is chosen by it: a size smaller than this does not close."""

    def limits(self) -> tuple[float | None, float | None]:
        """mm between which it is plausible; None where there is no limit or it has no value."""
        found: list[float | None] = []
        for quantity in (self.least, self.most):
            try:
                found.append(quantity.value({}) if quantity is not None else None)
            except ExpressionError:
                found.append(None)
        return found[0], found[1]


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
    """degrees from square; 45 on both strips makes a square corner."""
    direction: Literal["inward", "outward"]
    """inward: the inner face ends smaller; outward: the outer face ends smaller."""


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


class Part(Model):
    """One shape with its material, count and hand."""

    name: Translated
    """For readers."""
    label: Verbatim
    """Short code written on the template and on the foam, such as A1."""
    material: SheetRef
    """Sheet material in stock.yaml."""
    shape: Id
    """A computed shape, or 'drawing'."""
    dimensions: dict[Id, Quantity] = Field(default_factory=dict)
    """Measures of a computed shape."""
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
    """Edge that lies on the fold: the template is one half. 'centre' for computed shapes."""
    hand: Hand = Hand.ONE
    """one, or pair."""
    copies: Quantity = Field(default=1, validate_default=True)
    """How many to cut (of each hand)."""
    spare: Quantity = Field(default=0, validate_default=True)
    """How many more to cut in case some are lost."""
    allowances: dict[Id, Allowance] = Field(default_factory=dict)
    """Extra foam by edge."""
    bevels: dict[Id, Bevel] = Field(default_factory=dict)
    """Bevels by edge."""
    grooves: tuple[Groove, ...] = Field((), max_length=100)
    """V-grooves on the back."""
    splits: tuple[Split, ...] = Field((), max_length=4)
    """Where it may be cut in sections, in the order in which lines are taken; only in sizes in
    which it fits on no sheet, and no more lines than it needs."""
    placements: tuple[Placement, ...] = ()
    """Other parts that are laid on this one."""
    points: dict[Id, Points] = Field(default_factory=dict, max_length=40)
    """Rows of holes, rivets, studs, slots and snaps."""
    formed: bool | None = None
    """True where it keeps a curve that a step must give it, false where it holds one without; left
    out, computed shapes that go around something are formed, and plates and drawings are not."""
    flexes: bool = False
    """True where it bends while it is worn: only flexible glue and coats hold there."""
    texture: Translated | None = None
    """What texture the face gets, in words; the area is hatched."""
    note: Translated | None = None
    """One line printed beside the template."""


class Seam(Model):
    """Two edges that are joined."""

    join: tuple[EdgeRef, EdgeRef]
    """The edges, each as part.edge."""
    marks: int | None = Field(None, ge=0, le=20)
    """How many match marks; by default as many as leave at most 100 mm between them."""
    mark_spacing: Quantity | None = None
    """mm between match marks at most, in place of how many."""
    tolerance: Quantity | None = None
    """mm by which the lengths may differ; by default 1."""
    ease: Quantity = Field(default=0, validate_default=True)
    """mm by which the first edge is meant to be longer."""

    @model_validator(mode="after")
    def _one_way_to_mark(self) -> Self:
        if self.marks is not None and self.mark_spacing is not None:
            raise ValueError("give marks or mark-spacing, not both")
        return self


class Layer(Model):
    """One part in a layer stack."""

    part: PartRef
    note: Translated | None = None
    """What it is for."""


class Stack(Model):
    """Pieces glued over one another, from the body outward."""

    name: Translated
    layers: tuple[Layer, ...] = Field(min_length=2)
    backing: Quantity = Field(default=0, validate_default=True)
    """mm of padding under the first layer."""


class Change(Model):
    """One entry of the change log."""

    version: Verbatim
    date: Date
    """ISO 8601 date."""
    text: ProseLine
    parts: tuple[PartRef, ...] = ()
    """Parts whose templates must be printed again."""


class Question(Model):
    """A question that readers ask, and its answer."""

    ask: Translated
    answer: Prose


class Suppression(Model):
    """A warning or advice of proof that the author has weighed."""

    code: Id
    """Code of the finding, such as order-rule; errors cannot be suppressed."""
    at: ForAuthor | None = None
    """Where, as proof writes it: parts.cuff with all below it, or steps[3]; else everywhere."""
    reason: ForAuthor
    """Why it does not matter here."""


class Guide(Model):
    """guide.yaml: everything about one build."""

    title: Translated
    version: Verbatim
    date: Date
    """ISO 8601 date of this version."""
    author: Verbatim
    approved_by: Verbatim | None = None
    """Who checked it, for the title block."""
    licence: Verbatim
    """Name or SPDX id of the licence."""
    licence_words: Prose
    """What the licence allows, in plain words: copying, selling finished pieces, classes."""
    kind: Literal["wearable", "prop", "workshop"] = "wearable"
    summary: Translated
    """What it is, in one sentence."""
    overview: LongProse
    """What you will make, CommonMark."""
    level: Literal["first build", "some practice", "experienced"] = "first build"
    assumes: tuple[Translated, ...] = ()
    """Skills that the reader should have."""
    picture: Picture | None = None
    video: Video | None = None
    """The author's own video of the whole build."""
    measurements: dict[ValueName, Measurement] = Field(default_factory=dict)
    sizes: dict[SizeId, dict[ValueName, Quantity]] = Field(default_factory=dict, max_length=100)
    """Measurements in mm by size, smallest first; none for a fixed size."""
    drawn_for: SizeId | None = None
    """The size that the drawings fit: its measurements are drawn_… in arithmetic."""
    values: dict[ValueName, Quantity] = Field(default_factory=dict, max_length=2000)
    """Named results that other arithmetic may use, in any order."""
    parts: dict[Id, Part] = Field(min_length=1, max_length=1000)
    rates: dict[MaterialRef, Rate] = Field(default_factory=dict, max_length=200)
    """How far materials go in this guide, in place of their rates in stock.yaml."""
    seams: dict[Id, Seam] = Field(default_factory=dict)
    stacks: dict[Id, Stack] = Field(default_factory=dict)
    sequences: dict[Id, Sequence] = Field(default_factory=dict, max_length=200)
    """Steps that are written once and used by several parts."""
    fastenings: dict[Id, Fastening] = Field(default_factory=dict, max_length=100)
    """Rows of points and the fasteners that close them."""
    straps: dict[Id, Strap] = Field(default_factory=dict, max_length=100)
    """Straps, elastics and hangers, each a chain from place to place."""
    fits: dict[Id, Fit] = Field(default_factory=dict, max_length=200)
    """What must fit in every size."""
    steps: tuple[Step, ...] = Field(min_length=1)
    """In an order that works; same-as repeats one, sequence puts in several."""
    wearing: LongProse | None = None
    """Putting on, fitting, heat, sight, taking off, carrying: CommonMark."""
    care: LongProse | None = None
    """Cleaning, repair, storing, transport: CommonMark."""
    questions: tuple[Question, ...] = ()
    changes: tuple[Change, ...] = ()
    credits: tuple[Translated, ...] = ()
    suppress: tuple[Suppression, ...] = Field((), max_length=200)
    """Warnings and advice of proof that do not matter here."""
