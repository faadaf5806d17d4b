"""The check that every cut plan goes through, tried on plans that are wrong in one way each."""

from dataclasses import replace

import pytest
from layout.nest_samples import boxes, sheet

from guidegen.layout.nesting.checks import TOLERANCE, faults_of_plan
from guidegen.layout.nesting.pieces import Cutting, NestPiece
from guidegen.layout.records import CutSheet, Placed

PIECES = boxes((100, 50), (40, 40))
SHEETS = (sheet(160, 70),)
CUTTING = Cutting(spacing=3, rim=5, rotation="quarter", flips=False)
GOOD = (Placed("a", 1, 5, 5, 0), Placed("b", 1, 108, 5, 0))


def faults(*placed: Placed, cutting: Cutting = CUTTING) -> list[str]:
    """What is wrong with one sheet that holds these places."""
    plan = [CutSheet("160 × 70", 160, 70, placed, 0)]
    return list(faults_of_plan(plan, PIECES, SHEETS, cutting))


def test_good_plan() -> None:
    """A plan that keeps rim and spacing exactly has no faults."""
    assert faults(*GOOD) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"x": 107.98}, "apart"),
        ({"x": 60}, "apart"),
        ({"x": 115.02}, "rim"),
        ({"y": 25.02}, "rim"),
        ({"y": 4.98}, "rim"),
        ({"angle": 10}, "turned or flipped"),
        ({"x": 148, "flipped": True}, "turned or flipped"),
        ({"copy": 2}, "missing"),
        ({"piece": "c"}, "one too many"),
        ({"x": float("nan")}, "nowhere"),
    ],
)
def test_each_fault_is_found(change: dict[str, object], words: str) -> None:
    """Each way to spoil a good plan is named."""
    found = faults(GOOD[0], replace(GOOD[1], **change))
    assert any(words in fault for fault in found), found


def test_tolerance() -> None:
    """A hundredth of a millimetre is forgiven, two are not."""
    assert TOLERANCE == 0.01
    assert faults(GOOD[0], replace(GOOD[1], x=107.991)) == []


def test_counts() -> None:
    """A missing copy and a doubled one are both faults."""
    assert faults(GOOD[0]) == ["copy 1 of b is missing"]
    assert "copy 1 of b is one too many" in faults(*GOOD, GOOD[1])


def test_unknown_and_unavailable_sheets() -> None:
    """Sheets must be of a size that is sold, and no more than there are."""
    plan = [CutSheet("160 × 70", 170, 70, GOOD, 0)]
    assert any("is sold" in fault for fault in faults_of_plan(plan, PIECES, SHEETS, CUTTING))
    offcut = sheet(160, 70, 0, available=0)
    plan = [CutSheet("160 × 70", 160, 70, GOOD, 0)]
    assert list(faults_of_plan(plan, PIECES, [offcut], CUTTING)) == [
        "more sheets 160 × 70 than there are"
    ]


def test_touching_without_spacing() -> None:
    """Without spacing pieces may touch, and overlap by no more than the tolerance."""
    close = replace(CUTTING, spacing=0)
    assert faults(GOOD[0], replace(GOOD[1], x=105), cutting=close) == []
    assert faults(GOOD[0], replace(GOOD[1], x=104.98), cutting=close) != []


def test_holes_are_used_and_kept() -> None:
    """A piece may lie in the hole of another one, but not across its rim."""
    frame = NestPiece(
        "frame", "frame", "frame", 1,
        ((0, 0), (60, 0), (60, 60), (0, 60)),
        (((10, 10), (10, 50), (50, 50), (50, 10)),),
    )  # fmt: skip
    small = NestPiece("small", "small", "small", 1, ((0, 0), (30, 0), (30, 30), (0, 30)))
    cutting = replace(CUTTING, rim=0)
    for x, good in ((15, True), (12.5, False), (40, False)):
        places = (Placed("frame", 1, 0, 0, 0), Placed("small", 1, x, 15, 0))
        plan = [CutSheet("160 × 70", 160, 70, places, 0)]
        found = list(faults_of_plan(plan, [frame, small], SHEETS, cutting))
        assert (not found) == good, (x, found)
