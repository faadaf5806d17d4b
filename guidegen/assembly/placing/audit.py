"""The finished thing in space → what does not fit on the body, at a seam, beside another part."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.placing.harness import harness_ways
from guidegen.assembly.placing.joints import blocked_joints
from guidegen.assembly.placing.scene import Placing, worn_of
from guidegen.assembly.placing.spots import ON_ARM, RIGHT
from guidegen.assembly.placing.straps import body_surface
from guidegen.assembly.placing.whole import not_placed, place_all
from guidegen.assembly.records import Points3
from guidegen.assembly.sheets.made import Made, sides_of
from guidegen.buildfile.read.content import ONE_SIZE, GuideFile
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import Kit, Side
from guidegen.problems import Problem
from guidegen.units import mm_text

WIDEST_GAP = 1.0
"""mm between the edges of a seam that is closed. Our choice: what glue and filler bridge unseen."""
MOST_STRAIN = 0.03
"""Share by which foam may be longer or shorter than its flat piece where no heat forms it. Our
choice: more puckers."""
DEEPEST = 2.0
"""mm that a piece may lie in the body or in another: foam and clothes give way so much."""
SHARE = 0.02
"""Of a piece's points or sides that are left out, the worst: corners of a mesh, not of foam."""


HARNESS_NEAR, HARNESS_SHARE = 20.0, 0.1
"""mm, and share of its way, by which a strap may differ from the figure. Our choice: a body is
softer, and its proportions are its own."""


@dataclass(frozen=True, slots=True)
class _Found:
    """One thing that does not fit."""

    code: str
    trail: tuple[str | int, ...]
    message: str
    amount: float = 0.0


def audit_assembly(file: GuideFile, stock: Stock, kit: Kit) -> list[Problem]:
    """Findings about the finished thing in one size; none where nothing of it is shown."""
    scene = place_all(file.guide, kit, stock)
    if not scene.made:
        return []
    where = "" if kit.size == ONE_SIZE else f"in size {kit.size}: "
    # What girths alone have placed sits where it fits: its author said nothing of what is missing,
    # and it may slide away from a joint.
    parts = file.guide.parts.values()
    said_so = any(part.worn is not None or part.stands is not None for part in parts)
    joints = blocked_joints(scene, _bases(scene)) if scene.worn and said_so else ()
    found = [
        *(_missing(scene) if said_so else ()),
        *_apart(scene),
        *_strained(scene, _heated(file, stock)),
        *(_in_body(scene) if scene.worn else ()),
        *_in_one_another(scene),
        *(_harnessed(scene) if scene.worn and file.guide.harnesses else ()),
        *(_Found("joint-blocked", ("parts", part), said, short) for part, said, short in joints),
    ]
    return [
        file.source.problem(one.code, one.trail, where + one.message, amount=one.amount)
        for one in found
    ]


def _missing(scene: Placing) -> Iterator[_Found]:
    for one in not_placed(scene):
        if not one.hidden:
            yield _Found("not-placed", ("parts", one.part), one.reason)


def _apart(scene: Placing) -> Iterator[_Found]:
    worst: dict[str, float] = {}
    for seam, gap in scene.gaps:
        worst[seam] = max(gap, worst.get(seam, 0.0))
    for seam, gap in worst.items():
        if gap > WIDEST_GAP:
            message = f"bent over the body, the edges stay {mm_text(gap, 1)} mm apart"
            yield _Found("edges-apart", ("seams", seam, "join"), message, gap)


def _heated(file: GuideFile, stock: Stock) -> frozenset[str]:
    """Parts that a step forms with heat: there foam takes a new length."""
    return frozenset(
        part
        for step in file.guide.steps
        if step.process in stock.processes and "form" in stock.processes[step.process].makes
        for part in step.parts
    )


def _bases(scene: Placing, side: str = "") -> list[Made]:
    """Sheets that lie on the body or the ground themselves; without the right-hand ones, which
    mirror the left."""
    return [
        made
        for made in scene.made.values()
        if "@" not in made.sheet.key and not made.sheet.key.endswith(f"-{side or RIGHT}")
    ]


def _strained(scene: Placing, heated: frozenset[str]) -> Iterator[_Found]:
    for made in _bases(scene):
        part = made.piece.part
        if part in heated or scene.part(part).formed or scene.part(part).shape != "drawing":
            continue
        if made.piece.taken:
            continue  # cloth that is folded away
        sides = sides_of(made.mesh)
        # Bevelled edges are drawn back a little: that is cut, not bent.
        cut = [made.mesh.edges.get(bevel.edge, ()) for bevel in made.piece.shape.bevels]
        sides = sides[~np.isin(sides, np.concatenate([*cut, ()])).any(1)]
        if not len(sides):
            continue
        flat, now = _lengths(made.mesh.points, sides), _lengths(made.sheet.middle, sides)
        strain = float(np.quantile(np.abs(now / flat - 1), 1 - SHARE))
        if strain > MOST_STRAIN:
            message = (
                f"bent over the body it would have to stretch or shrink by "
                f"{mm_text(strain * 100, 1)} per cent, and no step forms it with heat"
            )
            yield _Found("strained", ("parts", part), message, strain)


def _lengths(points: NDArray[np.float64], sides: NDArray[np.int64]) -> NDArray[np.float64]:
    return np.asarray(np.sqrt(((points[sides[:, 1]] - points[sides[:, 0]]) ** 2).sum(1)))


def _in_body(scene: Placing) -> Iterator[_Found]:
    surface = body_surface(scene)
    worst: dict[str, float] = {}
    for made in _bases(scene):
        part = made.piece.part
        if worn_of(scene.guide, part) is not None:
            inner = made.sheet.middle - made.sheet.normals * made.sheet.thickness / 2
            deep = float(np.quantile(-_heights(inner, *surface), 1 - SHARE))
            worst[part] = max(deep, worst.get(part, 0.0))
    for part, deep in worst.items():
        if deep > DEEPEST:
            message = f"lies {mm_text(deep, 1)} mm in the body"
            yield _Found("in-body", ("parts", part), message, deep)


def _harnessed(scene: Placing) -> Iterator[_Found]:
    """Straps of harnesses that are far from as long as their way over the figure."""
    surface = body_surface(scene)
    for name in scene.guide.harnesses:
        for way in harness_ways(scene, name, surface):
            off = abs(way.said - way.found)
            if off > max(HARNESS_NEAR, HARNESS_SHARE * way.found):
                message = (
                    f"from {way.places[0]} to {way.places[1]} it is {mm_text(way.said, 0)} mm "
                    f"long, and over the figure {mm_text(way.found, 0)} mm"
                )
                yield _Found(
                    "harness-figure", ("harnesses", name, "straps", way.strap), message, off
                )


def _heights(points: Points3, under: Points3, normals: Points3) -> NDArray[np.float64]:
    """mm of points over the nearest ones of a surface; negative within it."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, only where it is asked for

    _, nearest = cKDTree(under).query(points)
    return np.asarray(((points - under[nearest]) * normals[nearest]).sum(1))


def _in_one_another(scene: Placing) -> Iterator[_Found]:
    """Parts that share room, those apart that are sewn to each other or stand on each other."""
    sheets = [made for made in scene.made.values() if made.piece.part in scene.guide.parts]
    laid = {row.laid for row in scene.kit.rows}
    # Studs are small, and what lies over them rests on them.
    bases = [made for made in sheets if made.piece.part not in laid]
    joined = {frozenset((seam.first.part, seam.second.part)) for seam in scene.kit.seams} | {
        frozenset((made.piece.part, stands.on))
        for made in bases
        if (stands := scene.part(made.piece.part).stands) is not None and stands.on
    }
    told: set[frozenset[str]] = set()
    for number, one in enumerate(bases):
        for other in bases[number + 1 :]:
            pair = frozenset((one.piece.part, other.piece.part))
            if len(pair) < 2 or pair in joined or pair in told or not _near(one, other):
                continue
            # Two right hands lie as their left ones do, mirrored; what is single is on one side
            # alone, and may meet either hand.
            if one.piece.side is other.piece.side is Side.RIGHT:
                continue
            if _on_arm(scene, one) != _on_arm(scene, other):
                continue  # arms move: how they hang here is no fault of the pieces
            deep = _shared(one, other)
            if deep > DEEPEST:
                told.add(pair)
                label = scene.part(other.piece.part).label
                message = f"lies {mm_text(deep, 1)} mm in {label}"
                yield _Found("in-one-another", ("parts", one.piece.part), message, deep)


def _on_arm(scene: Placing, made: Made) -> bool:
    """Whether a sheet sits on an arm, by itself or on what does."""
    key = made.sheet.key.rpartition("@")[2]
    while key in scene.under:
        key = scene.under[key]
    under = scene.made.get(key, made)
    worn = worn_of(scene.guide, under.piece.part)
    return worn is not None and worn.on in ON_ARM


def _near(one: Made, other: Made) -> bool:
    low, high = one.sheet.middle.min(0) - 12, one.sheet.middle.max(0) + 12
    return bool(((other.sheet.middle.max(0) > low) & (other.sheet.middle.min(0) < high)).all())


def _shared(one: Made, other: Made) -> float:
    """mm by which two sheets lie in one another, face through face: of the points of each that lie
    over or under a triangle of the other."""
    deep = [
        float(np.quantile(shared, 1 - SHARE))
        for shared in (_room_shared(one, other), _room_shared(other, one))
        if len(shared) >= FEWEST
    ]
    return max(deep, default=0.0)


def _room_shared(one: Made, other: Made) -> NDArray[np.float64]:
    """mm by which points of a sheet are nearer to another than its foam and theirs, of those alone
    that have it right above or below them: beyond its rim nothing is shared."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, only where it is asked for

    corners = other.sheet.middle[other.sheet.triangles]
    near = min(8, len(corners))
    _, some = cKDTree(corners.mean(1)).query(one.sheet.middle, k=near)
    some = np.asarray(some).reshape(len(one.sheet.middle), near)
    a, b, c = (corners[some, k] for k in range(3))
    p = one.sheet.middle[:, None, :]
    normal = np.cross(b - a, c - a)
    area = (normal**2).sum(2)
    area = np.where(area > 0, area, 1.0)
    # Weights of the point's foot on the plane of each triangle.
    u = (np.cross(c - b, p - b) * normal).sum(2) / area
    v = (np.cross(a - c, p - c) * normal).sum(2) / area
    inside = np.minimum(np.minimum(u, v), 1 - u - v) > -1e-3
    height = np.abs(((p - a) * normal).sum(2)) / np.sqrt(area)
    height = np.where(inside, height, np.inf)
    rows, best = np.arange(len(height)), height.argmin(1)
    # A sheet that stands on its edge there takes no half of its thickness to that side.
    flat = normal[rows, best] / np.sqrt(area[rows, best])[:, None]
    own = one.sheet.thickness * np.abs((flat * one.sheet.normals).sum(1))
    shared = (own + other.sheet.thickness) / 2 - height[rows, best]
    return np.asarray(shared[np.isfinite(shared)])


FEWEST = 3
"""Points that count as a face."""
