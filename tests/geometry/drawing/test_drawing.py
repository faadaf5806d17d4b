"""A drawn part becomes a shape: corners, edges, pieces of one file, drawings per size."""

import pytest
from geometry.drawing_samples import (
    CORNERS,
    PLATE,
    PLATE_EDGES,
    codes,
    corner_points,
    drawn_guide,
    good_drawing,
    good_piece,
    svg,
    try_drawing,
)
from geometry.kit_samples import stock

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.geometry.drawing.curves import chord_gap, nearest_on
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import run_area, run_length, segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Line
from guidegen.geometry.parts.drawn import drawn_shape
from guidegen.geometry.pieces.kit import make_kit


def named(body: str, part: str) -> dict[str, list[tuple[float, float]]]:
    """Edge names and their points."""
    shape = good_drawing(body, part)
    return {edge.name: corner_points(edge.run) for edge in shape.edges}


def test_edges_run_counter_clockwise_between_corners():
    """Edges are named in the build file, by the corners where they begin and end."""
    assert named(PLATE, PLATE_EDGES) == {
        "left": [(20, 280), (20, 220)],
        "bottom": [(20, 220), (120, 220)],
        "right": [(120, 220), (120, 280)],
        "top": [(120, 280), (20, 280)],
    }


def test_the_direction_of_drawing_does_not_matter():
    """An outline drawn the other way round gives the same edges."""
    turned = PLATE.replace("M20,20 H120 V80 H20 Z", "M20,20 V80 H120 V20 Z")
    assert named(turned, PLATE_EDGES) == named(PLATE, PLATE_EDGES)


def test_an_edge_may_pass_corners():
    """An edge runs from its first corner to its last, past those between."""
    edges = named(PLATE, "    edges: {around: {from: b, to: a}}\n")
    assert edges == {
        "around": [(20, 220), (120, 220), (120, 280), (20, 280)],
        "edge-1": [(20, 280), (20, 220)],
    }


def test_unnamed_stretches_are_numbered():
    """What belongs to no named edge is edge-1, edge-2 and so on, without taking given names."""
    edges = named(PLATE, "    edges: {edge-1: {from: c, to: d}}\n")
    assert list(edges) == ["edge-1", "edge-2", "edge-3", "edge-4"]


def test_without_corners_the_outline_is_one_edge():
    """A disc without corners has one edge all round."""
    (edge,) = good_drawing('<circle cx="50" cy="50" r="30"/>').edges
    assert edge.name == "edge-1"
    assert run_length(edge.run) == pytest.approx(60 * 3.141592653589793)


def test_one_corner_makes_one_edge():
    """An edge from a corner to itself is the whole outline from there."""
    body = '<circle cx="50" cy="50" r="30"/><circle id="corner-foot" cx="50" cy="80.5" r="1"/>'
    (edge,) = good_drawing(body, "    edges: {rim: {from: foot, to: foot}}\n").edges
    assert edge.name == "rim"
    assert segment_start(edge.run[0]) == pytest.approx((50, 220))
    assert all(isinstance(segment, Arc) for segment in edge.run)


def test_a_corner_mark_means_the_kink_within_its_reach():
    """A mark 1.5 mm beside a kink means the kink, though the line is nearer."""
    piece = good_piece(
        '<path id="outline" d="M20,20 H120 V80 H20 Z"/><circle id="corner-a" cx="21.5" cy="20" r="1"/>'
    )
    assert piece.corners == ("a",)
    assert segment_start(piece.stretches[0][0]) == pytest.approx((20, 280))


def test_a_corner_mark_may_divide_a_curve():
    """A mark beside a curve cuts it at its nearest point."""
    piece = good_piece(
        '<circle cx="50" cy="50" r="30"/>'
        '<circle id="corner-a" cx="81" cy="50" r="1"/><circle id="corner-b" cx="50" cy="19" r="1"/>'
    )
    assert piece.corners == ("a", "b")
    assert [run_length(run) for run in piece.stretches] == pytest.approx(
        [15 * 3.141592653589793, 45 * 3.141592653589793]
    )


def test_unknown_corners_are_named_with_the_nearest():
    """A corner that the drawing lacks is an error at its place in the build file."""
    _, problems = try_drawing(PLATE, "    edges: {left: {from: a, to: bb}}\n")
    (problem,) = problems
    assert (problem.code, problem.path) == ("unknown-corner", "parts.plate.edges.left.to")
    assert 'did you mean "b"' in problem.message


def test_edges_must_not_overlap():
    """Two edges along one stretch are an error: corners in the wrong order make that happen."""
    part = "    edges: {left: {from: a, to: b}, wrong: {from: d, to: c}}\n"
    assert codes(PLATE, part) == ["edge-overlap"]


def test_a_file_may_hold_several_pieces():
    """The id behind # picks one piece with its corners and holes."""
    body = (
        f'<g id="front">{PLATE}</g>'
        '<g id="back" transform="translate(0 100)"><path class="outline" d="M0 0h50v50h-50z"/></g>'
    )
    front = good_drawing(body, PLATE_EDGES, piece="front")
    back = good_drawing(body, piece="back")
    assert run_area(front.ring()) == pytest.approx(6000)
    assert run_area(back.ring()) == pytest.approx(2500)
    assert codes(body) == ["drawing-two-outlines"]


def test_a_missing_piece_is_named_with_the_nearest():
    """An id that nothing visible has is an error in the build file."""
    _, problems = try_drawing(f'<g id="front">{PLATE}</g>', piece="frond")
    assert [(p.code, p.path) for p in problems] == [("no-piece", "parts.plate.drawing")]
    assert 'did you mean "front"' in problems[0].message


PER_SIZE = """\
    drawing-per-size:
      S: small.svg
    spread: [{line: middle, opens: 10}]
"""


def test_a_size_may_have_its_own_drawing():
    """A size with its own drawing is not graded; the others use the common one, graded."""
    line = '<line id="spread-middle" x1="70" y1="10" x2="70" y2="90"/>'
    file = drawn_guide(PLATE + line, PER_SIZE)
    small = svg('<path class="outline" d="M20,20 H100 V80 H20 Z"/>')
    drawings = {**file.drawings, "small.svg": small}
    file = type(file)(file.id, file.guide, file.source, drawings, {}, dict(file.drawing_files))
    part, widths = file.guide.parts["plate"], []
    for size in ("S", "M"):
        shape, problems = drawn_shape(file, "plate", part, size_numbers(file, size)[0])
        assert problems == []
        assert shape is not None
        widths.append(run_area(shape.ring()) / 60)
    assert widths == pytest.approx([80, 110])


def test_a_size_without_any_drawing_is_an_error():
    """With drawings for some sizes only, the missing size is named."""
    file = drawn_guide(PLATE, "    drawing-per-size: {S: plate.svg}\n")
    part = file.guide.parts["plate"].model_copy(update={"drawing": None})
    shape, problems = drawn_shape(file, "plate", part, size_numbers(file, "L")[0])
    assert shape is None
    assert [problem.code for problem in problems] == ["no-drawing"]
    assert '"L"' in problems[0].message


def test_outlines_close_exactly():
    """Edges meet end to end all round, also where the drawing left gaps."""
    body = (
        '<g class="outline"><path d="M20,20 C60,10 90,30 120,20"/><path d="M120.3,20 V80"/>'
        '<path d="M120,80.2 A60 60 0 0 1 20,80 L20,20.3"/></g>'
    )
    shape = good_drawing(body + CORNERS)
    ring = shape.ring()
    for before, after in zip(ring, ring[1:] + ring[:1], strict=True):
        assert distance(segment_end(before), segment_start(after)) < 1e-6
    assert fault_of(shape) is None


def test_an_open_outline_names_gap_and_place():
    """A gap above half a millimetre is stated with its width and place, as editors count."""
    _, problems = try_drawing('<path id="outline" d="M20,20 H120 V80 H20 V21.2"/>')
    (problem,) = problems
    assert problem.message == (
        'path "outline" is open: the outline has a gap of 1.2 mm near x 20 mm, y 20.6 mm'
    )


def test_a_crossing_names_its_place():
    """A crossing is located as editors count, from the upper left of the page."""
    _, problems = try_drawing('<path id="outline" d="M20,20 L120,80 V20 L20,80 Z"/>')
    assert problems[0].message == (
        'path "outline": the outline crosses itself near x 70 mm, y 50 mm'
    )


def test_a_straight_side_stays_one_line():
    """A drawn polygon gives plain lines."""
    shape = good_drawing(PLATE, PLATE_EDGES)
    assert all(isinstance(segment, Line) for segment in shape.ring())
    assert [len(edge.run) for edge in shape.edges] == [1, 1, 1, 1]


def test_the_same_drawing_gives_the_same_shape():
    """Reading twice gives equal results."""
    assert good_drawing(PLATE, PLATE_EDGES) == good_drawing(PLATE, PLATE_EDGES)


def test_a_second_hole_is_found_among_a_column_of_them():
    """A hole drawn twice is found and named, however many others stand in line with it."""
    holes = "".join(f'<circle class="hole" cx="70" cy="{22 + 7 * n}" r="2"/>\n' for n in range(8))
    _, problems = try_drawing(
        PLATE + holes + '<circle id="twin" class="hole" cx="70" cy="50" r="2"/>'
    )
    assert problems[0].code == "drawing-duplicate"
    assert problems[0].message == 'circle "twin" lies on this circle (line 10)'


def test_a_fold_that_is_no_straight_line_or_is_overhung_is_told():
    """A half template is flipped over one straight edge, and lies on one side of it."""
    bowed = PLATE.replace("M20,20 H120 V80 H20 Z", "M20,20 H120 V80 H20 C10,60 10,40 20,20 Z")
    over = PLATE.replace("H120 V80 H20 Z", "H120 V100 H10 V80 H20 Z").replace(
        'cx="120" cy="80"', 'cx="120" cy="100"'
    )
    for body, words in ((bowed, "is not one straight line"), (over, "10.0 mm over its fold")):
        file = drawn_guide(body, PLATE_EDGES + "    on-fold: left\n")
        kit, problems = make_kit(file, stock(), "M")
        assert kit is None
        ((code, path, message),) = [(one.code, one.path, one.message) for one in problems]
        assert (code, path) == ("bad-fold", "parts.plate.on-fold")
        assert words in message


def test_the_nearest_point_of_a_line():
    """From (4, 10) the diagonal is nearest at (7, 7); from beyond its end the end is."""
    diagonal = Line((0, 0), (10, 10))
    assert nearest_on(diagonal, (4, 10)) == pytest.approx((3 * 2**0.5, 0.7))
    assert chord_gap((4, 10), (0, 0), (10, 10)) == pytest.approx(3 * 2**0.5)
    assert chord_gap((20, 10), (0, 0), (10, 10)) == pytest.approx(10)
