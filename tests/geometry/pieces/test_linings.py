"""A lining is cut from the outline of the part that it lines: smaller, and graded with it."""

from math import pi

import pytest
from geometry.kit_samples import CUFF, good_kit, refusals, try_kit
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.geometry.outline.areas import polygon_area, shape_area, shrunk
from guidegen.geometry.outline.measures import bounds, flatten, run_length
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Piece, Side

LINING = """\
  lining:
    name: Lining
    label: B
    material: printed-5
    shape: lining
    lining-of: cuff
    inset: 10
"""


def plate(shape: str, dimensions: str, inset: float = 10, more: str = "") -> str:
    """A guide of a plate and its lining."""
    return (
        "parts:\n  cuff:\n    name: Plate\n    label: A\n    material: foam-10\n"
        f"    shape: {shape}\n    dimensions: {{{dimensions}}}\n{more}"
        + LINING.replace("inset: 10", f"inset: {inset}")
    )


def lining_of(text: str) -> Piece:
    """The lining of a guide, or its left one."""
    return next(piece for piece in good_kit(text).pieces if piece.part == "lining")


def width_and_height(piece: Piece) -> tuple[float, float]:
    """mm across and upright, as cut."""
    left, low, right, high = bounds((piece.shape.ring(),))
    return right - left, high - low


def test_it_is_smaller_by_the_inset_all_round():
    """A strip of 200 by 40 mm with 10 mm of inset leaves 180 by 20 mm, on its own material."""
    piece = lining_of(plate("strip", "length: 200, width: 40"))
    assert width_and_height(piece) == pytest.approx((180, 20))
    assert shape_area(piece.shape) == pytest.approx(180 * 20)
    assert (piece.material, piece.thickness) == ("printed-5", 5)


def test_curves_stay_true_curves():
    """A ring of 200 and 80 mm with 10 mm of inset is a ring of 180 and 100 mm."""
    piece = lining_of(plate("ring", "outside: 200, inside: 80"))
    assert shape_area(piece.shape) == pytest.approx(pi * (90**2 - 50**2), rel=1e-6)


def test_a_corner_rounder_than_the_inset_becomes_sharp():
    """Corners of 6 mm have no parallel 10 mm inside: the lining has corners of a square there."""
    piece = lining_of(plate("rounded-rectangle", "width: 100, height: 60, radius: 6"))
    assert width_and_height(piece) == pytest.approx((80, 40), abs=0.02)
    assert shape_area(piece.shape) == pytest.approx(80 * 40, rel=1e-3)


def test_edges_keep_their_names_and_run_along_those_of_the_part():
    """The lining of a tube has the edges of the tube; each runs 10 mm inside its own."""
    kit = good_kit(CUFF + LINING)
    cuff, lining = kit.pieces
    assert [edge.name for edge in lining.shape.edges] == [edge.name for edge in cuff.shape.edges]
    assert run_length(lining.shape.edge("bottom").run) < run_length(cuff.shape.edge("bottom").run)
    ((rest, *_),) = shrunk(flatten(cuff.shape.ring()), [], 10)
    assert shape_area(lining.shape) == pytest.approx(polygon_area(rest), rel=1e-4)


def test_allowances_of_the_part_are_not_lined():
    """The lining follows the finished outline: an overlap lies on the other side, not on a body."""
    more = "    allowances: {left: {kind: overlap, width: 30}}\n"
    piece = lining_of(plate("strip", "length: 200, width: 40", more=more))
    assert width_and_height(piece) == pytest.approx((180, 20))


def test_hand_fold_and_copies_come_from_the_part():
    """A part cut twice, left and right, drawn to its fold, has linings like that."""
    text = CUFF.replace(
        "    dimensions", "    hand: pair\n    on-fold: centre\n    copies: 2\n    dimensions"
    )
    pieces = [piece for piece in good_kit(text + LINING).pieces if piece.part == "lining"]
    assert [piece.side for piece in pieces] == [Side.LEFT, Side.RIGHT]
    assert [piece.copies for piece in pieces] == [2, 2]
    assert pieces[0].fold == "centre"
    # The fold is no edge that is cut: nothing is taken off there.
    whole = lining_of(CUFF + LINING)
    assert shape_area(pieces[0].shape) == pytest.approx(shape_area(whole.shape), rel=1e-4)


def test_it_is_graded_with_its_part():
    """A lining has no grading of its own: each size takes the outline of that size."""
    text = (
        "sizes:\n  S: {arm: 200}\n  L: {arm: 300}\nmeasurements:\n"
        + ("  arm: {name: Arm, take: Measure.}\n")
        + plate("strip", "length: arm, width: 40")
    )
    widths = []
    for size in ("S", "L"):
        (_, piece) = good_kit(text, size).pieces
        widths.append(width_and_height(piece)[0])
    assert widths == pytest.approx([180, 280])


def test_a_narrow_neck_is_not_lined_but_two_pieces_are_refused():
    """Where nothing is left, or two pieces would be, the author is told which inset does it."""
    (code, path, message), *rest = refusals(plate("strip", "length: 200, width: 18"))
    assert (code, path, rest) == ("bad-lining", "parts.lining.inset", [])
    assert "cuff has nothing left when it is 10 mm smaller all round" in message
    told = refusals(plate("frame", "width: 200, height: 100, web: 18, radius: 0"))
    assert [code for code, _, _ in told] == ["bad-lining"]


def test_a_lining_wider_than_its_sheet_is_told():
    """A lining of 1010 mm fits no sheet of 1000 mm less its rims, whatever its part is cut from."""
    kit, problems = try_kit(
        CUFF.replace("foam-5", "wide").replace("tapered-tube", "strip").replace(
            "{girth-top: 280, girth-bottom: 185, length: 210, ease: 25, backing: 3}",
            "{length: 1030, width: 60}",
        ).replace("wide", "printed-5")
        + LINING.replace("lining-of: cuff", "lining-of: cuff")
    )  # fmt: skip
    assert kit is None
    assert {problem.path for problem in problems if problem.code == "too-large"} == {
        "parts.cuff", "parts.lining"}  # fmt: skip


WRONG = [
    ("    lining-of: cuff\n", "", ("missing-key", "parts.lining.shape")),
    ("lining-of: cuff", "lining-of: cuf", ("unknown-name", "parts.lining.lining-of")),
    ("lining-of: cuff", "lining-of: lining", ("bad-lining", "parts.lining.lining-of")),
    ("    inset: 10", "    inset: 10\n    hand: pair", ("unknown-key", "parts.lining.hand")),
    ("    inset: 10", "    dimensions: {width: 9}", ("unknown-key", "parts.lining.dimensions")),
    ("shape: lining", "shape: linning", ("unknown-name", "parts.lining.shape")),
    (
        "    shape: lining\n",
        "    shape: disc\n    dimensions: {diameter: 30}\n",
        ("unknown-key", "parts.lining.inset"),
    ),
]


@pytest.mark.parametrize(("old", "new", "expected"), WRONG)
def test_what_makes_no_lining_is_told(tmp_path, old, new, expected):
    """Missing, unknown or circular names, and keys whose values come from the part, have a place."""
    lining = changed(LINING.replace("printed-5", "foam-10"), old, new)
    guide = changed(GUIDE, "seams:\n", lining + "seams:\n")
    content = read_content(write_content(tmp_path, guide=guide))
    found = {(problem.code, problem.path) for problem in run_checks(content)}
    if content.guides:
        _, more = make_kit(content.guides[0], content.stock, "M")
        found |= {(problem.code, problem.path) for problem in more}
    assert expected in found
