"""Foam sheets with their pieces, and the offcut that stays."""

from dataclasses import replace
from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pictures.drawing_lint import (
    check_drawing,
    description,
    elements,
    lettering,
    parse,
    path_points,
    words,
)
from pictures.english import draw_cut_sheets
from pictures.picture_samples import sample_kit, sample_pieces, sample_plan
from shapely import Point, Polygon, box

from guidegen.buildfile.records.materials import Material, SheetSize
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.records import Arc, Edge, Shape
from guidegen.layout.records import CutSheet, Placed
from guidegen.pictures.cutting.offcuts import CELLS, LEAST_SIDE, largest_offcut
from guidegen.pictures.pen.frames import polygon

SCALE = 1 / 8
"""A mat of 580 mm is drawn 1 : 8, so that two drawings stand on a page of a booklet."""


def sheets():
    """Both sheets of the sample plan."""
    return draw_cut_sheets(sample_plan(), sample_kit(), "m", {"foam-10": "Floor mat, 10 mm"})


def outline(svg, key):
    """End points of the outlines of all pieces with a key, y upward from the sheet's corner."""
    height = float(parse(svg).get("viewBox").split()[3])
    ring = [
        [p for e in group if e.get("class") == "ink" for p in path_points(e.get("d"))]
        for group in elements(svg, "g", f"piece-{key}")
    ]
    return [[(x - 13, height - 21 - y) for x, y in points] for points in ring]


def test_the_scale_bar_shows_100_mm_in_the_stated_scale():
    """Five fields of 20 mm each at 1 : 8, and the scale in words."""
    svg = sheets()[0]
    fields = elements(svg, "rect", "bar") + elements(svg, "rect", "bar-empty")
    assert sum(float(field.get("width")) for field in fields) == pytest.approx(100 * SCALE)
    assert "1 : 8" in words(svg)
    assert "100 mm" in words(svg)


def test_pieces_lie_where_the_plan_puts_them():
    """Each corner of a turned piece is at its place, to scale."""
    (placed,) = [p for p in sample_plan().sheets[0].placed if p.piece == "plate" and p.copy == 2]
    drawn = outline(sheets()[0], "plate")[1]
    c, s = cos(radians(placed.angle)), sin(radians(placed.angle))
    for x, y in ((-130, -90), (130, -90), (130, 90), (-130, 90)):
        true = ((placed.x + x * c - y * s) * SCALE, (placed.y + x * s + y * c) * SCALE)
        assert any(point == pytest.approx(true, abs=1e-3) for point in drawn)


def test_a_flipped_piece_is_drawn_mirrored():
    """Mirrored across its own y axis first, then turned: the long leg of an L points left."""
    corners = [(0, 0), (90, 0), (90, 20), (20, 20), (20, 60), (0, 60)]
    shape = Shape((Edge("rim", polygon(corners)),))
    ell = replace(sample_pieces()[2], part="ell", template=shape, shape=shape)
    kit = replace(sample_kit(), pieces=(ell,))
    sheet = CutSheet("mat", 580, 580, (Placed("ell", 1, 300, 200, 90, flipped=True),), 1)
    svg = draw_cut_sheets(replace(sample_plan(), sheets=(sheet,)), kit, "m")[0]
    # (x, y) becomes (-x, y), and a quarter turn counter-clockwise makes that (-y, -x).
    for point, (x, y) in zip(outline(svg, "ell")[0], corners, strict=False):
        assert point == pytest.approx(((300 - y) * SCALE, (200 - x) * SCALE), abs=1e-3)


def test_a_long_sheet_lies_on_its_side():
    """2700 mm off a roll of 450 mm are drawn a quarter turned, 1 : 25 where upright they would be
    1 : 40: a corner (x, y) of a piece lies at (2700 - y, x). A mat a little longer than wide, which
    would be drawn no larger, stands upright."""
    corners = [(0, 0), (90, 0), (90, 20), (20, 20), (20, 60), (0, 60)]
    shape = Shape((Edge("rim", polygon(corners)),))
    ell = replace(sample_pieces()[2], part="ell", template=shape, shape=shape)
    kit = replace(sample_kit(), pieces=(ell,))
    placed = (Placed("ell", 1, 300, 200, 0),)
    roll = CutSheet("roll", 450, 2700, placed, 1)
    svg = draw_cut_sheets(replace(sample_plan(), sheets=(roll,)), kit, "m")[0]
    assert "1 : 25" in words(svg)
    for point, (x, y) in zip(outline(svg, "ell")[0], corners, strict=False):
        true = ((2700 - 200 - y) / 25, (300 + x) / 25)
        assert point == pytest.approx(true, abs=1e-3)
    mat = CutSheet("mat", 580, 600, placed, 1)
    svg = draw_cut_sheets(replace(sample_plan(), sheets=(mat,)), kit, "m")[0]
    for point, (x, y) in zip(outline(svg, "ell")[0], corners, strict=False):
        assert point == pytest.approx(((300 + x) * SCALE, (200 + y) * SCALE), abs=1e-3)


def test_every_piece_is_labelled_inside_or_by_a_leader():
    """Large pieces carry their label; 55 studs share one leader with their number."""
    first, second = sheets()
    assert words(first).count("B1") == 2
    assert words(first).count("C1") == 2
    assert "N1 × 55" in words(second) or words(second).count("N1") == 55
    for svg, key, label in ((first, "plate", "B1"), (first, "disc", "D1")):
        height = float(parse(svg).get("viewBox").split()[3])
        rings = [Polygon(points).buffer(0.01) for points in outline(svg, key)]
        boxes = [
            box(i.left - 13, height - 21 - i.bottom, i.right - 13, height - 21 - i.top)
            for i in lettering(svg)
            if i.words == label
        ]
        if key == "plate":
            assert all(any(ring.contains(b) for ring in rings) for b in boxes)


@pytest.mark.parametrize("filled", [True, False])
def test_a_ring_is_labelled_in_its_hole_unless_another_piece_lies_there(filled):
    """A rim too narrow for its label: that stands in the empty hole, else at the end of a leader."""
    disc, stud = sample_pieces()[-2:]
    rim = Shape((Edge("rim", (Arc((0, 0), 60, 0, 360),)),), ((Arc((0, 0), 50, 0, -360),),))
    ring = replace(disc, part="ring", label="R1", template=rim, shape=rim)
    placed = (Placed("ring", 1, 100, 100, 0), Placed("stud", 1, 100, 100, 0))
    sheet = CutSheet("mat", 580, 580, placed if filled else placed[:1], 1)
    kit = replace(sample_kit(), pieces=(ring, stud))
    svg = draw_cut_sheets(replace(sample_plan(), sheets=(sheet,)), kit, "m")[0]
    height = float(parse(svg).get("viewBox").split()[3])
    (label,) = [one for one in lettering(svg) if one.words == "R1"]
    found = box(
        label.left - 13, height - 21 - label.bottom, label.right - 13, height - 21 - label.top
    )
    hole = Point(100 * SCALE, 100 * SCALE).buffer(50 * SCALE)
    assert hole.intersects(found) is not filled
    assert hole.contains(found) is not filled


def test_sizes_count_and_share_stand_in_the_drawing_and_its_description():
    """Width, height, sheet of how many, and how much is used."""
    svg = sheets()[0]
    used = sample_plan().sheets[0].used / 580**2
    assert words(svg).count("580") == 2
    assert "sheet 1 of 2" in words(svg)
    assert f"Floor mat, 10 mm, {used * 100:.0f}% used" in words(svg)
    assert "B1 Keel plate 2\u00a0times" in description(svg)
    assert f"{used * 100:.0f}% used" in description(svg)


def test_an_empty_sheet_is_all_offcut():
    """Nothing on it: the whole sheet may be kept, to a cell."""
    x, y, width, height = largest_offcut([], 500, 300)
    assert (x, y) == (0, 0)
    assert width == pytest.approx(500, abs=500 / CELLS)
    assert height == pytest.approx(300, abs=500 / CELLS)


def test_a_strip_left_beside_a_piece_is_found():
    """A square of 400 leaves 200 by 600 beside it or above it."""
    _, _, width, height = largest_offcut([[(0, 0), (400, 0), (400, 400), (0, 400)]], 600, 600)
    assert sorted((width, height)) == pytest.approx([197, 600], abs=2 * 600 / CELLS)


def test_narrow_rests_are_not_worth_a_note():
    """Less than 60 mm wide on every side: no offcut."""
    assert largest_offcut([[(0, 0), (550, 0), (550, 550), (0, 550)]], 600, 600) is None


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(20, 480), st.floats(20, 480), st.floats(5, 120), st.integers(3, 9)),
        max_size=8,
    )
)
def test_an_offcut_never_reaches_into_a_piece(pieces):
    """Checked with Shapely: no common area with any outline, always wide enough to keep."""
    outlines = [
        [
            (x + r * cos(radians(360 * n / count)), y + r * sin(radians(360 * n / count)))
            for n in range(count)
        ]
        for x, y, r, count in pieces
    ]
    found = largest_offcut(outlines, 500, 500)
    if found is None:
        return
    x, y, width, height = found
    free = box(x, y, x + width, y + height)
    assert min(width, height) >= LEAST_SIDE
    assert all(free.intersection(Polygon(points)).area < 1e-6 for points in outlines)


def test_a_mat_is_drawn_with_its_teeth_outside_the_usable_area():
    """Teeth of 10 mm are 1.25 mm at 1 : 8, all around, and the sheet keeps its place and size."""
    plan = sample_plan()
    name = plan.sheets[0].name
    mat = SheetSize(name=name, width=600, height=600, interlock=10, price=5)
    stock = Stock(
        materials={plan.material: Material(name="Mat", kind="sheet", thickness=10, sheets=(mat,))}
    )
    svg = draw_cut_sheets(plan, sample_kit(), "m", stock=stock)[0]
    check_drawing(svg)
    side = plan.sheets[0].width * SCALE
    bottom = float(parse(svg).get("viewBox").split()[3]) - 21
    teeth = path_points(elements(svg, "path", "hatch")[0].get("d"))
    assert min(x for x, _ in teeth) == pytest.approx(13 - 1.25)
    assert max(x for x, _ in teeth) == pytest.approx(13 + side + 1.25)
    assert max(y for _, y in teeth) == pytest.approx(bottom + 1.25)
    # Written to a thousandth of a mm.
    inside = box(13, bottom - side, 13 + side, bottom).buffer(-0.001)
    assert not any(inside.contains(Point(at)) for at in teeth)
    assert any("within its teeth" in text for text in words(svg))
    plain = draw_cut_sheets(plan, sample_kit(), "m")[0]
    assert outline(svg, "plate") == outline(plain, "plate")
    assert not any("teeth" in text for text in words(plain))
