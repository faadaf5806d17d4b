"""A piece in → a map of how much its foam has to give where it is formed, out.

Darker is more, in colour and in grey: stretched foam is brown, pressed foam blue, and figures with
their sign say it once more.
"""

import itertools
from collections.abc import Iterator
from math import atan2, degrees

import numpy as np

from guidegen.bench.forms.panels import at_points
from guidegen.bench.forms.pieces import FormPiece
from guidegen.bench.forms.records import FlatPanel, Indices, Numbers
from guidegen.bench.forms.topology import Topology
from guidegen.geometry.outline.curves import inward_normal, point_at
from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.geometry.outline.transforms import RigidMotion, transform_run
from guidegen.pictures.pen.records import Drawing, Item, Lettering, Path, Rectangle, Stroke
from guidegen.words import Words

BOUNDS = (0.01, 0.02, 0.035, 0.05, 0.08)
"""Strain at which a class ends."""
STRETCHED = ("#fffdf8", "#f6e3c3", "#e6bd80", "#c98c45", "#96561c", "#5a2c06")
PRESSED = ("#fffdf8", "#d6e4f2", "#a3c3e0", "#6a97c4", "#36679b", "#12365f")
"""From light to dark by class; the first is that of what hardly gives."""
MOST_FIGURES = 14
MARGIN = 6.0
KEY = 16.0
"""mm above the piece for the key."""
LEAST_WIDTH = 116.0
"""mm of a map: its key needs them."""


def strain_map(piece: FormPiece, words: Words) -> Drawing:
    """The flat piece with its classes of strain, figures, edges and the proposed seam."""
    whole: Run = tuple(segment for edge in piece.edges for segment in edge.run)
    left, low, right, high = bounds((whole,))
    wide, tall = right - left, high - low
    unit = max(wide, tall, 80.0) / 100  # letters keep their size on the page
    motion = RigidMotion(MARGIN * unit - left, MARGIN * unit - low)
    width = max(wide + 2 * MARGIN * unit, LEAST_WIDTH * unit)
    height = tall + (2 * MARGIN + KEY) * unit
    items = [
        *_classes(piece.panel, motion),
        *_lines(piece, motion, unit),
        *_figures(piece, motion, unit, words),
        *_edge_words(piece, motion, unit),
        *_key(height, unit, words),
    ]
    title = words.say("{name}: what its foam gives", name=piece.name)
    strain = piece.panel.strain
    text = words.say(
        "In the mean {mean}, at 95 of 100 places at most {high}, at the worst {worst}.",
        mean=_share(strain.mean, words),
        high=_share(strain.high, words),
        worst=_share(strain.worst, words),
    )
    return Drawing(width, height, title, text, tuple(items))


def _share(value: float, words: Words) -> str:
    return words.say("{n} %", n=words.number(100 * value, 1))


def classes(panel: FlatPanel) -> Indices:
    """By triangle 0 for what hardly gives, 1 to 5 for stretched, -1 to -5 for pressed foam; evened
    over neighbours, so that a map has areas and no specks."""
    strain = _at_points(panel)[panel.corners].mean(axis=1)
    size = np.searchsorted(np.array(BOUNDS), np.abs(strain), side="right")
    return np.asarray(np.where(strain < 0, -size, size), np.int64)


def _at_points(panel: FlatPanel) -> Numbers:
    return at_points(panel.corners, panel.strain.areas, panel.strain.faces)


def _classes(panel: FlatPanel, motion: RigidMotion) -> Iterator[Item]:
    kinds = classes(panel)
    for kind in sorted(set(kinds.tolist()), key=abs):
        colour = (STRETCHED if kind >= 0 else PRESSED)[abs(kind)]
        runs = tuple(
            transform_run(run, motion) for run in _rings(panel.corners[kinds == kind], panel.flat)
        )
        # A thread of its own colour closes the hairline that screens leave between areas.
        yield Path(runs, Stroke(0.15, colour=colour), fill=colour, closed=True)


def _rings(corners: Indices, flat: Numbers) -> Iterator[Run]:
    """Closed runs around some triangles."""
    own = Topology(corners)
    rim = np.flatnonzero(own.counts[own.side_edges] == 1)
    nexts: dict[int, list[int]] = {}
    for start, end in zip(own.starts[rim].tolist(), own.ends[rim].tolist(), strict=True):
        nexts.setdefault(start, []).append(end)
    for start in list(nexts):
        while nexts.get(start):
            ring = [start]
            while nexts.get(ring[-1]):
                ring.append(nexts[ring[-1]].pop())
                if ring[-1] == start:
                    break
            places = [(float(x), float(y)) for x, y in flat[ring]]
            yield tuple(Line(one, two) for one, two in itertools.pairwise(places))


def _lines(piece: FormPiece, motion: RigidMotion, unit: float) -> Iterator[Item]:
    for fold in piece.folds:
        yield Path((transform_run(fold, motion),), Stroke(0.3 * unit, (2 * unit, unit)))
    if piece.proposal is not None:
        run = transform_run((Line(piece.proposal.start, piece.proposal.end),), motion)
        yield Path((run,), Stroke(1.5 * unit, colour="#ffffff"))
        yield Path((run,), Stroke(0.7 * unit, (3 * unit, 1.5 * unit)))
    whole: Run = tuple(segment for edge in piece.edges for segment in edge.run)
    yield Path((transform_run(whole, motion),), Stroke(0.5 * unit), closed=True)
    for hole in piece.holes:
        yield Path((transform_run(hole, motion),), Stroke(0.4 * unit), closed=True)


def _figures(piece: FormPiece, motion: RigidMotion, unit: float, words: Words) -> Iterator[Item]:
    """Strain in per cent at the worst places, far enough from one another to be read."""
    panel = piece.panel
    given = _at_points(panel)
    room = 11 * unit
    rim = np.concatenate([panel.flat[loop] for loop in panel.loops])
    if piece.proposal is not None:  # nor across the proposed seam
        share = np.linspace(0, 1, 60)[:, None]
        start, end = np.array(piece.proposal.start), np.array(piece.proposal.end)
        rim = np.concatenate((rim, start + share * (end - start)))
    order = np.argsort(-np.abs(given), kind="stable")
    taken: list[Numbers] = []
    for row in order.tolist():
        place = panel.flat[row]
        if len(taken) >= MOST_FIGURES:
            break
        if taken and np.linalg.norm(np.array(taken) - place, axis=1).min() < room:
            continue
        if np.linalg.norm(rim - place, axis=1).min() < 4.5 * unit:
            continue
        taken.append(place)
        value = float(given[row])
        sign = "+" if value >= 0 else "−"
        text = sign + words.number(100 * abs(value), 1)
        x, y = motion.point((float(place[0]), float(place[1])))
        half = (0.9 * len(text) + 0.4) * unit
        # On paper of its own: an area's border under the letters would cost them their contrast.
        yield Rectangle(x - half, y - 2.1 * unit, 2 * half, 4.2 * unit, fill="#ffffff")
        yield Lettering((x, y - 1.2 * unit), text, 3.4 * unit, anchor="middle", weight=600)


def _edge_words(piece: FormPiece, motion: RigidMotion, unit: float) -> Iterator[Item]:
    """Names of edges, inside, along their middles."""
    for edge in piece.edges:
        at, way = point_at(edge.run, run_length(edge.run) / 2)
        inward = inward_normal(way)
        angle = degrees(atan2(way[1], way[0]))
        upside = abs(angle) > 90.5  # words are read from below, or from the right
        off = (1.2 if not upside else 3.4) * unit
        place: Point = motion.point((at[0] + off * inward[0], at[1] + off * inward[1]))
        size = min(3 * unit, 1.6 * run_length(edge.run) / len(edge.name))
        if size >= 1.2 * unit:  # shorter edges have no room for their name
            angle = angle - 180 if upside else angle
            yield Lettering(place, edge.name, size, anchor="middle", angle=angle)


def _key(height: float, unit: float, words: Words) -> Iterator[Item]:
    """Which colour is how much."""
    top = height - 4 * unit
    step = 9 * unit
    x = 2 * unit
    ends = ["0", *(words.number(100 * bound, 1 if 100 * bound % 1 else 0) for bound in BOUNDS)]
    ranges = [f"{low}–{high}" for low, high in itertools.pairwise(ends)]
    yield Lettering(
        (x, top), words.say("Per cent: + stretched, − pressed together"), 3.2 * unit, weight=600
    )
    for row, colours in enumerate((STRETCHED, PRESSED)):
        for place, colour in enumerate(colours):
            y = top - (5 + 5 * row) * unit
            yield Rectangle(
                x + place * step * 2, y, step * 0.55, 3.6 * unit, Stroke(0.15 * unit), colour
            )
            sign = "+" if row == 0 else "−"
            told = sign + (ranges[place] if place < len(ranges) else f"{ends[-1]} …")
            at = (x + place * step * 2 + step * 0.65, y + 0.8 * unit)
            yield Lettering(at, told, 3 * unit)
