"""Panels that strain too much → where one more seam would help, and skins cut there, out.

The proposed seam is a straight line on the flat panel, along its longer way, through the middle of
what is strained: strain goes with the square of a panel's width (a panel of width w on a surface of
curvature k gives by about k w² / 24), so the narrower way is halved.
"""

from dataclasses import dataclass, replace

import numpy as np

from guidegen.bench.forms.discs import MOST_CUTS, TooManyCuts
from guidegen.bench.forms.panels import PanelGround, lay_one, make_ground, panel_of
from guidegen.bench.forms.records import FaceMask, FlatPanel, Indices, Numbers, Skin, Tell, silent
from guidegen.bench.forms.slicing import slice_skin, with_cut

MOST_STRAIN = 0.05
"""At 95 of 100 of the area. The bound within which EVA foam follows when it is warmed is common
practice, no source."""
AIM = 0.045
"""The same while seams are proposed: making both sides of seams equal costs a little."""
LEAST_SHARE = 0.003
"""Of a panel's area: smaller crumbs are left with their neighbour."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """One more seam across a panel."""

    start: tuple[float, float]
    """mm on the flat panel."""
    end: tuple[float, float]
    high: float
    """Strain at 95 of 100 of the area of the worse half, with that seam."""


def too_long(panel: FlatPanel, longest: float) -> bool:
    """Whether the longer way of a panel is more than `longest` mm; never where that is 0."""
    if not longest:
        return False
    _, axes = np.linalg.eigh(np.cov(panel.flat.T))
    return bool(np.ptp(panel.flat @ axes[:, 1]) > longest)


def line_across(panel: FlatPanel, longest: float = 0.0) -> tuple[Numbers, Numbers]:
    """A point of the proposed line and the unit vector along it."""
    middles = panel.flat[panel.corners].mean(axis=1)
    weights = panel.strain.areas
    centre = np.average(middles, axis=0, weights=weights)
    away = middles - centre
    _, axes = np.linalg.eigh((away * weights[:, None]).T @ away)
    along, across = axes[:, 1], axes[:, 0]
    if too_long(panel, longest):
        along, across = across, along
    along = along * np.sign(along[np.argmax(np.abs(along))])
    heights = away @ across
    # The middle of the area, moved towards what is strained, but leaving a third on either side.
    strained = np.average(heights, weights=weights * np.abs(panel.strain.faces) + 1e-12)
    order = np.argsort(heights, kind="stable")
    shares = np.cumsum(weights[order]) / weights.sum()
    low, high = (float(heights[order[np.searchsorted(shares, s)]]) for s in (0.36, 0.64))
    middle = float(heights[order[np.searchsorted(shares, 0.5)]])
    height = float(np.clip((middle + strained) / 2, low, high))
    return centre + height * across, along


@dataclass(frozen=True, slots=True)
class Halved:
    """A skin with one more seam."""

    skin: Skin
    parents: Indices
    """By face, the face of the former skin that it is a part of."""


def halved(ground: PanelGround, panel: FlatPanel, longest: float = 0.0) -> Halved:
    """The skin with one more seam across a panel."""
    point, along = line_across(panel, longest)
    across = np.array([-along[1], along[0]])
    inside = np.zeros(len(ground.skin.faces), bool)
    inside[panel.faces] = True
    values = np.full(int(ground.labels.max()) + 1, np.nan)
    values[ground.labels[panel.faces]] = ((panel.flat - point) @ across)[panel.corners]
    sliced = slice_skin(ground.skin, inside, ground.labels, values)
    skin = with_cut(sliced.skin, sliced.line)
    return Halved(_without_crumbs(skin, sliced.line, inside[sliced.parents]), sliced.parents)


def _without_crumbs(skin: Skin, line: Indices, inside: FaceMask) -> Skin:
    """The skin with the new line left out around parts that are too small to be panels."""
    ground = make_ground(skin)
    kinds = np.unique(ground.kinds[inside])
    areas = np.bincount(ground.kinds, weights=areas_of(ground))
    small = kinds[areas[kinds] < LEAST_SHARE * areas[kinds].sum()]
    if not len(small):
        return skin
    sides = np.flatnonzero(np.isin(np.repeat(ground.kinds, 3), small))
    around = np.intersect1d(ground.topology.side_keys[sides], line)
    return replace(skin, cut=np.setdiff1d(skin.cut, around))


def areas_of(ground: PanelGround) -> Numbers:
    """mm² of each face (Heron)."""
    a, b, c = ground.lengths.T
    half = (a + b + c) / 2
    return np.asarray(np.sqrt(np.maximum(half * (half - a) * (half - b) * (half - c), 0)))


def propose(ground: PanelGround, panel: FlatPanel) -> Proposal:
    """Where one more seam would help, and how much."""
    point, along = line_across(panel)
    heights = (panel.flat[panel.loops[0]] - point) @ along
    start, end = point + along * heights.min(), point + along * heights.max()
    parent = np.zeros(len(ground.skin.faces), bool)
    parent[panel.faces] = True
    made = halved(ground, panel)
    new = make_ground(made.skin)
    worst = 0.0
    for kind in np.unique(new.kinds[parent[made.parents]]):
        laid = lay_one(new, np.flatnonzero(new.kinds == kind))
        worst = max(worst, panel_of(laid).strain.high)
    return Proposal((float(start[0]), float(start[1])), (float(end[0]), float(end[1])), worst)


def overlaps(panel: FlatPanel) -> bool:
    """Whether the outline of a flat panel crosses itself."""
    ring = panel.flat[panel.loops[0]]
    after = np.roll(ring, -1, axis=0)
    count = len(ring)
    # Row by row: a border of 3,000 sides has nine million pairs.
    for place in range(count - 2):
        last = count - 1 if place == 0 else count
        a, b = ring[place], after[place]
        c, d = ring[place + 2 : last], after[place + 2 : last]
        way = b - a
        left = way[0] * (c[:, 1] - a[1]) - way[1] * (c[:, 0] - a[0])
        right = way[0] * (d[:, 1] - a[1]) - way[1] * (d[:, 0] - a[0])
        other = d - c
        near = other[:, 0] * (a[1] - c[:, 1]) - other[:, 1] * (a[0] - c[:, 0])
        far = other[:, 0] * (b[1] - c[:, 1]) - other[:, 1] * (b[0] - c[:, 0])
        if ((left * right < 0) & (near * far < 0)).any():
            return True
    return False


def propose_cuts(skin: Skin, longest: float, tell: Tell = silent) -> tuple[Skin, int]:
    """The skin cut so that no panel strains too much or is too long, and how many seams that took.

    Its charts are discs. Raises TooManyCuts.
    """
    done = np.zeros(len(skin.faces), bool)
    for count in range(MOST_CUTS):
        ground = make_ground(skin)
        panel = _first_to_halve(ground, done, longest)
        if panel is None:
            return skin, count
        made = halved(ground, panel, longest)
        skin, done = made.skin, done[made.parents]
        tell(f"seam {count + 1}")
    raise TooManyCuts


def _first_to_halve(ground: PanelGround, done: FaceMask, longest: float) -> FlatPanel | None:
    """The first panel that strains too much or is too long; those before it are marked as done."""
    for kind in range(int(ground.kinds.max()) + 1):
        faces = np.flatnonzero(ground.kinds == kind)
        if done[faces].all():
            continue
        # A few steps tell what is far too wide; only what comes near is laid to the end.
        panel = panel_of(lay_one(ground, faces, steps=5))
        if panel.strain.high < 1.5 * AIM:
            panel = panel_of(lay_one(ground, faces))
        unfit = panel.strain.high > AIM or panel.folded > 0 or too_long(panel, longest)
        if (unfit or overlaps(panel)) and len(faces) > 3:
            return panel
        done[faces] = True
    return None
