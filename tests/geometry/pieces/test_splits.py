"""Pieces that fit on no sheet are cut in sections along the lines that their author gives."""

from dataclasses import replace
from math import cos, pi, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.geometry.grading.spread_cut import cut_line
from guidegen.geometry.outline.areas import shape_area
from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.outline.records import Arc, Edge, Line, Shape
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.split_shape import SplitError, split_shape
from guidegen.layout.buying.consumption import step_demands
from guidegen.words import ENGLISH

DECK = """\
  deck:
    name: Deck
    label: D
    material: foam-10
    shape: SHAPE
    dimensions: {DIMENSIONS}
    MORE
    splits: [SPLITS]
seams:
"""

STEP = """\
  - id: deck
    title: Join the deck
    stage: gluing
    process: gluing
    parts: [deck]
    uses: [{material: cement, amount: 5}]
    text: Join it.
    time: 5 min
"""

ACROSS = "{at: 0, angle: 90, step: deck, glue: cement}"


def content_with(folder, *, splits=ACROSS, shape="strip", dims="length: 1000, width: 500", more=""):
    """The sample with one part that is larger than a mat of 580 × 580 mm."""
    part = DECK.replace("SHAPE", shape).replace("DIMENSIONS", dims).replace("SPLITS", splits)
    guide = changed(GUIDE, "seams:\n", part.replace("MORE", more or "copies: 1"))
    guide = changed(guide, "    parts: [cuff, plate]\n", "    parts: [cuff, plate, deck]\n")
    return read_content(write_content(folder, guide=guide + STEP))


def kit_with(folder, **what: str):
    """The kit in size M, and codes with places of what is wrong."""
    content = content_with(folder, **what)
    kit, problems = make_kit(content.guides[0], content.stock, "M")
    return kit, [(problem.code, problem.path) for problem in problems]


def test_a_long_piece_comes_in_two_sections(tmp_path):
    """1000 × 500 mm fits no mat: two sections of 500 × 500, numbered, with all of the foam."""
    kit, problems = kit_with(tmp_path)
    assert problems == []
    sections = list(kit.pieces_of("deck"))
    assert [(one.label, one.name, one.key) for one in sections] == [
        ("D.1", "Deck 1/2", "deck-1"),
        ("D.2", "Deck 2/2", "deck-2"),
    ]
    for section in sections:
        left, low, right, high = bounds((section.shape.ring(),))
        assert (right - left, high - low) == pytest.approx((500, 500))
    (whole,) = kit.built("deck")
    assert sum(shape_area(one.shape) for one in sections) == pytest.approx(shape_area(whole.shape))


def test_sections_are_joined_with_match_marks(tmp_path):
    """The seam between them is 500 mm on both sides, and its marks meet."""
    kit, _ = kit_with(tmp_path)
    (seam,) = [seam for seam in kit.seams if seam.step == "deck"]
    assert (seam.first_length, seam.second_length, seam.copies) == pytest.approx((500, 500, 1))
    first, second = (
        sorted((round(mark.point[1], 6), mark.ticks) for mark in piece.shape.marks)
        for piece in kit.pieces_of("deck")
    )
    assert first == second
    assert len(first) == 4  # at most 100 mm apart


def test_glue_between_sections_is_counted(tmp_path):
    """Both faces of 500 × 10 mm at 4 m² a litre and 20 % loss: 3 ml beside what the step says."""
    content = content_with(tmp_path)
    kit, _ = make_kit(content.guides[0], content.stock, "M")
    step = content.guides[0].guide.steps[-1]
    said, joint = step_demands(step, kit, content.stock.materials, kit.names(), ENGLISH)
    assert said.likely == 5
    assert joint.likely == pytest.approx(2 * 500 * 10 / 1e6 / 4 * 1000 * 1.2)


def test_a_piece_that_fits_stays_whole(tmp_path):
    """A split line is only taken where it is needed."""
    kit, problems = kit_with(tmp_path, dims="length: 570, width: 500")
    assert problems == []
    assert [piece.label for piece in kit.pieces_of("deck")] == ["D"]
    assert kit.wholes == ()


def test_no_more_lines_than_needed(tmp_path):
    """Of three lines the first two make sections that fit, so the third is left out."""
    at = ", ".join(ACROSS.replace("at: 0", f"at: {x}") for x in (-250, 250, 0))
    kit, problems = kit_with(tmp_path, splits=at, dims="length: 1150, width: 400")
    assert problems == []
    widths = [bounds((one.shape.ring(),))[2] * 2 for one in kit.pieces_of("deck")]
    assert widths == pytest.approx([325, 500, 325])


def test_still_too_large(tmp_path):
    """Where even the sections do not fit, the whole piece is told with what it lacks."""
    kit, problems = kit_with(tmp_path, dims="length: 1300, width: 500")
    assert kit is None
    assert ("too-large", "parts.deck") in problems


def test_pairs_come_in_sections_on_both_sides(tmp_path):
    """Left as drawn and right mirrored; the right template is that of the left."""
    kit, problems = kit_with(tmp_path, more="hand: pair")
    assert problems == []
    assert [one.label for one in kit.pieces_of("deck")] == ["DL.1", "DL.2", "DR.1", "DR.2"]
    left, right = (next(p for p in kit.pieces_of("deck") if p.label == n) for n in ("DL.1", "DR.1"))
    assert left.template == right.template
    assert right.mirrored
    (seam,) = [seam for seam in kit.seams if seam.step]
    assert seam.copies == 2


def test_grooves_lie_on_their_sections(tmp_path):
    """A groove along the piece is cut on both sections, each as long as its section."""
    more = "grooves: [{fold: 30, at: 100}]"
    kit, problems = kit_with(tmp_path, more=more)
    assert problems == []
    lengths = [[run_length(g.run) for g in piece.grooves] for piece in kit.pieces_of("deck")]
    rims = [
        [run_length(r) for g in piece.grooves for r in g.rims] for piece in kit.pieces_of("deck")
    ]
    assert rims == [[length] * 2 for (length,) in lengths]
    assert lengths == [pytest.approx([500]), pytest.approx([500])]


@pytest.mark.parametrize(
    ("splits", "what", "said"),
    [
        (ACROSS.replace("at: 0", "at: 900"), {}, "misses the piece"),
        (
            f"{ACROSS}, {ACROSS.replace('angle: 90', 'angle: 0')}",
            {"dims": "length: 1100, width: 1100"},
            "crosses another one",
        ),
        (
            ACROSS,
            {"shape": "ring", "dims": "outside: 700, inside: 400"},
            "passes through a hole",
        ),
    ],
)  # fmt: skip
def test_lines_that_cannot_be_followed(tmp_path, splits, what, said):
    """A line beside the piece, across another or through a hole is an error at its place."""
    content = content_with(tmp_path, splits=splits, **what)
    kit, problems = make_kit(content.guides[0], content.stock, "M")
    assert kit is None
    told = [str(problem) for problem in problems if problem.code == "bad-split"]
    assert said in told[0]
    assert "parts.deck.splits[" in told[0]


def test_the_joining_step_has_part_and_glue(tmp_path):
    """A step that does not use the glue, or is not there, is told."""
    wrong = content_with(tmp_path / "a", splits=ACROSS.replace("cement", "paint"))
    assert any("which it does not use" in str(problem) for problem in run_checks(wrong))
    missing = content_with(tmp_path / "b", splits=ACROSS.replace("step: deck", "step: dock"))
    assert any('no step "dock"' in str(problem) for problem in run_checks(missing))
    assert run_checks(content_with(tmp_path / "c")) == []


# The cut itself


def circle(radius: float) -> Shape:
    """One edge that goes round."""
    return Shape(edges=(Edge("rim", (Arc((0, 0), radius, 0, 360),)),))


def test_a_circle_is_cut_into_segments():
    """Area of a circular segment: r²/2 · (θ − sin θ) (textbook); θ = 120° for a line at r/2."""
    left, right = split_shape(circle(100), cut_line((0, 50), (1, 50)), "cut")
    turn = 2 * pi / 3
    segment = 100**2 / 2 * (turn - 3**0.5 / 2)
    assert shape_area(left) == pytest.approx(segment, rel=1e-4)
    assert shape_area(right) == pytest.approx(pi * 100**2 - segment, rel=1e-4)
    assert [edge.name for edge in left.edges] == ["rim", "cut"]
    assert run_length(left.edge("cut").run) == pytest.approx(2 * 100 * 3**0.5 / 2)


def test_a_bay_is_passed_four_times():
    """A line over a U-shaped piece leaves more than two parts, and that is refused."""
    points = [(0, 0), (90, 0), (90, 90), (60, 90), (60, 30), (30, 30), (30, 90), (0, 90)]
    shape = Shape(
        tuple(
            Edge(f"e{n}", (Line(points[n], points[(n + 1) % len(points)]),))
            for n in range(len(points))
        )
    )
    with pytest.raises(SplitError, match="passes the outline 4 times"):
        split_shape(shape, cut_line((0, 60), (1, 60)), "cut")


@settings(max_examples=80, deadline=None)
@given(
    st.floats(50, 400), st.floats(50, 400), st.floats(-0.45, 0.45), st.floats(0, 180),
)  # fmt: skip
def test_no_foam_is_lost(width, height, share, angle):
    """Both sides of any line through a rectangle have its area together, and equal cut edges."""
    x, y = width / 2, height / 2
    corners = [(-x, -y), (x, -y), (x, y), (-x, y)]
    shape = Shape(tuple(Edge(f"e{n}", (Line(corners[n], corners[(n + 1) % 4]),)) for n in range(4)))
    turn = radians(angle)
    start = (-sin(turn) * share * min(width, height), cos(turn) * share * min(width, height))
    line = cut_line(start, (start[0] + cos(turn), start[1] + sin(turn)))
    first, second = split_shape(shape, line, "cut")
    assert shape_area(first) + shape_area(second) == pytest.approx(width * height)
    assert run_length(first.edge("cut").run) == pytest.approx(run_length(second.edge("cut").run))
    assert replace(first, edges=()).holes == ()
