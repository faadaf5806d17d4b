"""Hangers of a part and the belt that they loop over → bands round it."""

from collections.abc import Iterator

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.holds import StrapHold
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.records import PlacedSheet, Points3, Row
from guidegen.assembly.sheets.ribbons import PROUD, StrapBand, fair_strap
from guidegen.buildfile.records.fastening import Strap

FAR = 70.0
"""mm from a hanger's edge to what it hangs on at most: farther off it is not what it loops over."""


def hang(
    scene: Placing, strap: Strap, holds: list[StrapHold], band: StrapBand, made: list[PlacedSheet]
) -> Iterator[PlacedSheet]:
    """Loops that hang a part on a belt, or on another strap, of the material that they go round."""
    belts = [m.sheet for m in scene.made.values() if m.piece.material == strap.around]
    belts += [sheet for sheet in made if sheet.material == strap.around]
    for number, hold in enumerate(holds):
        way, normals = hold.way(band.thickness)
        end = way[-1]
        near = [(float(((b.middle - end) ** 2).sum(1).min()), k) for k, b in enumerate(belts)]
        if not near or min(near)[0] > FAR**2:
            continue
        loop, out = _round_belt(belts[min(near)[1]], end, band)
        key = f"{band.part}@{hold.made.sheet.key}-strap-{number + 1}"
        yield fair_strap(band, np.concatenate([way, loop]), np.concatenate([normals, out]), key)


SLACK = 3.0
"""mm of a loop over the rim of its belt: webbing bends no sharper. Our choice."""
ABOUT = 30.0
"""mm along a belt on both sides of a hanger from which its directions are taken."""


def _round_belt(belt: PlacedSheet, end: Row, band: StrapBand) -> tuple[Points3, Points3]:
    """Up the outer face of a belt, over its upper rim and a little down behind it."""
    width = float(np.ptp(belt.flat[:, 1]))
    near = int(((belt.middle - end) ** 2).sum(1).argmin())
    own = np.abs(belt.flat[:, 0] - belt.flat[near, 0]) < ABOUT
    points = belt.middle[own]
    # Directions along and across it, by how its points there change with their flat places.
    along, across = (
        unit(((belt.flat[own, k] - belt.flat[own, k].mean())[:, None] * points).sum(0))
        for k in range(2)
    )
    if across @ (points.mean(0) - end) < 0:
        across = -across
    normal = unit(belt.normals[near])
    # Right above the part, in the middle of the belt's width.
    middle = belt.middle[near]
    middle = middle + along * float((end - middle) @ along)
    middle = middle + across * float((points.mean(0) - middle) @ across)
    off = normal * ((belt.thickness + band.thickness) / 2 + PROUD)
    up = across * (width / 2)
    over = across * (band.thickness / 2 + SLACK)
    way = np.stack(
        [middle - up + off, middle + off, middle + up + off, middle + up + over, middle + up - off,
         middle - off]
    )  # fmt: skip
    out = np.stack([normal, normal, unit(normal + across), across, unit(across - normal), -normal])
    return way, out
