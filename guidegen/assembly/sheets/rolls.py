"""A flat piece whose own two edges close → the tube or cone that it is rolled to, in space.

Straight closing edges that meet in a point, produced, make a cone with its apex there: they part
by 360 degrees times the sine of the angle between wall and axis (development of a right circular
cone). Parallel ones make a cylinder.
"""

from dataclasses import dataclass, replace

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.records import Points3, Row
from guidegen.assembly.sheets.flat import Points2
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Run

STRAIGHT = 0.05
"""mm by which a closing edge may bulge."""
PARALLEL = 1e-4
"""radians between closing edges under which they never meet."""


@dataclass(frozen=True, eq=False)
class Rolled:
    """A rolled piece; by itself its axis is upright through the origin, wide end down."""

    apex: Row
    """Of a cone, on the flat piece; of a cylinder, a point half way between the closing edges."""
    down: Row
    """Unit vector on the flat piece, from the apex along the middle of the piece."""
    spread: float
    """radians between the closing edges; 0 for a cylinder."""
    girth: float
    """mm round a cylinder."""
    turn: Points3
    """Rows: where left, up and front of the tube lie in space."""
    shift: Row

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        off = flat - self.apex
        along = off @ self.down
        # To the right of who looks at the outer face with the wide end below.
        aside = off[:, 1] * self.down[0] - off[:, 0] * self.down[1]
        if self.spread:
            lean = self.spread / (2 * np.pi)
            angle = np.arctan2(aside, along) / lean
            away = np.hypot(aside, along)
            rise = float(np.sqrt(1 - lean**2))
            radius, height = away * lean, -away * rise
        else:
            lean, rise = 0.0, 1.0
            angle = aside * (2 * np.pi / self.girth)
            radius, height = np.full(len(flat), self.girth / (2 * np.pi)), -along
        sine, cosine = np.sin(angle), np.cos(angle)
        points = np.stack([radius * sine, height, radius * cosine], axis=1)
        normals = np.stack([sine * rise, np.full(len(flat), lean), cosine * rise], axis=1)
        return points @ self.turn + self.shift, normals @ self.turn

    def onto(self, own: Points2, goal: Points3) -> "Rolled":
        """The same where a ring of its flat points comes to lie on a ring in space."""
        here, there = ring_axes(self.place(own)[0]), ring_axes(goal)
        turn = here[1].T @ there[1]
        return replace(self, turn=self.turn @ turn, shift=there[0] + (self.shift - here[0]) @ turn)

    def moved(self, way: Row) -> "Rolled":
        """The same elsewhere."""
        return replace(self, shift=self.shift + way)


def ring_axes(ring: Points3) -> tuple[Row, Points3]:
    """The middle of a closed ring of evenly spaced points, and rows: toward its first point, along
    its axis (on which it turns left), and square to both."""
    middle = ring.mean(0)
    off = ring - middle
    axis = unit(np.cross(off, np.roll(off, -1, axis=0)).sum(0))
    share = np.arange(len(ring)) * (2 * np.pi / len(ring))
    first = (off * np.cos(share)[:, None]).sum(0)
    first = unit(first - axis * float(first @ axis))
    return middle, np.stack([first, axis, np.cross(first, axis)])


def _bulge(line: Points2) -> float:
    """mm by which a line leaves the straight way between its ends."""
    way = line[-1] - line[0]
    off = line - line[0]
    long = max(float(np.hypot(*way)), 1e-9)
    return float(np.abs(off[:, 0] * way[1] - off[:, 1] * way[0]).max()) / long


def rolled(first: Run, second: Run) -> Rolled | None:
    """How a piece with these closing edges is rolled; None where they are not straight."""
    lines = np.array(flatten(first)), np.array(flatten(second))
    if any(_bulge(line) > STRAIGHT for line in lines):
        return None
    (a, b), (c, d) = ((line[0], line[-1]) for line in lines)
    one, two = unit(b - a), unit(c - d)
    # Outlines run counter-clockwise: where the first edge runs up, foam is at its left.
    spread = float(np.arctan2(one[0] * two[1] - one[1] * two[0], one @ two))
    middle = (a + b + c + d) / 4
    nowhere = np.zeros(3)
    if abs(spread) < PARALLEL:
        width = float(abs((c - a)[0] * one[1] - (c - a)[1] * one[0]))
        return Rolled(middle, -one, 0.0, width, np.eye(3), nowhere) if width > 1 else None
    if abs(spread) >= 2 * np.pi * 0.99:
        return None
    # Where both lines cross: a + one * t.
    across = c - a
    t = (across[0] * two[1] - across[1] * two[0]) / (one[0] * two[1] - one[1] * two[0])
    apex = a + one * t
    return Rolled(apex, unit(middle - apex), abs(spread), 0.0, np.eye(3), nowhere)
