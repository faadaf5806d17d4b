"""Straps over the body that cross and branch, with what hangs on them."""

from typing import Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.meanings import Asking, MaterialRef, RowRef, Translated
from guidegen.buildfile.records.part import Worn
from guidegen.buildfile.yaml.fields import Id, Model, Quantity


class HarnessPlace(Model):
    """Where straps of a harness end, meet or cross. With neither row nor ring they are sewn on one
    another there."""

    name: Translated
    """For readers."""
    row: RowRef | None = None
    """Row of points of a part at which it is held: what hangs on the harness, or carries it."""
    ring: MaterialRef | None = None
    """Counted ring or buckle in which straps end."""
    holds: Quantity = Field(default=40, validate_default=True)
    """mm of each strap that ends here: what lies on the part, is turned through the ring and sewn,
    or lies on the strap that it branches off."""
    both: bool = False
    """Whether it is there on both sides of the body."""
    worn: Worn | None = None
    """Where on the body it lies, for pictures and for its lengths; a place on a row needs none."""

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        if self.row is not None and self.ring is not None:
            raise ValueError("expected row or ring, or neither where straps cross")
        return self


class HarnessStrap(Model):
    """One strap of a harness: a cut piece from its first place to its last."""

    name: Translated
    """For readers."""
    via: tuple[Id, ...] = Field(min_length=2, max_length=20)
    """Places of the harness, in order; those between are passed without a cut, and marked."""
    lengths: tuple[Asking, ...] = Field(min_length=1, max_length=19)
    """mm from each place to the next, over the body as it is worn."""
    material: MaterialRef | None = None
    """By default that of the harness."""
    takes_in: Quantity = Field(default=0, validate_default=True)
    """mm more, to let out: they lie behind the slider when it is tight."""
    slider: MaterialRef | None = None
    """What holds that."""
    both: bool = False
    """Whether there is one on each side of the body."""

    @model_validator(mode="after")
    def _length_for_each(self) -> Self:
        if len(self.lengths) != len(self.via) - 1:
            raise ValueError("expected a length from each place to the next: one less than places")
        if any(a == b for a, b in zip(self.via, self.via[1:], strict=False)):
            raise ValueError("a strap goes from one place to another")
        return self


class Harness(Model):
    """Straps that are worn over the body, cross and branch."""

    name: Translated
    """For readers."""
    material: MaterialRef
    """Webbing or elastic of its straps."""
    places: dict[Id, HarnessPlace] = Field(min_length=2, max_length=60)
    """Where straps end, meet and cross, by id."""
    straps: dict[Id, HarnessStrap] = Field(min_length=1, max_length=60)
    """Its straps by id, each a piece of its own: a branch begins at a place on another."""
