"""What a strap bridges is measured between its places: over both parts, and what lies between."""

from math import hypot

import pytest
from geometry.fastening_samples import told, whole

SIDES = """\
measurements: {waist: {name: Waist, take: Around.}}
sizes: {S: {waist: 700}, L: {waist: 900}}
parts:
  front:
    name: Front
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: waist/3, height: 300}
    points:
      sides: {kind: rivet, along: right, inset: 80, count: 2, margin: 60, paired: 20}
  panel:
    name: Panel
    label: B
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: waist/7, height: 300}
    points:
      sides: {kind: rivet, along: right, inset: 25, count: 2, margin: 60, paired: 20}
straps:
  side:
    name: Side strap
    material: webbing
    from: {row: panel.sides, holds: 40, points: 2}
    to: {row: front.sides, holds: 40, points: 2}
    way: {leaves: left, enters: right, apart: [-20, 40]}
    closure: buckle
    short: 10
"""


@pytest.mark.parametrize(("size", "waist"), [("S", 700), ("L", 900)])
def test_a_way_is_measured_over_both_parts(size, waist):
    """Panel less 25 mm, 80 mm of front, and 20 mm less to 40 mm more between both edges."""
    (strap,) = whole(SIDES, size).straps
    between = waist / 7 - 25 + 80
    assert strap.asked == pytest.approx((between - 20, between + 40), abs=0.05)
    assert strap.most == pytest.approx(between + 40, abs=0.05)
    assert strap.count == 2


def test_a_way_that_is_too_short_for_its_buckle_is_refused():
    """In S 80 + 75 - 60 mm: the buckle with its folds needs 85 mm and does not come so close."""
    text = SIDES.replace("[-20, 40]", "['20 - 2*edge(front, right)/5', 40]")
    ((code, path, message),) = told(text, "S")
    assert (code, path) == ("strap-reach", "straps.side.way.apart[0]")
    assert "it must bridge 55 mm and comes no closer than 85 mm" in message


@pytest.mark.parametrize(
    ("old", "new", "code", "message"),
    [
        ("leaves: left", "leaves: hem", "unknown-edge", 'no edge of panel "hem"'),
        ("[-20, 40]", "[-20, gap]", "fit-value", '"gap"'),
    ],
)
def test_ways_name_what_is_there(old, new, code, message):
    """An edge that the part does not have, and a name that nobody knows."""
    ((found, _, words),) = told(SIDES.replace(old, new), "S")
    assert found == code
    assert message in words


CUFF = """\
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    on-fold: centre
    dimensions: {girth-top: 280, girth-bottom: 185, length: 150, gap: 30}
    points:
      elastic: {kind: patch, along: side, count: 2, margin: 40, diameter: 25, length: 40}
      holes: {kind: lacing, along: side, inset: 10, count: 4, margin: 30, diameter: 5}
straps:
  %s
"""
ELASTIC = """elastic:
    name: Elastic
    material: elastic
    from: {row: cuff.elastic, holds: 40, points: 2}
    way: {leaves: side, apart: [30, 45]}
"""
LACE = """lace:
    name: Lace
    material: elastic
    from: {row: cuff.holes, holds: 0}
    way: {leaves: side, apart: [30, %d]}
    laced: 150
"""


def test_elastic_across_an_opening_pulls_by_what_the_opening_widens():
    """Two elastics of 30 mm across 30 mm, pulled by half where the hand widens it to 45 mm."""
    (strap,) = whole(CUFF.replace("%s", ELASTIC)).straps
    assert (strap.count, strap.free) == (2, pytest.approx(30, abs=0.05))
    assert strap.pull == pytest.approx(50, abs=0.5)


def test_a_slip_in_how_many_places_hold_a_strap_is_told_there():
    """A measurement that the guide does not have stands at `points`, wherever it is asked for."""
    found = told(CUFF.replace("%s", ELASTIC.replace("points: 2", "points: wristt")))
    assert {path for _, path, _ in found} == {"straps.elastic.from.points"}


def test_a_lace_goes_crosswise():
    """Four pairs: one bar and six diagonals over 50 mm and a pitch of 30 mm, and two ends."""
    (strap,) = whole(CUFF.replace("%s", LACE % 50)).straps
    pitch = (150 - 2 * 30) / 3
    free = 50 + 6 * hypot(pitch, 50)
    assert strap.count == 1
    assert strap.pieces[0].length == pytest.approx(free + 300, abs=1)
    wide = 70 + 6 * hypot(pitch, 70)
    assert strap.pull == pytest.approx((wide / free - 1) * 100, abs=1)
    ((code, _, message),) = told(CUFF.replace("%s", LACE % 120))
    assert code == "strap-reach"
    assert "it must bridge 140 mm" in message


BELT = """\
measurements: {waist: {name: Waist, take: Around.}}
sizes: {S: {waist: 700}}
parts:
  plate: {name: Plate, label: A, material: foam-10, shape: disc, dimensions: {diameter: 60}}
straps:
  belt:
    name: Belt
    material: belt
    girth: [waist + 20, waist + 120]
    rigid: %s
    closure: buckle
"""


def test_a_belt_closes_round_the_body():
    """820 mm less the buckle's 55, 40 folded in and 60 of tail; plates of 600 leave it 675 mm."""
    (strap,) = whole(BELT % 600).straps
    assert [piece.length for piece in strap.pieces] == [820 - 55 + 40 + 60]
    assert (strap.least, strap.most) == (675, 820)
    ((code, path, message),) = told(BELT % "10*width(plate) + 80")
    assert (code, path) == ("strap-reach", "straps.belt.girth[0]")
    assert "it must bridge 720 mm and comes no closer than 754." in message


def test_a_slip_in_what_is_rigid_of_a_belt_is_told_there():
    """A part that the guide does not have stands at `rigid`, not at the belt."""
    found = told(BELT % "width(plait)")
    assert {path for _, path, _ in found} == {"straps.belt.rigid"}


def test_how_far_a_row_lies_from_an_edge_can_be_asked():
    """The pair nearest to the side lies 80 less half of 20 mm from it."""
    fits = """\
fits:
  clear: {says: Rivets stand clear of the panel, value: "inset(front, sides, right)", least: 71}
"""
    ((code, _, message),) = told(SIDES + fits, "S")
    assert code == "does-not-fit"
    assert "inset(front, sides, right) is 70, expected at least 71" in message
