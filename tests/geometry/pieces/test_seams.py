"""Joined edges, and match marks that meet when they are joined."""

from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, radians, sin

import pytest
from geometry.kit_samples import good_kit, refusals
from hypothesis import given
from hypothesis import strategies as st

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Arc, Edge, Line, Shape
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.pieces.seams import (
    MARK_CLOSEST,
    SeamEnd,
    mark_count,
    mark_shares,
    marks_within,
    seam_marks,
    tick_sequence,
)


def share_on_line(edge, mark):
    """How far along a straight edge a mark lies, 0 to 1."""
    (line,) = edge.run
    whole = run_length(edge.run)
    return hypot(mark.point[0] - line.start[0], mark.point[1] - line.start[1]) / whole


def share_on_arc(edge, mark):
    """How far along an arc a mark lies, 0 to 1."""
    (arc,) = edge.run
    assert hypot(*mark.point) == pytest.approx(arc.radius)
    return (degrees(atan2(mark.point[1], mark.point[0])) - arc.start_angle) / arc.sweep


def block(part, width, height):
    """A rectangle with edges bottom, right, top, left."""
    corners = [(0, 0), (width, 0), (width, height), (0, height), (0, 0)]
    edges = tuple(
        Edge(name, lines_through(*corners[n : n + 2]))
        for n, name in enumerate(("bottom", "right", "top", "left"))
    )
    return Finished(part, Shape(edges))


def end(outline, edge, *, pair=False):
    """An end of a seam."""
    return SeamEnd(outline, edge, pair)


def arch(part, radius, angle):
    """A ring sector with the edge 'rim' as its outer arc."""
    a, b = radians(90 - angle / 2), radians(90 + angle / 2)
    inner = radius / 2
    edges = (
        Edge("rim", (Arc((0, 0), radius, 90 - angle / 2, angle),)),
        Edge("left", (Line((radius * cos(b), radius * sin(b)), (inner * cos(b), inner * sin(b))),)),
        Edge("low", (Arc((0, 0), inner, 90 + angle / 2, -angle),)),
        Edge(
            "right", (Line((inner * cos(a), inner * sin(a)), (radius * cos(a), radius * sin(a))),)
        ),
    )
    return Finished(part, Shape(edges))


@given(st.floats(45, 900), st.floats(20, 150), st.none() | st.integers(0, 20))
def test_marks_meet_when_edges_are_joined(length, angle, wanted):
    """Ticks at a share s of one edge meet equal ticks at 1 - s of its partner, curved or not."""
    parts = {"a": block("a", length, 50), "b": arch("b", length / radians(angle), angle)}
    marks = seam_marks("s", end(parts["a"], "top"), end(parts["b"], "rim"), wanted)
    first = [mark for part, mark in marks if part == "a"]
    second = [mark for part, mark in marks if part == "b"]
    line, arc = parts["a"].whole.edge("top"), parts["b"].whole.edge("rim")
    one = [(share_on_line(line, mark), mark.ticks) for mark in first]
    two = [(share_on_arc(arc, mark), mark.ticks) for mark in second]
    assert [(pytest.approx(1 - share), ticks) for share, ticks in one] == two
    assert len(one) == mark_count(length, wanted)


@given(st.integers(2, 20))
def test_ticks_tell_the_direction(count):
    """From two marks on, the sequence of ticks differs when it is read from the other end."""
    ticks = tick_sequence(count)
    assert ticks != ticks[::-1]
    assert set(ticks) <= {1, 2, 3}


@given(st.integers(0, 20))
def test_symmetrical_ticks(count):
    """An edge that is its own mirror image has ticks that read alike from both ends."""
    ticks = tick_sequence(count, symmetrical=True)
    assert ticks == ticks[::-1]
    assert len(ticks) == count


def test_how_many_marks():
    """About one mark every 100 mm at most, two from 120 mm on, none on short edges."""
    assert [mark_count(length) for length in (30, 60, 130, 210, 340, 1000)] == [0, 1, 2, 2, 3, 9]
    assert mark_count(340, 5) == 5
    assert mark_count(340, 0) == 0
    assert mark_count(30, 5) == 1


@pytest.mark.parametrize(
    ("length", "spacing", "marks"), [(100, 100, 0), (101, 100, 1), (300, 100, 2), (340, 50, 6)]
)
def test_marks_within_a_spacing(length, spacing, marks):
    """As many marks as it takes, and no more, for no stretch to be longer than the spacing."""
    assert marks_within(length, spacing) == marks
    assert length / (marks + 1) <= spacing + 1e-9
    assert marks == 0 or length / marks > spacing


def test_marks_point_into_the_piece():
    """Each mark lies on its edge, its direction square to it and inward."""
    one, two = block("a", 200, 50), block("b", 200, 80)
    marks = seam_marks("s", end(one, "top"), end(two, "bottom"), 2)
    assert [(part, mark.inward) for part, mark in marks] == [
        ("a", (0, -1)),
        ("a", (0, -1)),
        ("b", (0, 1)),
        ("b", (0, 1)),
    ]


def test_corners_inside_an_edge_get_a_mark_on_both_pieces():
    """A corner in the middle of an edge is marked, and where it comes to lie on the partner."""
    bent = Shape(
        (
            Edge("bent", lines_through((0, 0), (100, 0), (100, 200))),
            Edge("back", lines_through((100, 200), (0, 200), (0, 0))),
        )
    )
    straight = block("a", 300, 50)
    marks = seam_marks("s", end(Finished("b", bent), "bent"), end(straight, "top"), 1)
    on_b = [mark for part, mark in marks if part == "b"]
    on_a = [mark for part, mark in marks if part == "a"]
    assert any(mark.point == pytest.approx((100, 0)) for mark in on_b)
    corner = next(mark for mark in on_b if mark.point == pytest.approx((100, 0)))
    assert corner.inward == pytest.approx((-(0.5**0.5), 0.5**0.5))
    # 100 mm from the start of one edge is 100 mm from the end of the other, which ends at x = 0.
    partner = next(mark for mark in on_a if mark.ticks == corner.ticks)
    assert partner.point == pytest.approx((100, 50))


def test_copies_joined_to_themselves_have_symmetrical_marks():
    """Two copies of one piece meet edge to same edge, turned round: ticks must be symmetrical."""
    top = end(block("a", 300, 50), "top")
    marks = [mark for _, mark in seam_marks("s", top, top, None)]
    ticks = [mark.ticks for mark in marks]
    assert ticks == ticks[::-1]
    middles = [mark.point[0] for mark in marks]
    assert middles == pytest.approx([300 - x for x in reversed(middles)])
    # Of a pair, left meets right as in a mirror, so the direction can be told.
    hand = end(block("a", 300, 50), "top", pair=True)
    paired = [mark.ticks for _, mark in seam_marks("s", hand, hand, None)]
    assert paired != paired[::-1]


TUBE_WITH_BAND = """\
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 280, girth-bottom: 185, length: 210, ease: 25, backing: 3}
    hand: pair
    allowances: {side: {kind: overlap, width: 25}}
  band:
    name: Band
    label: B
    material: foam-5
    shape: strip
    dimensions: {length: "280 + 25 + 2*pi*5.5", width: 30}
    hand: pair
seams:
  close: {join: [cuff.side, cuff.side-2]}
  rim: {join: [cuff.top, band.bottom]}
"""


def by_edge(piece, seam):
    """Marks of one seam on a piece, by edge."""
    found = {}
    for mark in piece.shape.marks:
        if mark.seam == seam:
            found.setdefault(mark.edge, []).append(mark)
    return found


def test_closing_a_tube_brings_its_marks_together():
    """At equal height, both closing edges have the same ticks, on the left and the right piece."""
    kit = good_kit(TUBE_WITH_BAND)
    for piece in kit.pieces_of("cuff"):
        marks = by_edge(piece, "close")
        one = sorted((round(mark.point[1], 6), mark.ticks) for mark in marks["side"])
        two = sorted((round(mark.point[1], 6), mark.ticks) for mark in marks["side-2"])
        assert len(one) == 2
        assert one == two


def test_marks_lie_on_the_finished_edge():
    """With an overlap the mark stays on the finished line, not on the cut line."""
    kit = good_kit(TUBE_WITH_BAND)
    cuff = next(kit.pieces_of("cuff"))
    (glue,) = [line for line in cuff.shape.lines if line.kind == "glue"]
    (line,) = glue.run
    for mark in by_edge(cuff, "close")["side"]:
        dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
        aside = (mark.point[0] - line.start[0]) * dy - (mark.point[1] - line.start[1]) * dx
        assert aside == pytest.approx(0, abs=1e-6)


def test_seams_state_their_true_lengths():
    """Lengths are arc lengths of the finished edges; a pair's seam is made twice."""
    kit = good_kit(TUBE_WITH_BAND)
    close, rim = kit.seams
    assert (close.first_length, close.second_length) == pytest.approx((210, 210))
    assert rim.first_length == pytest.approx(305 + 11 * pi)
    assert (close.copies, rim.copies) == (2, 2)
    assert rim.mismatch == pytest.approx(0)


def test_edges_that_differ_are_an_error_with_both_lengths():
    """Beyond tolerance and ease the author reads both lengths, and where the seam stands."""
    text = TUBE_WITH_BAND.replace("280 + 25", "285 + 25")
    ((code, path, message),) = refusals(text)
    assert (code, path) == ("seam-length", "seams.rim.join")
    assert "cuff.top is 339.6 mm long and band.bottom 344.6 mm" in message
    assert "5.0 mm apart" in message


def test_ease_is_allowed_for():
    """An edge may be longer by its declared ease, and the tolerance may be set."""
    text = TUBE_WITH_BAND.replace("280 + 25", "275 + 25")
    good_kit(text.replace("band.bottom]", "band.bottom], ease: 5"))
    good_kit(text.replace("band.bottom]", "band.bottom], tolerance: 6"))
    assert refusals(text)[0][0] == "seam-length"
    assert refusals(text.replace("band.bottom]", "band.bottom], tolerance: -1"))[0][:2] == (
        "out-of-range",
        "seams.rim.tolerance",
    )


def test_marks_by_spacing():
    """A seam may say how far its marks lie apart at most; both edges get the same marks."""
    kit = good_kit(TUBE_WITH_BAND.replace("side-2]", "side-2], mark-spacing: 2 in"))
    cuff = next(piece for piece in kit.pieces if piece.part == "cuff")
    marks = by_edge(cuff, "close")
    assert {edge: len(found) for edge, found in marks.items()} == {"side": 4, "side-2": 4}


@pytest.mark.parametrize(
    ("more", "code"),
    [("mark-spacing: 5", "out-of-range"), ("mark-spacing: wrist", "arithmetic")],
)
def test_spacings_that_cannot_be(more, code):
    """Marks too close to be told apart, or a spacing without a value, are errors at their place."""
    problem = refusals(TUBE_WITH_BAND.replace("side-2]", f"side-2], {more}"))[0]
    assert problem[:2] == (code, "seams.close.mark-spacing")


def test_marks_are_counted_or_spaced_not_both():
    """A number and a spacing of marks contradict one another."""
    with pytest.raises(AssertionError, match="give marks or mark-spacing, not both"):
        refusals(TUBE_WITH_BAND.replace("side-2]", "side-2], marks: 2, mark-spacing: 50"))


def test_unknown_edges_are_named():
    """A seam that names an edge or a part that is not there gets the nearest name."""
    ((code, path, message),) = refusals(TUBE_WITH_BAND.replace("cuff.top", "cuff.tip"))
    assert (code, path) == ("unknown-edge", "seams.rim.join[0]")
    assert 'did you mean "top"?' in message


HALF_TUBE = TUBE_WITH_BAND.replace("    hand: pair\n    allow", "    on-fold: centre\n    allow", 1)


def test_half_templates_show_marks_that_serve_both_sides():
    """Flipped over, the half template's marks fall on the marks of the whole outline."""
    kit = good_kit(HALF_TUBE)
    cuff = next(kit.pieces_of("cuff"))
    assert cuff.fold == "centre"
    drawn = {
        (m.seam, round(m.point[0], 3), round(m.point[1], 3), m.ticks) for m in cuff.template.marks
    }
    both = drawn | {(seam, -x if x else x, y, ticks) for seam, x, y, ticks in drawn}
    whole = {
        (m.seam, round(m.point[0], 3), round(m.point[1], 3), m.ticks) for m in cuff.shape.marks
    }
    assert whole <= both
    assert all(x >= -0.02 for _, x, _, _ in drawn)
    assert {mark.edge for mark in cuff.template.marks} == {"side", "top"}


PANEL = """\
parts:
  back:
    name: Back
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 300, girth-bottom: 260, length: 210}
    on-fold: centre
  panel:
    name: Panel
    label: B
    material: foam-5
    shape: strip
    dimensions: {length: 210, width: 80}
    hand: pair
seams:
  flank: {join: [back.side, panel.bottom]}
"""


def test_a_symmetrical_piece_is_joined_to_both_hands():
    """A pair on a piece cut on the fold makes the seam twice; the twin edge has its marks too."""
    kit = good_kit(PANEL)
    assert kit.seams[0].copies == 2
    (back,) = kit.pieces_of("back")
    left, right = kit.pieces_of("panel")
    marks = by_edge(back, "flank")
    drawn = sorted((round(mark.point[1], 6), mark.ticks) for mark in marks["side"])
    assert drawn == sorted((round(mark.point[1], 6), mark.ticks) for mark in marks["side-2"])
    assert [ticks for _, ticks in drawn] in ([1, 2], [2, 1])
    assert len(back.template.marks) == len(drawn)
    # On the left panel, ticks run from right to left up the side; on the right panel mirrored.
    order = [ticks for _, ticks in drawn]
    across = {
        piece.side: [m.ticks for m in sorted(piece.shape.marks, key=lambda m: m.point[0])]
        for piece in (left, right)
    }
    assert across["left"] == order[::-1]
    assert across["right"] == order


def test_a_pair_on_a_piece_without_a_fold_has_symmetrical_ticks():
    """Where the guide does not say which hand is meant, ticks suit both."""
    text = PANEL.replace("    on-fold: centre\n", "").replace("length: 210", "length: 440")
    kit = good_kit(text.replace("back.side,", "back.side-2,").replace("flank:", "a:"))
    (back,) = kit.pieces_of("back")
    ticks = [mark.ticks for mark in back.shape.marks]
    assert len(ticks) == 4
    assert ticks == ticks[::-1]


@pytest.mark.parametrize("corner", [50, 100, 150, 180])
@pytest.mark.parametrize("wanted", [None, 1, 3])
def test_ticks_count_from_the_start_where_an_edge_has_a_corner(corner, wanted):
    """Marks are numbered along the edge, a corner's among them: turned round, they would not meet.

    Wherever the corner is, the ticks read 1, 2, 3, … from the edge's start and from the end of its
    partner.
    """
    whole = 300
    bent = Shape(
        (
            Edge("bent", lines_through((0, 0), (corner, 0), (corner, whole - corner))),
            Edge("back", lines_through((corner, whole - corner), (0, whole - corner), (0, 0))),
        )
    )
    marks = seam_marks("s", end(Finished("b", bent), "bent"), end(block("a", whole, 50), "top"),
                       wanted)  # fmt: skip
    along = sorted((x + y, mark.ticks) for part, mark in marks if part == "b"
                   for x, y in [mark.point])  # fmt: skip
    # The top of a counter-clockwise block runs towards x = 0, and its partner the other way.
    beside = sorted((mark.point[0], mark.ticks) for part, mark in marks if part == "a")
    ticks = [ticks for _, ticks in along]
    assert corner in [pytest.approx(place) for place, _ in along]
    assert ticks == [n % 3 + 1 for n in range(len(ticks))]
    assert [ticks for _, ticks in beside] == ticks
    assert len(ticks) < 2 or ticks != ticks[::-1]


def test_corners_are_mirrored_where_marks_must_be():
    """An edge with a corner at a third that may meet itself turned round has marks at a third and
    at two thirds; one that never does has the corner's mark, and none for its mirror image."""
    bent, straight = lines_through((0, 0), (100, 0), (100, 200)), lines_through((0, 0), (300, 0))
    plain = mark_shares(bent, straight, 1, symmetrical=False)
    assert plain == pytest.approx([1 / 3, 1 / 2])
    both = mark_shares(bent, straight, 1, symmetrical=True)
    assert both == pytest.approx([1 / 3, 1 / 2, 2 / 3])


@pytest.mark.parametrize("wanted", [None, 1, 3, 9])
def test_marks_keep_apart_from_each_other_and_from_both_ends(wanted):
    """A corner 5 mm off the middle and one 4 mm before the end: what is too near gives way."""
    bent = lines_through((0, 0), (45, 0), (45, 51), (41, 51))
    straight = lines_through((0, 0), (100, 0))
    places = [100 * share for share in mark_shares(bent, straight, wanted, symmetrical=False)]
    assert places[0] >= MARK_CLOSEST - 1e-6
    assert places[-1] <= 100 - MARK_CLOSEST + 1e-6
    assert all(after - before >= MARK_CLOSEST - 1e-6 for before, after in pairwise(places))
    assert 45 in [pytest.approx(place) for place in places]
