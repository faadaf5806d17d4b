"""SVG for cutters read back by an outside library: real units, whole outlines, named layers."""

from math import pi

import pytest
from geometry.kit_samples import good_kit
from geometry.pieces.test_points import PLATE
from layout.template_samples import sample_kit
from pictures.drawing_lint import elements, parse, words
from pictures.english import draw_piece_for_machine, draw_sheet_for_machine
from svgpathtools import parse_path

from guidegen.geometry.outline.measures import run_length
from guidegen.layout.records import CutSheet, Placed
from guidegen.pictures.machines.records import COLOURS, HAIR


@pytest.mark.parametrize("one", sample_kit().pieces, ids=lambda one: one.key)
def test_cut_lines_have_their_true_length(one):
    """One user unit is one millimetre, and the cut paths are as long as the outline."""
    svg = draw_piece_for_machine(one, sample_kit())
    root = parse(svg)
    _, _, width, height = (float(number) for number in root.get("viewBox").split())
    assert root.get("width") == f"{width:g}mm" or abs(float(root.get("width")[:-2]) - width) < 1e-3
    assert height > 0
    paths = [parse_path(e.get("d")) for e in elements(svg, "path") if e.get("stroke") == "#000000"]
    wanted = sum(run_length(run) for run in (one.shape.ring(), *one.shape.holes))
    assert sum(path.length(error=1e-6) for path in paths) == pytest.approx(wanted, rel=1e-4)
    assert all(path.isclosed() for path in paths)
    boxes = [path.bbox() for path in paths]
    assert min(box[0] for box in boxes) == pytest.approx(0, abs=0.01)
    assert max(box[1] for box in boxes) == pytest.approx(width, abs=0.01)


def test_layers_are_groups_with_their_own_colour():
    """Each layer is one group with an id; all its lines are hair lines of its colour."""
    svg = draw_piece_for_machine(sample_kit().pieces[0], sample_kit())
    groups = {group.get("id"): group for group in elements(svg, "g") if group.get("id")}
    assert list(groups) == ["cut", "mark", "guide", "label"]
    for layer in ("cut", "mark", "guide"):
        for path in groups[layer]:
            assert path.get("stroke") == COLOURS[layer]
            assert float(path.get("stroke-width")) == HAIR
    assert len(set(COLOURS.values())) == len(COLOURS)


def test_slots_are_cut_as_shapes():
    """A slot of 27 x 4 mm in each hand: two straight sides and two round ends, on the cut layer."""
    text = PLATE + (
        "      slots: {line: {from: [-30, 0], to: [30, 0]}, count: 1, kind: slot, diameter: 4, "
        "length: 27}\n"
    )
    kit = good_kit(text)
    (plate,) = kit.pieces
    assert run_length(plate.template.holes[0]) == pytest.approx(2 * 23 + 4 * pi)
    svg = draw_piece_for_machine(plate, kit)
    (cut,) = [group for group in elements(svg, "g") if group.get("id") == "cut"]
    lengths = [parse_path(path.get("d")).length(error=1e-6) for path in cut]
    assert sorted(lengths)[0] == pytest.approx(2 * 23 + 4 * pi, rel=1e-4)
    assert len(lengths) == 2


def test_grooves_have_a_layer_for_their_middle_and_one_for_their_rims():
    """A plotter draws both rims on the back, a cutter leaves them alone: a layer tells them apart."""
    wheel = next(one for one in sample_kit().pieces if one.part == "wheel")
    svg = draw_piece_for_machine(wheel, sample_kit())
    groups = {group.get("id"): group for group in elements(svg, "g") if group.get("id")}
    assert {"cut", "groove-on-back", "groove-rims-on-back"} <= set(groups)
    assert len(list(groups["groove-on-back"])) == 1
    assert len(list(groups["groove-rims-on-back"])) == 2
    assert "PVC" in svg


def test_a_right_hand_piece_is_mirrored():
    """Left and right have the same size and mirrored match marks."""
    left, right = (draw_piece_for_machine(one, sample_kit()) for one in sample_kit().pieces[:2])
    assert parse(left).get("width") == parse(right).get("width")
    assert words(left) == ["CL"] and words(right) == ["CR"]


def test_a_sheet_shows_all_copies():
    """A cut plan's sheet in true size holds each copy of each piece."""
    kit = sample_kit()
    pieces = {one.key: one for one in kit.pieces}
    sheet = CutSheet(
        "tile",
        580,
        580,
        (Placed("belt", 1, 10, 20, 0.0), Placed("stud", 1, 300, 300, 45.0)),
        6500,
    )
    svg = draw_sheet_for_machine(sheet, pieces, kit, 1, "Mat")
    assert parse(svg).get("width") == "580mm"
    assert words(svg) == ["K", "N"]
