"""What holds a build together: rows of points on parts, what goes through them, straps."""

from enum import StrEnum
from typing import Literal, Self

from pydantic import Field, model_validator

from guidegen.buildfile.records.meanings import (
    Asking,
    DrawingFile,
    EdgeRef,
    ForAuthor,
    MaterialRef,
    PartRef,
    RowRef,
    Translated,
)
from guidegen.buildfile.yaml.fields import Id, Model, Quantity


class PointKind(StrEnum):
    """What a point is made for."""

    HOLE = "hole"
    """A round hole and nothing more."""
    RIVET = "rivet"
    """A hole for a post with a head."""
    SNAP = "snap"
    """A hole for a press stud."""
    LACING = "lacing"
    """A hole for cord."""
    SLOT = "slot"
    """A long hole with round ends, for webbing."""
    STUD = "stud"
    """A place on the face: no hole."""
    PATCH = "patch"
    """A place where a strap lies, glued or sewn: no hole. `diameter` is the strap's width along the
    row, `length` what lies on the part, across it."""


class PointLine(Model):
    """A straight line on a part."""

    start: tuple[Quantity, Quantity] = Field(alias="from")
    """mm right and up from the middle of the part."""
    end: tuple[Quantity, Quantity] = Field(alias="to")
    """mm right and up from the middle of the part."""


class PointCircle(Model):
    """A circle on a part."""

    diameter: Quantity
    at: tuple[Quantity, Quantity] = Field(default=(0, 0), validate_default=True)
    """mm right and up from the middle of the part."""
    start: Quantity = Field(default=90, validate_default=True)
    """degrees from the right, counter-clockwise, of the first point."""


class Points(Model):
    """A row of points on a part. Exactly one of along, line, circle and corners."""

    kind: PointKind = PointKind.HOLE
    """What each point is."""
    along: Id | None = None
    """Edge that the row follows, as drawn."""
    line: PointLine | None = None
    """A straight line that the row follows."""
    circle: PointCircle | None = None
    """A circle that the row follows."""
    corners: Quantity | None = None
    """One point in each corner, so many mm from both edges."""
    on: PartRef | None = None
    """Part that is laid on this one: line, circle and corners are meant on it."""
    inset: Quantity = Field(default=0, validate_default=True)
    """mm from the finished edge inward, along an edge."""
    count: Quantity | None = None
    """How many, evenly from margin to margin."""
    pitch: Quantity | None = None
    """mm from point to point; what is left over is shared by both ends."""
    margin: Quantity = Field(default=0, validate_default=True)
    """mm free at the beginning of the row."""
    margin_end: Quantity | None = None
    """mm free at its end; as at the beginning where it is not given."""
    stagger: Quantity = Field(default=0, validate_default=True)
    """mm that every other point lies farther inward."""
    paired: Quantity = Field(default=0, validate_default=True)
    """mm between the two points of a pair, across the row; 0 for single points."""
    diameter: Quantity = Field(default=5, validate_default=True)
    """mm of the hole, of the stud, or across a slot; of a patch the width of the strap on it."""
    length: Quantity = Field(default=0, validate_default=True)
    """mm of a slot, its round ends included, along the row; of a patch, across the row, along the
    strap that lies on it."""
    across: bool = False
    """True for slots that lie across the row, such as those in which a rivet slides."""
    least_edge: Quantity | None = None
    """mm of foam between a hole and the nearest edge at least; by default its diameter."""
    through: tuple[PartRef, ...] = ()
    """Parts laid on this one that get the same holes."""
    part: PartRef | None = None
    """Part that lies on each point, such as a stud."""
    thing: MaterialRef | None = None
    """Counted thing that sits on each point, such as a magnet: its footprint is drawn."""
    drawing: DrawingFile | None = None
    """SVG file with the outline of that thing, true to scale, such as of a printed part; with #id
    where it holds several."""
    pole: Literal["north", "south"] | None = None
    """Of magnets: the pole that looks to those that they meet."""
    meets: RowRef | None = None
    """Row of magnets that these close on, point by point."""

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        ways = (self.along, self.line, self.circle, self.corners)
        if sum(way is not None for way in ways) != 1:
            raise ValueError("expected exactly one of along, line, circle and corners")
        if self.corners is None and (self.count is None) == (self.pitch is None):
            raise ValueError("expected either count or pitch")
        if self.corners is not None and (self.count, self.pitch) != (None, None):
            raise ValueError("corners need neither count nor pitch")
        if self.along is not None and self.on is not None:
            raise ValueError('"on" goes with line, circle and corners')
        if (self.kind in {PointKind.SLOT, PointKind.PATCH}) != (str(self.length) != "0"):
            raise ValueError('slots and patches need a "length" in mm, other points have none')
        if self.thing is None and (self.drawing or self.pole):
            raise ValueError('"drawing" and "pole" go with a "thing"')
        if self.meets is not None and self.pole is None:
            raise ValueError('magnets that meet others need their "pole"')
        if self.thing is not None and self.part is not None:
            raise ValueError("expected part or thing, not both")
        if self.across and self.kind is not PointKind.SLOT:
            raise ValueError('only slots lie "across" their row')
        return self


class Fastener(Model):
    """How a counted material holds layers: a post with heads."""

    grip: tuple[float, float]
    """mm of layers that it holds, least and most."""
    hole: float = Field(gt=0, le=50)
    """mm of the hole that it needs."""
    post: float = Field(gt=0, le=200)
    """mm of its post."""
    head: float = Field(0.0, ge=0, le=100)
    """mm of the wider of its head and its washer: so much lies flat on the foam around the hole."""
    washer: float = Field(0.0, ge=0, le=10)
    """mm that one washer is thick."""
    longer: tuple[MaterialRef, ...] = ()
    """The same with other posts: the shortest that holds is taken."""


class Fastening(Model):
    """Rows of points that are closed by fasteners, and what lies at each of them."""

    name: Translated
    """For readers."""
    points: tuple[RowRef, ...] = Field(min_length=1)
    """Rows, each as part.row; the part's foam and the parts that the row goes through count."""
    fastener: MaterialRef
    """Counted material with a `fastener`; one that is longer is taken where the stack asks."""
    layers: tuple[MaterialRef, ...] = ()
    """Materials that lie there too: webbing, felt; each as often as it is named."""
    parts: tuple[PartRef, ...] = ()
    """Parts that lie there too."""
    washers: int = Field(0, ge=0, le=4)
    """Washers on each."""


class StrapEnd(Model):
    """Where a strap is held."""

    row: RowRef
    """Row of points at which it is held: patches where it is glued or sewn, rivets, slots. There
    is one strap for each point, on every piece of the part."""
    holds: Quantity
    """mm of the strap that lie on the part."""
    points: Quantity = Field(default=1, validate_default=True)
    """Points of the row that hold one strap: 2 where two rivets keep it from turning."""


class Way(Model):
    """What a strap crosses from one place to the other: mm of foam, and what lies between."""

    leaves: Id
    """Edge of the first part over which it goes."""
    enters: Id | None = None
    """Edge of the other part over which it comes; of the first for a strap that comes back."""
    apart: tuple[Asking, Asking]
    """mm between both edges at the least and at the most: of the body, of other parts, or as worn.
    Negative where one part slides over the other. For a hanger: from the edge to the belt."""


class Strap(Model):
    """A strap, elastic, hanger or loop: from one place to another, with what closes it.

    Elastic is a material that stretches. With a closure it has two pieces, a short one with the
    fixed half and a long one that is pulled through the other half.
    """

    name: Translated
    """For readers."""
    material: MaterialRef
    """Webbing, elastic or cord in stock.yaml."""
    start: StrapEnd | None = Field(None, alias="from")
    """None for a belt, which closes round the body."""
    end: StrapEnd | None = Field(None, alias="to")
    """None for a hanger, which loops over a belt, and for a strap that comes back to its part."""
    way: Way | None = None
    """What lies between both places; or say with `bridges` how long it is."""
    bridges: tuple[Asking, Asking] | None = None
    """mm from place to place, at the least and at the most."""
    girth: tuple[Asking, Asking] | None = None
    """mm around which a belt closes, at the least and at the most: it has no places."""
    rigid: Asking = "0"
    """mm of a belt on which plates sit: it does not get shorter than them and its closure."""
    laced: Quantity | None = None
    """A cord that goes crosswise through the holes of both places: mm of each end that are left to
    tie."""
    closure: MaterialRef | None = None
    """Buckle or ring, with what it `takes` of the way."""
    slider: MaterialRef | None = None
    """What holds the long piece's end, one for each strap."""
    short: Quantity = Field(default=0, validate_default=True)
    """mm of the short piece between its place and the closure."""
    turned: Quantity = Field(default=40, validate_default=True)
    """mm of the short piece that are folded through the closure and sewn."""
    closest: Quantity = Field(default=20, validate_default=True)
    """mm of the long piece between its place and the closure at the tightest."""
    tail: Quantity = Field(default=60, validate_default=True)
    """mm of the long piece that stay behind the closure at the loosest."""
    overlap: tuple[Quantity, Quantity] | None = None
    """mm of hook-and-loop that lie on one another, at the least and at the most."""
    tape: MaterialRef | None = None
    """Hook-and-loop, as long as the most that overlaps, for each strap."""
    free: Quantity | None = None
    """mm of elastic between its ends without pull; by default what it bridges at the least."""
    around: MaterialRef | None = None
    """Belt that a hanger loops over: its width and thickness are gone round."""
    over: tuple[PartRef, ...] = ()
    """Parts that lie on the belt under the loop; with `lies-over`, on the edges under the belt."""
    lies_over: tuple[EdgeRef, ...] = ()
    """Edges, each as part.edge, that a belt is worn over: together they go once round the body, and
    it goes round their outer faces."""
    gap: Quantity | None = None
    """mm between parts through which the strap must pass, such as plates on a belt."""

    @model_validator(mode="after")
    def _one_reach(self) -> Self:
        if sum(given is not None for given in (self.way, self.bridges, self.girth)) != 1:
            raise ValueError("expected exactly one of way, bridges and girth")
        if (self.start is None) != (self.girth is not None):
            raise ValueError('a strap goes "from" a place; a belt has a "girth" and none')
        if self.girth is not None and self.closure is None:
            raise ValueError("a belt needs its closure")
        if self.way is not None and (self.way.enters is None) != (self.end is None):
            raise ValueError('"enters" is an edge of the part that the strap goes "to"')
        if self.lies_over and self.girth is None:
            raise ValueError('"lies-over" says what a belt is worn over: it has a "girth"')
        return self


class Fit(Model):
    """Something that must fit, in every size: a number between two others."""

    says: ForAuthor
    """What fits into what, in words."""
    value: Asking
    """Arithmetic that may ask for edges, rows, straps: edge(cuff, top) - 30."""
    least: Quantity | None = None
    """mm, or the unit of the value."""
    most: Quantity | None = None
    """The largest value that still fits."""

    @model_validator(mode="after")
    def _a_limit(self) -> Self:
        if self.least is None and self.most is None:
            raise ValueError("expected least, most or both")
        return self
