"""A skin cut into discs → its panels laid flat, both sides of each seam equally long, out.

First each panel is laid as it likes best, its seams hardly stiff. Then both sides of a seam are
given the mean of the lengths that they found, edge by edge, and all are laid again with stiff
borders.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from guidegen.bench.forms.laying.flat import MOST_STEPS, lay_flat
from guidegen.bench.forms.laying.sheets import PanelSheet, stretches, true_shapes
from guidegen.bench.forms.records import (
    FaceMask,
    FlatPanel,
    Indices,
    Numbers,
    Skin,
    Strain,
    Tell,
    silent,
)
from guidegen.bench.forms.skin import side_lengths
from guidegen.bench.forms.topology import Topology, charts, opened

LOOSE = 0.02
"""Stiffness of seams while each panel is laid for itself (see `laying.sheets.PanelSheet`)."""
RIM = 0.3
"""Of free edges: a neck or a hem should come out as long as it is."""
STIFF = 30.0
"""Of seams once both sides have one length."""
STIFF_STEPS = 15
"""Steps of the second laying, which begins near its end."""
ROUND = np.radians(30.0)
"""Turn from which on a border has a corner there, and no bend."""
ROUNDS = 1
"""Times that both sides of seams are made equal. Our choice: a second moves nothing by 0.1 mm."""


@dataclass(frozen=True, slots=True)
class Laying:
    """A panel on its way: its sheet, where its border lies on the skin, its places so far."""

    faces: Indices
    vertices: Indices
    sheet: PanelSheet
    sides: Indices
    """Sides of the skin along the border, as `sheet.border` has them."""
    seams: FaceMask
    """Which of these are seams."""
    flat: Numbers


@dataclass(frozen=True, slots=True)
class PanelGround:
    """What all panels of one skin share."""

    skin: Skin
    topology: Topology
    kinds: Indices
    labels: Indices
    lengths: Numbers
    """mm of each side of each face."""


def make_ground(skin: Skin) -> PanelGround:
    """Charts and lengths of a skin."""
    topology = Topology(skin.faces)
    return PanelGround(
        skin, topology, charts(topology, skin.cut), opened(topology, skin.cut), side_lengths(skin)
    )


def lay_panels(skin: Skin, tell: Tell = silent) -> list[FlatPanel]:
    """All panels of a skin whose charts are discs, in the order of their first faces."""
    ground = make_ground(skin)
    laid = []
    for kind in range(int(ground.kinds.max()) + 1):
        laid.append(lay_one(ground, np.flatnonzero(ground.kinds == kind)))
        tell(f"panel {kind + 1}")
    for turn in range(ROUNDS):
        wanted = _agreed(ground, laid)
        laid = [_again(ground, one, wanted) for one in laid]
        tell(f"seams, round {turn + 1}")
    return [panel_of(one) for one in laid]


def lay_one(ground: PanelGround, faces: Indices, steps: int = MOST_STEPS) -> Laying:
    """One panel for itself."""
    vertices, corners = np.unique(ground.labels[faces], return_inverse=True)
    corners = corners.reshape(-1, 3).astype(np.int64)
    lengths = ground.lengths[faces]
    own = Topology(corners)
    rim = np.flatnonzero(own.counts[own.side_edges] == 1)
    sides = 3 * faces[rim // 3] + rim % 3
    edges = ground.topology.side_edges[sides]
    seams = ground.topology.counts[edges] == 2
    sheet = PanelSheet(
        corners,
        true_shapes(lengths),
        np.stack((own.starts[rim], own.ends[rim]), axis=1),
        lengths.ravel()[rim],
        np.where(seams, LOOSE, RIM),
    )
    points = np.zeros(len(vertices), np.int64)
    points[corners.ravel()] = ground.skin.faces[faces].ravel()
    return Laying(faces, points, sheet, sides, seams, lay_flat(sheet, steps=steps))


def _border_lengths(laid: Laying) -> Numbers:
    one, two = laid.sheet.border.T
    size = np.linalg.norm(laid.flat[two] - laid.flat[one], axis=1)
    return np.asarray(size * _roundness(laid))


def _roundness(laid: Laying) -> Numbers:
    """By side of the border, how much longer the curve through its points is: an arc over a chord.

    The outline is drawn as a smooth line, and its two sides at a seam are round in different ways.
    """
    one, two = laid.sheet.border.T
    way = laid.flat[two] - laid.flat[one]
    side_at = np.zeros(len(laid.flat), np.int64)
    side_at[one] = np.arange(len(one))
    after = way[side_at[two]]
    turn = np.arctan2(
        way[:, 0] * after[:, 1] - way[:, 1] * after[:, 0], np.sum(way * after, axis=1)
    )
    turn = np.where(np.abs(turn) < ROUND, turn, 0.0)
    before = np.zeros(len(turn))
    before[side_at[two]] = turn
    half = np.abs(turn + before) / 4
    return np.asarray(np.where(half > 1e-6, half / np.sin(np.maximum(half, 1e-6)), 1.0))


def _agreed(ground: PanelGround, laid: Iterable[Laying]) -> Mapping[int, float]:
    """By side of the skin, the share of its true length that both sides of its seam are to have."""
    shares = np.ones(len(ground.topology.side_edges))
    for one in laid:
        true = ground.lengths.ravel()[one.sides]
        shares[one.sides] = _border_lengths(one) / true
    first, second = ground.topology.pairs
    mean = (shares[first] + shares[second]) / 2
    agreed = np.ones(len(shares))
    agreed[first], agreed[second] = mean, mean
    return dict(enumerate(agreed.tolist()))


def _again(ground: PanelGround, laid: Laying, wanted: Mapping[int, float]) -> Laying:
    """The panel laid anew from where it lies, its seams as long as both sides agreed."""
    true = ground.lengths.ravel()[laid.sides]
    shares = np.array([wanted[side] for side in laid.sides.tolist()])
    sheet = replace(
        laid.sheet,
        lengths=np.where(laid.seams, true * shares / _roundness(laid), true),
        stiff=np.where(laid.seams, STIFF, RIM),
    )
    return replace(laid, sheet=sheet, flat=lay_flat(sheet, laid.flat, STIFF_STEPS))


def panel_of(laid: Laying) -> FlatPanel:
    """The panel with its strain."""
    strain, folded = strain_of(laid.sheet, laid.flat)
    return FlatPanel(
        laid.faces,
        laid.sheet.corners,
        laid.vertices,
        laid.flat,
        strain,
        folded,
        _loops(laid.sheet.border, laid.flat),
    )


def strain_of(sheet: PanelSheet, flat: Numbers) -> tuple[Strain, int]:
    """How much each triangle gives when it is formed, and how many lie upside down."""
    great, small, bad = stretches(sheet, flat)
    # What lies flat s times as long as it is on the form is formed by 1/s - 1.
    one, two = 1 / np.maximum(great, 1e-3) - 1, 1 / np.maximum(small, 1e-3) - 1
    faces = np.where(np.abs(two) > np.abs(one), two, one)
    areas = sheet.areas
    order = np.argsort(np.abs(faces), kind="stable")
    passed = np.cumsum(areas[order])
    place = min(int(np.searchsorted(passed, 0.95 * passed[-1])), len(order) - 1)
    size = np.abs(faces)
    mean, high = float(np.average(size, weights=areas)), float(size[order[place]])
    # As the map shows it: a sliver of a square millimetre is no place that foam could notice.
    worst = float(np.abs(at_points(sheet.corners, areas, faces)).max())
    return Strain(faces, areas, mean, high, worst), int(bad.sum())


LEAST_AROUND = 4.0
"""mm² around a point below which its strain is that of the triangles farther round as well. Our
choice: a square of 2 mm. Where pieces meet, cuts leave triangles of a hundredth of that, and a seam
that is moved by a tenth of a millimetre stretches them by half, which no foam can notice."""


def at_points(corners: Indices, areas: Numbers, values: Numbers) -> Numbers:
    """Mean of the triangles' values around each point, by area."""
    flat, weights = corners.ravel(), np.repeat(areas, 3)
    around = np.bincount(flat, weights)
    total = np.bincount(flat, weights * np.repeat(values, 3))
    wide_around = np.bincount(flat, np.repeat(around[corners].sum(axis=1), 3))
    wide_total = np.bincount(flat, np.repeat(total[corners].sum(axis=1), 3))
    small = around < LEAST_AROUND
    mean = np.where(small, wide_total, total) / np.maximum(
        np.where(small, wide_around, around), 1e-9
    )
    return np.asarray(mean)


def _loops(border: Indices, flat: Numbers) -> tuple[Indices, ...]:
    """Points along each border, the one round the greatest area first."""
    nexts = dict(border.tolist())
    left = dict.fromkeys(nexts)
    loops = []
    while left:
        start = place = next(iter(left))
        loop = []
        while place in left:
            del left[place]
            loop.append(place)
            place = nexts[place]
        if place != start:
            break
        loops.append(np.array(loop))

    def size(loop: Indices) -> float:
        x, y = flat[loop].T
        return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2

    return tuple(sorted(loops, key=lambda loop: -abs(size(loop))))
