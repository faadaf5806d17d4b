"""A panel as triangles that know their true sizes, and how a layout stretches them."""

from dataclasses import dataclass

import numpy as np

from guidegen.bench.forms.records import FaceMask, Indices, Numbers

SLENDER = 2e-4
"""Height of a triangle at least, as a share of its longest side: flatter ones weigh nothing."""


@dataclass(frozen=True, slots=True)
class PanelSheet:
    """A panel as triangles that know their true sizes."""

    corners: Indices
    """Three points of each."""
    shapes: Numbers
    """Their true corners in a plane of their own, by triangle, corner and axis; mm."""
    border: Indices
    """Pairs of points along borders."""
    lengths: Numbers
    """mm of these."""
    stiff: Numbers
    """How stiff they are: width of a strip of foam that resists as much, as a share of the root of
    the panel's area."""

    @property
    def count(self) -> int:
        """Points."""
        return int(self.corners.max()) + 1

    @property
    def areas(self) -> Numbers:
        """mm² of each triangle."""
        one, two = self.shapes[:, 1] - self.shapes[:, 0], self.shapes[:, 2] - self.shapes[:, 0]
        return np.asarray((one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]) / 2)


def true_shapes(sides: Numbers) -> Numbers:
    """Triangles in a plane by the lengths of their sides: first to second corner, and on."""
    a, b, c = np.maximum(sides, 1e-9).T
    longest = np.maximum(np.maximum(a, b), c)
    x = (a**2 + c**2 - b**2) / (2 * a)
    y = np.sqrt(np.maximum(c**2 - x**2, 0))
    y = np.maximum(y, SLENDER * longest**2 / a)
    shapes = np.zeros((len(sides), 3, 2))
    shapes[:, 1, 0], shapes[:, 2, 0], shapes[:, 2, 1] = a, x, y
    return shapes


def stretches(sheet: PanelSheet, flat: Numbers) -> tuple[Numbers, Numbers, FaceMask]:
    """Both principal stretches of each triangle, the greater first, and which are upside down."""
    jacobians = jacobians_of(sheet, gradients_of(sheet), flat)
    a, b = jacobians[:, 0, 0], jacobians[:, 0, 1]
    c, d = jacobians[:, 1, 0], jacobians[:, 1, 1]
    round_, skew = np.hypot(a + d, c - b) / 2, np.hypot(a - d, b + c) / 2
    return round_ + skew, np.abs(round_ - skew), determinants(jacobians) <= 0


def gradients_of(sheet: PanelSheet) -> Numbers:
    """By triangle and corner, how what is 1 there and 0 at the others grows along both axes."""
    after, before = np.roll(sheet.shapes, -1, axis=1), np.roll(sheet.shapes, -2, axis=1)
    way = before - after
    twice = 2 * sheet.areas[:, None]
    return np.stack((-way[:, :, 1] / twice, way[:, :, 0] / twice), axis=2)


def jacobians_of(sheet: PanelSheet, gradients: Numbers, flat: Numbers) -> Numbers:
    """By triangle, how it is turned and stretched: 2 × 2."""
    return np.asarray(np.einsum("fci,fcj->fij", flat[sheet.corners], gradients))


def determinants(jacobians: Numbers) -> Numbers:
    """By triangle, its area for each mm² of the form; below 0 where it lies upside down."""
    return np.asarray(
        jacobians[:, 0, 0] * jacobians[:, 1, 1] - jacobians[:, 0, 1] * jacobians[:, 1, 0]
    )
