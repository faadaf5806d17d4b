"""What is at hand in → sheets for the cut plan, and lengths cut from it before any are bought."""

from collections.abc import Sequence
from dataclasses import replace

from guidegen.buildfile.have import Have
from guidegen.layout.nesting_pieces import SheetType
from guidegen.layout.records import CutLength, LengthCut, LengthPiece
from guidegen.units import mm_text
from guidegen.words import ENGLISH, Words


def offcut_sheets(have: Have, lang: Words = ENGLISH) -> dict[str, tuple[SheetType, ...]]:
    """Offcuts as sheets that cost nothing, by material; as many as there are."""
    return {
        material: tuple(
            SheetType(
                lang.say(
                    "offcut {width} × {height} mm",
                    width=mm_text(offcut.width),
                    height=mm_text(offcut.height),
                ),
                offcut.width,
                offcut.height,
                0.0,
                available=offcut.count,
            )
            for offcut in offcuts
        )
        for material, offcuts in have.offcuts.items()
        if offcuts
    }


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
