"""Rows of moving plates: how far they turn and slide, what ends that, what is cut for them."""

from math import cos, pi, radians, sin, tan

import pytest
from geometry.fastening_samples import told, try_whole, whole

from guidegen.geometry.fastening.linkages.moving import (
    angle_that_loses,
    crown_height,
    longer_hoop,
    lost_by_turning,
    pushed_up,
)

PLATE = """\
  {name}:
    name: {name}
    label: {label}
    material: foam-5
    shape: strip
    dimensions: {{length: {length}, width: {width}}}
    points:
      high: {{kind: hole, along: top, inset: {inset}, count: 2, margin: {margin}, diameter: 4}}
      low: {{kind: hole, along: bottom, inset: {inset}, count: 2, margin: {margin}, diameter: 4}}
"""


def plate(name: str, spacing: float, width: float = 100, inset: float = 30) -> str:
    """A strip with two holes at each long side, `spacing` mm from hole to hole."""
    label = name[0].upper()
    return PLATE.format(
        name=name, label=label, length=spacing + 40, width=width, inset=inset, margin=20
    )


def elbow(
    opens: float, *, profile: str = "round", more: str = "", outer: float = 240, cop: float = 140
) -> str:
    """An upper plate, a cop outside, a lower plate: hoops of half a circle about 120 mm long."""
    return (
        "parts:\n" + plate("upper", 220) + plate("cop", outer, cop) + plate("lower", 220)
        + f"""\
linkages:
  elbow:
    name: Elbow
    opens: {opens}
    profile: {profile}
    least: 10
    joints:
      - {{first: {{row: upper.low, edge: bottom}}, second: {{row: cop.high, edge: top}}}}
      - {{first: {{row: cop.low, edge: bottom}}, second: {{row: lower.high, edge: top}}, outer: first}}
{more}"""
    )  # fmt: skip


def test_straight_plates_lose_what_the_polygon_of_their_crowns_says():
    """The crossing of both crowns, turned by plain rotation of points, is where they lap no more.

    Derived: a line at distance r from the origin, turned by a, meets itself r * tan(a / 2) from
    either foot of the perpendicular.
    """
    reach, angle = 70.0, 50.0
    turn = radians(angle)
    # A point of the turned crown t mm before its foot: on the first crown where its height is r.
    at = lost_by_turning(reach, angle, domed=False) / 2
    foot = (reach * sin(turn), reach * cos(turn))
    crossing = (foot[0] - at * cos(turn), foot[1] + at * sin(turn))
    assert crossing == pytest.approx((at, reach))
    assert angle_that_loses(reach, 2 * at, domed=False) == pytest.approx(angle)


def test_domed_plates_slide_along_their_circle():
    """A quarter turn at 40 mm takes a quarter of the circle, 20 pi."""
    assert lost_by_turning(40, 90, domed=True) == pytest.approx(20 * pi)
    assert angle_that_loses(40, 20 * pi, domed=True) == pytest.approx(90)


def test_the_crown_of_half_a_hoop_is_its_radius():
    """Half a circle of pi * 60 mm rises 60 mm over the axis through its ends; a third less."""
    assert crown_height(pi * 60, 180) == pytest.approx(60)
    assert crown_height(2 * pi / 3 * 60, 120) == pytest.approx(60 * (1 - cos(pi / 3)))


def test_an_edge_stands_off_by_its_height_over_the_turned_crown():
    """20 mm beyond the foot, turned by 30 degrees at 60 mm: the distance of a point from a line."""
    turn = radians(30)
    end = (20.0, 60.0)
    off = end[0] * sin(turn) + end[1] * cos(turn) - 60.0
    assert pushed_up(60, 20, 30) == pytest.approx(off)
    assert pushed_up(60, 60 * tan(turn / 2), 30) == pytest.approx(0)


def test_a_hoop_over_another_is_longer_by_the_arc_of_what_is_between():
    """5 mm foam over 5 mm with 1 mm of air: middles 6 mm apart, pi times that on half a circle."""
    assert longer_hoop((5, 5), 1, 180) == pytest.approx(6 * pi)


def test_a_domed_elbow_opens_by_its_spare_overlap_over_its_reach():
    """Two joints lap 60 mm and keep 10: each turns by 50 mm over a reach of 240 / pi."""
    (made,) = whole(elbow(70)).linkages
    each = 50 / (240 / pi) * 180 / pi
    assert made.kind == "pivots"
    assert [one.overlap for one in made.joints] == [60, 60]
    assert made.room[0] == pytest.approx(2 * each)
    assert [one.moves[0] for one in made.joints] == pytest.approx([35, 35])
    assert made.joints[0].laps[0] == pytest.approx(60 - 240 / pi * radians(35))
    assert [one.limits[0] for one in made.joints] == ["overlap", "overlap"]


def test_what_opens_too_far_shows_a_gap_and_says_what_limits():
    """80 degrees are asked of 75: the finding names both, and what ends the way."""
    ((code, path, message),) = told(elbow(80))
    assert (code, path) == ("linkage-gap", "linkages.elbow.opens")
    assert "must open by 80 degrees and can by 75 before a gap opens" in message
    assert "U and C: the overlap ends" in message


def test_plates_that_close_too_far_clash():
    """The inner plates are 100 mm and lap by 60: 40 mm more, and plates lie on one another."""
    ((code, path, message),) = told(elbow(10).replace("least: 10", "least: 10\n    closes: 70"))
    assert (code, path) == ("linkage-clash", "linkages.elbow.closes")
    assert "the plates lie fully on one another" in message


def test_an_outer_plate_as_long_as_the_inner_one_binds():
    """5 mm foam and 1 mm of air round half a circle: 6 pi longer, which 5 mm is not."""
    found = told(elbow(40, outer=225))
    assert {(code, path) for code, path, _ in found} == {
        ("linkage-tight", "linkages.elbow.joints[0].outer"),
        ("linkage-tight", "linkages.elbow.joints[1].outer"),
    }
    assert "must be 18.8 mm longer than upper, which lies inside it, and is 5 mm" in found[0][2]


def test_straight_plates_push_one_another_up_and_it_is_told():
    """The inner edge stands 30 mm beyond its pivots: turned, it pushes the cop up; a warning."""
    kit, problems = try_whole(elbow(60, profile="straight"))
    assert kit is not None
    assert {problem.code for problem in problems} == {"linkage-pushes"}
    (one, _) = kit.linkages[0].joints
    reach = 240 / pi
    peak = max(pushed_up(reach, 30, angle / 10) for angle in range(301))
    assert one.pushed == pytest.approx(peak, abs=0.02)


LAMES = """\
parts:
%s
linkages:
  lames:
    name: Lames
    opens: %s
    closes: %s
    strap: %s
    overlap: 12
    joints:
      - {first: {row: aft.low, edge: bottom}, second: {row: mid.high, edge: top}}
      - {first: {row: mid.high, edge: bottom}, second: {row: fore.high, edge: top}}
"""


def lames(opens: float, closes: float, strap: str = "webbing") -> str:
    """Three equal plates of 60 mm, their rivets 10 mm from the edges, on straps at both sides."""
    plates = "".join(plate(name, 100, 60, 10) for name in ("aft", "mid", "fore"))
    return (LAMES % (plates, opens, closes, strap)).replace(
        "{row: mid.high, edge: bottom}", "{row: mid.low, edge: bottom}"
    )


def test_lames_hang_on_a_strap_that_is_taut_when_they_are_open():
    """Rivets lie 10 mm from both edges, so 20 - 12 apart at rest, and 5 more when open."""
    (made,) = whole(lames(10, 5)).linkages
    assert [one.between for one in made.joints] == pytest.approx([13, 13])
    assert [one.limits[0] for one in made.joints] == ["strap", "strap"]
    # 25 mm beyond both rivets, twice 13 between, and 40 from row to row of the middle plate.
    (piece,) = made.pieces
    assert (piece.length, piece.count) == (pytest.approx(50 + 26 + 40), 2)


def test_elastic_draws_lames_together_and_is_pulled_when_they_open():
    """Overlapping by 8, rivets are 12 apart; opening 3 each pulls elastic by a quarter."""
    text = lames(6, 0, "elastic").replace("overlap: 12", "overlap: 8")
    (made,) = whole(text).linkages
    assert [one.between for one in made.joints] == pytest.approx([12, 12])
    assert made.pull == pytest.approx(25)
    assert made.room[0] == pytest.approx(2 * min(8 - 5, 12 * 0.6))


SLOTS = """\
parts:
%s
linkages:
  lames:
    name: Lames
    opens: %s
    joints: [{first: {row: aft.low, edge: bottom}, second: {row: fore.high, edge: top}}]
"""


def slots(opens: float, more: str = "across: true, ") -> str:
    """A plate whose rivets, 15 mm from its edge, slide in slots of 24 mm, 20 mm from the other's."""
    fore = plate("fore", 100, 60, 20).replace(
        "high: {kind: hole, ", "high: {kind: slot, " + more + "length: 24, "
    )
    return SLOTS % (plate("aft", 100, 60, 15) + fore, opens)


def test_lames_on_slots_slide_as_far_as_their_slots():
    """A slot of 24 mm and a rivet of 4: 10 mm each way; 12 asked open a gap, 10 do not."""
    (made,) = whole(slots(10)).linkages
    assert (made.kind, made.joints[0].overlap) == ("slots", 35)
    assert made.room[0] == pytest.approx(10)
    assert made.joints[0].limits[0] == "slot"
    ((code, _, message),) = told(slots(12))
    assert code == "linkage-gap"
    assert "can by 10 before a gap opens (A and F: the rivets reach the ends" in message


def test_slots_that_lie_along_the_edge_are_refused():
    """Nothing slides open in a slot that runs along the edge that laps."""
    ((code, path, _),) = told(slots(5, ""))
    assert (code, path) == ("linkage-row", "linkages.lames.joints[0].second.row")


def test_plates_inside_one_cop_have_room_beside_each_other():
    """Under a cop of 100 mm with its pivots 40 mm apart, two plates that reach 30 mm beyond theirs
    lie 60 - 40 = 20 mm over one another; a cop of 140 mm has room for both."""
    kit, problems = try_whole(elbow(20, cop=100))
    assert kit is not None
    (found,) = [one for one in problems if one.code == "linkage-inner"]
    assert found.message.startswith("U and L both lie inside C, and lie 20 mm over one another")
    assert "expected the rows of C that much farther apart" in found.message
    assert all(one.code != "linkage-inner" for one in try_whole(elbow(20))[1])
