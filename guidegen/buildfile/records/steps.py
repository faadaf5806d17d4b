"""Steps of a guide: what is done, with what, how long; repeats and sequences of steps."""

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, model_validator

from guidegen.buildfile.records.constructions.things import Bead
from guidegen.buildfile.records.meanings import (
    CasingRef,
    CautionRef,
    CircuitRef,
    FasteningRef,
    ForAuthor,
    HarnessRef,
    JointRef,
    LinkageRef,
    LivingLine,
    LivingNote,
    LivingProse,
    MaterialRef,
    OutsideCode,
    PartRef,
    PictureFile,
    ProcessRef,
    RowRef,
    SeamRef,
    StackRef,
    StepRef,
    StrapRef,
    StripRef,
    ToolRef,
    Translated,
)
from guidegen.buildfile.records.musts import Makes
from guidegen.buildfile.yaml.fields import Duration, Id, Line, Model, Quantity


class Use(Model):
    """How much of a material a step takes.

    Exactly one of glue, cover, along, sew, cut, length, count, amount, at, circuit and bead.
    """

    material: MaterialRef
    """Which material of stock.yaml."""
    glue: tuple[JointRef, ...] = ()
    """Seams and layer stacks whose faces are coated, both of each."""
    cover: tuple[PartRef, ...] = ()
    """Parts whose outer faces are coated, sanded or covered."""
    along: tuple[JointRef, ...] = ()
    """Seams, and layer stacks around whose upper layers a bead or tape is laid."""
    sew: tuple[JointRef, ...] = ()
    """Seams, and layer stacks round whose upper layers is sewn: thread, counted by its stitches."""
    stitch: Quantity = Field(default=3, validate_default=True)
    """mm from one stitch to the next, where it is sewn."""
    rows: int = Field(1, ge=1, le=12)
    """Rows of stitches side by side, where it is sewn."""
    strands: Literal[1, 2] = 2
    """Threads of each row: 2 by machine, 1 by hand."""
    cut: tuple[PartRef, ...] = ()
    """Parts whose outlines and holes are cut, for blades."""
    coats: int = Field(1, ge=1, le=12)
    """Coats on what is covered."""
    length: Quantity | None = None
    """mm of one cut length."""
    pieces: Quantity | None = None
    """How many of that length; 1 by default."""
    count: Quantity | None = None
    """How many pieces of a counted thing."""
    amount: Quantity | None = None
    """ml of a liquid."""
    at: tuple[RowRef, ...] = Field((), max_length=100)
    """Rows of points on each of which one sits: counted with the points of all worn pieces."""
    circuit: CircuitRef | None = None
    """Circuit that it belongs to: as many as that has of it."""
    bead: Bead | None = None
    """A bead along edges or seams: its volume, and with the density its weight."""
    tints: MaterialRef | None = None
    """A material of the same step into which it is mixed: what that covers takes this colour."""
    note: LivingNote | None = None
    """What it is for."""
    counted: bool = True
    """False where an earlier step has counted the amount: it is at hand again."""

    @model_validator(mode="after")
    def _one_basis(self) -> "Use":
        lists = (self.glue, self.cover, self.along, self.sew, self.cut, self.at)
        given = [bool(names) for names in lists]
        single = (self.length, self.count, self.amount, self.circuit, self.bead)
        given += [value is not None for value in single]
        if sum(given) != 1:
            raise ValueError(
                "expected exactly one of glue, cover, along, sew, cut, length, count, amount, at, "
                "circuit or bead"
            )
        return self


class Stage(StrEnum):
    """Stages of a build, in their usual order."""

    PREPARING = "preparing"
    CUTTING = "cutting"
    TEXTURING = "texturing"
    FORMING = "forming"
    GLUING = "gluing"
    DETAILING = "detailing"
    SEALING = "sealing"
    PAINTING = "painting"
    STRAPPING = "strapping"
    FITTING = "fitting"
    CARE = "care"


class Trouble(Model):
    """What often goes wrong, and its cure."""

    sign: LivingLine
    """How one notices."""
    cure: LivingLine
    """What to do."""


class Picture(Model):
    """A picture file with its text alternative."""

    file: PictureFile
    """PNG, JPEG, WebP or SVG in the guide's folder."""
    alt: Translated
    """What it shows, for readers who cannot see it."""
    caption: Translated | None = None
    """Words under it."""


class Video(Model):
    """A place in a video of the author's own."""

    address: str = Field(pattern=r"^https://[^\s<>\"#]+$", max_length=300)
    """Where the video is, with https:// and without a mark (#) at the end."""
    at: str | None = Field(None, pattern=r"^([0-9]{1,2}:)?[0-9]{1,2}:[0-5][0-9]$")
    """Where in it to begin: minutes and seconds, such as 3:20, or 1:02:05."""

    @property
    def link(self) -> str:
        """The address with the time in seconds: Media Fragments URI 1.0 (W3C, 2012), 4.2.1."""
        if self.at is None:
            return self.address
        seconds = 0
        for part in self.at.split(":"):
            seconds = seconds * 60 + int(part)
        return f"{self.address}#t={seconds}"


class Waiver(Model):
    """A caution that does not apply here, with the reason."""

    caution: CautionRef
    """Caution of stock.yaml that does not apply here."""
    reason: Translated
    """Why not, in a sentence."""


class HeardLine(Model):
    """A line of the talk from which a worksheet was made."""

    at: str = Field(pattern=r"^([0-9]{1,3}:)?[0-9]{1,2}:[0-5][0-9]$")
    """Where in the talk: minutes and seconds, such as 3:20, or 1:02:05."""
    said: ForAuthor
    """What is said there; readers never see it."""
    open: bool = False
    """True while nobody has dealt with it: press and proof refuse the guide."""
    which: tuple[Id, ...] = Field((), max_length=100)
    """Things of the stock that its words may mean, where they do not say which: the likeliest
    first."""


class Step(Model):
    """One action."""

    id: Id
    """Stays the same for ever: links and readers' ticks hang on it."""
    title: Translated
    """What is done, as a command: 'Glue the cuff seam'."""
    stage: Stage
    """Stage of the work; all of a stage stand together."""
    process: ProcessRef | None = None
    """Kind of work, in stock.yaml."""
    makes: tuple[Makes, ...] = ()
    """What it gives its parts beside what its kind of work gives, such as trim in a dry fit."""
    parts: tuple[PartRef, ...] = ()
    """Parts that are worked on."""
    needs: tuple[StepRef, ...] = ()
    """Steps that must be finished before, where the parts do not tell."""
    tools: tuple[ToolRef, ...] = ()
    """Tools beside those of the process."""
    fastens: tuple[FasteningRef, ...] = ()
    """Fastenings that it closes: their fasteners are counted here."""
    straps: tuple[StrapRef, ...] = ()
    """Straps that it cuts and fits: webbing and closures are counted here."""
    strips: tuple[StripRef, ...] = ()
    """Strips of tape, felt or padding that it cuts and lays on."""
    linkages: tuple[LinkageRef, ...] = ()
    """Rows of plates that it joins so that they move: their straps are counted here."""
    casings: tuple[CasingRef, ...] = ()
    """Casings that it sews and threads: their elastic and cord are counted here."""
    harnesses: tuple[HarnessRef, ...] = ()
    """Harnesses that it cuts and sews: their straps, rings and sliders are counted here."""
    uses: tuple[Use, ...] = ()
    """Materials that are used up here."""
    seams: tuple[SeamRef, ...] = ()
    """Seams that are joined here."""
    stacks: tuple[StackRef, ...] = ()
    """Layer stacks that are joined here."""
    text: LivingProse
    """The instruction, CommonMark."""
    time: Duration
    """Hands-on time."""
    wait: Duration | None = None
    """Time to leave it afterwards; by default that of the process."""
    hands: int = Field(1, ge=1, le=4)
    """People needed at once."""
    again: Translated | None = None
    """Name of a second pass (a repair, another coat), which may stand after what follows it."""
    beforehand: bool = False
    """True where the leader of a class does it before the class comes together."""
    for_each: Literal["kit", "size"] = "kit"
    """In a class: once for each kit, or once for each set of templates, such as their printing."""
    difficulty: Literal["easy", "medium", "hard"] = "easy"
    """How hard it is, compared with others."""
    check: LivingLine | None = None
    """How to know that it is right."""
    trouble: tuple[Trouble, ...] = ()
    """What may go wrong, and the cure."""
    picture: Picture | None = None
    """A photo of the step."""
    video: Video | None = None
    """Where the author's own video shows this step."""
    cautions: tuple[CautionRef, ...] = ()
    """Cautions beside those of tools, materials and process."""
    waive: tuple[Waiver, ...] = ()
    """Cautions that do not apply, each with its reason."""
    heard: tuple[HeardLine, ...] = Field((), max_length=6000)
    """Lines of the talk that it comes from, in a worksheet."""


def _names(value: object) -> object:
    """One name stands for a list of one."""
    return value if isinstance(value, list | tuple) else (value,)


Names = Annotated[
    tuple[Id, ...],
    Field(min_length=1, max_length=40),
    BeforeValidator(_names, json_schema_input_type=Id | tuple[Id, ...]),
]
"""One id, or several."""

Words = Annotated[
    tuple[Annotated[Line, OutsideCode()], ...],
    Field(min_length=1, max_length=40),
    BeforeValidator(_names, json_schema_input_type=float | Line | tuple[float | Line, ...]),
]
"""One id, number or formula, or several."""


class StepRepeat(Model):
    """An entry of `steps`: the same as an earlier step, with other parts, on the other side."""

    same_as: StepRef
    """Id of the step that is done again."""
    id: Id
    """Of this step; stays the same for ever."""
    title: Translated | None = None
    """By default 'Do the same for the …'."""
    swap: dict[Id, Names] = Field(alias="with", default_factory=dict)
    """Parts, seams, layer stacks and steps that take the place of those of the earlier step."""
    times: int = Field(1, ge=1, le=100)
    """How many times more it is done."""
    needs: tuple[StepRef, ...] = ()
    """Steps that must be finished before, beside those of the earlier step."""
    text: LivingProse | None = None
    """By default a line that sends to the earlier step and counts."""
    time: Duration | None = None
    """Hands-on time; by default that of the earlier step, as often as it is done."""
    wait: Duration | None = None
    """By default that of the earlier step."""
    check: LivingLine | None = None
    """By default that of the earlier step."""


Thickness = Annotated[float, Field(ge=0, le=1000)]
"""mm of a sheet."""


class PartsFound(Model):
    """Which parts of a guide a name of a sequence stands for: all that meet every one of these."""

    about: ForAuthor
    """What they are, for the author."""
    made_of: tuple[Literal["foam", "card", "cloth", "wood", "film"], ...] = ()
    """Cut from a material of one of these; none means any."""
    thick: Thickness = Field(default=0, validate_default=True)
    """mm: of a material at least so thick."""
    thin: Thickness | None = None
    """mm: of a material thinner than this."""
    hand: Literal["one", "pair"] | None = None
    """Cut once as drawn, or as a pair of left and right."""
    on_fold: bool | None = None
    """true: templates of a half, to flip along the fold; false: whole templates."""
    wants: tuple[Makes, ...] = ()
    """That need one of these: bevels, grooves, a curve, a texture, a length to trim."""
    done_by: tuple[ProcessRef, ...] = Field((), max_length=40)
    """That a step of the guide works on by one of these kinds of work."""


class StepChange(Model):
    """What one use of a sequence says otherwise in one of its steps."""

    title: Translated | None = None
    """In place of its title."""
    text: LivingProse | None = None
    """In place of its text."""
    more: LivingProse | None = None
    """A paragraph after its text: what is special about these pieces."""
    time: Duration | None = None
    """Hands-on time in all."""
    wait: Duration | None = None
    """Time to leave it afterwards."""
    check: LivingLine | None = None
    """How to know that it is right."""
    picture: Picture | None = None
    """A photo of the step."""


class Sequence(Model):
    """Steps that are written once, with names that stand for the pieces of each use."""

    about: ForAuthor
    """What the steps do, for the author."""
    takes: dict[Id, ForAuthor] = Field(default_factory=dict)
    """Names that stand for parts, seams, stacks, materials or numbers, and what each one is.

    In lists of a step they stand alone, in words in curly brackets: 'Glue the {base}'.
    """
    finds: dict[Id, PartsFound] = Field(default_factory=dict, max_length=40)
    """Names that stand for parts of the guide which are found by themselves. A step whose parts are
    found nowhere is left out, and so is a paragraph that speaks of them."""
    time_each: dict[Id, Duration] = Field(default_factory=dict, max_length=40)
    """Hands-on time for each part of a step, by the id of the step, beside its own time."""
    steps: tuple[Step, ...] = Field(min_length=1, max_length=40)
    """Ids are written behind the id of the use: left-plate and coat make left-plate-coat."""


class SequenceUse(Model):
    """An entry of `steps`: the steps of a sequence, for these pieces."""

    sequence: Id
    """Which sequence, of this guide or of stock.yaml."""
    id: Id
    """Begins the ids of the steps."""
    swap: dict[Id, Words] = Field(alias="with", default_factory=dict)
    """What stands for each name that the sequence takes, or in place of what it finds."""
    without: tuple[Id, ...] = Field((), max_length=40)
    """Steps of the sequence that are left out."""
    steps: dict[Id, StepChange] = Field(default_factory=dict, max_length=40)
    """What is said otherwise here, by the id of the step in the sequence."""
    needs: tuple[StepRef, ...] = ()
    """Steps that must be finished before the first one."""
