"""What hangs from a belt → where along the belt it hangs: beside its plates, in every size."""

from collections.abc import Iterator

import numpy as np

from guidegen.assembly.placing.scene import Placing, worn_of
from guidegen.assembly.sheets.bends import Round
from guidegen.buildfile.records.fastening import Strap
from guidegen.geometry.pieces.records import Piece


def plates_of(scene: Placing, strap: Strap) -> Piece | None:
    """The plates that are fastened to a belt in a row."""
    for fastening in scene.guide.fastenings.values():
        if strap.material not in fastening.layers:
            continue
        for row in fastening.points:
            part = row.partition(".")[0]
            worn = worn_of(scene.guide, part) if part in scene.guide.parts else None
            if worn is not None and worn.pitch is not None:
                return next(iter(scene.pieces(part)), None)
    return None


def plates_over(scene: Placing, part: str) -> Piece | None:
    """The plates on the belt from which a part hangs by a hanger; None where none does."""
    return next(
        (plates for belt in _belts(scene, part) if (plates := plates_of(scene, belt))), None
    )


def _belts(scene: Placing, part: str) -> Iterator[Strap]:
    straps = scene.guide.straps.values()
    for hanger in straps:
        if hanger.around and hanger.start and hanger.start.row.partition(".")[0] == part:
            yield from (one for one in straps if one.girth and one.material == hanger.around)


def under_belt(own: Round, belt: Round, faces: float, aside: float) -> float:
    """mm along its own oval at which a part hangs right under the place `aside` mm along a belt.

    Both begin `faces` degrees from the front. Hips are wider than a waist: what hangs goes out
    straight, and does not follow the tape.
    """
    length, points, _ = belt.curve()
    start = np.interp(720 + faces * 2, np.arange(len(length)), length)
    x, z = (float(np.interp(start + aside, length, points[:, k])) for k in range(2))
    length, points, _ = own.curve()
    turns = np.unwrap(np.arctan2(points[:, 0], points[:, 1]))
    # The curve begins one round before the front, where the angle is 0 again.
    turns -= turns[720]
    wanted = float(np.arctan2(x, z))
    wanted += 2 * np.pi * round((np.radians(faces) - wanted) / (2 * np.pi))
    start = np.interp(720 + faces * 2, np.arange(len(length)), length)
    return float(np.interp(wanted, turns, length) - start)
