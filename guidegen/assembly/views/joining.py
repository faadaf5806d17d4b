"""The finished thing and the steps in → what each step that joins has before and after it.

Sheets are joined by seams, by layers, by rows of points and by what stands on what: each joint
belongs to one step. What hangs together is seen by itself, from where most of what is new shows.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, pairwise

import numpy as np

from guidegen.assembly.records import Assembly, JoinSeen, PlacedSheet
from guidegen.assembly.views.raster import Camera, Window, rasterise
from guidegen.assembly.views.seen import see
from guidegen.assembly.views.surface import FACES, whole_surface
from guidegen.buildfile.records.guide import Guide, Stage, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import JoinedSeam, Kit

type SheetPair = tuple[str, str]
"""Keys of two sheets."""

SIDES = (
    *(Camera(f"side-{turn}", turn, 14.0) for turn in (0, 40, 320, 90, 270, 180, 140, 220)),
    Camera("above", 30.0, 45.0),
)
"""Where one may look from, the usual ones first: of two that show as much the first is taken."""
BETTER = 1.15
"""How many times more of what is new a less usual side must show."""
TRIAL_ROWS, ROWS = 70, 200
"""Cells from foot to top while a side is looked for, and of a view."""
HIGH, WIDE = 19.0, 15.5
"""mm of a view at most."""
MOST = 2
"""Things that are shown for a step that joins several."""


def see_joins(
    assembly: Assembly, guide: Guide, kit: Kit, stock: Stock
) -> Mapping[str, tuple[JoinSeen, ...]]:
    """By step that joins sheets: things before and after it, those with most that is new first."""
    sheets = {sheet.key: sheet for sheet in assembly.sheets}
    by_part: dict[str, list[str]] = {}
    for key, sheet in sheets.items():
        by_part.setdefault(sheet.part, []).append(key)
    joints = _joints_by_step(sheets, by_part, guide, kit, stock)
    areas = {key: _area(sheet) for key, sheet in sheets.items()}
    owner = {key: key for key in sheets}
    found: dict[str, tuple[JoinSeen, ...]] = {}
    for step in guide.steps:
        if step.id not in joints:
            continue
        fresh = [*joints[step.id], *_strapped(step, by_part, guide)]
        before = {key: _root(owner, key) for key in sheets}
        for one, other in fresh:
            owner[_root(owner, one)] = _root(owner, other)
        touched = {_root(owner, key) for joint in fresh for key in joint}
        things = [_Thing(root, owner, before, areas) for root in sorted(touched)]
        things = [thing for thing in things if thing.fresh]
        things.sort(key=lambda thing: (-thing.size, "-right" in thing.whole[0], thing.whole))
        shown: dict[str, _Thing] = {}
        for thing in things:
            shown.setdefault(thing.kind, thing)
        seen = (_see(assembly, sheets, thing) for thing in list(shown.values())[:MOST])
        if pairs := tuple(pair for pair in seen if pair is not None):
            found[step.id] = pairs
    return found


class _Thing:
    """What hangs together after a step."""

    def __init__(
        self,
        root: str,
        owner: dict[str, str],
        before: Mapping[str, str],
        areas: Mapping[str, float],
    ) -> None:
        groups: dict[str, list[str]] = {}
        for key in sorted(key for key in before if _root(owner, key) == root):
            groups.setdefault(before[key], []).append(key)

        def area(keys: Sequence[str]) -> float:
            return sum(areas[key] for key in keys)

        self.base = max(groups.values(), key=lambda keys: (round(area(keys)), keys))
        self.fresh = frozenset(key for keys in groups.values() for key in keys) - {*self.base}
        self.whole = [*self.base, *sorted(self.fresh)]
        self.size = round(area(sorted(self.fresh)))
        self.kind = " ".join(sorted(re.sub(r"-(left|right|[0-9]+)\b", "", k) for k in self.whole))
        """The same for both hands and all copies."""


def _root(owner: dict[str, str], key: str) -> str:
    while owner[key] != key:
        owner[key] = owner[owner[key]]
        key = owner[key]
    return key


def _area(sheet: PlacedSheet) -> float:
    """mm² of its flat piece."""
    a, b, c = (sheet.flat[sheet.triangles[:, k]] for k in range(3))
    turn = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    return float(np.abs(turn).sum() / 2)


def _joints_by_step(
    sheets: Mapping[str, PlacedSheet],
    by_part: Mapping[str, list[str]],
    guide: Guide,
    kit: Kit,
    stock: Stock,
) -> dict[str, list[SheetPair]]:
    """Which sheets each step joins."""
    found: dict[str, list[SheetPair]] = {}
    for step in guide.steps:
        if pairs := [pair for parts in _named(step, kit) for pair in _pairs(by_part, *parts)]:
            found[step.id] = pairs
    for above, below in _resting(sheets, by_part, guide):
        step_id = _step_of(sheets[above].part, sheets[below].part, guide, kit, stock)
        if step_id:
            found.setdefault(step_id, []).append((above, below))
    owner = {key: key for key in sheets}
    for one, other in (joint for joints in found.values() for joint in joints):
        owner[_root(owner, one)] = _root(owner, other)
    for step_id, one, other in _touching(sheets, by_part, guide, stock):
        if _root(owner, one) != _root(owner, other):
            found.setdefault(step_id, []).append((one, other))
    return found


def _named(step: Step, kit: Kit) -> Iterator[tuple[str, str]]:
    """Parts that a step joins by name: at seams, and where plates turn."""
    for seam in kit.seams:
        parts = (seam.first.part, seam.second.part)
        # What is rolled up closes on itself, and joins nothing else.
        rolled = parts[0] == parts[1] and _rolled(seam, kit)
        if (seam.id in step.seams or seam.step == step.id) and not rolled:
            yield parts
    for linkage in kit.linkages:
        if linkage.id in step.linkages:
            yield from (joint.parts for joint in linkage.joints)


def _strapped(step: Step, by_part: Mapping[str, list[str]], guide: Guide) -> Iterator[SheetPair]:
    """Straps of a step that joins pieces as well, with what holds them and what lies on them."""
    for name in step.straps:
        strap = guide.straps.get(name)
        for end in (strap.start, strap.end) if strap is not None else ():
            if end is not None:
                yield from _pairs(by_part, name, end.row.partition(".")[0])
        for part in step.parts:
            stands = guide.parts[part].stands if part in guide.parts else None
            if stands is not None and stands.strap == name:
                yield from _pairs(by_part, part, name)


def _rolled(seam: JoinedSeam, kit: Kit) -> bool:
    """Whether a seam of one part closes each of its pieces: there are as many as pieces, and none
    has a neighbour of its own hand."""
    pieces = list(kit.built(seam.first.part))
    lone = all(piece.copies - piece.spares == 1 for piece in pieces)
    return seam.first.edge != seam.second.edge and lone


NEAR = 6.0
"""mm between faces that a step glues to one another, points of two meshes counted. Our choice: half
the distance between points."""


def _touching(
    sheets: Mapping[str, PlacedSheet],
    by_part: Mapping[str, list[str]],
    guide: Guide,
    stock: Stock,
) -> Iterator[tuple[str, str, str]]:
    """What a step may glue where it lies, by an amount and without a seam: the step and both
    sheets."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only where there is a view

    for step in guide.steps:
        glued = step.stage == Stage.GLUING and any(use.amount is not None for use in step.uses)
        if not glued or not _joins(step, stock):
            continue
        for first, second in combinations(step.parts, 2):
            for one, other in _pairs(by_part, first, second):
                room = (sheets[one].thickness + sheets[other].thickness) / 2 + NEAR
                apart, _ = cKDTree(sheets[one].middle).query(sheets[other].middle)
                if float(apart.min()) < room:
                    yield step.id, one, other


def _pairs(by_part: Mapping[str, list[str]], first: str, second: str) -> Iterator[SheetPair]:
    """Sheets of two parts that meet: of one hand, or of a hand and what is in the middle. Copies of
    one part meet their neighbours."""
    if first == second:
        keys = by_part.get(first, [])
        yield from (pair for pair in pairwise(keys) if _hand(pair[0]) == _hand(pair[1]))
        # Both hands of a part that are joined in the middle.
        if len(keys) == 2 and _hand(keys[0]) != _hand(keys[1]):
            yield keys[0], keys[1]
        return
    for one in by_part.get(first, []):
        for other in by_part.get(second, []):
            if "" in (_hand(one), _hand(other)) or _hand(one) == _hand(other):
                yield one, other


def _hand(key: str) -> str:
    found = re.search(r"-(left|right)\b", key)
    return found[1] if found else ""


def _resting(
    sheets: Mapping[str, PlacedSheet], by_part: Mapping[str, list[str]], guide: Guide
) -> Iterator[SheetPair]:
    """What lies or stands on what: the upper one first."""
    for key, sheet in sheets.items():
        base = key.partition("@")[2]
        while base and base not in sheets and "-" in base:
            base = base.rpartition("-")[0]
        if base in sheets:
            yield key, base
        stands = guide.parts[sheet.part].stands if sheet.part in guide.parts else None
        if "@" not in key and stands is not None and stands.on:
            under = by_part.get(stands.on, [])
            yield from ((key, one) for one in under if _hand(one) in ("", _hand(key)))


def _step_of(above: str, below: str, guide: Guide, kit: Kit, stock: Stock) -> str:
    """The step that joins two parts of which one rests on the other: that of a stack with both,
    else the first that joins the upper one to anything, by the parts that it names."""
    stacks = {
        stack.id for stack in kit.stacks if {above, below} <= {layer.part for layer in stack.layers}
    }
    for step in guide.steps:
        if stacks & {*step.stacks}:
            return step.id
    both = [step for step in guide.steps if _joins(step, stock) and {above, below} <= {*step.parts}]
    alone = [step for step in guide.steps if _joins(step, stock) and above in step.parts]
    return next((step.id for step in (*both, *alone)), "")


def _joins(step: Step, stock: Stock) -> bool:
    process = stock.processes.get(step.process or "")
    return process is not None and "join" in process.makes


def _see(assembly: Assembly, sheets: Mapping[str, PlacedSheet], thing: _Thing) -> JoinSeen | None:
    whole = _only(assembly, sheets, thing.whole)
    camera = best_side(whole, thing.fresh)
    window, height = _window(whole, camera, ROWS)
    before = see(_only(assembly, sheets, thing.base), camera, window, height=height)
    after = see(whole, camera, window, height=height, marked=thing.fresh)
    return JoinSeen(before, after) if before and after else None


def _only(assembly: Assembly, sheets: Mapping[str, PlacedSheet], keys: Sequence[str]) -> Assembly:
    return replace(assembly, sheets=tuple(sheets[key] for key in keys), figure=(), missing=())


def best_side(whole: Assembly, fresh: frozenset[str]) -> Camera:
    """From where most of the fresh sheets is seen."""
    surface = whole_surface(whole)
    wanted = np.array(
        [*(False for _ in whole.figure), *(sheet.key in fresh for sheet in whole.sheets)]
    )
    best, most = SIDES[0], 0.0
    for camera in SIDES:
        window, _ = _window(whole, camera, TRIAL_ROWS)
        ids = rasterise(surface, camera, window).ids // FACES
        shown = float(wanted[ids[ids >= 0]].sum()) * window.cell**2
        if shown > most * BETTER:
            best, most = camera, shown
    return best


def _window(whole: Assembly, camera: Camera, rows: int) -> tuple[Window, float]:
    """The part of the projection that holds everything, and mm of its picture's height."""
    thick = max(sheet.thickness for sheet in whole.sheets)
    points = camera.project(np.concatenate([sheet.middle for sheet in whole.sheets]))[:, :2]
    low, high = points.min(0) - thick, points.max(0) + thick
    wide, tall = (float(one) for one in high - low)
    height = min(HIGH, WIDE * tall / wide)
    cell = tall / max(12, round(rows * height / HIGH))
    width = float(np.ceil(wide / cell)) * cell
    return Window(float(low[0]), float(low[1]), width, tall, cell), height
