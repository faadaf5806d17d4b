"""What cloth is made narrower with: pleats, darts, casings for elastic and cord."""

from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.meanings import Asking, EdgeRef, MaterialRef, Translated
from guidegen.buildfile.yaml.fields import Id, Model, Quantity


class Pleat(Model):
    """Pleats along an edge. The part is drawn as it is when they are folded."""

    edge: Id
    """Edge across which they run, straight into the piece."""
    kind: Literal["knife", "box", "inverted"] = "knife"
    """knife: all fall one way; box: two meet underneath; inverted: two meet on top."""
    depth: Quantity
    """mm from a fold to the fold under it: a knife pleat takes twice as much cloth, others four
    times."""
    count: Quantity = Field(default=1, validate_default=True)
    """How many, evenly from margin to margin; a single one in the middle."""
    margin: Quantity = Field(default=0, validate_default=True)
    """mm from the beginning of the folded edge to the first."""
    margin_end: Quantity | None = None
    """mm from the last to its end; as at the beginning where it is not given."""
    toward: Literal["start", "end"] = "end"
    """Where knife pleats fall: to the beginning or the end of the edge, counter-clockwise."""


class Dart(Model):
    """A fold that ends in a point. The part is drawn with the cloth that it takes."""

    edge: Id
    """Edge at which it is open."""
    at: Quantity | None = None
    """mm from the beginning of the edge to its middle; by default half way."""
    width: Quantity
    """mm of the edge that it takes."""
    length: Quantity
    """mm from the edge to its point."""
    toward: Literal["start", "end"] = "start"
    """To which side it is pressed: its end is trued for that."""


class Casing(Model):
    """A tunnel along edges that are folded over, with elastic or cord in it."""

    name: Translated
    """For readers."""
    along: tuple[EdgeRef, ...] = Field(min_length=1, max_length=40)
    """Edges, each as part.edge, that are folded over."""
    goods: MaterialRef
    """Elastic or cord, sold by length."""
    room: Quantity = Field(default=4, validate_default=True)
    """mm by which it is wider than what goes through. Common practice, no source: 3 to 6."""
    width: Quantity | None = None
    """mm between fold and stitches; by default the width of the goods and `room`."""
    turn: Quantity = Field(default=10, validate_default=True)
    """mm that are turned under at the raw edge."""
    length: Asking
    """mm of elastic or cord that are seen round it, its ends left out."""
    ends: Quantity = Field(default=20, validate_default=True)
    """mm of it more: what its ends overlap, or both together to tie."""
    count: Asking = "1"
    """How many such lengths there are in all."""

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        if len(set(self.along)) < len(self.along):
            raise ValueError("expected each edge once")
        return self
