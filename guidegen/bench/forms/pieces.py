"""Panels laid flat → pieces with named edges, seams between them, folds and windows."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from string import ascii_lowercase

import numpy as np

from guidegen.bench.forms.chains import SeamChain, chain_of_edges, find_chains, seam_turn
from guidegen.bench.forms.curves import smooth_run
from guidegen.bench.forms.panels import PanelGround
from guidegen.bench.forms.proposing import Proposal
from guidegen.bench.forms.records import FlatPanel, Numbers, Skin
from guidegen.bench.forms.topology import Topology, edge_keys, is_in
from guidegen.geometry.outline.measures import run_length, segment_start
from guidegen.geometry.outline.records import Point, Run


@dataclass(frozen=True, slots=True)
class FormEdge:
    """A named edge of a piece."""

    name: str
    chain: int
    run: Run
    start: str
    """Corner where it begins, counter-clockwise."""
    end: str


@dataclass(frozen=True, slots=True)
class FormPiece:
    """A flat piece as it is drawn."""

    id: str
    name: str
    panel: FlatPanel
    """Its places are those of the drawing."""
    edges: tuple[FormEdge, ...]
    holes: tuple[Run, ...] = ()
    folds: tuple[Run, ...] = ()
    bevels: tuple[tuple[str, float], ...] = ()
    """Edges with degrees from square; below 0 the outer face ends smaller."""
    proposal: Proposal | None = None
    """Where one more seam would help, of a piece that strains too much."""

    @property
    def size(self) -> Point:
        """mm, width and height."""
        sides = self.panel.flat.max(axis=0) - self.panel.flat.min(axis=0)
        return float(sides[0]), float(sides[1])


@dataclass(frozen=True, slots=True)
class FormSeam:
    """Two edges that are joined."""

    id: str
    ends: tuple[tuple[str, str], tuple[str, str]]
    """Piece and edge, twice."""
    lengths: tuple[float, float]
    """mm of both, in the middle of the foam."""
    turn: float
    """degrees by which the surface turns there; outward bends above 0."""
    turns: tuple[float, float]
    """The least and the most along it."""
    ease: float = 0.0
    """mm by which the first edge is longer as drawn, where bevels differ in their way round."""

    @property
    def apart(self) -> float:
        """mm by which both differ."""
        return abs(self.lengths[0] - self.lengths[1])


@dataclass(frozen=True, slots=True)
class HowDrawn:
    """How pieces are called and drawn."""

    names: Sequence[str]
    """Of materials or groups."""
    up: Numbers
    """The direction that points upward on the drawings."""
    corner: float
    """degrees by which an outline turns where it gets a corner."""
    stem: str
    """What ids begin with."""


def make_pieces(
    ground: PanelGround, panels: Sequence[FlatPanel], how: HowDrawn
) -> tuple[list[FormPiece], list[FormSeam]]:
    """All pieces and seams."""
    names, up, corner, stem = how.names, how.up, how.corner, how.stem
    skin, topology = ground.skin, ground.topology
    chains = find_chains(skin, topology)
    owners = chain_of_edges(chains)
    turned = [_upright(skin, panel, up) for panel in panels]
    order = _reading_order(skin, turned, up)
    turned = [turned[place] for place in order]
    stops = {point for chain in chains for point in (chain.points[0], chain.points[-1])}
    stretches = [_stretches(panel, owners, stops) for panel in turned]
    edge_names = _edge_names(chains, stretches)
    pieces = []
    titles = _titles(skin, turned, names)
    for number, panel in enumerate(turned):
        edges = _edges(panel, stretches[number], edge_names[number], corner)
        holes = tuple(_ring(panel.flat[loop], corner) for loop in panel.loops[1:])
        folds = _folds(skin, topology, panel, corner)
        pieces.append(FormPiece(f"{stem}-{number + 1}", titles[number], panel, edges, holes, folds))
    return pieces, _seams(skin, topology, chains, pieces, stem)


def _upright(skin: Skin, panel: FlatPanel, up: Numbers) -> FlatPanel:
    """The panel turned so that what is higher on the form is higher on the drawing, and moved so
    that its lower left is the origin."""
    heights = skin.points[panel.vertices] @ up
    away = panel.flat - panel.flat.mean(axis=0)
    slope = np.linalg.lstsq(away, heights - heights.mean(), rcond=None)[0]
    size = float(np.linalg.norm(slope))
    if size < 0.2:  # it lies level: its longer way goes across
        _, axes = np.linalg.eigh(away.T @ away)
        way = axes[:, 0] * np.sign(axes[np.argmax(np.abs(axes[:, 0])), 0])
    else:
        way = slope / size
    flat = away @ np.array([[way[1], way[0]], [-way[0], way[1]]])
    return replace(panel, flat=flat - flat.min(axis=0))


def _reading_order(skin: Skin, panels: Sequence[FlatPanel], up: Numbers) -> list[int]:
    """Panels from above to below, and round the form at one height."""
    points = np.array([skin.points[panel.vertices].mean(axis=0) for panel in panels])
    heights = points @ up
    step = max(float(np.ptp(skin.points @ up)) / 6, 1.0)
    level = points - np.outer(heights, up)
    first = np.cross(up, np.roll(up, 1))
    around = np.arctan2(level @ first, level @ np.cross(up, first))
    rows = np.round((heights.max() - heights) / step)
    return [int(n) for n in np.lexsort((np.arange(len(panels)), np.round(around, 6), rows))]


def _stretches(
    panel: FlatPanel, owners: dict[int, int], stops: set[int]
) -> list[tuple[int, list[int]]]:
    """Along the outer border: chain and rows of `flat`, from corner to corner."""
    loop = panel.loops[0].tolist()
    points = panel.vertices[panel.loops[0]].tolist()
    first = next((n for n, point in enumerate(points) if point in stops), 0)
    loop, points = loop[first:] + loop[:first], points[first:] + points[:first]
    found: list[tuple[int, list[int]]] = []
    for place, row in enumerate(loop):
        onward = (place + 1) % len(loop)
        key = int(edge_keys(np.int64(points[place]), np.int64(points[onward])))  # type: ignore[arg-type]
        if not found or points[place] in stops:
            found.append((owners[key], [row]))
        found[-1][1].append(loop[onward])
    return found


def _edge_names(
    chains: list[SeamChain], stretches: Sequence[list[tuple[int, list[int]]]]
) -> list[list[str]]:
    """Names by panel and stretch: after the panel beyond, or free, or own."""
    beyond: dict[int, list[int]] = {}
    for panel, listed in enumerate(stretches):
        for chain, _ in listed:
            beyond.setdefault(chain, []).append(panel)
    names = []
    for panel, listed in enumerate(stretches):
        stems = []
        for chain, _ in listed:
            others = beyond[chain]
            if chains[chain].free or len(others) < 2:
                stems.append("free")
            else:
                other = others[0] if others[1] == panel else others[1]
                stems.append("own" if other == panel else f"to-{other + 1}")
        counts = {stem: stems.count(stem) for stem in stems}
        seen: dict[str, int] = {}
        row = []
        for stem in stems:
            seen[stem] = seen.get(stem, 0) + 1
            row.append(stem if counts[stem] == 1 else f"{stem}-{_letters(seen[stem] - 1)}")
        names.append(row)
    return names


def _letters(number: int) -> str:
    """a to z, then a2 to z2, …"""
    turn, letter = divmod(number, 26)
    return ascii_lowercase[letter] + (str(turn + 1) if turn else "")


def _edges(
    panel: FlatPanel, listed: list[tuple[int, list[int]]], names: list[str], corner: float
) -> tuple[FormEdge, ...]:
    edges = []
    for number, (chain, rows) in enumerate(listed):
        run = smooth_run(panel.flat[rows], corner)
        onward = (number + 1) % len(listed)
        edges.append(FormEdge(names[number], chain, run, _letters(number), _letters(onward)))
    return tuple(edges)


def _ring(points: Numbers, corner: float) -> Run:
    """A closed run, begun at its sharpest corner."""
    ways = np.roll(points, -1, axis=0) - points
    before = np.roll(ways, 1, axis=0)
    turn = np.abs(
        np.arctan2(
            before[:, 0] * ways[:, 1] - before[:, 1] * ways[:, 0], np.sum(before * ways, axis=1)
        )
    )
    start = int(np.argmax(turn))
    ring = np.roll(points, -start, axis=0)
    half = len(ring) // 2
    closed = np.concatenate((ring, ring[:1]))
    return smooth_run(closed[: half + 1], corner) + smooth_run(closed[half:], corner)


def _folds(skin: Skin, topology: Topology, panel: FlatPanel, corner: float) -> tuple[Run, ...]:
    """Sharp edges inside the panel, as lines to fold along."""
    faces = Topology(panel.corners)
    sides = 3 * panel.faces[:, None] + np.arange(3)
    keys = topology.side_keys[sides.ravel()]
    inner = is_in(keys, np.setdiff1d(skin.sharp, skin.cut)) & (faces.counts[faces.side_edges] == 2)
    links: dict[int, set[int]] = {}
    for one, two in zip(faces.starts[inner].tolist(), faces.ends[inner].tolist(), strict=True):
        links.setdefault(one, set()).add(two)
        links.setdefault(two, set()).add(one)
    runs = []
    ends = sorted(p for p, others in links.items() if len(others) != 2) + sorted(links)
    for start in ends:
        while links.get(start):
            path = [start]
            while links[path[-1]] and (len(path) == 1 or len(links[path[-1]]) == 1):
                onward = min(links[path[-1]])
                links[path[-1]].discard(onward)
                links[onward].discard(path[-1])
                path.append(onward)
            if path[0] == path[-1]:
                runs.append(_ring(panel.flat[path[:-1]], corner))
            else:
                runs.append(smooth_run(panel.flat[path], corner))
    return tuple(runs)


def _titles(skin: Skin, panels: Sequence[FlatPanel], names: Sequence[str]) -> list[str]:
    """The name of a panel's material or group, where it is its own; else a number."""
    kinds = [np.unique(skin.materials[panel.faces]).tolist() for panel in panels]
    whole = [names[listed[0]] if len(listed) == 1 else "" for listed in kinds]
    return [
        " ".join(name.split()) if name and whole.count(name) == 1 else f"Panel {number}"
        for number, name in enumerate(whole, 1)
    ]


def _seams(
    skin: Skin, topology: Topology, chains: list[SeamChain], pieces: Sequence[FormPiece], stem: str
) -> list[FormSeam]:
    """Every chain that two edges lie along."""
    sides: dict[int, list[tuple[FormPiece, FormEdge]]] = {}
    for piece in pieces:
        for edge in piece.edges:
            sides.setdefault(edge.chain, []).append((piece, edge))
    numbers = {piece.id: number for number, piece in enumerate(pieces, 1)}
    seams: list[FormSeam] = []
    used: dict[str, int] = {}
    for chain, ends in sides.items():
        if len(ends) != 2 or chains[chain].free:
            continue
        (one, first), (two, second) = ends
        both = f"{stem}-seam-{numbers[one.id]}-{numbers[two.id]}"
        used[both] = used.get(both, 0) + 1
        ident = both if used[both] == 1 else f"{both}-{_letters(used[both] - 1)}"
        mean, least, most = seam_turn(skin, topology, chains[chain])
        lengths = (run_length(first.run), run_length(second.run))
        seams.append(
            FormSeam(
                ident, ((one.id, first.name), (two.id, second.name)), lengths, mean, (least, most)
            )
        )
    return seams


def corner_places(piece: FormPiece) -> list[tuple[str, Point]]:
    """Names and places of all corners."""
    return [(edge.start, segment_start(edge.run[0])) for edge in piece.edges]
