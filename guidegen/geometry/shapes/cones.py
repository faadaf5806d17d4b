"""A closed tube in → points of the flat piece that rolls into it, by turn and height."""

from dataclasses import dataclass
from math import cos, pi, sin

from guidegen.geometry.outline.records import Point

STRAIGHT = 1e-3
"""mm; rims that rise less than this in their middle are drawn straight: the cylinder."""


@dataclass(frozen=True, slots=True)
class FlatTube:
    """A closed tube, opened opposite its middle and laid flat, symmetrical about the y axis.

    From similar triangles: outer radius rho = C1*s/(C1 - C2), inner rho - s, angle C1/rho
    (the frustum net of school geometry: s = sqrt(h**2 + (R - r)**2), theta = 360*(R - r)/s, since
    both rims are arcs about the apex of the cone that the frustum is cut from).

    A place on it is a turn around the limb (radians from the middle, to the right) and a height
    (mm above the lower rim, along the slope).
    """

    top: float
    bottom: float
    """mm around the closed tube at height `slope` and 0."""
    slope: float
    more: float = 0.0
    """mm by which the flat piece is longer than the closed tube: overlap less gap."""

    @property
    def straight(self) -> bool:
        """True where it is as good as a cylinder."""
        long_rim, short_rim = max(self.top, self.bottom), min(self.top, self.bottom)
        # Rise of the longer rim over its chord, c²/(8r) with r = c·s/(C1 - C2): below STRAIGHT the
        # apex lies so far off that angles about it lose their digits.
        return long_rim * (long_rim - short_rim) / (8 * self.slope) < STRAIGHT

    @property
    def side(self) -> int:
        """1 where it widens upward, its apex below; -1 where the apex is above."""
        return 1 if self.top > self.bottom else -1

    def girth(self, height: float) -> float:
        """mm around the closed tube."""
        return self.bottom + (self.top - self.bottom) * height / self.slope

    def radius(self, height: float) -> float:
        """mm from the apex along the slope; not for a straight tube."""
        return self.girth(height) * self.slope / abs(self.top - self.bottom)

    def height_at(self, radius: float) -> float:
        """mm above the lower rim of a place `radius` mm from the apex."""
        girth = radius * abs(self.top - self.bottom) / self.slope
        return (girth - self.bottom) / (self.top - self.bottom) * self.slope

    def point(self, turn: float, height: float) -> Point:
        """Where a place lies on the flat piece; the apex is the origin unless straight."""
        # The arc on the flat piece is the arc around the limb: lengths on a developable surface
        # stay.
        along = self.girth(height) * turn / (2 * pi)
        if self.straight:
            return (along, height)
        radius = self.radius(height)
        return (radius * sin(along / radius), self.side * radius * cos(along / radius))

    def last_turn(self, height: float) -> float:
        """Turn at which the flat piece ends: half round, more by half the overlap less gap."""
        # An overlap is equally wide all along, so at the narrow end it takes a larger share of the
        # turn.
        return pi * (1 + self.more / self.girth(height))
