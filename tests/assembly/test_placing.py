"""Where parts come to lie: on a figure, on one another, on the ground; and what does not fit."""

import re

import numpy as np
import pytest
from geometry.kit_samples import good_kit, guide_file, stock

from guidegen.assembly.body.figure import make_figure
from guidegen.assembly.body.proportions import GIRTHS, STATURE, find_body
from guidegen.assembly.placing.audit import audit_assembly
from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import Assembly

LAMP = """
parts:
  floor: {name: Floor, label: A, material: foam-10, shape: rounded-rectangle,
          dimensions: {width: 130, height: 130}, stands: {}}
  wall: {name: Wall, label: B, material: foam-5, shape: rounded-rectangle, copies: 4,
         dimensions: {width: 110, height: 150}, stands: {on: floor},
         bevels: {left: {angle: 45, direction: inward}, right: {angle: 45, direction: inward}}}
  roof: {name: Roof, label: C, material: foam-5, shape: tapered-tube,
         dimensions: {girth-top: 90, girth-bottom: 300, length: 64}, stands: {on: wall}}
  pad: {name: Pad, label: D, material: foam-5, shape: disc, dimensions: {diameter: 40}}
seams: {corner: {join: [wall.right, wall.left]}}
"""

PLATES = """
measurements: {{waist: {{name: W, take: T}}}}
sizes: {{M: {{waist: 860}}}}
parts:
  plate: {{name: Plate, label: A, material: foam-5, shape: rounded-rectangle, copies: 3,
          dimensions: {{width: 90, height: 70}}, worn: {{on: waist, pitch: 120, {more}}}}}
  cover: {{name: Cover, label: B, material: foam-5, shape: rounded-rectangle,
          dimensions: {{width: 60, height: 60}}, worn: {{on: waist, {cover}}}}}
"""


def placed(text) -> Assembly:
    """The finished thing of a guide of a few lines."""
    return make_assembly(guide_file(text).guide, good_kit(text))


def told(text) -> list[str]:
    """Findings about it, as code and message."""
    problems = audit_assembly(guide_file(text), stock(), good_kit(text))
    return [f"{problem.code}: {problem.message}" for problem in problems]


def box(assembly, part):
    """Least and greatest corner of all sheets of a part, at the middle of their foam."""
    points = np.concatenate([s.middle for s in assembly.sheets if s.part == part])
    return points.min(0), points.max(0)


def test_walls_close_to_a_box_and_carry_a_roof():
    """Four bevelled walls stand on the floor as a square of their width; the roof is over them."""
    lamp = placed(LAMP)
    low, high = box(lamp, "wall")
    assert high - low == pytest.approx([105, 150, 105], abs=0.1)
    assert low[1] == pytest.approx(10, abs=0.01)
    assert box(lamp, "roof")[0][1] == pytest.approx(160, abs=2)
    assert [one.part for one in lamp.missing] == ["pad"]
    assert lamp.figure == ()


def test_what_stands_on_itself_is_left_out():
    """A circle of parts ends, and none of them is placed."""
    text = LAMP.replace("stands: {},", "").replace("dimensions: {width: 130, height: 130}, stands: {}",
                        "dimensions: {width: 130, height: 130}, stands: {on: roof}")  # fmt: skip
    assert placed(text).sheets == ()


def test_copies_go_round_the_body():
    """Three plates stand one pitch apart along the belt, the middle one in front."""
    plates = placed(PLATES.format(more="off: 8", cover="off: 30"))
    middles = [s.middle.mean(0) for s in plates.sheets if s.part == "plate"]
    assert [round(float(m[0])) for m in middles] == [
        -round(float(middles[2][0])),
        0,
        round(float(middles[2][0])),
    ]
    assert 100 < middles[2][0] < 125
    assert middles[1][2] > middles[2][2] > 0


def test_what_lies_in_the_body_or_in_another_is_told():
    """Foam 20 mm in the body, and a cover in the plates, are findings with their size."""
    assert told(PLATES.format(more="off: 8", cover="off: 30")) == []
    inside = told(PLATES.format(more="off: -20", cover="off: 30"))
    assert len(inside) == 1 and inside[0].startswith("in-body: in size M: lies ")
    both = told(PLATES.format(more="off: 8", cover="off: 9"))
    assert len(both) == 1 and both[0].startswith("in-one-another: in size M: lies ")
    assert both[0].endswith(" mm in B")


def test_what_nothing_places_is_advice():
    """A part without a place is named, where the author shows others."""
    assert told(LAMP) == ["not-placed: nothing says what it sits on"]
    assert told(re.sub(r",\s*stands: {[^}]*}", "", LAMP)) == []


def test_a_tube_at_the_elbow_is_told():
    """A cuff that reaches the elbow stops it: how near it ends stands in the finding."""
    text = """
measurements: {forearm: {name: F, take: T}, wrist: {name: W, take: T}, forearm_length: {name: L, take: T}}
sizes: {M: {forearm: 280, wrist: 170, forearm_length: 250}}
parts:
  cuff: {name: Cuff, label: A, material: foam-5, shape: tapered-tube, worn: {on: forearm},
         dimensions: {girth-top: forearm, girth-bottom: wrist, length: 240, ease: 40}}
"""
    assert [line for line in told(text) if line.startswith("joint-blocked")]
    assert told(text.replace("length: 240", "length: 170")) == []


@pytest.mark.parametrize("name", GIRTHS)
def test_a_girth_that_is_given_is_kept(name):
    """Each girth of the figure is the measurement; a slip is not taken for one."""
    mean = GIRTHS[name][0]
    assert find_body({name: mean * 1.1}).girths[name] == pytest.approx(mean * 1.1)
    assert find_body({name: mean * 9}).girths[name] == pytest.approx(mean)


def test_what_is_not_given_follows_in_proportion():
    """A longer back makes a taller figure with longer arms; girths stay as they are."""
    tall, mean = find_body({"back_length": 500.0}), find_body({})
    assert tall.lengths["stature"] == pytest.approx(STATURE * 500 / 451.5)
    assert tall.lengths["forearm_length"] > mean.lengths["forearm_length"]
    assert tall.girths == mean.girths


def test_the_figure_has_the_girths_of_its_sections():
    """The tape round the trunk at the waist reads the measurement, within 2 mm."""
    figure = make_figure({"waist": 860.0, "chest": 980.0})
    rings = figure.limbs["trunk"].rings(3.0)
    heights = rings[:, :, 1].mean(1)
    ring = rings[np.abs(heights - figure.body.heights["waist"]).argmin()]
    girth = np.sqrt(((np.roll(ring, -1, axis=0) - ring) ** 2).sum(1)).sum()
    assert girth == pytest.approx(860, abs=3)


def test_what_lies_beside_a_rim_is_in_nothing():
    """Two flat plates that share room by 3 mm are told; side by side they are not, however near."""
    text = """
parts:
  low: {{name: Low, label: A, material: foam-10, shape: rounded-rectangle,
        dimensions: {{width: 100, height: 100}}, stands: {{}}}}
  high: {{name: High, label: B, material: foam-10, shape: rounded-rectangle,
         dimensions: {{width: 100, height: 100}}, stands: {{up: {up}, at: [{right}, 0]}}}}
"""
    assert told(text.format(up=7, right=30)) == ["in-one-another: lies 3 mm in B"]
    assert told(text.format(up=7, right=101)) == []
    assert told(text.format(up=11, right=30)) == []


def test_heads_differ_less_than_waists():
    """Where a large waist is the only girth that is given, the head grows by a quarter as much: both
    stand two standard deviations over their means (ANSUR II, 2012)."""
    large = find_body({"waist": 900.8 * (1 + 2 * 0.118)})
    assert large.girths["head"] == pytest.approx(567.7 * (1 + 2 * 0.032))


COLLAR = """
measurements: {{neck: {{name: N, take: T}}}}
sizes: {{M: {{neck: 360}}}}
parts:
  collar: {{name: Collar, label: A, material: foam-10, shape: tapered-tube, {more}
           dimensions: {{girth-top: neck + 60, girth-bottom: neck + 90, length: 40}},
           worn: {{on: neck, up: {up}}}}}
"""


def test_a_stiff_collar_leaves_room_to_nod():
    """Stiff foam that reaches to less than 50 mm under the chin is told, with what is left; where it
    bends by itself, or sits lower, it is not."""
    (found,) = [one for one in told(COLLAR.format(more="", up=0)) if "chin" in one]
    left = re.fullmatch(
        r"joint-blocked: in size M: ends (\d+) mm below the chin, which needs 50 mm to nod", found
    )
    assert left is not None, found
    assert 0 <= int(left[1]) < 50
    assert not any("chin" in one for one in told(COLLAR.format(more="flexes: true,", up=0)))
    lower = -(50 - int(left[1])) - 5
    assert not any("chin" in one for one in told(COLLAR.format(more="", up=lower)))


CUFF = """
measurements: {forearm: {name: F, take: T}, wrist: {name: W, take: T}}
sizes: {M: {forearm: 300, wrist: 180}}
parts:
  cuff: {name: Cuff, label: A, material: foam-5, shape: tapered-tube,
         dimensions: {girth-top: forearm, girth-bottom: wrist, length: 150, ease: 25, gap: 30}}
  spare: {name: Spare, label: B, material: foam-5, shape: disc, dimensions: {diameter: 20}}
"""


def test_a_tube_that_nobody_placed_slides_to_where_the_limb_fits():
    """A cuff from wrist to forearm of which nothing but its girths is told is checked too: it sits
    where the arm has room in it, not in the middle of the forearm."""
    assert told(CUFF) == []
    middle = CUFF.replace("gap: 30}", "gap: 30}, worn: {on: forearm}")
    assert any("in the body" in one for one in told(middle))
