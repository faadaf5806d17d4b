"""Inner length, width and height of a cap in → one of two halves that meet over its crown.

Half an ellipsoid cannot be laid flat. What has to be right without any stretching is the rim, since
it sits on the head and cannot hide what it has too much: it gets its true length. What is too long
goes to the crown, what is too short to the middle, and both are told, so that nobody is surprised.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, hypot, pi, sin

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Edge, Measure, Point, Shape
from guidegen.geometry.outline.transforms import MIRROR, reverse_run, transform_run
from guidegen.geometry.shapes.building import (
    Dimensions,
    ShapeBuilder,
    ShapeError,
    centred,
    centred_half,
    positive,
)
from guidegen.geometry.shapes.caps import layer_of
from guidegen.geometry.shapes.fitting import fit_curve
from guidegen.geometry.shapes.ovals import oval_arc, oval_turn

_QUARTER = pi / 2
_HALVINGS = 50
"""Steps of each bisection: lengths of a metre come out to far below FIT_TOLERANCE."""


@dataclass(frozen=True, slots=True)
class _Axes:
    """An ellipsoid at the layer of foam that keeps its length; half axes in mm."""

    long: float
    wide: float
    rise: float

    @property
    def rim(self) -> float:
        """mm from the middle of one side to an end, along the rim: a quarter of its ellipse."""
        return oval_arc(self.long, self.wide, _QUARTER)

    @property
    def crown(self) -> float:
        """mm from the top to an end, along the crown."""
        return oval_arc(self.long, self.rise, _QUARTER)

    @property
    def across(self) -> float:
        """mm from rim to crown in the middle."""
        return oval_arc(self.wide, self.rise, _QUARTER)

    @property
    def spine(self) -> float:
        """mm from the middle of the cap to halfway between rim and crown: a half axis too."""
        turn = oval_turn(self.wide, self.rise, self.across / 2)
        return hypot(self.wide * sin(turn), self.rise * cos(turn))


@dataclass(frozen=True, slots=True)
class _CapHalf:
    """Half of a cap, flat; all in mm.

    Sections of the ellipsoid square to its length are ellipses of one form, smaller by cos(u)
    where the length is long*sin(u). Each half has a quarter of each of them, laid square to the
    length; `bulge` says how far the rim is bent, `share` how much of the way from end to end along
    the middle is kept. The rim (share*s(u), -bulge*cos(u)) has the speed of an ellipse with the
    half axes share*long and hypot(share*spine, bulge), so its length is that of the ellipse.
    """

    axes: _Axes
    across: float
    spine: float
    bulge: float
    share: float

    @property
    def crown(self) -> float:
        """mm from its middle to an end, along the flat crown."""
        high = hypot(self.share * self.spine, self.across - self.bulge)
        return oval_arc(self.share * self.axes.long, high, _QUARTER)

    def point(self, turn: float, *, crown: bool) -> Point:
        """On the crown or the rim, `turn` radians from the middle to an end."""
        along = self.share * oval_arc(self.axes.long, self.spine, turn)
        return (along, (self.across - self.bulge if crown else -self.bulge) * cos(turn))


@lru_cache(maxsize=64)
def _least_forming(axes: _Axes) -> _CapHalf:
    """The half whose rim is true, and which asks as little of the foam as it can.

    A rim that is bent more leaves less to shrink at the crown, and more to stretch in the middle.
    Both shares are made equal: then neither has to give more than the other. Where even a straight
    rim leaves the crown less to shrink than the middle to stretch, it stays straight.
    """
    across, spine, rim, crown = axes.across, axes.spine, axes.rim, axes.crown

    def half(bulge: float) -> _CapHalf:
        return _CapHalf(axes, across, spine, bulge, _share(axes, spine, rim, bulge))

    # The balance falls as the bulge grows, so bisection finds its only root.
    # A rim that is bent by its whole length would have nothing left to go along.
    low, high = 0.0, 0.999 * rim
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        made = half(middle)
        if made.crown / crown - 1 > 1 - made.share:
            low = middle
        else:
            high = middle
    return half(low)


def _share(axes: _Axes, spine: float, rim: float, bulge: float) -> float:
    """How much of the middle is kept where a rim bent by `bulge` mm has its true length."""
    # At `high` the ellipse is longer than the rim even without a bulge.
    low, high = 0.0, rim / min(axes.long, spine)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if oval_arc(middle * axes.long, hypot(middle * spine, bulge), _QUARTER) < rim:
            low = middle
        else:
            high = middle
    return low


def _cap_half(d: Dimensions, thickness: float) -> _CapHalf:
    positive(d, "length", "width", "rise")
    layer = layer_of(d, thickness)
    axes = (d["length"] / 2 + layer, d["width"] / 2 + layer, d["rise"] + layer)
    # Ellipses flatter than that need more panels than oval_arc has; a head has 1 to 2.
    if max(axes) > 10 * min(axes):
        raise ShapeError("rise", "length, half width and height differ more than tenfold")
    return _least_forming(_Axes(*axes))


def _cap_edges(cap: _CapHalf, *, half: bool) -> tuple[Edge, ...]:
    rim = fit_curve(lambda turn: cap.point(turn, crown=False), 0.0, _QUARTER)
    crown = fit_curve(lambda turn: cap.point(turn, crown=True), _QUARTER, 0.0)
    if half:
        closing = lines_through(cap.point(0.0, crown=True), cap.point(0.0, crown=False))
        return (Edge("rim", rim), Edge("crown", crown), Edge("centre", closing))
    return (
        Edge("rim", reverse_run(transform_run(rim, MIRROR)) + rim),
        Edge("crown", crown + reverse_run(transform_run(crown, MIRROR))),
    )


def whole_cap_half(dimensions: Dimensions, thickness: float) -> Shape:
    """One of two equal halves of half an ellipsoid, joined over the crown; in mm.

    Raises ShapeError. The rim is half of the ellipse around the head (the complete elliptic
    integral of the second kind; Ramanujan 1914 gives it to a millionth), rim to crown in the
    middle a quarter of the ellipse across.
    """
    return centred(_cap_edges(_cap_half(dimensions, thickness), half=False))


def half_cap_half(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half, its edge 'centre' on the fold; in mm. Raises ShapeError."""
    cap = _cap_half(dimensions, thickness)
    return centred_half(_cap_edges(cap, half=True), _cap_edges(cap, half=False))


def _cap_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    cap = _cap_half(d, thickness)
    axes = cap.axes
    edges = {edge.name: run_length(edge.run) for edge in _cap_edges(cap, half=False)}
    middle = 2 * oval_arc(axes.long, cap.spine, _QUARTER)
    return (
        Measure("rim, along the edge", edges["rim"]),
        Measure("rim to crown in the middle", cap.across),
        Measure("crown seam, along the edge", edges["crown"]),
        Measure("crown seam, once formed with heat", 2 * axes.crown),
        Measure("end to end along the middle", cap.share * middle),
        Measure("end to end along the middle, once formed with heat", middle),
    )


CAP_HALF = ShapeBuilder("cap-half", whole_cap_half, _cap_measures, half_cap_half)
