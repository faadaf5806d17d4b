"""A flat tube and the wishes for one rim in → the right half of that rim, from its middle out."""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, degrees, pi

from guidegen.geometry.outline.curves import cut_run, lines_through, spot_at
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Arc, Run
from guidegen.geometry.shapes.building import ShapeError
from guidegen.geometry.shapes.cones import FlatTube
from guidegen.geometry.shapes.fitting import arc_through, fit_curve


@dataclass(frozen=True, slots=True)
class Rim:
    """One rim of a tube."""

    name: str
    """top or bottom, as in the dimensions."""
    height: float
    """mm; of the rim in the middle of the piece."""
    slant: float = 0.0
    """mm by which the tube is shorter at its closing edges."""
    scallops: int = 0
    depth: float = 0.0
    """mm that the rim is cut in between two scallops."""

    @property
    def inward(self) -> int:
        """-1 where cutting in means going down, 1 where it means going up."""
        return -1 if self.name == "top" else 1


def plain_height(tube: FlatTube, rim: Rim) -> Callable[[float], float]:
    """Height of the rim by turn, before scallops: an even cut, slanted or level.

    A plane cuts a cylinder at heights that follow the cosine of the turn. It cuts a cone at
    distances r from the apex whose inverse does: with the plane z = c + m*x and the cone's
    point (r*sin(a)*cos(t), r*sin(a)*sin(t), r*cos(a)), 1/r = (cos(a) - m*sin(a)*cos(t)) / c.
    """
    far = rim.height + rim.inward * rim.slant
    if not rim.slant:
        return lambda turn: rim.height
    if tube.straight:
        return lambda turn: (rim.height + far) / 2 + (rim.height - far) / 2 * cos(turn)
    # 1/r is what follows the cosine on a cone: its values at the middle and opposite of it settle
    # mean and amplitude.
    one, other = 1 / tube.radius(rim.height), 1 / tube.radius(far)
    return lambda turn: tube.height_at(1 / ((one + other) / 2 + (one - other) / 2 * cos(turn)))


def rim_end(tube: FlatTube, height: Callable[[float], float]) -> float:
    """Turn in radians at which a rim meets the closing edge, by repeated substitution."""
    turn = pi
    # Where a slanted rim ends depends on its girth there, and that on where it ends. Each turn
    # shrinks the error by the taper times the overlap, a small number; forty are far more than
    # rounding needs.
    for _ in range(40):
        turn = tube.last_turn(height(turn))
    return turn


def half_rim(tube: FlatTube, rim: Rim) -> Run:
    """The rim from its middle (x = 0) to its right end."""
    height = plain_height(tube, rim)
    end = rim_end(tube, height)
    if rim.scallops:
        return _scalloped(tube, rim, height, end)
    if rim.slant:
        return fit_curve(lambda turn: tube.point(turn, height(turn)), 0.0, end)
    return level_rim(tube, rim.height, end)


def level_rim(tube: FlatTube, height: float, end: float) -> Run:
    """A level cut from the middle to a turn: an arc around the apex, or a line."""
    if tube.straight:
        return lines_through(tube.point(0.0, height), tube.point(end, height))
    radius = tube.radius(height)
    sweep = degrees(tube.girth(height) * end / (2 * pi) / radius)
    return (Arc((0.0, 0.0), radius, tube.side * 90, -tube.side * sweep),)


def _scalloped(tube: FlatTube, rim: Rim, height: Callable[[float], float], end: float) -> Run:
    """Arcs that touch the plain rim in their middle and meet `depth` mm inside it."""
    share = 2 * end / rim.scallops
    widest = tube.girth(rim.height) * share / (2 * pi)
    if rim.depth > widest / 2:
        raise ShapeError(
            "scallop-depth",
            f"deeper than half of a scallop, which is {widest:.1f} mm wide; make it less deep "
            "or use fewer scallops",
        )

    def hollow(turn: float) -> tuple[float, float]:
        return tube.point(turn, height(turn) + rim.inward * rim.depth)

    run: Run = ()
    # Scallops are counted from the left end; the right half begins in the middle one.
    for number in range(rim.scallops // 2, rim.scallops):
        start = number * share - end
        middle = tube.point(start + share / 2, height(start + share / 2))
        scallop: Run = (arc_through(hollow(start), middle, hollow(start + share)),)
        if start < -1e-9:
            # Of an odd number, the one in the middle belongs to both halves.
            scallop = cut_run(scallop, spot_at(scallop, run_length(scallop) / 2), None)
        run += scallop
    return run
