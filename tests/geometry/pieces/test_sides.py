"""Left and right measured apart: a template for each hand of a pair, where they differ."""

from math import pi

import pytest
from geometry.kit_samples import guide_file, stock

from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Kit, Side
from guidegen.layout.paper.items import collect_items
from guidegen.pictures.templates.words import cut_words, label_text
from guidegen.words import ENGLISH, SPACE

ARMS = """\
measurements:
  arm_left: {name: "Arm girth, left", take: Around it., least: 180, most: 420}
  arm_right: {name: "Arm girth, right", take: Around it., least: 180, most: 420}
  head: {name: Head girth, take: Around it., least: 500, most: 640}
sides: {arm: [arm_left, arm_right]}
sizes:
  M: {arm: 260, head: 560}
values:
  padded: arm + 20
parts:
  cuff:
    name: Cuff
    label: C
    material: foam-5
    hand: pair
    shape: tapered-tube
    dimensions: {girth-top: padded, girth-bottom: arm - 60, length: 120}
    note: "{padded} around."
  plate: {name: Plate, label: P, material: foam-5, shape: strip, dimensions: {length: arm, width: 30}}
  band: {name: Band, label: B, material: foam-5, hand: pair, shape: strip, dimensions: {length: head / 4, width: 30}}
"""


def kit_for(left: float, right: float) -> Kit:
    """The kit of a body."""
    body = {"arm_left": left, "arm_right": right, "head": 560.0}
    kit, problems = make_whole_kit(guide_file(ARMS), stock(), "own", body, words=ENGLISH)
    assert kit is not None, [str(problem) for problem in problems]
    return kit


def rims(kit: Kit) -> dict[str, float]:
    """mm of the upper rim of each cuff: girth and the foam's own middle, 2*pi*half its thickness."""
    found = {}
    for piece in kit.pieces_of("cuff"):
        measures = {one.name: one.value for one in piece.measures}
        found[piece.label] = measures["upper rim, flat"] - pi * 5
    return found


def test_each_hand_is_made_of_its_own_arm() -> None:
    """Left pieces of the left girth, right ones of the right, values in between worked out anew."""
    kit = kit_for(260, 290)
    assert rims(kit) == pytest.approx({"CL": 280, "CR": 310})
    notes = [piece.note.replace(SPACE, " ") for piece in kit.pieces_of("cuff")]
    assert notes == ["280 mm around.", "310 mm around."]


def test_what_belongs_to_no_side_is_made_of_the_larger() -> None:
    """A plate for either arm fits both; a pair that takes no measure of an arm keeps one template."""
    kit = kit_for(290, 260)
    assert next(one.width for one in kit.finished if one.part == "plate") == 290
    assert [piece.own for piece in kit.pieces_of("band")] == [False, False]


def test_templates_cannot_be_mixed() -> None:
    """Each has its letter, and says that it is for one side only; equal sides share a template."""
    items = {label_text(one.serves): one for one in collect_items(kit_for(260, 290))}
    assert list(items) == ["CL", "CR", "P", "BL BR"]
    assert cut_words(items["CL"].serves, ENGLISH) == "cut 1, for the left side only"
    assert cut_words(items["CR"].serves, ENGLISH, flipped=True) == "cut 1, for the right side only"
    assert items["CR"].flipped
    equal = [label_text(one.serves) for one in collect_items(kit_for(260, 260.5))]
    assert equal == ["CL CR", "P", "BL BR"]


def test_a_size_may_give_one_length_for_both() -> None:
    """A table of sizes knows no uneven arms; whoever is measured is asked for both."""
    kit, problems = make_kit(guide_file(ARMS), stock(), "M")
    assert problems == []
    assert kit is not None
    assert dict(kit.measurements) == {"arm_left": 260, "arm_right": 260, "head": 560}
    assert kit.sides is None
    assert {piece.side for piece in kit.pieces_of("cuff")} == {Side.LEFT, Side.RIGHT}
