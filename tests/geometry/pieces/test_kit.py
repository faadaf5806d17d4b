"""A guide and one size become pieces, stacks and seams, or problems at their place."""

from math import pi

import pytest
from geometry.kit_samples import CUFF, good_kit, guide_file, only_piece, refusals, stock, try_kit

from guidegen.geometry.outline.areas import fault_of, shape_area
from guidegen.geometry.outline.measures import run_area, run_length
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Side
from guidegen.problems import Severity

PLATE = """\
parts:
  plate:
    name: Plate
    label: P
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 90, height: 70, radius: 5}
"""

SIZES = """\
measurements:
  forearm: {name: Forearm girth, take: Around the widest part.}
  wrist: {name: Wrist girth, take: Around the bone.}
sizes:
  S: {forearm: 250, wrist: 165}
  M: {forearm: 280, wrist: 185}
values: {room: 25}
"""


def test_a_pair_is_left_and_right():
    """A pair gives two pieces with one template; the right one is the mirror image."""
    kit = good_kit(CUFF + "    hand: pair\n    spare: 1\n")
    left, right = kit.pieces
    assert (left.key, right.key) == ("cuff-left", "cuff-right")
    assert (left.label, right.label) == ("AL", "AR")
    assert (left.side, right.side) == (Side.LEFT, Side.RIGHT)
    assert (left.mirrored, right.mirrored) == (False, True)
    assert left.template == right.template == left.shape
    assert shape_area(left.shape) == pytest.approx(shape_area(right.shape))
    assert run_area(right.shape.ring()) > 0
    assert (left.copies, left.spares) == (2, 1)


def test_sizes_and_bodies_give_their_own_lengths():
    """Each size, and each body that is measured, gets rims that close around it."""
    text = SIZES + CUFF.replace("280", "forearm").replace("185", "wrist").replace("25", "room")
    around = 25 + pi * 11
    for size, girth in (("S", 250), ("M", 280)):
        (piece,) = good_kit(text, size).pieces
        assert run_length(piece.shape.edge("top").run) == pytest.approx(girth + around)
    body = {"forearm": 301.0, "wrist": 170.0}
    kit, problems = make_kit(guide_file(text), stock(), "made to measure", body)
    assert kit is not None, problems
    assert run_length(kit.pieces[0].shape.edge("top").run) == pytest.approx(301 + around)
    assert kit.names() == {"forearm": 301.0, "wrist": 170.0, "room": 25.0}
    assert kit.size == "made to measure"


def test_measures_come_with_the_piece():
    """Finished lengths that a tape can check are in the table of the template."""
    piece = only_piece(CUFF)
    values = {measure.name: measure.value for measure in piece.measures}
    assert values["upper rim, flat"] == pytest.approx(305 + 11 * pi)
    assert values["inside girth at the upper rim"] == pytest.approx(305 + 6 * pi)


def test_grooves_are_clipped_to_the_foam():
    """A groove runs from rim to rim; its section follows from fold, floor and thickness."""
    piece = only_piece(
        PLATE.replace("rounded-rectangle", "disc").replace(
            "{width: 90, height: 70, radius: 5}", "{diameter: 160}"
        )
        + "    grooves: [{fold: 40, at: 30}]\n"
    )
    (groove,) = piece.grooves
    assert (groove.depth, groove.floor) == (8, 2)
    assert groove.mouth == pytest.approx(5.8235, abs=1e-3)
    assert run_length(groove.run) == pytest.approx(2 * (80**2 - 30**2) ** 0.5, abs=0.1)
    line, *rims = piece.shape.lines
    assert line.kind is LineKind.GROOVE
    assert line.run == groove.run
    assert "40" in line.label
    # Both rims lie half a mouth from the middle, and end at the outline: Pythagoras.
    assert [one.kind for one in rims] == [LineKind.RIM] * 2
    for rim, level in zip(rims, (30 - groove.mouth / 2, 30 + groove.mouth / 2), strict=True):
        assert (rim.run[0].start[1], rim.run[0].end[1]) == pytest.approx((level, level))
        assert run_length(rim.run) == pytest.approx(2 * (80**2 - level**2) ** 0.5, abs=0.1)


def test_a_groove_at_an_edge_has_one_rim():
    """Where half the mouth lies beside the foam there is no line to cut along."""
    at_edge = only_piece(PLATE + "    grooves: [{fold: 40, at: 33}]\n")  # 70 mm high
    assert [len(groove.rims) for groove in at_edge.grooves] == [1]
    assert len(only_piece(PLATE + "    grooves: [{fold: 40}]\n").grooves[0].rims) == 2


def test_a_groove_across_a_hole_is_cut_twice():
    """A groove through a ring is two cuts, one on each side of the hole."""
    text = PLATE.replace("rounded-rectangle", "ring").replace(
        "{width: 90, height: 70, radius: 5}", "{outside: 160, inside: 60}"
    )
    piece = only_piece(text + "    grooves: [{fold: 40, angle: 90}]\n")
    assert [run_length(groove.run) for groove in piece.grooves] == pytest.approx([50, 50], abs=0.1)
    assert [len(groove.rims) for groove in piece.grooves] == [2, 2]
    assert all(rim[0].start[1] * rim[0].end[1] > 0 for cut in piece.grooves for rim in cut.rims)


def test_a_slanting_groove_on_a_folded_part_is_cut_on_both_sides():
    """What is drawn on a half appears on both sides of the fold; a level groove is only one."""
    level = only_piece(CUFF + "    on-fold: centre\n    grooves: [{fold: 20}]\n")
    slant = only_piece(CUFF + "    on-fold: centre\n    grooves: [{fold: 20, angle: 30}]\n")
    assert len(level.grooves) == 1
    assert len(slant.grooves) == 2
    template = [line for line in level.template.lines if line.kind is LineKind.GROOVE]
    assert run_length(template[0].run) == pytest.approx(run_length(level.grooves[0].run) / 2)


PLACED = """\
  pane:
    name: Pane
    label: Q
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 30, height: 20}
"""


def test_placements_draw_the_other_part_where_it_lies():
    """The outline of the part that is laid on appears turned and moved, with its label."""
    text = PLATE + "    placements: [{part: pane, at: [20, 10], angle: 90}]\n" + PLACED
    plate, _ = good_kit(text).pieces
    (line,) = plate.shape.lines
    assert (line.kind, line.label) == (LineKind.PLACEMENT, "Q")
    xs = [segment.start[0] for segment in line.run]
    ys = [segment.start[1] for segment in line.run]
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((10, 30, -5, 25))


def test_placements_beside_the_piece_are_refused():
    """A part that would be glued onto nothing is an error at its place."""
    text = PLATE + "    placements: [{part: pane, at: [200, 0]}]\n" + PLACED
    ((code, path, _),) = refusals(text)
    assert (code, path) == ("bad-placement", "parts.plate.placements[0].at")


def test_the_textured_face_is_outlined():
    """Words for a texture come with the rim of its area."""
    piece = only_piece(PLATE + "    texture: wood grain\n")
    assert (piece.texture, only_piece(PLATE).texture) == ("wood grain", "")
    (line,) = piece.shape.lines
    assert (line.kind, line.label, line.run) == (
        LineKind.TEXTURE,
        "wood grain",
        piece.shape.ring(),
    )


def test_bevels_of_a_folded_part_are_on_both_sides():
    """A bevel given for the drawn half holds for its twin; one across the fold is one line."""
    piece = only_piece(
        CUFF
        + "    on-fold: centre\n"
        + "    bevels: {side: {angle: 30, direction: inward}, top: {angle: 45, direction: outward}}\n"
    )
    assert [bevel.edge for bevel in piece.shape.bevels] == ["side", "side-2", "top"]
    rim, far = piece.shape.edge("top").run, piece.shape.bevels[-1].far_face
    shorter = run_length(rim) - run_length(far)
    assert 0 < shorter < 20


def test_layer_stacks():
    """Layers keep their order, thickness and area; stacks are counted over hands and copies."""
    text = (
        PLATE
        + "    hand: pair\n    copies: 3\n"
        + PLACED
        + "    copies: 12\nstacks:\n"
        + "  badge: {name: Badge, backing: 4, layers: [{part: plate}, {part: pane}, {part: pane}]}\n"
    )
    (stack,) = good_kit(text).stacks
    assert [layer.part for layer in stack.layers] == ["plate", "pane", "pane"]
    assert [layer.thickness for layer in stack.layers] == [10, 5, 5]
    assert stack.layers[1].area == pytest.approx(600)
    assert (stack.copies, stack.backing) == (6, 4)


def test_problems_stand_at_the_value():
    """A bad number is told with the line of guide.yaml where it is written."""
    kit, (problem,) = try_kit(CUFF.replace("length: 210", "length: 210 / 0"))
    assert kit is None
    assert problem.path == "parts.cuff.dimensions.length"
    assert "length: 210 / 0" in problem.place.text


@pytest.mark.parametrize(
    ("old", "new", "code", "path"),
    [
        ("length: 210", "length: -3", "bad-shape", "parts.cuff.dimensions.length"),
        ("length: 210", "gap: 900, length: 210", "bad-shape", "parts.cuff.dimensions.gap"),
        ("length: 210", "length: 210 m", "out-of-range", "parts.cuff.dimensions.length"),
        ("length: 210, ", "", "missing-dimension", "parts.cuff.dimensions"),
        ("length: 210", "lenght: 1, length: 2", "unknown-name", "parts.cuff.dimensions.lenght"),
        ("length: 210", "length: 210 + calf", "arithmetic", "parts.cuff.dimensions.length"),
        ("tapered-tube", "tapered-tub", "unknown-name", "parts.cuff.shape"),
        ("material: foam-5", "material: foam-6", "unknown-name", "parts.cuff.material"),
        ("material: foam-5", "material: cement", "not-a-sheet", "parts.cuff.material"),
        ("name: Cuff", "copies: 1.5\n    name: Cuff", "bad-count", "parts.cuff.copies"),
        ("name: Cuff", "copies: -2\n    name: Cuff", "bad-count", "parts.cuff.copies"),
        ("name: Cuff", "copies: 501\n    name: Cuff", "bad-count", "parts.cuff.copies"),
        ("name: Cuff", "spare: -1\n    name: Cuff", "bad-count", "parts.cuff.spare"),
        ("name: Cuff", "on-fold: side\n    name: Cuff", "bad-fold", "parts.cuff.on-fold"),
        (
            "name: Cuff",
            "on-fold: centre\n    allowances: {centre: {kind: seam, width: 5}}\n    name: Cuff",
            "bad-fold",
            "parts.cuff.allowances.centre",
        ),
        (
            "name: Cuff",
            "allowances: {sied: {kind: seam, width: 5}}\n    name: Cuff",
            "unknown-edge",
            "parts.cuff.allowances.sied",
        ),
        (
            "name: Cuff",
            "allowances: {side: {kind: seam, width: -5}}\n    name: Cuff",
            "out-of-range",
            "parts.cuff.allowances.side.width",
        ),
        (
            "name: Cuff",
            "bevels: {side: {angle: 80, direction: inward}}\n    name: Cuff",
            "out-of-range",
            "parts.cuff.bevels.side.angle",
        ),
        (
            "name: Cuff",
            "grooves: [{fold: 40, floor: 5}]\n    name: Cuff",
            "bad-groove",
            "parts.cuff.grooves[0].floor",
        ),
        (
            "name: Cuff",
            "grooves: [{fold: 40, at: 500}]\n    name: Cuff",
            "bad-groove",
            "parts.cuff.grooves[0].at",
        ),
        (
            "name: Cuff",
            "grooves: [{fold: 170}]\n    name: Cuff",
            "out-of-range",
            "parts.cuff.grooves[0].fold",
        ),
    ],
)
def test_bad_values_are_refused_where_they_stand(old, new, code, path):
    """Each kind of slip has one problem, with its code and place."""
    assert CUFF.count(old) == 1
    assert [(c, p) for c, p, _ in refusals(CUFF.replace(old, new))] == [(code, path)]


def test_all_problems_come_together():
    """Slips in several parts and seams are told at once."""
    text = CUFF.replace("210", "-1") + PLATE.replace("parts:\n", "").replace("90", "0")
    assert {path for _, path, _ in refusals(text)} == {
        "parts.cuff.dimensions.length",
        "parts.plate.dimensions.width",
    }


def test_the_size_is_named_in_messages():
    """With several sizes, a message says in which size the geometry fails."""
    text = SIZES + CUFF.replace("185", "wrist").replace("length: 210", "length: 210, gap: 230")
    file = guide_file(text)
    assert make_kit(file, stock(), "M")[0] is not None
    kit, (problem,) = make_kit(file, stock(), "S")
    assert kit is None
    assert problem.severity is Severity.ERROR
    assert problem.message.startswith("in size S: the gap of 230 mm")


# Sheets.


def too_large(material, width, height):
    """Messages for a plate on sheets of a material."""
    text = PLATE.replace("width: 90, height: 70", f"width: {width}, height: {height}")
    text = text.replace("foam-10", material)
    kit, problems = try_kit(text)
    assert (kit is None) == bool(problems)
    assert {problem.code for problem in problems} <= {"too-large"}
    return [problem.message for problem in problems]


def test_a_piece_larger_than_every_sheet_says_by_how_much():
    """A plate of 611 mm on mats of 580 mm lacks 31 mm: a trap of the trade."""
    (message,) = too_large("foam-10", 611, 575)
    assert "31.0 mm too large for 580 × 580 mm" in message
    assert too_large("foam-10", 580, 575) == []


def test_a_piece_may_be_turned_where_the_foam_allows_it():
    """Without a grain a piece may lie at any angle; a printed foam leaves it upright."""
    assert too_large("foam-5", 400, 900) == []
    (message,) = too_large("printed-5", 400, 900)
    # The rim of 10 mm on each side is taken off the sheet.
    assert "420.0 mm too large for 980 × 480 mm, as it must lie" in message
    # A narrow strip longer than the sheet lies across it: the diagonal is 1118 mm.
    assert too_large("foam-5", 1060, 20) == []
    assert len(too_large("foam-5", 1120, 20)) == 1


def test_pieces_of_every_kind_are_sound():
    """All outlines of a kit with allowances, folds and pairs are sound."""
    kit = good_kit(
        CUFF
        + "    on-fold: centre\n    hand: pair\n"
        + "    allowances: {side: {kind: overlap, width: 25}, top: {kind: trim, width: 8}}\n"
        + PLATE.replace("parts:\n", "")
        + "    allowances: {bottom: {kind: seam, width: 6}, left: {kind: seam, width: 6}}\n"
    )
    for piece in kit.pieces:
        assert fault_of(piece.shape) is None
        assert fault_of(piece.template) is None
