"""Sections and exploded views of layer stacks, and where layers lie."""

import itertools
from dataclasses import replace

import pytest
from pictures.drawing_lint import description, elements, parse, path_points, words
from pictures.english import draw_exploded, draw_section
from pictures.picture_samples import sample_kit

from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Line, LineKind
from guidegen.geometry.pieces.records import LayerPiece, LayerStack
from guidegen.pictures.pieces.glue_areas import footprints, lay_up

NAMES = {"foam-10": "Floor mat", "foam-6": "Foam sheet", "foam-2": "Craft foam"}


def stack():
    """The sample stack: 5 mm backing, 10, 6 and 2 mm of foam."""
    return sample_kit().stacks[0]


def slab_heights(svg):
    """Heights of the filled slabs, lowest first."""
    found = []
    for element in elements(svg, "path"):
        if (element.get("class") or "").startswith("fill-"):
            ys = [y for _, y in path_points(element.get("d"))]
            found.append(max(ys) - min(ys))
    return found


def test_thicknesses_are_drawn_in_the_stated_scale():
    """23 mm in all are drawn as they are, half of it 2 : 1."""
    svg = draw_section(stack(), "m", NAMES)
    assert "1 : 1" in words(svg)
    assert slab_heights(svg) == pytest.approx([5, 10, 6, 2])
    thin = replace(
        stack(),
        backing=2.5,
        layers=tuple(replace(one, thickness=one.thickness / 2) for one in stack().layers),
    )
    svg = draw_section(thin, "m", NAMES)
    assert "2 : 1" in words(svg)
    assert slab_heights(svg) == pytest.approx([5, 10, 6, 2])


def test_the_body_lies_under_all_layers():
    """Its hatch ends below the backing, which lies on it."""
    svg = draw_section(stack(), "m", NAMES)
    slabs = [
        y
        for element in elements(svg, "path")
        if (element.get("class") or "").startswith("fill-")
        for _, y in path_points(element.get("d"))
    ]
    body = [y for _, y in path_points(elements(svg, "path", "hatch")[0].get("d"))]
    assert min(body) > max(slabs)
    assert max(body) - min(body) == pytest.approx(2.6, abs=0.05)


def test_every_thickness_and_the_total_are_written():
    """The numbers stand in the drawing and in its text alternative."""
    svg = draw_section(stack(), "m", NAMES)
    for number in ("5", "10", "6", "2", "23"):
        assert number in words(svg)
    assert "Total 23 mm" in description(svg)
    assert "Window frame, Foam sheet, 6 mm" in description(svg)
    assert "body side" in words(svg)
    assert "outside" in words(svg)
    assert "2\u00a0glue lines" in words(svg)


def test_many_thin_layers_keep_their_names_apart():
    """Names are at least 10 mm apart, however thin the layers are."""
    layers = tuple(LayerPiece("plate", f"Layer {n}", "foam-2", 2, 1) for n in range(9))
    svg = draw_section(LayerStack("many", "Many", 0, layers, 1), "m")
    levels = sorted(
        float(e.get("y")) for e in elements(svg, "text") if (e.text or "").startswith("Layer")
    )
    assert len(levels) == 9
    assert all(b - a >= 10 - 1e-6 for a, b in itertools.pairwise(levels))


def test_layers_are_groups_that_say_how_far_they_must_move_to_close():
    """The site's slider moves each group by its data-lift; the lowest stays."""
    svg = draw_exploded(stack(), sample_kit(), "m", NAMES)
    groups = elements(svg, "g", "layer")
    assert [g.get("id") for g in groups] == [f"m-keel-layer-{n}" for n in (1, 2, 3, 4)]
    lifts = [float(g.get("data-lift")) for g in groups]
    assert lifts[0] == 0
    assert lifts == sorted(lifts)
    assert lifts[1] > 5
    assert words(svg).index("Backing") < words(svg).index("Porthole")


def test_a_closed_stack_has_no_gap():
    """Moved by their lifts, the bottom of each layer meets the top of the one below."""
    svg = draw_exploded(stack(), sample_kit(), "m", NAMES)
    tops, bottoms = [], []
    for group in elements(svg, "g", "layer"):
        lift = float(group.get("data-lift"))
        side = next(e for e in group if (e.get("class") or "").endswith("-side"))
        ys = [y + lift for _, y in path_points(side.get("d"))]
        bottoms.append(max(ys))
        face = next(e for e in group if " ink" in (e.get("class") or ""))
        tops.append(max(y + lift for _, y in path_points(face.get("d"))))
    # The two lowest have the same outline: the front edge of one lies on that of the other.
    assert bottoms[1] == pytest.approx(tops[0], abs=0.02)


def test_a_piece_that_a_placement_line_names_lies_on_that_line():
    """Moved by the line, holes and all; what nothing places and is smaller is not sure."""
    kit = sample_kit()
    plate, frame, ornament = lay_up(stack(), kit)
    assert (plate.sure, frame.sure, ornament.sure) == (True, True, False)
    moved = tuple(
        replace(line, run=tuple(
            Line((s.start[0] + 10, s.start[1] - 5), (s.end[0] + 10, s.end[1] - 5))
            for s in line.run
        ))
        if line.kind is LineKind.PLACEMENT
        else line
        for line in plate.piece.shape.lines
    )  # fmt: skip
    pieces = tuple(
        replace(p, shape=replace(p.shape, lines=moved)) if p.part == "plate" else p
        for p in kit.pieces
    )
    placed = lay_up(stack(), replace(kit, pieces=pieces))[1]
    (body,) = placed.bodies()
    assert len(body) == 2
    assert bounds(body[:1]) == pytest.approx((-100, -75, 120, 65))


def test_layers_without_their_piece_are_left_out():
    """Without the lowest nothing has a place; without the frame the ornament lies on the plate."""
    kit = sample_kit()

    def laid(missing):
        pieces = tuple(piece for piece in kit.pieces if piece.part != missing)
        return [one.piece.part for one in lay_up(stack(), replace(kit, pieces=pieces))]

    assert laid("plate") == []
    assert laid("frame") == ["plate", "ornament"]
    assert laid("ornament") == ["plate", "frame"]


def test_footprints_lie_on_the_layer_that_carries_the_piece():
    """The frame rests on the plate; the window's ornament would too, but its place is unsure."""
    on_plate, on_frame, on_ornament = footprints(lay_up(stack(), sample_kit()))
    assert len(on_plate) == 2
    assert on_frame == on_ornament == ()


def test_a_stack_whose_pieces_are_missing_is_not_drawn():
    """No picture rather than a wrong one."""
    kit = replace(sample_kit(), pieces=())
    assert draw_exploded(stack(), kit, "m") == ""


def test_three_stacks_stand_on_a_page():
    """A section is as wide as half a page allows and no higher than 60 mm there, so that with name
    and table three take no more than 245 mm, and its letters of 3 mm are 7.5 pt there.
    """
    svg = draw_section(stack(), "m", NAMES)
    _, _, width, height = map(float, parse(svg).get("viewBox").split())
    on_paper = 87 / width
    assert height * on_paper <= 60
    assert 3 * on_paper * 72 / 25.4 >= 7.5
