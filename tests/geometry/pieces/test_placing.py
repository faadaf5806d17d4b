"""Where parts are laid: from the middle, an edge, a corner, and bent along a rim."""

from itertools import pairwise
from math import hypot

import pytest
from geometry.kit_samples import good_kit, refusals

from guidegen.geometry.outline.distances import distance_to_line
from guidegen.geometry.outline.measures import bounds, flatten, run_area
from guidegen.geometry.outline.records import LineKind

BASE = """\
parts:
  plate:
    name: Plate
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 200, height: 120}
    placements: [{part: badge, %s}]
  badge:
    name: Badge
    label: B
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 40, height: 20}
"""


def placed(where, text=BASE):
    """Box of the badge's line on the plate: left, low, right, high."""
    piece = next(good_kit(text % where).pieces_of("plate"))
    (line,) = [one for one in piece.shape.lines if one.kind is LineKind.PLACEMENT]
    return tuple(round(value, 3) for value in bounds((line.run,)))


def test_places_are_measured_from_middle_edge_and_corner():
    """Upright along an edge, so many mm free of it; or so many free of two edges."""
    assert placed("at: [10, 5]") == (-10, -5, 30, 15)
    assert placed("from-edge: bottom, at: [0, 7]") == (-20, -53, 20, -33)
    assert placed("from-edge: top, at: [30, 7]") == (10, 33, 50, 53)
    # Along the right edge the badge stands upright with its side to the edge.
    assert placed("from-edge: right, at: [0, 5]")[2] == 95
    assert placed("from-corner: [left, bottom], at: [6, 4]") == (-94, -56, -54, -36)


TUBE = """\
parts:
  plate:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 280, girth-bottom: 160, length: 150, gap: 30}
    placements: [{part: badge, %s}]
  badge:
    name: Band
    label: B
    material: foam-5
    shape: strip
    dimensions: {length: 200, width: 20}
"""


WINDOW = """\
parts:
  plate:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 320, girth-bottom: 160, length: 150}
    placements: [{part: window, %s}]
  window:
    name: Window
    label: B
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 60, height: 30}
"""


@pytest.mark.parametrize("free", [0, 0.5, 12, 20])
@pytest.mark.parametrize("edge", ["top", "bottom", "side"])
@pytest.mark.parametrize("aside", [0, 40])
def test_a_window_on_a_tube_is_as_far_from_its_rim_as_said(edge, aside, free):
    """Where it is nearest, beside the middle of a rim that bulges, and upright along it."""
    piece = next(good_kit(WINDOW % f"from-edge: {edge}, at: [{aside}, {free}]").pieces_of("plate"))
    (line,) = [one for one in piece.shape.lines if one.kind is LineKind.PLACEMENT]
    run = flatten(piece.shape.edge(edge).run)
    nearest = min(
        [distance_to_line(run, point) for point in flatten(line.run)]
        + [distance_to_line([*flatten(line.run)], point) for point in run]
    )
    assert nearest == pytest.approx(free, abs=0.08)
    assert abs(run_area(line.run)) == pytest.approx(60 * 30, abs=0.1)


@pytest.mark.parametrize("edge", ["top", "bottom"])
@pytest.mark.parametrize("aside", [-60, 40])
def test_a_window_is_moved_straight_in_from_its_place_on_the_rim(edge, aside):
    """Its middle lies on the radius through the place on the rim: nothing slides it aside.

    The middle of an arc is where the bisectors of its chords meet (Euclid, Elements III.1).
    """
    piece = next(good_kit(WINDOW % f"from-edge: {edge}, at: [{aside}, 12]").pieces_of("plate"))
    (line,) = [one for one in piece.shape.lines if one.kind is LineKind.PLACEMENT]
    rim = flatten(piece.shape.edge(edge).run)
    centre = _middle_of_circle(rim[0], rim[len(rim) // 2], rim[-1])
    left, low, right, high = bounds((line.run,))
    x, y = (left + right) / 2 - centre[0], (low + high) / 2 - centre[1]
    ring = flatten(line.run)
    dx, dy = max(((b[0] - a[0], b[1] - a[1]) for a, b in pairwise(ring)), key=lambda d: hypot(*d))
    # mm that the middle lies off the radius to which the long side stands square.
    assert (x * dx + y * dy) / hypot(dx, dy) == pytest.approx(0, abs=0.02)


def _middle_of_circle(a, b, c):
    (ax, ay), (bx, by), (cx, cy) = a, b, c
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    squares = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    weights = (by - cy, cy - ay, ay - by), (cx - bx, ax - cx, bx - ax)
    return tuple(sum(s * w for s, w in zip(squares, ws, strict=True)) / d for ws in weights)


def _gaps(piece, line, edges):
    """mm from a placement line to each edge where it is nearest."""
    ring = flatten(line.run)
    for edge in edges:
        run = flatten(piece.shape.edge(edge).run)
        yield min(
            [distance_to_line(run, point) for point in ring]
            + [distance_to_line(ring, point) for point in run]
        )


@pytest.mark.parametrize("corner", ["side, bottom", "bottom, side-2", "side-2, top", "top, side"])
@pytest.mark.parametrize("free", ["8, 8", "25, 3", "0.5, 30"])
def test_a_window_in_a_corner_of_a_tube_is_free_of_both_edges(corner, free):
    """So many mm from the closing edge and from the curved rim, along which it lies upright."""
    text = WINDOW % f"from-corner: [{corner}], at: [{free}]"
    piece = next(good_kit(text).pieces_of("plate"))
    (line,) = [one for one in piece.shape.lines if one.kind is LineKind.PLACEMENT]
    wanted = [float(number) for number in free.split(", ")]
    assert list(_gaps(piece, line, corner.split(", "))) == pytest.approx(wanted, abs=0.08)
    # It lies on the side where the corner is, its long sides along the rim.
    ring = flatten(line.run)
    right = max(x for x, _ in flatten(piece.shape.edge("side").run)) > 0
    middle = sum(x for x, _ in ring) / len(ring)
    assert (middle > 0) == (right == ("side-2" not in corner))
    dx, dy = max(((b[0] - a[0], b[1] - a[1]) for a, b in pairwise(ring)), key=lambda d: hypot(*d))
    assert hypot(dx, dy) == pytest.approx(60, abs=0.1)
    assert abs(dx) > abs(dy)


def test_a_corner_of_two_rims_or_without_room_is_refused():
    """Rims never meet; 400 mm from a closing edge lies past the other one."""
    ((_, _, words),) = refusals(WINDOW % "from-corner: [top, bottom], at: [5, 5]")
    assert "top and bottom are both curved: measure from-edge instead" in words
    ((_, _, words),) = refusals(WINDOW % "from-corner: [side, bottom], at: [400, 5]")
    assert "there is no such place between side and bottom" in words


def test_a_band_follows_the_rim_of_a_tapered_tube():
    """A ring sector 20 mm wide: its area is 20 mm times the length in its middle."""
    piece = next(good_kit(TUBE % "along: top").pieces_of("plate"))
    (line,) = [one for one in piece.shape.lines if one.kind is LineKind.PLACEMENT]
    top = piece.shape.edge("top").run[0]
    middle = abs(top.sweep) / 360 * 2 * 3.141592653589793 * (top.radius - 10)
    assert abs(run_area(line.run)) == pytest.approx(20 * middle, rel=1e-6)


def test_places_beside_the_part_are_refused():
    """An edge that is none, a corner of parallel edges, a place past the end of an edge."""
    for where, code in (
        ("from-edge: botom", "unknown-edge"),
        ("from-corner: [left, right]", "bad-placement"),
        ("from-edge: bottom, at: [150, 0]", "bad-placement"),
    ):
        assert refusals(BASE % where)[0][0] == code
