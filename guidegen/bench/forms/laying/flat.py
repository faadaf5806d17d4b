"""A sheet in → places in the plane that strain it least out.

The start is a conformal map (Lévy and others 2002), or where that folds over a convex one (Tutte
1963). From there Newton's method lowers the energy. Where it leaves a triangle upside down, it is
done again in steps that turn none over.
"""

import numpy as np
from scipy.sparse import identity

from guidegen.bench.forms.laying.energy import Energy
from guidegen.bench.forms.laying.sheets import PanelSheet, determinants, gradients_of, jacobians_of
from guidegen.bench.forms.laying.starts import conformal, convex, factor
from guidegen.bench.forms.records import Numbers

MOST_STEPS = 40
DONE = 3e-5
"""Share of the panel's size: smaller steps change nothing that one can cut."""


def lay_flat(sheet: PanelSheet, start: Numbers | None = None, steps: int = MOST_STEPS) -> Numbers:
    """Places of all points, mm; from a start that is near, where there is one."""
    gradients = gradients_of(sheet)
    flat = conformal(sheet) if start is None else start
    relaxed = _relaxed(sheet, gradients, flat, steps, guarded=False)
    sound = (determinants(jacobians_of(sheet, gradients, relaxed)) > 0).all()
    if sound or steps < MOST_STEPS:  # few steps are a look ahead, or a finish
        return relaxed
    # Rotations pull triangles back upright, and mostly do; where not, none may be turned over.
    if (determinants(jacobians_of(sheet, gradients, flat)) <= 0).any():
        round_one = convex(sheet)
        if round_one is None:
            return relaxed
        flat = round_one
    return _relaxed(sheet, gradients, flat, steps, guarded=True)


def _relaxed(
    sheet: PanelSheet, gradients: Numbers, flat: Numbers, steps: int, *, guarded: bool
) -> Numbers:
    energy = Energy(sheet, gradients, flat)
    size = np.sqrt(float(sheet.areas.sum()))
    for _ in range(steps):
        energy.follow(flat)
        best = energy.value(flat)
        grad, matrix = energy.slope(flat)
        small = 1e-9 * float(matrix.diagonal().mean())
        step = -factor(matrix + small * identity(matrix.shape[0], format="csc"))(grad)
        way = step.reshape(-1, 2)
        share = min(1.0, 0.9 * _first_fold(sheet, flat, way)) if guarded else 1.0
        downward = float(grad @ step)
        for _ in range(30):
            value = energy.value(flat + share * way)
            if value <= best + 1e-4 * share * downward:
                break
            share /= 2
        else:
            break
        flat = flat + share * way
        moved, better = share * float(np.abs(way).max()), best - value
        if moved < DONE * size or better < 1e-9 * best:
            break
    return flat


def _first_fold(sheet: PanelSheet, flat: Numbers, way: Numbers) -> float:
    """Share of a step at which the first triangle has no area left; inf where none has."""
    corners, moves = flat[sheet.corners], way[sheet.corners]
    p, q = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    u, v = moves[:, 1] - moves[:, 0], moves[:, 2] - moves[:, 0]

    def cross(one: Numbers, two: Numbers) -> Numbers:
        return np.asarray(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])

    a, b, c = cross(u, v), cross(p, v) + cross(u, q), cross(p, q)
    # The smaller root above 0 of a t² + b t + c, in the form that does not cancel.
    root = b**2 - 4 * a * c
    real = root >= 0
    middle = -(b + np.where(b >= 0, 1, -1) * np.sqrt(np.where(real, root, 0))) / 2
    with np.errstate(divide="ignore", invalid="ignore"):
        roots = np.stack((middle / a, c / middle))
    roots = np.where(real & np.isfinite(roots) & (roots > 1e-12), roots, np.inf)
    return float(roots.min())
