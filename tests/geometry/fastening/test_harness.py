"""Harnesses: straps that cross and branch are cut and marked, rings counted, loose ends told."""

from math import pi

import numpy as np
import pytest
from geometry.fastening_samples import told, whole

from guidegen.assembly.placing.harness import taut
from guidegen.geometry.fastening.things.harness import letter_of

HARNESS = """\
parts:
  back:
    name: Back plate
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 300, height: 300}
    points: {shoulders: {kind: patch, along: top, count: 2, margin: 50, diameter: 25, length: 60}}
  pouch:
    name: Pouch plate
    label: B
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 100, height: 100}
    points: {hang: {kind: patch, along: top, count: 1, diameter: 25, length: 50}}
harnesses:
  cross:
    name: Cross harness
    material: webbing
    places:
      shoulder: {name: at the shoulder blade, row: back.shoulders, holds: 60, both: true}
      cross: {name: on the breast bone}
      hip: {name: ring at the hip, ring: buckle, holds: 50, both: true}
      hang: {name: at the pouch, row: pouch.hang, holds: 45}
      branch: {name: where the pouch hangs, holds: 30}
    straps:
      chest: {name: Chest strap, via: [shoulder, cross, hip], lengths: [310, 240], both: true,
              takes-in: 80, slider: slider}
      waist: {name: Waist strap, via: [hip, branch, hip], lengths: [150, 160]}
      pouch: {name: Pouch strap, via: [branch, hang], lengths: [120]}
"""


def test_straps_are_cut_for_their_way_and_what_is_held_at_both_ends():
    """60 held, 310 and 240 over the body, 50 through the ring, 80 to let out: 740 mm, twice."""
    (made,) = whole(HARNESS).harnesses
    chest, waist, pouch = made.straps
    assert (chest.length, chest.count) == (60 + 310 + 240 + 50 + 80, 2)
    assert (waist.length, waist.count) == (50 + 150 + 160 + 50, 1)
    # A branch is a piece of its own, sewn on with 30 mm.
    assert (pouch.length, pouch.count) == (30 + 120 + 45, 1)
    assert made.hardware == (("buckle", 2), ("slider", 2))


def test_crossings_are_marked_from_the_cut_end():
    """The strap crosses after 60 mm that are held and 310 of way; both are told by letters."""
    (made,) = whole(HARNESS).harnesses
    assert [(mark.letter, mark.at) for mark in made.straps[0].marks] == [
        ("A", 60), ("B", 370), ("C", 610),
    ]  # fmt: skip
    assert made.crossings == ("cross", "branch")
    assert made.home == "back"
    assert [letter_of(number) for number in (0, 8, 23, 24)] == ["A", "J", "Z", "A1"]


@pytest.mark.parametrize(
    ("old", "new", "code", "path"),
    [
        ("via: [branch, hang]", "via: [brunch, hang]", "unknown-name", "straps.pouch.via[0]"),
        ("lengths: [120]", "lengths: [0]", "harness-length", "straps.pouch.lengths[0]"),
        ("[shoulder, cross, hip], lengths: [310, 240], both: true",
         "[shoulder, cross, hip], lengths: [310, 240]", "harness-loose", "places.cross"),
        ("branch: {name: where the pouch hangs, holds: 30}",
         "branch: {name: where the pouch hangs, ring: buckle}", "harness-ring",
         "places.branch.ring"),
        ("via: [hip, branch, hip], lengths: [150, 160]", "via: [hip, hip-2, hip], lengths: [1, 1]",
         "unknown-name", "straps.waist.via[1]"),
        ("count: 1, diameter: 25", "count: 1, diameter: 20", "strap-gap", "places.hang.row"),
    ],
)  # fmt: skip
def test_what_does_not_hold_is_told(old, new, code, path):
    """Places that are not there, no length, a lone strap, a ring that is passed, narrow patches."""
    assert old in HARNESS
    found = [(code, path) for code, path, _ in told(HARNESS.replace(old, new))]
    assert (code, f"harnesses.cross.{path}") in found


def test_a_harness_in_two_pieces_is_told():
    """Without the branch on the waist strap, the pouch hangs on nothing that leads to the back."""
    text = HARNESS.replace("via: [branch, hang]", "via: [loop, hang]").replace(
        "      branch: {", "      loop: {name: a loop, row: pouch.hang}\n      branch: {"
    )
    found = {code: message for code, _, message in told(text)}
    assert found["harness-apart"] == (
        "its straps do not hang together: nothing leads to hang, loop"
    )


def test_a_taut_strap_takes_the_great_circle_of_a_ball():
    """Over a ball of 100 mm, a quarter of the way round is 50 pi (geometry); across the air less."""
    k = np.arange(4000) + 0.5
    height, turn = 1 - 2 * k / 4000, pi * (1 + 5**0.5) * k
    flat = np.sqrt(1 - height**2)
    normals = np.stack([flat * np.cos(turn), flat * np.sin(turn), height], axis=1)
    found = taut(np.array([100.0, 0, 0]), np.array([0, 0, 100.0]), (normals * 100, normals))
    assert found == pytest.approx(50 * pi, rel=0.02)
    beside = taut(np.array([300.0, 0, 0]), np.array([0, 0, 300.0]), (normals * 100, normals))
    assert beside == pytest.approx(300 * 2**0.5, rel=0.005)
