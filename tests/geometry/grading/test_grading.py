"""Grading by the build file: spread lines, grade rules, scaling; sizes that go wrong are named."""

import pytest
from geometry.drawing_samples import (
    LEG,
    LEG_EDGES,
    PLATE,
    PLATE_EDGES,
    codes,
    corner_points,
    good_drawing,
    try_drawing,
)

from guidegen.geometry.outline.measures import bounds, run_area, run_length
from guidegen.geometry.outline.records import Arc, Cubic, Line, LineKind
from guidegen.problems import Severity

LEG_SPREAD = """\
    spread:
      - {line: left, opens: (calf - drawn_calf) / 2}
      - {line: spread-right, opens: (calf - drawn_calf) / 2}
      - {line: length, opens: 0.1 * (ankle - drawn_ankle)}
"""


def test_spread_lines_open_by_arithmetic_on_measurements():
    """Each size is wider by its girth, against the size that the drawing fits."""
    widths = {}
    for size in ("S", "M", "L"):
        shape = good_drawing(LEG, LEG_EDGES + LEG_SPREAD, size)
        (bottom,) = [run_length(edge.run) for edge in shape.edges if edge.name == "bottom"]
        widths[size] = bottom
    assert widths == pytest.approx({"S": 110 - 30, "M": 110, "L": 110 + 35})


def test_the_size_that_was_drawn_is_the_drawing():
    """In the size that the drawing fits, grading changes nothing at all."""
    assert good_drawing(LEG, LEG_EDGES + LEG_SPREAD, "M") == good_drawing(LEG, LEG_EDGES, "M")


def test_edges_keep_their_names_through_grading():
    """Edges are found by their corners in every size."""
    for size in ("S", "L"):
        shape = good_drawing(LEG, LEG_EDGES + LEG_SPREAD, size)
        assert [edge.name for edge in shape.edges] == ["left", "bottom", "right", "top"]


def test_spread_lines_stay_off_the_piece():
    """The lines where the drawing was opened are construction: no reader gets them to see."""
    shape = good_drawing(LEG, LEG_EDGES + LEG_SPREAD, "L")
    assert [line.kind for line in shape.lines] == [LineKind.FOLD]


def test_unknown_spread_lines_are_named_with_the_nearest():
    """A spread line that the drawing lacks is an error at its place."""
    _, problems = try_drawing(LEG, "    spread: [{line: lenght, opens: 5}]\n")
    assert [(p.code, p.path) for p in problems] == [
        ("unknown-spread", "parts.plate.spread[0].line")
    ]
    assert 'did you mean "length"' in problems[0].message


def test_a_spread_that_cannot_be_names_the_size():
    """A width that the piece has no room for is an error with the size."""
    part = "    spread: [{line: left, opens: (calf - drawn_calf) * 3}]\n"
    assert codes(LEG, part, "L") == []
    _, problems = try_drawing(LEG, part, "S")
    assert [problem.code for problem in problems] == ["spread"]
    assert "size S" in problems[0].message


def test_an_unknown_name_is_reported_once():
    """Arithmetic that cannot be worked out is an error, without a second one behind it."""
    assert codes(LEG, "    spread: [{line: left, opens: calves}]\n") == ["arithmetic"]


@pytest.mark.parametrize("text", ["1e6", "-3000"])
def test_widths_beyond_reason_are_refused(text):
    """A width of metres cannot be meant."""
    assert codes(LEG, f"    spread: [{{line: left, opens: '{text}'}}]\n") == ["spread"]


def grade(rules: str) -> str:
    """Grade rules of a part."""
    return PLATE_EDGES + f"    grade: {{{rules}}}\n"


def test_corners_move_by_grade_rules():
    """A corner moves right and up; straight edges between corners stay straight lines."""
    shape = good_drawing(PLATE, grade("c: {dx: 10, dy: -5}, d: {dx: 10}"))
    assert {edge.name: corner_points(edge.run) for edge in shape.edges} == {
        "left": [(20, 280), (20, 220)],
        "bottom": [(20, 220), (130, 215)],
        "right": [(130, 215), (130, 280)],
        "top": [(130, 280), (20, 280)],
    }


def test_grade_rules_of_nothing_change_nothing():
    """Rules that move no corner give the drawing itself."""
    assert good_drawing(PLATE, grade("c: {dx: calf - drawn_calf, dy: 0}")) == good_drawing(
        PLATE, PLATE_EDGES
    )


def test_a_rule_that_crosses_lines_names_the_size():
    """Corners moved past one another are an error that names the size."""
    _, problems = try_drawing(PLATE, grade("c: {dx: -150}"), "L")
    assert [(p.code, p.path) for p in problems] == [("grading-crossing", "parts.plate.grade")]
    assert "in size L" in problems[0].message


def test_unknown_corners_of_rules_are_named():
    """A rule for a corner that the drawing lacks is an error at its place."""
    _, problems = try_drawing(PLATE, grade("e: {dx: 1}"))
    assert [(p.code, p.path) for p in problems] == [("unknown-corner", "parts.plate.grade.e")]


def test_plain_scaling_is_flagged():
    """Scaling works, keeps lines, and is warned of as a last resort."""
    shape, problems = try_drawing(
        PLATE, PLATE_EDGES + "    scale: {x: calf / drawn_calf, y: 1.5}\n", "L"
    )
    assert [(p.code, p.severity) for p in problems] == [("plain-scaling", Severity.WARNING)]
    assert shape is not None
    assert run_area(shape.ring()) == pytest.approx(100 * 395 / 360 * 60 * 1.5)
    assert all(isinstance(segment, Line) for segment in shape.ring())


def test_even_scaling_keeps_arcs():
    """The same factor both ways keeps circles; different factors make ellipses of cubics."""
    disc = '<circle cx="50" cy="60" r="20"/>'
    for scale, kind, size in (("{x: 2, y: 2}", Arc, (80, 80)), ("{x: 2, y: 1}", Cubic, (80, 40))):
        shape, _ = try_drawing(disc, f"    scale: {scale}\n")
        assert shape is not None
        assert all(isinstance(segment, kind) for segment in shape.ring())
        left, low, right, high = bounds((shape.ring(),))
        assert (right - left, high - low) == pytest.approx(size, abs=0.05)


def test_factors_of_one_leave_the_piece_as_it_is():
    """Scaling by one both ways, as in the size that was drawn, changes nothing."""
    plain, _ = try_drawing(PLATE)
    scaled, problems = try_drawing(PLATE, "    scale: {x: calf / calf, y: 1}\n")
    assert scaled == plain is not None
    assert [problem.code for problem in problems] == ["plain-scaling"]


@pytest.mark.parametrize("text", ["{x: 0}", "{y: -1}", "{x: 100}"])
def test_absurd_factors_are_refused(text):
    """Factors of nothing, below nothing or a hundred are errors."""
    assert codes(PLATE, f"    scale: {text}\n") == ["plain-scaling", "scale"]


def test_rules_follow_spread_lines():
    """Spread lines come first, then grade rules, then scaling."""
    part = (
        PLATE_EDGES
        + "    spread: [{line: w, opens: 10}]\n    grade: {c: {dx: 5}, d: {dx: 5}}\n"
        + "    scale: {x: 2, y: 1}\n"
    )
    shape, _ = try_drawing(PLATE + '<path id="spread-w" d="M70 10V90"/>', part)
    assert shape is not None
    assert bounds((shape.ring(),)) == pytest.approx((40, 220, 40 + 230, 280))


def test_the_fold_rests_where_it_was():
    """The edge on the fold does not move, even where its side is the smaller one."""
    part = PLATE_EDGES + "    on-fold: left\n    spread: [{line: w, opens: 10}]\n"
    shape = good_drawing(PLATE + '<path id="spread-w" d="M40 10V90"/>', part)
    assert corner_points(shape.edge("left").run) == [(20, 280), (20, 220)]
    assert bounds((shape.ring(),)) == pytest.approx((20, 220, 130, 280))
