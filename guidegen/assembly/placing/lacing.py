"""Holes on both sides of an opening → a cord that goes crosswise through them, and its bow."""

from collections.abc import Iterator, Sequence

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.records import PlacedSheet, Points3, Row
from guidegen.assembly.sheets.made import Made, lifted
from guidegen.assembly.sheets.ribbons import (
    PROUD,
    StrapBand,
    even_way,
    pushed_out,
    ribbon,
    softened,
)
from guidegen.assembly.sheets.solids import point_normals

LOOP, TAIL = 30.0, 45.0
"""mm of a loop of the bow, and of an end. Our choice, looked at."""
THROUGH = 2.0
"""mm that a cord stands in the foam where it comes out of a hole."""


def laced(
    scene: Placing, made: Made, holes: Sequence[Row], band: StrapBand
) -> Iterator[PlacedSheet]:
    """Cords from hole to hole, as in a shoe, from the lowest pair up, and a bow on the last."""
    halves = len(holes) // 2
    left = sorted(holes[:halves], key=lambda hole: float(hole[1]))
    right = sorted(holes[halves:], key=lambda hole: float(hole[1]))
    if not halves or len(left) != len(right):
        return
    surfaces = _surfaces(scene, made, band)
    ways = [(left[0], right[0])]
    for below, above in zip(range(halves), range(1, halves), strict=False):
        ways += [(left[below], right[above]), (right[below], left[above])]
    for number, (start, end) in enumerate(ways):
        (a, na), (b, nb) = _out(made, start, band), _out(made, end, band)
        way = even_way(np.stack([a, b]), 3.0)
        # Of two cords that cross, one lies on the other.
        lift = band.thickness * 0.5 * (number % 2)
        way = pushed_out(way, [(points, normals, off + lift) for points, normals, off in surfaces])
        way[0], way[-1] = a - na * THROUGH, b - nb * THROUGH
        share = np.linspace(0, 1, len(way))[:, None]
        out = unit(na * (1 - share) + nb * share)
        yield ribbon(band, softened(way, 2), out, f"{band.part}@cord-{number + 1}")
    yield from _bow(made, (left[-1], right[-1]), surfaces, band)


def _surfaces(scene: Placing, made: Made, band: StrapBand) -> list[tuple[Points3, Points3, float]]:
    off = band.thickness / 2 + PROUD
    found = []
    for limb in scene.figure.limbs.values():
        solid = limb.solid(0)
        gap = ((solid.points - made.sheet.middle.mean(0)) ** 2).sum(1).min()
        if gap < 150.0**2:
            found.append((solid.points, point_normals(solid.points, solid.triangles), off))
    sheet = made.sheet
    found.append((sheet.middle + sheet.normals * sheet.thickness / 2, sheet.normals, off))
    return found


def _out(made: Made, hole: Row, band: StrapBand) -> tuple[Row, Row]:
    """Where a cord lies over a hole, and the normal there."""
    off = (made.sheet.thickness + band.thickness) / 2 + PROUD
    points, normals = lifted(made, np.array(hole)[None, :], off)
    return points[0], normals[0]


def _bow(
    made: Made,
    holes: tuple[Row, Row],
    surfaces: list[tuple[Points3, Points3, float]],
    band: StrapBand,
) -> Iterator[PlacedSheet]:
    """Both ends from the last pair of holes to a knot between them, two loops and two tails."""
    (a, na), (b, nb) = (_out(made, hole, band) for hole in holes)
    out = unit(na + nb)
    across = unit(b - a - out * float((b - a) @ out))
    down = np.cross(across, out)
    low = made.sheet.middle[made.mesh.points[:, 1].argmin()]
    if float((low - (a + b) / 2) @ down) < 0:
        down = -down
    knot = (a + b) / 2 + down * 4
    lines: list[Points3] = []
    for sign, end in ((-1.0, a), (1.0, b)):
        lines.append(np.stack([end, knot]))
        t = np.linspace(0.0, 2 * np.pi, 25)
        wide, high = LOOP / 2 * (1 - np.cos(t)), LOOP / 4 * np.sin(t)
        lines.append(knot + np.outer(sign * wide, across) + np.outer(wide * 0.35 + high, down))
        tail = np.linspace(0.0, 1.0, 8)
        lines.append(
            knot + np.outer(sign * (4 + 9 * tail**0.5), across) + np.outer(TAIL * tail, down)
        )
    for number, line in enumerate(lines):
        way = pushed_out(even_way(line, 3.0), [(p, n, off + 3.0) for p, n, off in surfaces])
        normals = np.broadcast_to(out, way.shape)
        yield ribbon(band, softened(way, 2), normals, f"{band.part}@bow-{number + 1}")
