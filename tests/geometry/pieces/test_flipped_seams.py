"""Seams whose partner runs the other way: flipped, by corners that meet, or told by proof."""

import re
from math import hypot

import pytest
from geometry.drawing_samples import LEG, LEG_EDGES, drawn_guide
from geometry.kit_samples import good_kit, guide_file, stock
from pictures.english import ENGLISH, draw_step

from guidegen.geometry.outline.records import MatchMark
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pieces.seam_words import seam_line
from guidegen.problems import Problem

INNER = """\
  inner:
    name: Inner half
    label: Q
    material: foam-5
    shape: drawing
    drawing: plate.svg
"""


def shin(
    seam: str = "", *, hand: str = "one", second: str = "left"
) -> tuple[Kit | None, list[Problem]]:
    """Two halves of a shin, both drawn with their front at the left, from the top down."""
    own = LEG_EDGES + f"    hand: {hand}\n"
    join = f"seams:\n  front: {{join: [plate.left, inner.{second}]{seam}}}\n"
    file = drawn_guide(LEG, own + INNER + own + join)
    return make_kit(file, stock(), "M")


def good_shin(seam: str, **more: str) -> Kit:
    """The same without any problem."""
    kit, problems = shin(seam, **more)
    assert problems == [], [str(problem) for problem in problems]
    assert kit is not None
    return kit


def codes(seam: str, **more: str) -> list[tuple[str, str]]:
    """Code and place of every problem."""
    return [(problem.code, problem.path) for problem in shin(seam, **more)[1]]


def marks_of(kit: Kit, part: str) -> list[MatchMark]:
    """Match marks of a part, from the top down."""
    (piece, *_) = kit.pieces_of(part)
    return sorted(piece.shape.marks, key=lambda mark: -mark.point[1])


def test_top_against_low_is_told():
    """Both fronts run downward at the left, so that pushed together the top of one meets the low
    end of the other: proof says so, and what can be said about it."""
    (problem,) = shin()[1]
    assert (problem.code, problem.path) == ("seam-upside-down", "seams.front.join")
    assert "the top of plate.left meets the lower end of inner.left" in problem.message


def test_marks_of_a_flipped_seam_meet_top_at_top():
    """The same ticks lie at the same heights of both halves, since both are the same drawing."""
    kit = good_shin(", flipped: true")
    one, two = marks_of(kit, "plate"), marks_of(kit, "inner")
    assert len(one) > 1
    for first, second in zip(one, two, strict=True):
        assert first.ticks == second.ticks
        apart = (first.point[0] - second.point[0], first.point[1] - second.point[1])
        assert hypot(*apart) == pytest.approx(0, abs=1e-6)


def test_marks_of_a_plain_seam_meet_end_for_end():
    """Said to be meant, the same seam is joined top against low, and its ticks run so."""
    kit = good_shin(", flipped: false")
    one, two = marks_of(kit, "plate"), marks_of(kit, "inner")
    assert [mark.ticks for mark in one] == [mark.ticks for mark in two][::-1]


def test_a_front_and_a_back_that_run_opposite_ways_are_joined_as_drawn():
    """Left against right: one runs down, the other up, and nothing is asked."""
    assert codes("", second="right") == []


@pytest.mark.parametrize(
    ("corners", "flipped"),
    [
        ("[left-top, left-top]", True),
        ("[left-bottom, left-bottom]", True),
        ("[top, top]", True),
        ("[left-top, left-bottom]", False),
    ],
)
def test_corners_that_meet_decide(corners, flipped):
    """One corner of each edge, called as in the drawing or as the edge beside it, says it all."""
    (seam,) = good_shin(f", corners: {corners}").seams
    assert seam.flipped is flipped


def test_corners_that_contradict_or_are_none_are_told():
    """A corner elsewhere on the piece is no end of the edge; and flipped may not say otherwise."""
    assert codes(", corners: [left-top, right-top]") == [("unknown-name", "seams.front.corners[1]")]
    assert codes(", flipped: false, corners: [left-top, left-top]") == [
        ("seam-corners", "seams.front.corners")
    ]


def test_corners_of_computed_shapes_are_called_by_the_edge_beside():
    """The closing edges of a tube meet at the top: there is no drawing that names its corners."""
    tube = """\
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 280, girth-bottom: 185, length: 210}
seams:
  close: {join: [cuff.side, cuff.side-2], corners: [top, top]}
"""
    (seam,) = good_kit(tube).seams
    assert not seam.flipped


def test_an_edge_joined_to_itself_is_not_flipped():
    """Left and right of a pair run the same way already."""
    file = drawn_guide(
        LEG,
        LEG_EDGES
        + "    hand: pair\nseams:\n  front: {join: [plate.left, plate.left], flipped: true}\n",
    )
    _, problems = make_kit(file, stock(), "M")
    assert [(p.code, p.path) for p in problems] == [("seam-corners", "seams.front.flipped")]


def test_the_drawing_of_a_step_shows_which_ends_come_together():
    """Each edge of the seam has a ring at one end: at the top of both where the seam is flipped, at
    opposite heights where it is not."""
    for seam, same in ((", flipped: true", True), (", flipped: false", False)):
        kit = good_shin(seam)
        step = guide_file(
            "parts: {}\n".replace("{}", "{a: {name: A, label: A, material: m, shape: disc}}")
        )
        step = step.guide.steps[0].model_copy(update={"seams": ("front",)})
        svg = draw_step(step, kit, "m")
        rings = re.findall(r'<circle[^>]*cy="([\d.]+)"[^>]*r="1"', svg)
        assert len(rings) == 3  # two ends, and the key
        assert (abs(float(rings[0]) - float(rings[1])) < 0.1) is same
        assert "ends with a ring come together" in svg


def test_readers_are_told_which_hand_or_side_is_meant():
    """Between two pairs the left of one meets the right of the other; a single piece is turned
    over; corners are named."""
    (seam,) = (kit := good_shin(", flipped: true", hand="pair")).seams
    assert seam_line(seam, kit, ENGLISH).startswith("PL left to QR left, ")
    (seam,) = (kit := good_shin(", corners: [left-top, left-top]")).seams
    line = seam_line(seam, kit, ENGLISH)
    assert line.startswith("P left to Q left, ")
    assert line.endswith("Q turned over, corner left top on corner left top")
