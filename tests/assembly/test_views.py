"""What is seen of solids: depth buffer, rings, whole views."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from geometry.kit_samples import good_kit, guide_file, only_piece

from guidegen.app.jobs.finished import read, written
from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import Assembly, FinishedSeen, JoinSeen, Solid
from guidegen.assembly.sheets.bends import Folded, Plane
from guidegen.assembly.sheets.made import bent
from guidegen.assembly.sheets.solids import thickened
from guidegen.assembly.views.borders import Border
from guidegen.assembly.views.contours import area_of, chains_of, joined, rings_of
from guidegen.assembly.views.raster import Camera, Window, rasterise
from guidegen.assembly.views.seen import BACK, FRONT, see
from guidegen.assembly.views.surface import surface_of
from guidegen.assembly.views.thinning import smooth_lines
from guidegen.assembly.views.tidying import evened, relit, tidied, without_specks

FRONTAL = Camera("front", 0.0)
WINDOW = Window(-50, -50, 100, 100, 0.5)
CUFF = """
measurements: {forearm: {name: F, take: T}, wrist: {name: W, take: T}}
sizes: {M: {forearm: 260, wrist: 160}}
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    hand: pair
    dimensions: {girth-top: forearm, girth-bottom: wrist, length: 150, ease: 25, gap: 30}
    placements: [{part: badge}]
  badge:
    name: Badge
    label: B
    material: foam-5
    shape: disc
    hand: pair
    dimensions: {diameter: 50}
  spare:
    name: Spare
    label: C
    material: foam-5
    shape: disc
    dimensions: {diameter: 50}
"""


def plate(z, width=40.0):
    """A square plate `z` mm before the middle."""
    piece = only_piece(
        "parts: {plate: {name: Plate, label: A, material: foam-5, shape: rounded-rectangle, "
        f"dimensions: {{width: {width}, height: {width}}}}}}}"
    )
    made = bent(piece, Plane(np.array([0, 0, z]), np.array([1.0, 0, 0]), np.array([0, 1.0, 0])))
    assert made is not None
    return thickened(made.sheet)


def ball(radius=40.0, count=40):
    """A ball of triangles."""
    a, b = np.meshgrid(np.linspace(0, pi, count), np.linspace(0, 2 * pi, 2 * count))
    points = radius * np.stack([np.sin(a) * np.cos(b), np.cos(a), np.sin(a) * np.sin(b)], axis=-1)
    row, column = np.meshgrid(np.arange(2 * count - 1), np.arange(count - 1), indexing="ij")
    k = (row * count + column).ravel()
    triangles = np.concatenate(
        [np.stack([k, k + 1, k + count], 1), np.stack([k + 1, k + count + 1, k + count], 1)]
    )
    flat = points.reshape(-1, 3)
    x, y, z = (flat[triangles[:, j]] for j in range(3))
    if (x * np.cross(y, z)).sum() < 0:
        triangles = triangles[:, [0, 2, 1]]
    return Solid(flat, triangles, np.zeros(len(triangles), dtype=np.int64))


@pytest.mark.parametrize("order", [1, -1])
def test_the_nearest_is_seen(order):
    """Of two plates the one before hides the other, in whichever order they are drawn."""
    solids = [plate(0.0), plate(20.0, 20.0)][::order]
    raster = rasterise(surface_of(solids), FRONTAL, WINDOW)
    near = raster.ids >> 3 == (1 if order == 1 else 0)
    assert near.sum() == pytest.approx(20 * 20 / 0.25, rel=0.02)
    assert (raster.ids >= 0).sum() == pytest.approx(40 * 40 / 0.25, rel=0.02)


def test_a_ball_is_seen_as_a_disc():
    """The outline of a ball has the area of its great circle, and is brightest toward the light."""
    raster = rasterise(surface_of([ball()]), FRONTAL, WINDOW)
    assert (raster.ids >= 0).sum() * 0.25 == pytest.approx(pi * 40**2, rel=0.01)
    row, column = np.unravel_index(raster.light().argmax(), raster.light().shape)
    assert row > 100 and column < 100


def test_rings_keep_the_area_and_close():
    """The ring round a disc has its area with few points; what has a hole has two rings."""
    y, x = np.mgrid[-60:60, -60:60] + 0.5
    (ring,) = rings_of(np.hypot(x, y) < 50)
    assert area_of(ring) == pytest.approx(pi * 2500, rel=0.01)
    assert len(ring) < 60
    both = rings_of((np.hypot(x, y) < 50) & (np.hypot(x, y) > 20))
    assert sorted(np.sign(area_of(ring)) for ring in both) == [-1, 1]


def test_cells_that_touch_at_corners_are_apart():
    """Two squares that meet in a corner have a ring each, and no ring crosses itself."""
    mask = np.zeros((40, 40), dtype=bool)
    mask[5:20, 5:20] = mask[20:35, 20:35] = True
    areas = [area_of(ring) for ring in rings_of(mask, off=0.3)]
    assert areas == pytest.approx([225, 225], rel=0.05)  # corners are rounded by a cell


def three_regions():
    """A square whose halves are two things, 8 and 16, on an empty ground."""
    codes = np.full((60, 60), -1)
    codes[10:50, 10:50] = 8
    codes[10:50, 30:50] = 16
    return codes


def test_a_border_is_followed_once_and_shared():
    """Two things side by side on nothing have three lines: one between them, and one round each
    to where they meet; both round nothing close to one ring, and each thing has its area."""
    chains = chains_of(three_regions())
    assert sorted((min(c.left, c.right), max(c.left, c.right)) for c in chains) == [
        (-1, 8), (-1, 16), (8, 16),
    ]  # fmt: skip
    (outside,) = joined([c for c in chains if -1 in (c.left, c.right)])
    assert len(outside) == 2 and outside[0].start == outside[-1].end
    border = Border(three_regions(), np.zeros((60, 60)), ())
    for thing in (1, 2):
        (ring,) = border.rings(lambda number, thing=thing: number == thing)
        assert area_of(ring) == pytest.approx(800, rel=0.02)
    (between,) = border.lines(lambda one, other: {one, other} == {1, 2})
    assert np.ptp(between[:, 1]) == pytest.approx(40) and np.ptp(between[:, 0]) < 0.01


def test_limbs_are_parted_only_where_one_lies_before_the_other():
    """Between an arm and the trunk a line runs along the stretch on which one is far before the
    other; limbs that grow out of one another have none."""
    codes = np.where(three_regions() > 0, three_regions() - 8, -1)
    depth = np.zeros((60, 60))
    depth[:, 30:] = 30.0
    depth[40:] = 0.0
    (line,) = Border(codes, depth, ("trunk", "arm-left")).limb_lines()
    assert np.ptp(line[:, 1]) == pytest.approx(30, abs=1)
    assert Border(codes, depth, ("trunk", "leg-left")).limb_lines() == []


def test_specks_are_no_regions():
    """A cell by itself, a row a cell wide and a region of few cells show what is around them; a
    region of enough cells stays as it is."""
    codes = np.zeros((80, 80), dtype=np.int64)
    codes[5, 5] = codes[20, 10:60] = 8
    codes[30:35, 30:35] = 16
    codes[50:70, 50:70] = 24
    found = without_specks(tidied(codes), 60)
    assert set(np.unique(found)) == {0, 24}
    assert (found == 24).sum() == 400


def test_a_cell_that_shows_its_neighbour_is_lit_like_it():
    """What was a speck of something dark takes the light around it, not that of the speck."""
    drawn = np.zeros((20, 20), dtype=np.int64)
    drawn[8:11, 8:11] = 8
    light = np.where(drawn == 8, 0.1, 0.9)
    assert relit(light, np.zeros_like(drawn), drawn) == pytest.approx(np.full((20, 20), 0.9))


def test_lines_keep_their_ends_and_stay_near_themselves():
    """A smoothed line begins and ends at its own corners and a straight one is two points; all
    points of a thinned ring lie on what was smoothed, within the width asked for."""
    stairs = np.array([[k // 2, (k + 1) // 2] for k in range(41)], dtype=float)
    straight = np.stack([np.arange(30.0), np.zeros(30)], axis=1)
    turn = np.linspace(0, 2 * pi, 200, endpoint=False)
    circle = 40 * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    line, flat, ring = smooth_lines([stairs, straight, circle], [False, False, True], 0.5)
    assert line[[0, -1]].tolist() == stairs[[0, -1]].tolist() and len(line) < 6
    assert flat.tolist() == straight[[0, -1]].tolist()
    assert len(ring) < 40 and np.abs(np.hypot(*ring.T) - 40).max() < 0.1


def made_plate(thickness):
    """A thing of one upright plate so thick."""
    piece = only_piece(
        "parts: {plate: {name: Plate, label: A, material: foam-5, shape: rounded-rectangle, "
        "dimensions: {width: 40, height: 60}}}"
    )
    made = bent(piece, Plane(np.zeros(3), np.eye(3)[0], np.eye(3)[1]))
    return Assembly((replace(made.sheet, thickness=thickness),))


def test_a_strap_seen_along_its_face_has_no_gap():
    """A sheet thinner than a cell is seen from its side as one region from end to end."""
    whole = made_plate(1.0)
    side = see(whole, Camera("side", 90.0), Window(-50, -50, 100, 100, 2.0))
    assert side is not None and len(side.silhouette) == 1
    assert np.ptp([y for _, y in side.silhouette[0]]) > 40 * side.scale


def test_a_fold_is_a_line():
    """A plate folded by 40 degrees has a crease from rim to rim, and one shade on each side of it; a
    flat one has none."""
    folded = Folded(Plane(np.zeros(3), np.eye(3)[0], np.eye(3)[1]), (0, 0), (1, 0), 40.0)
    piece = only_piece(
        "parts: {plate: {name: Plate, label: A, material: foam-5, shape: rounded-rectangle, "
        "dimensions: {width: 90, height: 90}}}"
    )
    for bend, count in ((folded, 1), (folded.plane, 0)):
        made = bent(piece, bend)
        seen = see(Assembly((made.sheet,)), FRONTAL)
        assert len([line for line in seen.creases if np.ptp([x for x, _ in line]) > 50]) == count


def test_light_is_evened_within_a_region_alone():
    """Grain goes, the mean stays, and light does not pass from one region into another."""
    rng = np.random.default_rng(4)
    codes = np.repeat([[0] * 40 + [8] * 40], 60, axis=0)
    light = np.where(codes == 0, 0.2, 0.8) + rng.uniform(-0.1, 0.1, codes.shape)
    found = evened(light, codes, 24)
    for code, value in ((0, 0.2), (8, 0.8)):
        own = found[codes == code]
        assert own.mean() == pytest.approx(value, abs=0.01) and own.std() < 0.015


def test_a_worn_cuff_is_seen_with_its_arm():
    """A pair goes to both arms by the names of its girths; what nothing places is said."""
    guide, kit = guide_file(CUFF).guide, good_kit(CUFF)
    assembly = make_assembly(guide, kit)
    assert {sheet.key for sheet in assembly.sheets} == {
        "cuff-left", "cuff-right", "badge@cuff-left", "badge@cuff-right",
    }  # fmt: skip
    assert {name for name, _ in assembly.figure} == {
        "arm-left", "arm-right", "thumb-left", "thumb-right",
    }  # fmt: skip
    assert [(one.part, one.reason) for one in assembly.missing] == [
        ("spare", "nothing says what it sits on")
    ]
    left = next(sheet for sheet in assembly.sheets if sheet.key == "cuff-left")
    assert left.middle[:, 0].mean() > 100


def test_views_are_the_same_twice_and_read_back(monkeypatch):
    """The same kit gives the same bytes, and what was written is read as it was."""
    monkeypatch.setattr("guidegen.assembly.views.seen.ROWS", 250)
    guide, kit = guide_file(CUFF).guide, good_kit(CUFF)
    seen, again = (
        tuple(view for camera in (FRONT, BACK) if (view := see(assembly, camera)) is not None)
        for assembly in (make_assembly(guide, kit), make_assembly(guide, kit))
    )
    assert seen == again
    whole = FinishedSeen(seen, {"glue": (JoinSeen(seen[0], seen[1]),)})
    assert read(written(whole)) == whole
    assert len(seen) == 2
    assert set(seen[0].parts) == {"cuff", "badge"}


def test_nothing_placed_shows_nothing():
    """A guide that says nothing of how it is worn has no view."""
    text = "parts: {disc: {name: D, label: A, material: foam-5, shape: disc, dimensions: {diameter: 9}}}"
    assert see(make_assembly(guide_file(text).guide, good_kit(text)), FRONT) is None
