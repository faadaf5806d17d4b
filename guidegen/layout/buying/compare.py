"""Plans of all sizes in → how they differ, and why one needs more foam than the one before."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.geometry.pieces.records import Kit
from guidegen.layout.buying.consumption import piece_area
from guidegen.layout.records import CutPlan, CutSheet, SizePlan


@dataclass(frozen=True, slots=True)
class SheetUse:
    """What one size takes of one sheet material."""

    size: str
    material: str
    sheets: tuple[tuple[str, int], ...]
    """Name of each size in stock, and how many of it; in the order of the cut plan."""
    bought: float
    """mm² of all sheets, usable."""
    pieces: float
    """mm² of foam that becomes pieces."""
    cost: float
    """Price of the packs, in the site's currency."""

    @property
    def count(self) -> int:
        """Sheets in all."""
        return sum(count for _, count in self.sheets)

    @property
    def used(self) -> float:
        """Share of the bought area that becomes pieces, 0 to 1."""
        return self.pieces / self.bought if self.bought else 0.0


@dataclass(frozen=True, slots=True)
class SheetChange:
    """Why a size buys other foam than the size before it."""

    before: SheetUse
    after: SheetUse
    unavoidable: bool
    """True where the area bound proves that the sheets of the size before cannot do."""
    piece: str
    """Name of the piece that tips it: the largest on the emptiest sheet; empty for none."""
    piece_area: float
    """mm² of one face of that piece."""

    @property
    def growth(self) -> float:
        """Share by which the pieces grow: 0.1 for a tenth more."""
        return self.after.pieces / self.before.pieces - 1 if self.before.pieces else 0.0


def compare_sheets(
    sizes: Sequence[SizePlan],
) -> tuple[tuple[SheetUse, ...], tuple[SheetChange, ...]]:
    """Use of each sheet material in each size; and each change that costs more foam.

    A change is told where a size buys more usable area than the size before it in the guide's
    order, or needs a material that the size before does not.
    """
    uses: list[SheetUse] = []
    changes: list[SheetChange] = []
    earlier: dict[str, SheetUse] = {}
    for number, size in enumerate(sizes):
        now: dict[str, SheetUse] = {}
        for plan in size.cut_plans:
            use = sheet_use(size.size, plan)
            now[plan.material] = use
            uses.append(use)
            # A material that the size before does not need at all is compared with nothing of it.
            none = SheetUse(sizes[number - 1].size, plan.material, (), 0.0, 0.0, 0.0)
            before = earlier.get(plan.material, none)
            if number and use.bought > before.bought:
                changes.append(_change(before, use, plan, size.kit))
        earlier = now
    return tuple(uses), tuple(changes)


def sheet_use(size: str, plan: CutPlan) -> SheetUse:
    """Sheets, areas (mm²) and price of one cut plan."""
    counts = Counter(sheet.name for sheet in plan.sheets)
    return SheetUse(
        size,
        plan.material,
        tuple(counts.items()),
        sum(sheet.width * sheet.height for sheet in plan.sheets),
        sum(sheet.used for sheet in plan.sheets),
        plan.cost,
    )


def _change(before: SheetUse, after: SheetUse, plan: CutPlan, kit: Kit) -> SheetChange:
    areas = {piece.key: (piece_area(piece), piece.name) for piece in kit.pieces}
    # The sheet that a smaller kit could do without: the largest piece on it tips the scales.
    emptiest = min(plan.sheets, key=_share_used)
    found = [areas[placed.piece] for placed in emptiest.placed if placed.piece in areas]
    area, name = max(found, key=lambda pair: pair[0], default=(0.0, ""))
    # More pieces than the old sheets have room for, or a bound that counts sheets of all sizes.
    unavoidable = after.pieces > before.bought or plan.least > before.count
    return SheetChange(before, after, unavoidable, name, area)


def _share_used(sheet: CutSheet) -> float:
    return sheet.used / (sheet.width * sheet.height)
