"""Rows of points: where they lie, what is cut and drawn, through grading, folds and mirrors."""

from math import hypot

import pytest
from geometry.kit_samples import good_kit, refusals

from guidegen.geometry.outline.distances import distance_to_line
from guidegen.geometry.outline.measures import bounds, flatten, run_area, run_length

PLATE = """\
parts:
  plate:
    name: Plate
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 100, height: 60}
    points:
"""


def holes_of(kit, part="plate"):
    """Middles and widths of a part's holes, sorted."""
    piece = next(kit.pieces_of(part))
    found = []
    for hole in piece.shape.holes:
        if len(hole) == 1:  # a full circle
            (x, y), wide = hole[0].centre, 2 * hole[0].radius
        else:
            left, low, right, high = bounds((hole,))
            x, y, wide = (left + right) / 2, (low + high) / 2, right - left
        found.append((round(x, 3), round(y, 3), round(wide, 3)))
    return sorted(found)


def test_a_row_lies_evenly_along_an_edge():
    """Four holes, 10 mm from the ends and from the edge: 26.667 mm apart on 100 mm."""
    kit = good_kit(PLATE + "      row: {along: bottom, inset: 10, count: 4, margin: 10}\n")
    assert holes_of(kit) == [
        (-40.0, -20.0, 5.0), (-13.333, -20.0, 5.0), (13.333, -20.0, 5.0), (40.0, -20.0, 5.0)
    ]  # fmt: skip
    assert kit.rows[0].pitch == pytest.approx(80 / 3)
    assert all(run_area(hole) < 0 for hole in next(kit.pieces_of("plate")).shape.holes)


def test_a_pitch_shares_what_is_left_over():
    """Every 30 mm on 100 mm less 2 x 12: three points, 8 mm left over at each end."""
    kit = good_kit(PLATE + "      row: {along: bottom, inset: 15, pitch: 30, margin: 12}\n")
    assert [x for x, _, _ in holes_of(kit)] == [-30.0, 0.0, 30.0]


def test_rows_are_staggered_and_paired():
    """Every other point lies 8 mm farther in; pairs lie 12 mm apart across the row."""
    kit = good_kit(
        PLATE + "      row: {along: bottom, inset: 15, count: 3, margin: 20, stagger: 8}\n"
    )
    assert [y for _, y, _ in holes_of(kit)] == [-15.0, -7.0, -15.0]
    kit = good_kit(
        PLATE + "      row: {along: bottom, inset: 20, count: 2, margin: 20, paired: 12}\n"
    )
    assert [(x, y) for x, y, _ in holes_of(kit)] == [(-30, -16), (-30, -4), (30, -16), (30, -4)]


def test_corners_circles_lines_and_slots():
    """One in each corner; six on a circle of 40; a slot of 27 x 4 lies along its line."""
    kit = good_kit(PLATE + "      rivets: {corners: 12, kind: rivet, diameter: 4}\n")
    assert [(x, y) for x, y, _ in holes_of(kit)] == [(-38, -18), (-38, 18), (38, -18), (38, 18)]
    kit = good_kit(PLATE + "      ring: {circle: {diameter: 40}, count: 6, diameter: 4}\n")
    assert all(hypot(x, y) == pytest.approx(20, abs=0.002) for x, y, _ in holes_of(kit))
    line = "{from: [-30, 0], to: [30, 0]}"
    kit = good_kit(
        PLATE + f"      slots: {{line: {line}, count: 1, kind: slot, diameter: 4, length: 27}}\n"
    )
    assert holes_of(kit) == [(0.0, 0.0, 27.0)]


CUFF = """\
measurements: {arm: {name: Arm, take: Around.}}
sizes: {S: {arm: 200}, L: {arm: 300}}
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    on-fold: centre
    hand: pair
    dimensions: {girth-top: arm, girth-bottom: arm - 60, length: 150, gap: 30}
    points:
      lacing: {kind: lacing, along: side, inset: 10, count: 4, margin: 30}
"""


def test_rows_follow_grading_fold_and_hand():
    """A laced cuff has four holes on the drawn half, eight unfolded, mirrored on the right."""
    for size in ("S", "L"):
        kit = good_kit(CUFF, size)
        left, right = kit.pieces_of("cuff")
        assert len(left.template.holes) == 4
        assert len(left.shape.holes) == len(right.shape.holes) == 8
        assert (kit.rows[0].count, kit.rows[0].halves) == (8, 2)
        side = dict(kit.finished[0].edges)["side"]
        assert kit.rows[0].pitch == pytest.approx((side - 60) / 3)


LAYERS = """\
parts:
  plate:
    name: Plate
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 100, height: 60}
    placements: [{part: frame}]
    points:
      rivets: {corners: 8, diameter: 4, kind: rivet%s}
  frame:
    name: Frame
    label: B
    material: foam-5
    shape: frame
    dimensions: {width: 100, height: 60, web: 16}
"""


def test_what_lies_under_a_layer_is_refused_or_goes_through_both():
    """Corner rivets of a plate lie under its frame; named in through, the frame has them too."""
    ((code, path, message),) = refusals(LAYERS % "")
    assert (code, path) == ("points-covered", "parts.plate.points.rivets")
    assert message == "point 1 lies under B Frame"
    kit = good_kit(LAYERS % ", through: [frame]")
    assert len(next(kit.pieces_of("plate")).shape.holes) == 4
    assert len(next(kit.pieces_of("frame")).shape.holes) == 5  # the window and four
    # In the window nothing covers them.
    kit = good_kit((LAYERS % "").replace("corners: 8", "corners: 20, least-edge: 2"))
    assert len(next(kit.pieces_of("frame")).shape.holes) == 1


@pytest.mark.parametrize(
    ("row", "code"),
    [
        ("along: bottom, inset: 3, count: 4, margin: 10", "points-edge"),
        ("along: bottom, inset: 80, count: 2, margin: 10", "points-off"),
        ("along: bottom, inset: 10, count: 15, margin: 10", "points-crowded"),
        ("along: bottom, inset: 10, count: 2, margin: 60", "bad-points"),
        ("along: botom, inset: 10, count: 2", "unknown-edge"),
        ("line: {from: [0, 0], to: [9, 0]}, count: 1.5", "bad-count"),
    ],
)
def test_rows_that_do_not_fit_are_refused(row, code):
    """Too near an edge, beside the foam, too close, longer than the line, or on no edge."""
    assert [found[0] for found in refusals(PLATE + f"      row: {{{row}}}\n")] == [code]


def test_patches_are_as_wide_as_their_strap_and_slots_as_they_are_long():
    """Patches lie across the row: 25 mm wide and 30 long they may stand 28 apart. Slots lie along
    it: 30 mm long, with 2 mm of foam between two, they may not."""
    row = "along: bottom, inset: 10, count: 3, margin: 22, diameter: %s, length: 30, kind: %s"
    good_kit(PLATE + f"      row: {{{row % (25, 'patch')}}}\n")
    apart = "two points are 28 mm apart, expected at least %s mm"
    for wide, kind, least in ((4, "slot", 32), (29, "patch", 29)):
        ((code, _, message),) = refusals(PLATE + f"      row: {{{row % (wide, kind)}}}\n")
        assert (code, message) == ("points-crowded", apart % least)


def test_studs_are_drawn_and_not_cut():
    """A stud that lies on each point shows as its outline; its label stands at the first."""
    studs = PLATE + (
        "      studs: {kind: stud, part: stud, along: top, inset: 12, count: 3, margin: 15, "
        "diameter: 16}\n"
        "  stud: {name: Stud, label: K, material: foam-5, shape: disc, dimensions: {diameter: 16},"
        " copies: 3}\n"
    )
    piece = next(good_kit(studs).pieces_of("plate"))
    assert piece.shape.holes == ()
    assert [line.label for line in piece.shape.lines] == ["K", "", ""]


BADGED = """\
parts:
  plate:
    name: Plate
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 160, height: 120}
    placements: [{part: badge, at: [20, 10], angle: 90}]
    points:
      row: {on: badge, diameter: 4, through: [badge], %s}
  badge:
    name: Badge
    label: B
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 60, height: 40}
"""


@pytest.mark.parametrize(
    ("row", "on_badge"),
    [
        ("corners: 8", [(-22, -12), (-22, 12), (22, -12), (22, 12)]),
        ("line: {from: [-20, 0], to: [20, 0]}, count: 3", [(-20, 0), (0, 0), (20, 0)]),
        ("circle: {diameter: 20}, count: 2", [(0, -10), (0, 10)]),
    ],
)
def test_points_on_a_placement_turn_with_it(row, on_badge):
    """Meant on the badge, cut in the plate below where the badge lies, a quarter turned."""
    kit = good_kit(BADGED % row)
    assert [(x, y) for x, y, _ in holes_of(kit, "badge")] == sorted(on_badge)
    # A quarter turn takes (x, y) to (-y, x), then the badge lies 20 right and 10 up.
    wanted = sorted((round(20 - y, 3), round(10 + x, 3)) for x, y in on_badge)
    assert [(x, y) for x, y, _ in holes_of(kit)] == wanted


RIMMED = """\
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 320, girth-bottom: 160, length: 150}
    points:
      row: {along: %s, inset: 20, count: 5, margin: 30, stagger: %d, paired: %d, diameter: 4}
"""


@pytest.mark.parametrize("rim", ["top", "bottom"])
@pytest.mark.parametrize(("stagger", "paired"), [(0, 0), (8, 0), (0, 14)])
def test_rows_along_a_curved_rim_keep_their_distance(rim, stagger, paired):
    """Each point as far from the rim as said, every other one farther in, pairs on both sides."""
    kit = good_kit(RIMMED % (rim, stagger, paired))
    (row,), (one,) = kit.rows, kit.finished
    line = flatten(one.run(rim))
    found = [distance_to_line(line, spot.at) for spot in row.spots]
    wanted = [20 + (stagger if number % 2 else 0) for number in range(5)]
    if paired:
        wanted = [20 + aside for _ in range(5) for aside in (-paired / 2, paired / 2)]
    assert found == pytest.approx(wanted, abs=0.05)
    assert row.pitch == pytest.approx((run_length(one.run(rim)) - 60) / 4)
