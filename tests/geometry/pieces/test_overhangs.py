"""Layers that stand out over what they are glued on are told, and end at the outline on paper."""

import pytest
from geometry.kit_samples import try_kit

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import LineKind, Run
from guidegen.geometry.pieces.placements import foam_shared
from guidegen.geometry.pieces.placing import LaidPart

INLAY = """\
parts:
  inlay:
    name: Inlay
    label: A
    material: foam-10
    shape: disc
    dimensions: {diameter: 68}
    MORE
  crest:
    name: Crest
    label: B
    material: foam-5
    shape: disc
    dimensions: {diameter: 100}
"""
STACK = "stacks: {crest: {name: Crest, layers: [{part: inlay}, {part: crest}]}}\n"


def inlay(more: str, rest: str = "", diameter: int = 100):
    """A crest on an inlay of 68 mm: the kit, and code, place and message of what is told."""
    text = INLAY.replace("MORE", more or "copies: 1").replace("100", str(diameter)) + rest
    kit, problems = try_kit(text)
    return kit, [(problem.code, problem.path, problem.message) for problem in problems]


def test_a_crest_larger_than_its_inlay_is_told():
    """100 mm on 68 mm stand out by 16 mm all round."""
    kit, ((code, path, message),) = inlay("placements: [{part: crest}]")
    assert kit is not None
    assert (code, path) == ("layer-overhangs", "parts.inlay.placements[0]")
    assert message == "B stands 16 mm out over the edge of A"


def test_what_is_moved_over_an_edge_is_told():
    """40 mm on 68 mm fit in the middle, and stand out by 6 mm when they are moved by 20 mm."""
    assert inlay("placements: [{part: crest}]", diameter=40)[1] == []
    _, told = inlay("placements: [{part: crest, at: [20, 0]}]", diameter=40)
    assert [message for *_, message in told] == ["B stands 6 mm out over the edge of A"]


@pytest.mark.parametrize(("overhang", "told"), [(20, 0), (16, 0), (15, 1)])
def test_an_overhang_that_is_meant_is_said(overhang, told):
    """The author says by how much a layer is to stand out; more than that is told."""
    _, found = inlay(f"placements: [{{part: crest, overhang: {overhang}}}]")
    assert [code for code, *_ in found] == ["layer-overhangs"] * told


@pytest.mark.parametrize(("diameter", "told"), [(68, 0), (72, 0), (78, 1), (100, 1)])
def test_a_layer_that_nothing_places_is_compared_with_what_lies_below(diameter, told):
    """On 68 mm a disc of 72 mm is within a twenty-fifth of itself at each end, 78 mm is not."""
    _, found = inlay("", STACK, diameter)
    assert [code for code, *_ in found] == ["layer-overhangs"] * told


def test_a_layer_on_a_bend_may_be_a_little_longer():
    """72 mm on 68 mm: 2 mm at each end, less than 4 per cent of the layer."""
    assert inlay("placements: [{part: crest}]", diameter=72)[1] == []


def test_a_stack_without_placements_is_looked_at_too():
    """Where no placement says where, a layer larger than everything below it stands out."""
    _, ((code, path, message),) = inlay("", STACK)
    assert (code, path) == ("layer-overhangs", "stacks.crest.layers[1]")
    assert message == "crest is 32 mm larger than what lies below it"
    assert inlay("", STACK, diameter=60)[1] == []


def test_on_paper_the_placement_line_ends_at_the_outline():
    """The line of a crest that overhangs to the right is drawn as far as there is foam; the piece
    keeps it whole, which says how the crest lies."""
    kit, _ = inlay("placements: [{part: crest, at: [20, 0]}]", diameter=60)
    (piece, _) = kit.pieces
    for shape, right in ((piece.template, 16.4), (piece.shape, 50)):
        runs = [line.run for line in shape.lines if line.kind is LineKind.PLACEMENT]
        assert bounds(runs)[2] == pytest.approx(right, abs=0.1)


def test_layers_that_want_one_place():
    """A disc in a frame's window shares no foam with it; moved by 10 mm onto a bar it shares that.

    Rectangles, so the area is bar times height: 10 by 20 mm.
    """

    def box(left: float, low: float, right: float, high: float) -> Run:
        return lines_through((left, low), (right, low), (right, high), (left, high), (left, low))

    frame = LaidPart("frame", box(-50, -50, 50, 50), (box(-40, -40, 40, 40),))
    assert foam_shared(frame, LaidPart("pane", box(-40, -10, 40, 10))) == pytest.approx(0)
    moved = LaidPart("pane", box(-30, -10, 50, 10))
    assert foam_shared(frame, moved) == pytest.approx(200)
    assert foam_shared(moved, frame) == pytest.approx(200)
