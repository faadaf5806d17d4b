"""How cloth goes round a body → the same pleated or drawn in, fuller away from that edge."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.records import Points3
from guidegen.assembly.sheets.bends import Bend
from guidegen.assembly.sheets.flat import Points2
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.pieces.records import JoinedSeam, Piece

FLAT, FULL = 1.0, 10.0
"""mm by which folds stand out and in at the pleated edge, and at the other at most. Our choice,
looked at: cloth hangs as it likes."""
WAVE, LEAST_WAVES = 60.0, 3
"""mm of gathered cloth in a wave, and waves at least. Our choice, looked at: so they are seen."""
STEEPEST = 4.0
"""Slope of waves at most. Our choice: cloth that is gathered more lies in folds on itself."""
ALONG = 0.8
"""Share of its chord that a pleated edge must run across the piece. Our choice: 37 degrees."""


@dataclass(frozen=True, eq=False)
class Pleated:
    """Folds evenly across a piece: it is as wide as it is sewn, and rises and falls with each."""

    bend: Bend
    middle: float
    """x of the middle of the pleated edge."""
    share: float
    """Of the width of the cloth that is left when it is folded."""
    pitch: float
    """mm from fold to fold, folded."""
    edge: float
    """y of the pleated edge."""
    height: float
    """mm from there to the other edge; negative downward."""
    full: float
    """mm by which folds stand out and in there."""

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        # Opened for its pleats, its middle is elsewhere; folded, it is where it was drawn.
        x = (flat[:, 0] - self.middle) * self.share
        folded = np.stack([x, flat[:, 1]], axis=1)
        points, normals = self.bend.place(folded)
        step = np.array([[1.0, 0.0]])
        aside = unit(self.bend.place(folded + step)[0] - self.bend.place(folded - step)[0])
        phase = x / self.pitch
        free = np.clip((flat[:, 1] - self.edge) / self.height, 0.0, 1.0)
        rise = FLAT + (self.full - FLAT) * free
        turn = 2 * np.pi * phase
        slope = -rise * np.sin(turn) * (2 * np.pi / self.pitch)
        out = unit(normals - aside * slope[:, None])
        return points + normals * (rise * np.cos(turn))[:, None], out


def pleated(piece: Piece, bend: Bend) -> Bend:
    """The bend with the pleats of a piece; as it is without any, or where they are no even row
    across the piece."""
    for taken in piece.taken:
        edge = next((one for one in piece.shape.edges if one.name == taken.edge), None)
        if taken.kind == "dart" or edge is None or not taken.count:
            continue
        line = np.array(flatten(edge.run))
        across = float(np.ptp(line[:, 0]))
        if across < ALONG * float(np.hypot(*(line[-1] - line[0]))) or taken.taken >= across:
            continue
        _, low, _, high = bounds((piece.shape.ring(),))
        at = float(line[:, 1].mean())
        height = low - at if at > (low + high) / 2 else high - at
        folded = across - taken.taken
        middle = float(line[:, 0].min()) + across / 2
        full = min(FULL, taken.depth / 2)
        return Pleated(bend, middle, folded / across, folded / taken.count, at, height, full)
    return bend


def gathered(piece: Piece, bend: Bend, seams: Iterable[JoinedSeam]) -> Bend:
    """The bend with the first edge of a seam of a piece drawn up to the second; as it is where none
    runs across the piece."""
    for seam in seams:
        if not seam.gathers or seam.first.part != piece.part:
            continue
        edge = next((one for one in piece.shape.edges if one.name == seam.first.edge), None)
        line = None if edge is None else np.array(flatten(edge.run))
        across = 0.0 if line is None else float(np.ptp(line[:, 0]))
        if line is None or across < ALONG * float(np.hypot(*(line[-1] - line[0]))):
            continue
        count = max(LEAST_WAVES, round(across / WAVE))
        pitch = across / seam.gathers / count
        _, low, _, high = bounds((piece.shape.ring(),))
        at = float(line[:, 1].mean())
        height = low - at if at > (low + high) / 2 else high - at
        middle = float(line[:, 0].min()) + across / 2
        full = pitch / (2 * np.pi) * _steepness(seam.gathers)
        return Pleated(bend, middle, 1 / seam.gathers, pitch, at, height, full)
    return bend


def _steepness(ratio: float) -> float:
    """The steepest slope of a sine that is `ratio` times its pitch long, at most `STEEPEST`."""
    turn = np.linspace(0.0, np.pi, 361)
    low, high = 0.0, STEEPEST
    for _ in range(40):
        half = (low + high) / 2
        long = float(np.sqrt(1 + (half * np.cos(turn)) ** 2).mean())
        low, high = (half, high) if long < ratio else (low, half)
    return low
