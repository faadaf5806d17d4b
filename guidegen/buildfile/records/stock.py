"""What guides of one site share: materials, tools, processes, cautions, rules of order."""

from typing import Literal

from pydantic import Field

from guidegen.buildfile.records.materials import Material
from guidegen.buildfile.records.meanings import (
    CautionRef,
    CodeText,
    ForAuthor,
    Prose,
    ToolRef,
    Translated,
)
from guidegen.buildfile.records.motions import Motion
from guidegen.buildfile.records.musts import Makes, Must, OrderRule
from guidegen.buildfile.records.safety.cautions import Caution, RoomNeed
from guidegen.buildfile.records.steps import Sequence, Stage
from guidegen.buildfile.yaml.fields import Duration, Id, Model


class Tool(Model):
    """Something that is used and kept."""

    name: Translated
    """Without a brand."""
    also: tuple[Translated, ...] = Field((), max_length=12)
    """Other words for it, such as "respirator" for a mask: readers find it by them."""
    spoken: tuple[ForAuthor, ...] = Field((), max_length=60)
    """What people call it when they talk, for worksheets of talks; things may share a word."""
    protective: bool = False
    """True for protective equipment."""
    sign: CodeText | None = None
    """ISO 7010 code of protective equipment."""
    shared_by: int = Field(1, ge=1, le=100)
    """How many people of a class can share one."""
    turns: bool = False
    """True where one person keeps it through a whole step: those who share it take turns."""
    room: tuple[RoomNeed, ...] = ()
    """What a room must have for it; for workshops."""
    holds: float | None = Field(None, gt=0, le=1000)
    """ml of a liquid that stay in one when a step is over: in a brush, a cup, a nozzle. Bought for
    each of them, so for as many as a class uses."""
    cautions: tuple[CautionRef, ...] = ()
    """Hazards that come with it."""
    alternative: Translated | None = None
    """What else would do, in words."""
    note: Prose | None = None
    """What matters when choosing."""


class Process(Model):
    """A kind of work, with what it needs and brings."""

    name: Translated
    """Such as 'Heat forming'."""
    also: tuple[Translated, ...] = Field((), max_length=12)
    """Other words for it, such as "respirator" for a mask: readers find it by them."""
    spoken: tuple[ForAuthor, ...] = Field((), max_length=60)
    """What people call it when they talk, for worksheets of talks; things may share a word."""
    how: Prose
    """The way to do it, for someone who never has."""
    cautions: tuple[CautionRef, ...] = ()
    """Hazards that come with it."""
    tools: tuple[ToolRef, ...] = ()
    """Tools that it always needs."""
    wait: Duration = Field(default=0, validate_default=True)
    """Time in which the work must be left afterwards."""
    from_middle: bool = False
    """True where seams are joined from their middle mark outward: each needs one."""
    motion: Motion | None = None
    """What hands do in it: drawings of its steps show that where it happens."""
    cuts: bool = False
    """True where pieces come into being: before it there is only a sheet."""
    makes: tuple[Makes, ...] = ()
    """What it gives the parts it works on; proof tells parts that need it and never get it."""


class Term(Model):
    """A word of the trade and its meaning."""

    term: Translated
    """As it stands in texts."""
    meaning: Translated
    """In a sentence."""


class Stock(Model):
    """stock.yaml: what the guides of a site share."""

    extends: Literal["trade"] | None = None
    """trade: guidegen's own stock lies under this one, and what stands here comes on top. An entry
    of the same name changes its keys one by one; an empty key takes the shipped one away."""
    materials: dict[Id, Material] = Field(default_factory=dict)
    """By id."""
    tools: dict[Id, Tool] = Field(default_factory=dict)
    """By id."""
    processes: dict[Id, Process] = Field(default_factory=dict)
    """By id."""
    cautions: dict[Id, Caution] = Field(default_factory=dict)
    """By id."""
    rules: tuple[OrderRule, ...] = Field((), max_length=1000)
    """Order of processes on one part, and what never shares a room."""
    musts: tuple[Must, ...] = Field((), max_length=1000)
    """Work that must be there."""
    sequences: dict[Id, Sequence] = Field(default_factory=dict, max_length=200)
    """Steps that are written once and used by parts of any guide."""
    stages: dict[Stage, Translated] = Field(default_factory=dict)
    """What stages are called on this site, where their own names do not fit: gluing: Sewing."""
    terms: dict[Id, Term] = Field(default_factory=dict)
    """Glossary, by id."""
