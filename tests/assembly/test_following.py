"""What needs no words: edges that stand on lines, horns from rim to rim, rows of plates at rest."""

import itertools

import numpy as np
import pytest
from geometry.fastening_samples import goods, whole
from geometry.kit_samples import fin_on_plate, good_kit, guide_file

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import Assembly, PlacedSheet
from guidegen.assembly.sheets.flat import FlatMesh, locate
from guidegen.assembly.views.seen import FRONT, see
from guidegen.pictures.bodies.finished import draw_finished
from guidegen.words import ENGLISH


def placed(text: str) -> Assembly:
    """The finished thing of a guide of a few lines."""
    return make_assembly(guide_file(text).guide, good_kit(text))


def sheet(assembly: Assembly, key: str) -> PlacedSheet:
    """One sheet by its key."""
    return next(one for one in assembly.sheets if one.key == key)


def fin(seam: str = "") -> Assembly:
    """A fin of 5 mm, 120 long and 40 high, on a line across a plate of 10 mm on the ground."""
    return placed(fin_on_plate(seam, "line: {from: [-60, 20], to: [60, 20]}", "    stands: {}"))


def test_a_fin_stands_on_its_line() -> None:
    """Upright it reaches from the face, 10 mm over the ground, 40 mm up, over its line, 20 mm
    behind the middle; nothing of it is stretched, and nobody says where it is."""
    thing = fin()
    one = sheet(thing, "fin")
    assert thing.missing == ()
    low, high = one.middle.min(0), one.middle.max(0)
    assert low == pytest.approx([-60, 10, -20], abs=0.01)
    assert high == pytest.approx([60, 50, -20], abs=0.01)
    assert one.strain == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("angle", [60, 75, 110])
def test_a_fin_leans_by_its_angle(angle: int) -> None:
    """Its inner face, at the left of the line, makes the seam's angle with the face below."""
    one = sheet(fin(f", angle: {angle}"), "fin")
    top = one.middle[one.flat[:, 1] > 19.9].mean(0)
    foot = np.array([0.0, 10.0, -20.0])
    rise = top - foot
    # Backward is the left of a line that runs to the right on a plate that lies face up.
    assert np.degrees(np.arctan2(rise[1], -rise[2])) == pytest.approx(angle, abs=0.1)
    assert one.normals.mean(0)[2] > 0.8


def test_a_slotted_fin_is_sunk() -> None:
    """In a slot through the plate it begins at the ground, and stands as high as before."""
    one = sheet(fin(", slot: {fit: 0}"), "fin")
    assert (one.middle[:, 1].min(), one.middle[:, 1].max()) == pytest.approx((0, 50), abs=0.01)


HORN = """
parts:
{segments}
  cap:
    name: Cap
    label: C
    material: foam-10
    shape: rounded-rectangle
    dimensions: {{width: 200, height: 200}}
    lines: {{ring: {{ring: {{at: [10, 0], girth: "edge(horn-1, bottom)", start: {start}}}}}}}
    stands: {{}}
seams:
  foot: {{join: [horn-1.bottom, cap.ring]}}
{seams}
"""
COUNT, BEND, LONG = 4, 60.0, 200.0


def horn(start: int = 90) -> Assembly:
    """A horn of four segments on a plate that lies on the ground."""
    numbers = range(1, COUNT + 1)
    parts = "\n".join(
        f"  horn-{n}: {{name: Horn {n}, label: H{n}, material: foam-5, shape: horn-segment, "
        f"dimensions: {{girth: 150, length: {LONG:g}, segments: {COUNT}, segment: {n}, "
        f"bend: {BEND:g}, tip: 30}}}}"
        for n in numbers
    )
    seams = [f"  close-{n}: {{join: [horn-{n}.side, horn-{n}.side-2]}}" for n in numbers]
    seams += [f"  joint-{n}: {{join: [horn-{n}.top, horn-{n + 1}.bottom]}}" for n in numbers[:-1]]
    return placed(HORN.format(segments=parts, seams="\n".join(seams), start=start))


def foot(one: PlacedSheet) -> tuple[np.ndarray, np.ndarray]:
    """Middle of the lower rim of a segment, and its axis (area vector)."""
    own = one.middle[one.rims[0][:40]]
    off = own - own.mean(0)
    axis = np.cross(off, np.roll(off, -1, axis=0)).sum(0)
    return own.mean(0), axis / np.sqrt((axis**2).sum())


def test_a_horn_grows_from_its_ring_and_turns_at_each_joint() -> None:
    """Its foot is round the ring and square to the plate; at each of three joints the axis turns by
    20 degrees in one plane, toward where the ring starts: the tapered elbow of sheet metal work."""
    thing = horn()
    assert thing.missing == ()
    middle, axis = foot(sheet(thing, "horn-1"))
    assert middle == pytest.approx([10, 10, 0], abs=0.5)
    assert axis == pytest.approx([0, 1, 0], abs=0.02)
    turns = [foot(sheet(thing, f"horn-{n}"))[1] for n in range(1, COUNT + 1)]
    # The cut halves the turn: from the foot to the first joint 10 degrees, then 20 at each.
    angles = [np.degrees(np.arccos(one @ two)) for one, two in itertools.pairwise(turns)]
    assert angles == pytest.approx([10, 20, 20], abs=0.5)
    # Behind is above on a plate that lies face up: there its closing seam stands, and it bends.
    tip = sheet(thing, f"horn-{COUNT}").middle
    highest = tip[tip[:, 1].argmax()]
    assert highest[2] < -40 and abs(highest[0] - 10) < 12


def test_rims_of_a_horn_meet() -> None:
    """The upper rim of each segment is the lower one of the next, within a tenth of a mm."""
    thing = horn()
    for number in range(1, COUNT):
        below, above = sheet(thing, f"horn-{number}"), sheet(thing, f"horn-{number + 1}")
        bottom = above.middle[above.rims[0][:40]]
        gap = np.sqrt(((bottom[:, None] - below.middle[None]) ** 2).sum(2)).min(1)
        assert gap.max() < 0.1, number


def test_a_horn_bends_to_where_its_ring_starts() -> None:
    """With the start at the right it bends to the right."""
    tip = sheet(horn(start=0), f"horn-{COUNT}").middle
    highest = tip[tip[:, 1].argmax()]
    assert highest[0] > 50 and abs(highest[2]) < 12


ELBOW = """
measurements: {elbow: {name: E, take: T}}
sizes: {M: {elbow: 300}}
parts:
  upper: {name: Upper, label: A, material: foam-5, shape: strip, hand: pair,
          dimensions: {length: 190, width: 80},
          points: {low: {kind: rivet, along: bottom, inset: 20, count: 2, margin: 18, diameter: 5}}}
  cop: {name: Cop, label: B, material: foam-5, shape: strip, hand: pair, worn: {on: elbow},
        dimensions: {length: 212, width: 90},
        points: {high: {kind: rivet, along: top, inset: 25, count: 2, margin: 18, diameter: 5}}}
linkages:
  elbow:
    name: Elbow
    opens: 20
    profile: round
    joints: [{first: {row: upper.low, edge: bottom}, second: {row: cop.high, edge: top}}]
"""


def test_plates_of_a_row_lie_on_one_another_at_rest() -> None:
    """From the cop, which is worn, the upper plate follows to both arms: 6 mm nearer to the arm
    (half of both foams and 1 mm of air), its pivots on those of the cop, its rim higher."""
    thing = make_assembly(guide_file(ELBOW).guide, whole(ELBOW, "M"))
    assert thing.missing == ()
    keys = {one.key for one in thing.sheets}
    assert keys == {"upper-left", "upper-right", "cop-left", "cop-right"}
    upper, cop = sheet(thing, "upper-left"), sheet(thing, "cop-left")

    def there(one: PlacedSheet, at: tuple[float, float]) -> np.ndarray:
        found = locate(np.array([at]), FlatMesh(one.flat, one.triangles, one.rims))
        return found.value(one.middle, one.triangles)[0]

    for own, other in ((77, 88), (-77, -88)):
        pivots = there(upper, (own, -20)), there(cop, (other, 20))
        assert np.sqrt(((pivots[0] - pivots[1]) ** 2).sum()) == pytest.approx(6, abs=1), own
    assert upper.middle[:, 1].max() > cop.middle[:, 1].max() + 20


BAND = """
measurements: {over_head: {name: O, take: T}}
sizes: {M: {over_head: 335}}
parts:
  bridge: {name: Bridge, label: A, material: foam-5, shape: strip,
           dimensions: {length: over_head, width: 40}, worn: {on: crown, off: 4}}
"""


def test_a_bridge_goes_over_the_head_from_behind_to_the_front() -> None:
    """Its right end is in front, both ends as high, its middle 6.5 mm over the top of the head;
    with `faces: left` it goes from ear to ear."""
    thing = placed(BAND)
    one = sheet(thing, "bridge")
    ends = [one.middle[one.flat[:, 0] * sign > 167].mean(0) for sign in (-1, 1)]
    assert ends[0][2] < -50 and ends[1][2] > 50
    assert ends[0][1] == pytest.approx(ends[1][1], abs=0.5)
    top = max(float(solid.points[:, 1].max()) for _, solid in thing.figure)
    # 4 mm off, and half of 5 mm of foam.
    assert one.middle[:, 1].max() == pytest.approx(top + 6.5, abs=1)
    assert one.strain < 0.01
    across = sheet(placed(BAND.replace("off: 4", "off: 4, faces: left")), "bridge")
    assert across.middle[across.flat[:, 0] > 167].mean(0)[0] > 50


HARNESS = """
measurements: {chest: {name: C, take: T}, waist: {name: W, take: T}}
sizes: {M: {chest: 960, waist: 820}}
parts:
  back: {name: Back, label: A, material: foam-10, shape: rounded-rectangle, worn: {on: back},
         dimensions: {width: 300, height: 260}, points: {shoulders: {kind: patch, along: top,
         count: 2, margin: 50, diameter: 25, length: 60}}}
  pouch: {name: Pouch, label: B, material: foam-5, shape: rounded-rectangle,
          dimensions: {width: 100, height: 100},
          points: {hang: {kind: patch, along: top, count: 1, diameter: 25, length: 50}}}
harnesses:
  cross:
    name: Cross harness
    material: webbing
    places:
      shoulder: {name: S, row: back.shoulders, holds: 60, both: true}
      cross: {name: C, worn: {on: chest}}
      hip: {name: H, ring: buckle, holds: 50, both: true, worn: {on: hip}}
      branch: {name: B, holds: 30, worn: {on: waist, up: -70, aside: -60}}
      hang: {name: P, row: pouch.hang, holds: 45}
    straps:
      chest: {name: Chest strap, via: [shoulder, cross, hip], lengths: [390, 400], both: true}
      waist: {name: Waist strap, via: [hip, branch, hip], lengths: [270, 200]}
      pouch: {name: Pouch strap, via: [branch, hang], lengths: [120]}
"""


def test_straps_of_a_harness_cross_and_branch_over_the_figure() -> None:
    """Both chest straps go from behind over the breast bone to the other hip, and cross there; the
    pouch, which nothing else places, hangs 120 mm under its branch, in front of the body."""
    thing = make_assembly(guide_file(HARNESS).guide, whole(HARNESS), goods())
    assert thing.missing == ()
    left, right = (sheet(thing, f"cross-chest-strap-{n}").middle for n in (1, 2))
    ends = [way[np.isclose(way[:, 1], way[:, 1].min(), atol=25)].mean(0) for way in (left, right)]
    starts = [way[way[:, 2] < -60].mean(0) for way in (left, right)]
    assert starts[0][0] > 30 and ends[0][0] < -100
    assert starts[1][0] < -30 and ends[1][0] > 100
    front = [way[way[:, 2] > 0] for way in (left, right)]
    apart = np.sqrt(((front[0][:, None] - front[1][None]) ** 2).sum(2))
    meet = front[0][apart.min(1).argmin()]
    assert apart.min() < 15 and abs(meet[0]) < 30 and meet[2] > 80
    pouch, waist = sheet(thing, "pouch"), sheet(thing, "cross-waist-strap-1")
    # A patch 25 mm wide lies with its middle 30 mm under the upper edge.
    top = pouch.middle[:, 1].max()
    strap = sheet(thing, "cross-pouch-strap-1").middle
    assert strap[:, 1].max() - strap[:, 1].min() == pytest.approx(120, abs=15)
    assert top < waist.middle[:, 1].min() < strap[:, 1].max() + 15
    assert pouch.middle[:, 2].min() > 80
    words = draw_finished(see(thing, FRONT), guide_file(HARNESS).guide, whole(HARNESS), ENGLISH)
    assert "Cross harness" in words.description
