"""guide.yaml: one build, from measurements to the last step."""

from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.constructions.circuits import Circuit
from guidegen.buildfile.records.constructions.harness import Harness
from guidegen.buildfile.records.constructions.linkages import Linkage
from guidegen.buildfile.records.constructions.sewing import Casing
from guidegen.buildfile.records.fastening import Fastening, Fit, Strap
from guidegen.buildfile.records.materials import Rate
from guidegen.buildfile.records.meanings import (
    Attribution,
    EdgeRef,
    ForAuthor,
    LivingNote,
    LivingProse,
    LongProse,
    MaterialRef,
    PartRef,
    Prose,
    ProseLine,
    SizeRef,
    StepRef,
    Translated,
    Verbatim,
)
from guidegen.buildfile.records.part import (
    Allowance,
    AllowanceKind,
    Bevel,
    BodyPlace,
    EdgeSpan,
    FaceLine,
    FaceRing,
    Facing,
    GradeRule,
    Groove,
    Hand,
    Part,
    Placement,
    Scale,
    Split,
    Spread,
    Stands,
    Worn,
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
from guidegen.buildfile.records.strips import Strip
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
    "Allowance", "AllowanceKind", "Bevel", "BodyPlace", "Change", "EdgeSpan", "FaceLine",
    "FaceRing", "FaceSlot", "Facing",
    "Formerly", "GradeRule", "Groove", "Guide", "Hand", "Layer", "Measurement", "Part",
    "Picture", "Placement", "Question", "Scale", "Seam", "Sequence", "SequenceUse", "Split",
    "Spread", "Stack", "Stage", "Stands", "Step", "StepRepeat", "Suppression", "Trouble", "Use",
    "Video", "Waiver", "Worn",
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


class MadeToMeasure(Model):
    """How far templates made to a reader's measurements may go."""

    offered: bool = True
    """false keeps the guide's page from making them; `guidegen fit` still does."""
    within_sizes: tuple[PartRef, ...] = Field((), max_length=1000)
    """Parts that may not be graded far: a body beyond the smallest or largest size is
    questioned."""


class FaceSlot(Model):
    """A slot through a face, in which an edge of another part stands."""

    fit: Quantity = Field(default=0, validate_default=True)
    """mm by which it is wider than the foam in it; less than 0 clamps."""
    through: Quantity | None = None
    """mm of the edge that go into it; by default as much as the face's foam is thick."""


class Seam(Model):
    """Two edges that are joined, or an edge that stands on a face."""

    join: tuple[EdgeRef, EdgeRef]
    """The edges, each as part.edge; or an edge, and a line on whose face it stands."""
    angle: Quantity | None = None
    """degrees between the inner faces of both, 90 for a square corner: both edges get the bevels
    that it asks for. Of an edge on a face: between its inner face and the face below, 90 upright,
    which it has if left out; its foot gets the bevel."""
    flush: Literal["both", "inside", "middle", "outside"] | None = None
    """How foam of two thicknesses meets: both faces without a step, where the angle allows it; else
    which face, or the middle, has none. The step left on the other face is told."""
    slot: FaceSlot | None = None
    """Cut through the face, for an edge that stands in it."""
    flipped: bool | None = None
    """true where one of the two pieces is turned over, or of the other hand, so that both edges run
    the same way; false says that they run opposite ways as drawn, and proof does not ask again."""
    corners: tuple[Id, Id] | None = None
    """A corner of each edge that meet: as the drawing or the neighbouring edge is called."""
    marks: int | None = Field(None, ge=0, le=20)
    """How many match marks; by default as many as leave at most 100 mm between them."""
    mark_spacing: Quantity | None = None
    """mm between match marks at most, in place of how many."""
    tolerance: Quantity | None = None
    """mm by which the lengths may differ; by default 1."""
    ease: Quantity = Field(default=0, validate_default=True)
    """mm by which the first edge is meant to be longer."""
    gathers: Quantity | None = None
    """How many times longer than the second the first edge is: it is gathered to fit."""

    @model_validator(mode="after")
    def _one_way_to_mark(self) -> Self:
        if self.marks is not None and self.mark_spacing is not None:
            raise ValueError("give marks or mark-spacing, not both")
        if self.gathers is not None and str(self.ease) != "0":
            raise ValueError("give ease or gathers, not both")
        return self


class Layer(Model):
    """One part in a layer stack."""

    part: PartRef
    """Which part lies there."""
    note: LivingNote | None = None
    """What it is for."""


class Curve(Model):
    """How a stack is bent: what lies farther out has the longer way round."""

    radius: Quantity | None = None
    """mm from the middle of the bend to the body, or to what else lies under the backing."""
    girth: Quantity | None = None
    """mm round the body there, in place of the radius."""
    along: Literal["width", "height"] = "width"
    """Which side of the parts goes round the bend."""
    lengthens: bool = True
    """True: outer layers are cut so much longer, windows and all that is on them alike. False: they
    are cut as drawn, and proof tells by how much they end short."""

    @model_validator(mode="after")
    def _one_size(self) -> Self:
        if (self.radius is None) == (self.girth is None):
            raise ValueError("expected either radius or girth")
        return self


class Stack(Model):
    """Pieces glued over one another, from the body outward."""

    name: Translated
    """For readers."""
    layers: tuple[Layer, ...] = Field(min_length=2)
    """From the base outwards."""
    backing: Quantity = Field(default=0, validate_default=True)
    """mm of padding under the first layer."""
    curve: Curve | None = None
    """How it is bent; the first layer keeps its size."""


class Change(Model):
    """One entry of the change log."""

    version: Verbatim
    """The version that has it."""
    date: Date
    """ISO 8601 date."""
    text: ProseLine
    """What changed, for readers."""
    parts: tuple[PartRef, ...] = ()
    """Parts whose templates must be printed again."""


class Formerly(Model):
    """Names that were published once: their addresses stay alive, on paper and in links."""

    guides: tuple[Id, ...] = Field((), max_length=40)
    """What the guide's folder was called; also guides that went into this one."""
    sizes: dict[SizeId, SizeRef] = Field(default_factory=dict, max_length=100)
    """Former name of a size, and the size that it is now."""
    steps: dict[Id, StepRef] = Field(default_factory=dict, max_length=400)
    """Former id of a step, and the step that it is now or went into."""


class Question(Model):
    """A question that readers ask, and its answer."""

    ask: Translated
    """In the words of a reader."""
    answer: LivingProse
    """For readers."""


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
    """Name of the guide."""
    version: Verbatim
    """Of the guide: 1.0, 1.1, 2.0."""
    date: Date
    """ISO 8601 date of this version."""
    author: Attribution
    """Who made it."""
    approved_by: Attribution | None = None
    """Who checked it, for the title block."""
    licence: Verbatim
    """Name or SPDX id of the licence."""
    licence_words: Prose
    """What the licence allows, in plain words: copying, selling finished pieces, classes."""
    kind: Literal["wearable", "prop", "workshop"] = "wearable"
    """wearable, prop or workshop piece: it decides which checks a guide must pass."""
    summary: Translated
    """What it is, in one sentence."""
    overview: LongProse
    """What you will make, CommonMark."""
    level: Literal["first build", "some practice", "experienced"] = "first build"
    """For whom it is."""
    assumes: tuple[Translated, ...] = ()
    """Skills that the reader should have."""
    picture: Picture | None = None
    """A photo of the finished thing."""
    video: Video | None = None
    """The author's own video of the whole build."""
    measurements: dict[ValueName, Measurement] = Field(default_factory=dict)
    """Measurements of the body or the thing by name, in the order in which they are taken."""
    sides: dict[ValueName, tuple[ValueName, ValueName]] = Field(default_factory=dict, max_length=40)
    """A name for two measurements, of the left and of the right side: forearm stands for
    forearm_left on left pieces, for forearm_right on right ones, and for the larger elsewhere."""
    sizes: dict[SizeId, dict[ValueName, Quantity]] = Field(default_factory=dict, max_length=100)
    """Measurements in mm by size, smallest first; none for a fixed size."""
    made_to_measure: MadeToMeasure = Field(default_factory=MadeToMeasure)
    """How far templates made to a reader's measurements may go."""
    drawn_for: SizeId | None = None
    """The size that the drawings fit: its measurements are drawn_… in arithmetic."""
    values: dict[ValueName, Quantity] = Field(default_factory=dict, max_length=2000)
    """Named results that other arithmetic may use, in any order."""
    parts: dict[Id, Part] = Field(min_length=1, max_length=1000)
    """The pieces by id."""
    rates: dict[MaterialRef, Rate] = Field(default_factory=dict, max_length=200)
    """How far materials go in this guide, in place of their rates in stock.yaml."""
    seams: dict[Id, Seam] = Field(default_factory=dict)
    """Edges that meet, by id."""
    stacks: dict[Id, Stack] = Field(default_factory=dict)
    """Parts that lie on one another, by id."""
    sequences: dict[Id, Sequence] = Field(default_factory=dict, max_length=200)
    """Steps that are written once and used by several parts."""
    fastenings: dict[Id, Fastening] = Field(default_factory=dict, max_length=100)
    """Rows of points and the fasteners that close them."""
    straps: dict[Id, Strap] = Field(default_factory=dict, max_length=100)
    """Straps, elastics and hangers, each a chain from place to place."""
    strips: dict[Id, Strip] = Field(default_factory=dict, max_length=100)
    """Strips of tape, felt and padding, cut from rolls to the parts they lie on."""
    linkages: dict[Id, Linkage] = Field(default_factory=dict, max_length=100)
    """Plates in rows that turn or slide on one another."""
    casings: dict[Id, Casing] = Field(default_factory=dict, max_length=100)
    """Edges of cloth that are folded over elastic or cord."""
    circuits: dict[Id, Circuit] = Field(default_factory=dict, max_length=40)
    """Small light circuits."""
    harnesses: dict[Id, Harness] = Field(default_factory=dict, max_length=40)
    """Straps over the body that cross and branch, with what hangs on them."""
    fits: dict[Id, Fit] = Field(default_factory=dict, max_length=200)
    """What must fit in every size."""
    steps: tuple[Step, ...] = Field(min_length=1)
    """In an order that works; same-as repeats one, sequence puts in several."""
    wearing: LongProse | None = None
    """Putting on, fitting, heat, sight, taking off, carrying: CommonMark."""
    care: LongProse | None = None
    """Cleaning, repair, storing, transport: CommonMark."""
    questions: tuple[Question, ...] = ()
    """Questions that readers ask, with answers."""
    changes: tuple[Change, ...] = ()
    """What each version changed."""
    formerly: Formerly = Field(default_factory=Formerly)
    """Former names of the guide, its sizes and its steps."""
    credits: tuple[Translated, ...] = ()
    """Whom to thank, and for what."""
    still_open: tuple[ForAuthor, ...] = Field((), max_length=200)
    """What is still to be written: press and proof refuse the guide until nothing is left."""
    suppress: tuple[Suppression, ...] = Field((), max_length=200)
    """Warnings and advice of proof that do not matter here."""
