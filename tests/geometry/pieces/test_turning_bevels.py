"""Bevels that turn along their edge, from one angle at its start to another at its end."""

from itertools import pairwise
from math import radians, tan

import pytest
from geometry.kit_samples import good_kit, refusals

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import BevelledEdge
from guidegen.pictures.pieces.seam_words import bevel_words
from guidegen.words import ENGLISH


def plate(bevels: str, more: str = "") -> str:
    """A strip of 200 x 60 mm in 10 mm foam."""
    return f"""\
parts:
  plate:
    name: Plate
    label: A
    material: foam-10
    shape: strip
    dimensions: {{length: 200, width: 60}}
    bevels: {bevels}
{more}"""


def only_bevel(text: str, number: int = 0) -> BevelledEdge:
    """The bevel of the plate; of a pair, of the left or the right one."""
    (bevel,) = list(good_kit(text).pieces_of("plate"))[number].shape.bevels
    return bevel


def setback(bevel: BevelledEdge, x: float) -> float:
    """mm from the lower edge, at y = -30, to the far face at x."""
    points = flatten(bevel.far_face)
    for (x0, y0), (x1, y1) in pairwise(points):
        if min(x0, x1) <= x <= max(x0, x1):
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0) + 30
    raise AssertionError(f"no far face at {x}")


@pytest.mark.parametrize("share", [0.02, 0.25, 0.5, 0.75, 0.98])
def test_the_far_face_lies_as_deep_as_the_angle_there(share: float) -> None:
    """A straight blade turned evenly from 0 to 40 degrees: thickness * tan(angle) at each place
    (the right triangle of the section there)."""
    bevel = only_bevel(plate("{bottom: {angle: 0, to: 40, direction: inward}}"))
    expected = 10 * tan(radians(40 * share))
    assert setback(bevel, -100 + 200 * share) == pytest.approx(expected, abs=0.03)
    assert (bevel.angle, bevel.direction, bevel.between) == (40, "inward", ("left", "right"))


def test_a_bevel_may_turn_through_square() -> None:
    """From 20 degrees inward to 10 outward both faces are cut once, and meet where it is square."""
    bevel = only_bevel(plate("{bottom: {angle: 20, to: -10, direction: inward}}"))
    assert setback(bevel, -100 + 200 * 2 / 3) == pytest.approx(0, abs=0.03)
    assert setback(bevel, 99) == pytest.approx(10 * tan(radians(10)), abs=0.05)
    assert bevel_words(bevel, ENGLISH) == (
        "bevel 20° inward (left), turning to bevel 10° outward (right)"
    )


def test_the_steeper_end_gives_it_its_direction() -> None:
    """An undercut of 5 degrees that turns to 30 the other way is an outward bevel."""
    bevel = only_bevel(plate("{bottom: {angle: 5, to: -30, direction: inward}}"))
    assert (bevel.angle, bevel.direction) == (30, "outward")
    assert bevel.angles[0] == pytest.approx(-5)


def test_the_other_hand_turns_the_other_way_round() -> None:
    """Mirrored, the edge is run through from its other end."""
    text = plate("{bottom: {angle: 0, to: 40, direction: inward}}", "    hand: pair\n")
    left, right = only_bevel(text, 0), only_bevel(text, 1)
    assert left.angles[-1] == right.angles[0] == 40
    assert setback(right, -98) == pytest.approx(setback(left, 98))


def test_on_half_a_template_it_turns_back_beyond_the_fold() -> None:
    """From 30 at the side to 0 at the fold, and on to 30 at the other side."""
    text = plate("{bottom: {angle: 0, to: 30, direction: inward}}", "    on-fold: centre\n")
    bevel = only_bevel(text)
    assert (bevel.angles[0], min(bevel.angles), bevel.angles[-1]) == (30, 0, 30)
    assert setback(bevel, 0) == pytest.approx(0, abs=0.01)
    assert setback(bevel, 98) == pytest.approx(setback(bevel, -98), abs=0.02)


@pytest.mark.parametrize(
    ("bevels", "says"),
    [
        ("{bottom: {angle: -10, direction: inward}}", "expected 0 to 75, found -10"),
        ("{bottom: {angle: 0, to: 80, direction: inward}}", "expected -75 to 75, found 80"),
    ],
)
def test_angles_that_cannot_be(bevels: str, says: str) -> None:
    """Without an end a bevel is counted one way; no blade is led flatter than 75 degrees."""
    assert says in refusals(plate(bevels))[0][2]
