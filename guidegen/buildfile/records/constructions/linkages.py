"""Plates in a row that move on one another: knees, elbows, fingers, lames."""

from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.meanings import Asking, MaterialRef, RowRef, Translated
from guidegen.buildfile.yaml.fields import Id, Model, Quantity


class LinkEnd(Model):
    """One of two neighbouring plates: where it is held, and the edge that laps."""

    row: RowRef
    """Its row of points: the two pivots at its sides, the slots, or the rivets of the straps."""
    edge: Id
    """Its edge that laps over or under the other plate."""


class LinkJoint(Model):
    """Two neighbouring plates of a row."""

    first: LinkEnd
    """The plate nearer to the beginning of the row."""
    second: LinkEnd
    """The next one."""
    outer: Literal["first", "second"] = "second"
    """Which of the two lies outside."""


class Linkage(Model):
    """Plates in a row that turn about pivots, slide in slots or hang on straps.

    They are as drawn at rest. They open where less of them overlaps, as outside on a knee that is
    bent, and close where more does.
    """

    name: Translated
    """For readers."""
    joints: tuple[LinkJoint, ...] = Field(min_length=1, max_length=40)
    """Neighbours, from the beginning of the row to its end."""
    opens: Asking
    """How far the whole row must open from rest: degrees about pivots, else mm."""
    closes: Asking = "0"
    """How far it must close from rest: degrees about pivots, else mm."""
    least: Quantity = Field(default=5, validate_default=True)
    """mm that two plates still overlap at the least where the row is open."""
    clearance: Quantity = Field(default=1, validate_default=True)
    """mm of air between two plates."""
    wraps: Quantity = Field(default=180, validate_default=True)
    """degrees that a plate goes round the limb, from pivot to pivot."""
    profile: Literal["round", "straight"] = "straight"
    """Seen from the side: round plates are domed about their pivots and slide along one another;
    the edges of straight ones are pushed up where they turn."""
    gives: Quantity = Field(default=5, validate_default=True)
    """mm by which the foam of a straight plate may be pushed up at its edge."""
    strap: MaterialRef | None = None
    """Webbing or elastic inside, on which the plates are riveted; none where they turn about
    pivots or slide in slots."""
    overlap: Quantity | None = None
    """mm that two plates overlap at rest; only with a strap, for pivots and slots say it."""
    holds: Quantity = Field(default=25, validate_default=True)
    """mm of the strap beyond its first and its last rivet."""

    @model_validator(mode="after")
    def _one_hold(self) -> Self:
        if (self.strap is None) != (self.overlap is None):
            raise ValueError('"overlap" goes with "strap": on a strap it says how plates lie')
        return self
