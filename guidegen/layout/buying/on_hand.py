"""What is at hand in → sheets for the cut plan, and lengths cut from it before any are bought."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from math import floor

from guidegen.buildfile.read.on_hand import Offcut, OnHand
from guidegen.layout.nesting.pieces import SheetType
from guidegen.layout.records import CutLength, LengthCut, LengthPiece
from guidegen.units import mm_text
from guidegen.words import Words


def offcut_sheets(on_hand: OnHand, lang: Words) -> dict[str, tuple[SheetType, ...]]:
    """Offcuts as sheets that cost nothing, by material; equal ones together, with how many.

    Sides are rounded down to 0.1 mm, so that sheets of one name are of one size.
    """
    return {
        material: tuple(
            _sheet(width, height, count, lang)
            for (width, height), count in _counted(offcuts).items()
        )
        for material, offcuts in on_hand.offcuts.items()
        if offcuts
    }


def _counted(offcuts: Sequence[Offcut]) -> Counter[tuple[float, float]]:
    """How many there are of each size, in the order in which they are listed."""
    counts: Counter[tuple[float, float]] = Counter()
    for offcut in offcuts:
        sides = (floor(offcut.width * 10 + 1e-6) / 10, floor(offcut.height * 10 + 1e-6) / 10)
        counts[sides] += offcut.count
    return counts


def _sheet(width: float, height: float, count: int, lang: Words) -> SheetType:
    sides = {"width": mm_text(width, 1), "height": mm_text(height, 1)}
    name = lang.say("offcut {width} × {height} mm", **sides)
    return SheetType(name, width, height, 0.0, available=count)


def take_lengths(
    cuts: Sequence[LengthCut], amount: float, name: str
) -> tuple[CutLength | None, list[LengthCut]]:
    """What is cut from one length at hand (mm), the longest first, and what is still wanted."""
    single = sorted(
        (replace(cut, pieces=1) for cut in cuts for _ in range(cut.pieces)),
        key=lambda cut: (-cut.length, cut.note),
    )
    taken: list[LengthPiece] = []
    left: list[LengthCut] = []
    at = 0.0
    for cut in single:
        # Longest first: what is left over of one length should still do for a short cut.
        if at + cut.length <= amount + 1e-6:
            taken.append(LengthPiece(round(at, 3), cut.length, cut.note))
            at += cut.length
        else:
            left.append(cut)
    if not taken:
        return None, list(cuts)
    return CutLength(
        name, amount, 0.0, tuple(taken), round(max(0.0, amount - at), 3), at_hand=True
    ), left
