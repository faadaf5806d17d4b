"""Rules that say what must be there, and in which order: work of a guide or a part."""

from enum import StrEnum
from typing import Literal

from pydantic import Field

from guidegen.buildfile.records.meanings import ForAuthor, MaterialRef, ProcessRef, WorkRef
from guidegen.buildfile.yaml.fields import Duration, Model


class Makes(StrEnum):
    """What a kind of work gives a part."""

    TEXTURE = "texture"
    """A pattern in its face."""
    BEVEL = "bevel"
    """Edges that are not square."""
    GROOVE = "groove"
    """V-grooves in its back."""
    FORM = "form"
    """A curve that stays."""
    TRIM = "trim"
    """Its finished length: what was left on to trim comes off."""
    PLEAT = "pleat"
    """Pleats and darts, folded and held."""
    GATHER = "gather"
    """Cloth that is drawn up on long stitches."""
    LETTER = "letter"
    """Letters and emblems on its face."""
    JOIN = "join"
    """A hold on other parts, or on what holds it."""


class Must(Model):
    """Work that a guide must have."""

    need: tuple[ProcessRef, ...] = Field(min_length=1, max_length=40)
    """One of these kinds of work must be there."""
    when: tuple[ProcessRef, ...] = Field((), max_length=40)
    """Only where one of these is; without it and without `uses` always."""
    uses: tuple[MaterialRef, ...] = Field((), max_length=40)
    """Only where a step uses one of these."""
    kinds: tuple[Literal["wearable", "prop", "workshop"], ...] = ()
    """Only in guides of these kinds; none means all."""
    on: Literal["guide", "part", "step"] = "guide"
    """guide: anywhere in the guide; part: on every part that sees `when`; step: before every step
    that does or uses it, on one of its parts at least."""
    after: tuple[ProcessRef, ...] = Field((), max_length=40)
    """In the guide, it must stand behind a step of one of these, where there are any; on a part,
    behind the step that makes the rule count."""
    before: tuple[ProcessRef, ...] = Field((), max_length=40)
    """In the guide, it must stand before the first step of one of these."""
    level: Literal["stop", "warn", "none"] = "warn"
    """stop: a guide without it is not published; warn: the author is told; none: it does not count,
    where a rule of guidegen's own stock is not wanted."""
    reason: ForAuthor
    """Why, for the author."""
    source: ForAuthor = "common practice, no source"
    """Where the rule comes from."""


class OrderRule(Model):
    """Two kinds of work on one part, or in one room, and how they must follow each other."""

    first: WorkRef
    """Process that comes before."""
    then: WorkRef
    """Process that comes after."""
    by: Literal["process", "caution"] = "process"
    """caution: both names are cautions, and mean every step whose tools or materials bring them."""
    wait: Duration = Field(default=0, validate_default=True)
    """Least time from the end of the first to the start of the second."""
    apart: bool = False
    """True where both may not share a room, whatever the part: never in one step, and the second
    not before the wait is over. Which comes first is then free."""
    level: Literal["stop", "warn", "none"] = "stop"
    """stop: a guide that breaks it is not published; warn: the author is told; none: it does not
    count, where a rule of guidegen's own stock is not wanted."""
    reason: ForAuthor
    """Why, for the author."""
    source: ForAuthor = "common practice, no source"
    """Where the rule comes from."""
