"""What readers are told whose measurements no size has: the piece, why, and what can be done."""

import pytest
from demo_content import read_demo

from guidegen.app.measured.bodies import MADE, judge_body, whole_kit
from guidegen.buildfile.read.content import Content
from guidegen.errors import ContentError
from guidegen.geometry.fit.advice import size_table
from guidegen.problems import Place, Problem
from guidegen.words import ENGLISH

PLACE = Place("me.yaml", 3)
CHILD = {
    "chest": 725.0, "waist": 630.0, "back_length": 340.0, "shoulder_length": 105.0, "neck": 280.0,
    "upper_arm": 220.0, "forearm": 205.0, "wrist": 135.0, "forearm_length": 190.0,
}  # fmt: skip
LARGE = {
    "chest": 1420.0, "waist": 1300.0, "back_length": 520.0, "shoulder_length": 165.0, "neck": 470.0,
    "upper_arm": 450.0, "forearm": 370.0, "wrist": 200.0, "forearm_length": 280.0,
}  # fmt: skip


@pytest.fixture(scope="module")
def demo() -> Content:
    """The guide of five sizes."""
    return read_demo("slipway-marshal")


def told(demo: Content, body: dict[str, float]) -> list[Problem]:
    """What keeps the guide from being made for a body."""
    with pytest.raises(ContentError) as caught:
        whole_kit(demo.guides[0], demo.stock, MADE, body, words=ENGLISH, place=PLACE)
    return list(caught.value.problems)


def test_a_piece_beyond_the_mat_is_told_to_the_reader(demo: Content) -> None:
    """A chest of 142 cm: the chest front outgrows the mat. The reader hears of the piece by its
    name, of the measurements that are beyond the sizes, and of a split, another sheet, a size."""
    problems = told(demo, LARGE)
    (large,) = [one for one in problems if "does not fit on a sheet" in one.message]
    assert (large.code, large.place) == ("not-for-body", PLACE)
    assert large.message.startswith("Chest front (A1) does not fit on a sheet: ")
    assert "mm too large for 576 × 576 mm" in large.message
    assert "Chest girth is 230 mm above the largest size" in large.message
    assert "Neck girth" not in large.message
    for way in ("glue two edge to edge", "print size XL", "splits"):
        assert way in large.cure


def test_a_child_is_told_which_pieces_fail_and_why(demo: Content) -> None:
    """A child of ten: what has no room is named once, with the sizes' end and what can be done."""
    problems = told(demo, CHILD)
    assert {one.code for one in problems} == {"not-for-body"}
    assert len({one.message for one in problems}) == len(problems)
    assert any("Chest front (A1)" in one.message for one in problems)
    assert all("below the smallest size" in one.message for one in problems)
    # Arms are far below the sizes too, but no chest front is drawn by them.
    assert not any("arm girth" in one.message for one in problems)
    assert all("leave it out" in one.cure for one in problems)
    for one in problems:
        # Words of the build file are none of the reader's.
        assert not any(word in one.message for word in ("parts.", 'under "through"', "points"))


def test_a_child_is_not_only_asked_to_measure_again(demo: Content) -> None:
    """Where most figures are below the smallest size, they are no slips of the tape."""
    wrong, _ = judge_body(demo.guides[0], CHILD, PLACE, sure=False)
    assert all("as those of a child are" in one.cure for one in wrong)
    assert all("try every piece in card first" in one.cure for one in wrong)
    body = {**size_table(demo.guides[0])["M"], "wrist": 1660.0}
    (slip,) = judge_body(demo.guides[0], body, PLACE, sure=False)[0][:1]
    assert slip.cure == "measure again; if it is right, add --sure"


def test_arms_of_different_girth_are_each_their_own(demo: Content) -> None:
    """Who gives both arms is told how to make each side its own."""
    body = size_table(demo.guides[0])["M"] | {"upper_arm_left": 320.0, "upper_arm_right": 350.0}
    wrong, _ = judge_body(demo.guides[0], body, PLACE, sure=True)
    assert [one.path for one in wrong] == ["upper_arm_left", "upper_arm_right"]
    for one in wrong:
        assert "give the larger as upper_arm" in one.message
        assert "make the guide twice" in one.message
