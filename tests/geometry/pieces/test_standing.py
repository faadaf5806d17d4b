"""Edges that stand on faces, and edges that meet at an angle: fins, keels, crests, corners."""

from math import asin, cos, degrees, hypot, isclose, pi, radians, sin, tan, tau

import pytest
from geometry.kit_samples import fin_on_plate, good_kit, refusals, try_kit

from guidegen.geometry.outline.measures import bounds, run_area
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.pieces.meeting_angles import meet


def test_an_upright_fin_is_drawn_where_it_stands() -> None:
    """Its foot on the face is as long as the line and as wide as its foam, with its label; match
    marks lie at equal lengths on both, the first of each at the start."""
    kit = good_kit(fin_on_plate())
    (seam,) = kit.seams
    assert seam.standing is not None
    assert (seam.first_length, seam.second_length, seam.thickness) == pytest.approx((120, 120, 5))
    base, fin = next(kit.pieces_of("base")), next(kit.pieces_of("fin"))
    (foot,) = [line for line in base.shape.lines if line.kind is LineKind.PLACEMENT]
    assert foot.label == "F"
    assert bounds((foot.run,)) == pytest.approx((-60, -2.5, 60, 2.5))
    assert fin.shape.bevels == ()
    assert [mark.ticks for mark in base.shape.marks] == [1, 2]
    assert [mark.ticks for mark in fin.shape.marks] == [1, 2]
    places = [mark.point[0] for mark in base.shape.marks]
    assert places == pytest.approx([mark.point[0] for mark in fin.shape.marks])


@pytest.mark.parametrize(("angle", "direction"), [(60, "inward"), (120, "outward")])
def test_a_leaning_fin_has_a_bevelled_foot(angle: float, direction: str) -> None:
    """The cut lies flat on the face: its bevel from square and the angle make a right angle, and
    the foot is thickness / sin(angle) wide (the right triangle of the section)."""
    kit = good_kit(fin_on_plate(f", angle: {angle}"))
    (bevel,) = next(kit.pieces_of("fin")).shape.bevels
    assert (bevel.edge, bevel.angle, bevel.direction) == ("bottom", pytest.approx(30), direction)
    assert kit.seams[0].thickness == pytest.approx(5 / sin(radians(60)))


def test_lengths_that_disagree_are_told() -> None:
    """A foot longer than its line overhangs it: an error with both lengths."""
    found = refusals(fin_on_plate(line="line: {from: [-50, 0], to: [50, 0]}"))
    assert [one[1] for one in found] == ["seams.foot.join"]
    assert "fin.bottom is 120.0 mm long and base.keel 100.0 mm" in found[0][2]


def test_a_slot_is_cut_with_its_fit_and_the_edge_reaches_through() -> None:
    """120 x 5.4 mm of the face are cut out, and the fin is 10 mm higher than what is seen of it:
    the thickness of the face."""
    kit = good_kit(fin_on_plate(", slot: {fit: 0.4}"))
    base, fin = next(kit.pieces_of("base")), next(kit.pieces_of("fin"))
    (hole,) = base.shape.holes
    assert abs(run_area(hole)) == pytest.approx(120 * 5.4)
    _, low, _, high = bounds((fin.shape.ring(),))
    assert high - low == pytest.approx(50)
    assert "goes into the slot 10 mm" in {line.label for line in fin.shape.lines}


def test_a_fin_along_an_edge_and_in_a_groove() -> None:
    """A line may follow an edge, so many mm inside it, or lie in a V-groove."""
    along = "along: bottom, inset: 20"
    narrow = fin_on_plate(line=along).replace("length: 120", "length: 200")
    (foot,) = [
        line
        for line in next(good_kit(narrow).pieces_of("base")).shape.lines
        if line.kind is LineKind.PLACEMENT
    ]
    assert bounds((foot.run,)) == pytest.approx((-100, -32.5, 100, -27.5))
    grooved = fin_on_plate(line="groove: 1", more="    grooves: [{fold: 30, at: 10}]")
    kit = good_kit(grooved.replace("length: 120", "length: 200"))
    assert kit.seams[0].second_length == pytest.approx(200)


def test_on_half_a_template_it_stands_on_both_halves_or_on_the_fold() -> None:
    """A line beside the fold lies on both halves, so two fins stand there; on the fold one."""
    half = fin_on_plate(line="line: {from: [30, -20], to: [30, 20]}").replace(
        "    shape: rounded-rectangle\n    dimensions: {width: 200, height: 100}",
        "    shape: strip\n    on-fold: centre\n    dimensions: {length: 200, width: 100}",
    )
    half = half.replace("length: 120, width: 40}", "length: 40, width: 30}, copies: 2")
    kit = good_kit(half)
    assert kit.seams[0].copies == 2
    base = next(kit.pieces_of("base"))
    feet = [one for one in base.shape.lines if one.kind is LineKind.PLACEMENT]
    middles = sorted((bounds((one.run,))[0] + bounds((one.run,))[2]) / 2 for one in feet)
    assert middles == pytest.approx([-30, 30])
    fold = half.replace("[30, -20], to: [30, 20]", "[0, -20], to: [0, 20]")
    assert good_kit(fold.replace(", copies: 2", "")).seams[0].copies == 1
    _, found = try_kit(fold.replace("base.keel]", "base.keel], slot: {}"))
    assert "bad-slot" in {problem.code for problem in found}


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            fin_on_plate().replace("base.keel]", "base.kel]"),
            'no edge or line "kel" on base; did you mean "keel"?',
        ),
        (fin_on_plate(", angle: 10"), "expected 20 to 160, found 10"),
        (fin_on_plate(", angle: 80, slot: {}"), "stands at 80°"),
        (
            fin_on_plate(", slot: {fit: 0.4}", line="line: {from: [-60, 48], to: [60, 48]}"),
            "with its slots",
        ),
        (fin_on_plate(line="groove: 3"), "expected a groove from 1 to 0, found 3"),
        (fin_on_plate(line="along: botom"), 'no edge "botom" on this part; did you mean "bottom"?'),
    ],
)
def test_joints_that_cannot_be(text: str, says: str) -> None:
    """Each slip is told in words, with the nearest name where there is one."""
    assert any(says in one[2] for one in refusals(text)), refusals(text)


@pytest.mark.parametrize("angle", [60, 90, 120, 150, 240])
@pytest.mark.parametrize(("first", "second"), [(10, 10), (10, 5), (5, 6)])
def test_bevels_of_an_angle_close_without_a_gap(angle: float, first: float, second: float) -> None:
    """The cuts of both edges are one plane: equally long in section, and the bevels add up to the
    turn 180 - angle (trade handbooks: half of it each, where foam is equally thick)."""
    met = meet(angle, first, second, "both")
    one, two = met.bevels
    assert one + two == pytest.approx(180 - angle)
    assert first / cos(radians(one)) == pytest.approx(second / cos(radians(two)))
    if first == second:
        assert one == pytest.approx((180 - angle) / 2)
    # The section, point by point: the outer corner lies at one place however it is reached.
    corners = [
        (-first * tan(radians(one)), first),
        (second * tan(radians(two)), second),
    ]
    lengths = [hypot(*corner) for corner in corners]
    assert isclose(*lengths)


def test_both_partners_get_the_bevels_of_their_angle() -> None:
    """A square corner: 45 degrees on each edge, unless an edge has a bevel of its own."""
    text = """\
parts:
  wall: {name: Wall, label: W, material: foam-10, shape: strip, dimensions: {length: 80, width: 40}}
  lid: {name: Lid, label: L, material: foam-10, shape: strip, dimensions: {length: 80, width: 60}}
seams:
  rim: {join: [wall.top, lid.bottom], angle: 90}
"""
    kit = good_kit(text)
    found = {piece.part: piece.shape.bevels for piece in kit.pieces}
    assert [(one.edge, one.angle) for one in found["wall"]] == [("top", pytest.approx(45))]
    assert [(one.edge, one.angle) for one in found["lid"]] == [("bottom", pytest.approx(45))]
    head, tail = text.split("label: L, material: foam-10")
    thin = f"{head}label: L, material: foam-5{tail}"
    uneven, problems = try_kit(thin)
    assert uneven is not None
    # The steeper one is more than a freehand cut: told as a warning.
    assert [problem.code for problem in problems] == ["bevel-slender"]
    angles = [bevel.angle for piece in uneven.pieces for bevel in piece.shape.bevels]
    assert sum(angles) == pytest.approx(90)
    # tan = 5 / 10 and 10 / 5: the diagonal of the block where both overlap.
    assert angles == pytest.approx([26.565, 63.435], abs=1e-3)
    inside = thin.replace("angle: 90", "angle: 90, flush: inside")
    (seam,) = good_kit(inside).seams
    assert seam.meeting is not None
    assert (seam.meeting.bevels, seam.meeting.step) == ((45, 45), 5)


TUBE = """\
parts:
  tube: {{name: Tube, label: T, material: foam-5, shape: tapered-tube,
         dimensions: {{girth-top: {top}, girth-bottom: 150, length: 100}}}}
  base:
    name: Base
    label: B
    material: foam-10
    shape: rounded-rectangle
    dimensions: {{width: 200, height: 100}}
    lines: {{ring: {{ring: {{at: [20, 5], girth: {girth}}}}}}}
seams:
  closing: {{join: [tube.side, tube.side-2]}}
  foot: {{join: [tube.bottom, base.ring]{more}}}
"""
ROUND = "edge(tube, bottom)"


@pytest.mark.parametrize(("top", "direction"), [(100, "inward"), (200, "outward")])
def test_the_rim_of_a_tube_stands_on_a_ring(top: int, direction: str) -> None:
    """A cone stands as its wall leans: sin g = (R - r) / slope (right triangle of its section); its
    foot is bevelled by g, and both its rims are drawn on the face, half its foam to each side."""
    kit = good_kit(TUBE.format(top=top, girth=f'"{ROUND}"', more=""))
    seam = next(one for one in kit.seams if one.id == "foot")
    lean = degrees(asin((150 - top) / tau / 100))
    assert seam.standing is not None
    assert seam.standing.angle == pytest.approx(90 - lean, abs=0.05)
    (bevel,) = next(kit.pieces_of("tube")).shape.bevels
    assert (bevel.edge, bevel.direction) == ("bottom", direction)
    assert bevel.angle == pytest.approx(abs(lean), abs=0.05)
    base = next(kit.pieces_of("base"))
    rims = [line.run for line in base.shape.lines if line.kind is LineKind.PLACEMENT]
    girth = 150 + pi * 5
    halves = [girth / tau + sign * seam.standing.width / 2 for sign in (1, -1)]
    assert [bounds((run,)) for run in rims] == [
        pytest.approx((20 - r, 5 - r, 20 + r, 5 + r), abs=0.05) for r in halves
    ]
    assert seam.second_length == pytest.approx(girth)


def test_a_straight_tube_stands_square() -> None:
    """A cylinder has no lean: no bevel."""
    kit = good_kit(TUBE.format(top=150, girth=f'"{ROUND}"', more=""))
    assert next(kit.pieces_of("tube")).shape.bevels == ()


@pytest.mark.parametrize(
    ("girth", "more", "says"),
    [
        ("150", "", "tube.bottom is 165.7 mm long and base.ring 150.0 mm"),
        ("10", "", "expected a girth of 20 mm or more, found 10"),
        (f'"{ROUND}"', ", slot: {fit: 0}", "would cut a disc out of the face"),
    ],
)
def test_rings_that_hold_no_tube_are_told(girth: str, more: str, says: str) -> None:
    """A rim of another length, a ring that nothing can be rolled to, and a slot all round."""
    found = refusals(TUBE.format(top=100, girth=girth, more=more))
    assert len(found) == 1 and says in found[0][2], found
