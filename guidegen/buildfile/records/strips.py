"""Goods that come in rolls of a width: tape, felt, padding, and what lies on a part of them."""

from typing import Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.meanings import Asking, EdgeRef, MaterialRef, PartRef, Translated
from guidegen.buildfile.yaml.fields import Model, Quantity


class Strip(Model):
    """Equal strips of one material, cut from its roll.

    They lie along edges, on the face of a part, or nowhere in particular.
    """

    name: Translated
    """For readers."""
    material: MaterialRef
    """Material that is sold by its length and has a `width`."""
    along: tuple[EdgeRef, ...] = ()
    """Edges that it follows, one strip for each on every piece that is worn. Of a template on the
    fold an edge means both its sides."""
    on: PartRef | None = None
    """Part on whose face it lies, where it follows no edge."""
    length: Asking | None = None
    """mm of one; by default as long as its edge, less both margins."""
    margin: Quantity = Field(default=0, validate_default=True)
    """mm that stay free at each end of an edge."""
    width: Asking | None = None
    """mm; by default as wide as the roll. A narrower one is cut lengthwise, as many side by side as
    the roll has room for."""
    each: Asking = "1"
    """How many for each edge, or on each piece; of a strip without a part, how many in all."""
    face: Asking | None = None
    """mm of the face across it, such as the thickness of a rim; by default the narrower side of
    the part."""
    air: Asking | None = None
    """mm between the faces between which it lies closed: hook-and-loop needs its thickness there,
    and does not close in much more."""

    @model_validator(mode="after")
    def _one_place(self) -> Self:
        if self.along and self.on is not None:
            raise ValueError('expected "along" or "on", not both')
        if not self.along and self.length is None:
            raise ValueError('a strip that follows no edge needs its "length"')
        return self
