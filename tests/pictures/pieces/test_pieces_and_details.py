"""Single pieces, the kit, and sections of bevels, joints and grooves."""

from dataclasses import replace
from itertools import combinations
from math import degrees, radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pictures.drawing_lint import (
    check_drawing,
    description,
    elements,
    lettering,
    path_points,
    words,
)
from pictures.english import draw_bevel, draw_details, draw_groove, draw_joint, draw_kit, draw_piece
from pictures.picture_samples import box, round_hole, sample_kit, sample_pieces
from shapely import Polygon

from guidegen.geometry.outline.records import Arc, BevelledEdge, Edge, Shape
from guidegen.geometry.pieces.records import (
    Fastened,
    FittedStrap,
    GrooveCut,
    LayerPiece,
    LayerStack,
    PointRow,
    StrapPiece,
)
from guidegen.pictures.pieces.bevels import JointSection
from guidegen.words import read_words


def piece(key):
    """A piece of the sample kit."""
    return next(p for p in sample_pieces() if p.key == key)


def test_a_piece_shows_its_overall_size_its_edges_and_its_measures():
    """The keel plate of 260 by 180 mm at 1 : 5."""
    svg = draw_piece(piece("plate"), "m")
    for expected in ("260", "180", "B1", "top", "bottom", "left", "right", "1 : 5"):
        assert expected in words(svg)
    assert "260 mm wide and 180 mm high" in description(svg)
    outline = next(e for e in elements(svg, "path", "ink") if e.get("stroke-width") == "0.5")
    xs = [x for x, _ in path_points(outline.get("d"))]
    assert max(xs) - min(xs) == pytest.approx(260 / 5)


def test_named_measures_stand_in_the_description_of_a_piece_and_lines_in_its_key():
    """What a tape checks stands in the list beside the drawing: the drawing does not repeat it."""
    cuff = draw_piece(piece("cuff-left"), "m")
    assert "girth at the wrist 245 mm" in description(cuff)
    assert not any("girth" in said for said in words(cuff))
    disc = draw_piece(piece("disc"), "m")
    assert "groove on the back" in words(disc)


def test_a_piece_too_narrow_for_its_label_has_it_at_a_leader():
    """A ring of 300 mm that is 6 mm wide: its label stands beside it, once."""
    rim = Shape((Edge("rim", (Arc((0, 0), 150, 0, 360),)),), (round_hole(144),))
    svg = draw_piece(replace(piece("disc"), label="R7", template=rim, shape=rim, grooves=()), "m")
    check_drawing(svg)
    outline = next(e for e in elements(svg, "path", "ink") if e.get("stroke-width") == "0.5")
    right = max(x for x, _ in path_points(outline.get("d")))
    assert [one.left > right for one in lettering(svg) if one.words == "R7"] == [True]


def test_match_marks_are_drawn_with_their_ticks():
    """One, two and one tick on the ridge: four strokes."""
    svg = draw_piece(piece("ridge"), "m")
    (marks,) = elements(svg, "path", "line-mark")
    assert marks.get("d", "").count("M") == 4
    assert "top: bevel 30° inward" in words(svg)


def test_a_hole_stays_open():
    """Outline and window form one path, filled by the even-odd rule."""
    svg = draw_piece(piece("frame"), "m")
    (fill,) = elements(svg, "path", "fill-foam-1")
    assert fill.get("fill-rule") == "evenodd"
    assert fill.get("d", "").count("M") == 2
    assert "One hole." in description(svg)


def test_the_kit_stands_at_one_scale_beside_a_ruler_of_300_mm():
    """Every part once, with its count; the bar is 300 mm in the stated scale."""
    svg = draw_kit(sample_kit(), {"foam-10": "Floor mat, 10 mm"})
    for expected in ("A1L + A1R", "B1 × 2", "N1 × 55", "300 mm", "Floor mat, 10 mm"):
        assert expected in words(svg)
    scale = float(next(w for w in words(svg) if w.startswith("1 : "))[4:])
    fields = elements(svg, "rect", "bar") + elements(svg, "rect", "bar-empty")
    assert sum(float(f.get("width")) for f in fields) == pytest.approx(300 / scale, abs=1e-3)
    (group,) = elements(svg, "g", "piece-plate")
    xs = [x for e in group if e.get("class") == "ink" for x, _ in path_points(e.get("d"))]
    assert max(xs) - min(xs) == pytest.approx(260 / scale, abs=1e-3)


@pytest.mark.parametrize("direction", ["inward", "outward"])
def test_a_bevel_is_drawn_at_its_true_angle(direction):
    """10 mm cut 30 degrees from square: the smaller face falls back by 10 * tan 30 = 5.8 mm."""
    svg = draw_bevel(BevelledEdge("top", 30, direction, ()), 10, "C1 ridge")
    (cut,) = [e for e in elements(svg, "path", "ink") if e.get("stroke-width") == "0.5"]
    points = path_points(cut.get("d"))
    dx, dy = points[2][0] - points[1][0], points[1][1] - points[2][1]
    assert abs(dx) / dy == pytest.approx(tan(radians(30)), rel=1e-3)
    assert (dx > 0) == (direction == "inward")
    long_face = "outer" if direction == "inward" else "inner"
    assert f"long face up: {long_face} face on top" in words(svg)
    for expected in ("10", "5.8", "30°", "30° from square"):
        assert expected in words(svg)


def test_two_edges_of_45_degrees_make_a_square_corner():
    """Common practice, no source: two strips bevelled at 45 degrees meet in a square ridge."""
    svg = draw_joint(JointSection((45, 45), "inward", (10, 10)), "C1 to C1")
    assert "90°" in words(svg)
    assert "90° between the parts" in words(svg)


def test_a_groove_closes_when_folded():
    """Depth 8 and 40 degrees: mouth 2 * 8 * tan 20 = 5.8; folded, 140 degrees stay inside."""
    svg = draw_groove(GrooveCut(40, 8, 2, 16 * tan(radians(20)), ()), 10, "D1 disc")
    for expected in ("40°", "140°", "5.8", "8", "2", "10", "cut", "folded"):
        assert expected in words(svg)
    assert "mouth 5.8 mm" in description(svg)


def test_details_are_drawn_once_for_each_kind():
    """The ridge has a bevel and a joint with its like; the disc a groove; the stud nothing."""
    kit = sample_kit()
    counts = {p.key: len(draw_details(p, kit)) for p in kit.pieces}
    assert counts["ridge"] == 2
    assert counts["disc"] == 1
    assert counts["stud"] == 0
    assert "120° between the parts" in words(draw_details(piece("ridge"), kit)[1])


@given(st.floats(1, 80), st.floats(1, 40), st.sampled_from(["inward", "outward"]))
def test_bevels_and_joints_of_any_angle_fit_their_drawing(angle, thickness, direction):
    """Steep bevels of thick foam are drawn smaller, never beyond the rim."""
    check_drawing(draw_bevel(BevelledEdge("top", angle, direction, ()), thickness, "X"))
    check_drawing(draw_joint(JointSection((angle, angle), direction, (thickness, thickness)), "X"))


@given(st.floats(3, 50), st.floats(2, 12), st.sampled_from(["inward", "outward"]))
def test_words_beside_a_bevel_keep_clear_of_its_number(angle, thickness, direction):
    """In German, whose words are the longer ones: a flat angle has its number beside the arc."""
    svg = draw_bevel(
        BevelledEdge("top", angle, direction, ()), thickness, "X", lang=read_words("de")
    )
    for one, other in combinations(lettering(svg), 2):
        across = min(one.right, other.right) - max(one.left, other.left)
        down = min(one.bottom, other.bottom) - max(one.top, other.top)
        assert across <= 0 or down <= 0, (one, other)


@given(st.floats(2, 150), st.floats(1, 40), st.floats(0.3, 0.95))
def test_grooves_of_any_angle_fit_their_drawing(fold, thickness, share):
    """Wide mouths are drawn smaller, never beyond the rim."""
    depth = thickness * share
    mouth = 2 * depth * tan(radians(fold / 2))
    check_drawing(draw_groove(GrooveCut(fold, depth, thickness - depth, mouth, ()), thickness, "X"))


@given(st.floats(1, 3000), st.floats(1, 3000))
def test_pieces_of_any_size_fit_their_drawing(width, height):
    """From a chip to a whole roll, also very long and very thin."""
    shape = Shape(box(width, height))
    check_drawing(draw_piece(replace(piece("plate"), shape=shape, template=shape), "m"))


def test_a_bend_says_how_long_each_layer_is():
    """Radius, the way of both layers round it, and by how much the outer one is cut longer."""
    layers = (
        LayerPiece("a", "Plate", "foam", 10.0, 1.0, way=180.0),
        LayerPiece("b", "Frame", "foam", 6.0, 1.0, way=189.3, longer=9.3),
    )
    stack = LayerStack("bent", "Hip plate", 0.0, layers, 1, radius=149.6)
    kit = replace(
        sample_kit(),
        pieces=(
            replace(piece("plate"), part="a", label="H1"),
            replace(piece("plate"), part="b", label="H2"),
        ),
        stacks=(stack,),
    )
    (drawing,) = draw_details(kit.pieces[0], kit)[-1:]
    assert draw_details(kit.pieces[1], kit)[-1:] != (drawing,)  # once, by the lowest layer
    check_drawing(drawing)
    said = description(drawing).replace("\N{NO-BREAK SPACE}", " ")
    assert "The first layer bends round 150 mm, measured to its inner face." in said
    assert "H1: 180 mm round the bend." in said
    assert "H2: 189.3 mm round the bend, cut 9.3 mm longer for it." in said
    # As far round as its way takes in the middle of the first layer: 180 mm at 149.6 + 5 mm.
    assert "67°" in words(drawing)
    long = replace(stack, layers=(replace(layers[0], way=300.0), layers[1]))
    (drawing,) = draw_details(kit.pieces[0], replace(kit, stacks=(long,)))[-1:]
    assert f"{degrees(300 / 154.6):.0f}°" in words(drawing)


def test_a_post_shows_what_it_goes_through():
    """Layers from the part outward between their washers, the sum, and what the post holds."""
    one = Fastened(
        "hangers", "plate.holes", "rivet", 4, 19.5, 18.0,
        (("H1 Plate", 10.0), ("H2 Frame", 6.0), ("Webbing", 1.5)), 2, 1.0, (18.5, 21.0), 5.0,
        "Hangers",
    )  # fmt: skip
    row = PointRow("plate", "holes", "rivet", (), 5.0, 0.0, 0.0)
    kit = replace(sample_kit(), fastened=(one, one), rows=(row,))
    drawing = draw_details(piece("plate"), kit)[-1]
    check_drawing(drawing)
    said = description(drawing).replace("\N{NO-BREAK SPACE}", " ")
    layers = "washer 1 mm; H1 Plate 10 mm; H2 Frame 6 mm; Webbing 1.5 mm; washer 1 mm."
    assert (
        said
        == f"{layers} Its layers are 19.5 mm thick together; a post of 18 mm holds 18.5 to 21 mm."
    )
    # The post, its head and its cap stand on one axis, which is that of the slab.
    slab = [x for x, _ in path_points(elements(drawing, "path", "ink")[0].get("d"))]
    axis = (min(slab) + max(slab)) / 2
    for body in elements(drawing, "rect", "paper"):
        assert float(body.get("x")) + float(body.get("width")) / 2 == pytest.approx(axis, abs=0.01)
    # Two rows with the same layers are drawn once.
    assert sum("Post of" in one for one in draw_details(piece("plate"), kit)) == 1


def test_a_strap_is_drawn_as_a_chain():
    """What is held at both ends, what is bridged, the buckle; and the same in words."""
    strap = FittedStrap(
        "shoulder", "Shoulder strap", 2, (StrapPiece("webbing", 195.0, 2), StrapPiece("webbing", 130.0, 2)),
        (), 115.0, 85.0, 120.0, (100.0, 120.0), 0.0, (80.0, 80.0), (40.0, 40.0), (10.0, 55.0),
        ("plate", "frame"), home="plate",
    )  # fmt: skip
    kit = replace(sample_kit(), straps=(strap,))
    drawing = draw_details(piece("plate"), kit)[-1]
    check_drawing(drawing)
    said = description(drawing).replace("\N{NO-BREAK SPACE}", " ")
    assert "It must bridge 100 to 120 mm. It reaches from 85 to 120 mm." in said
    assert "Cut for each: 195 mm, 130 mm." in said
    for length in ("120", "80", "55"):
        assert length in words(drawing)
    assert not any("chain" in one for one in draw_details(piece("frame"), kit))
    # However many pieces are cut for it, their list stays on the drawing.
    for count in range(4, 24, 3):
        long = replace(
            strap, pieces=tuple(StrapPiece("webbing", 100.0 + n, 2) for n in range(count))
        )
        check_drawing(draw_details(piece("plate"), replace(kit, straps=(long,)))[-1])


def test_halves_of_a_folded_groove_are_sound_and_alike():
    """Foam 10 mm thick in three sections, one before and two folded, none of which crosses itself."""
    cut = GrooveCut(40, 8, 2, 16 * tan(radians(20)), ())
    drawn = elements(draw_groove(cut, 10, "D1 disc"), "path")
    foam = [
        Polygon(path_points(one.get("d")))
        for one in drawn
        if (one.get("class") or "").startswith("fill-foam")
    ]
    whole, left, right, *_ = foam
    assert whole.is_valid and left.is_valid and right.is_valid
    assert left.area == pytest.approx(right.area, rel=1e-3)
