"""Polygons and sheets in → what no cut plan can go below, and how near one comes to it."""

from collections.abc import Sequence
from math import ceil, inf

from guidegen.layout.nesting.pieces import Cutting, NestPiece, SheetType, swollen_piece_area
from guidegen.layout.records import CutPlan, GuidePlan
from guidegen.words import ENGLISH, Words

_SLACK = 1e-9
"""Share by which a sum of areas may seem to miss."""


def least_sheets(pieces: Sequence[NestPiece], sheets: Sequence[SheetType], cutting: Cutting) -> int:
    """A number of sheets that no plan can go below.

    Pieces swollen by half of the spacing may not overlap, and lie within the room of a sheet
    swollen as much. So their areas must at least fit like lengths into the largest sheet.
    """
    # The largest sheet for all: a bound must not promise more than a plan of smaller ones needs.
    capacity = max(swollen_room(sheet, cutting) for sheet in sheets)
    areas = [
        # A copy each, not a sum: bins hold whole pieces, which is what makes the bound sharp.
        swollen_piece_area(piece, cutting.spacing)
        for piece in pieces
        for _ in range(piece.copies)
    ]
    return least_bins(areas, capacity)


def least_cost(pieces: Sequence[NestPiece], sheets: Sequence[SheetType], cutting: Cutting) -> float:
    """A price that no plan can go below: the cheapest packs with as much room as the pieces."""
    need = sum(swollen_piece_area(piece, cutting.spacing) * piece.copies for piece in pieces)
    kinds = [
        (
            # By packs: nobody buys part of one, so the price of a pack is the least step.
            swollen_room(sheet, cutting) * sheet.pack,
            sheet.pack_price,
            None if sheet.available is None else ceil(sheet.available / sheet.pack),
        )
        for sheet in sheets
    ]
    return round(cheapest_cover(need, [kind for kind in kinds if kind[0] > 0]), 6)


def cheapest_cover(need: float, kinds: Sequence[tuple[float, float, int | None]]) -> float:
    """The least price of kinds (amount, price, available) that add up to `need` or more.

    Branch and bound over the counts, best value first. Where that takes too long, the bound
    itself: the need at the best value, which is no more than the true least.
    """
    # Best value first: the first branch is good already, and what is still missing costs at least
    # its amount at the value of the next kind.
    order = sorted(kinds, key=lambda kind: (kind[1] / kind[0], -kind[0]))
    slack = need * _SLACK
    best, steps = inf, 0

    def cover(index: int, missing: float, price: float) -> None:
        nonlocal best, steps
        steps += 1
        if missing <= slack:
            best = min(best, price)
            return
        if index == len(order) or steps > _MOST_STEPS:
            return
        amount, each, available = order[index]
        if price + missing / amount * each >= best - 1e-9:
            return
        most = ceil(missing / amount - _SLACK)
        # From most to none: the fullest use of the best value is nearest to the optimum and prunes
        # the rest.
        for count in range(most if available is None else min(most, available), -1, -1):
            cover(index + 1, missing - count * amount, price + count * each)

    cover(0, need, 0.0)
    if steps > _MOST_STEPS or best == inf:
        # An unfinished search has proven nothing but its own relaxation, which still bounds every
        # plan from below.
        return need / order[0][0] * order[0][1] if order else 0.0
    return best


_MOST_STEPS = 50_000
"""Steps of the search. Our choice: under 0.1 s."""


def least_bins(sizes: Sequence[float], capacity: float) -> int:
    """A number of bins that no packing of one-dimensional sizes can go below.

    Bound L2 of Martello and Toth (Knapsack Problems, 1990, section 8.3.2): sizes over half fill a
    bin each; whatever of the smaller ones cannot go beside them needs more.
    """
    slack = capacity * _SLACK
    # A piece larger than any sheet is told elsewhere; here it fills one.
    sizes = [min(size, capacity) for size in sizes if size > slack]
    if not sizes:
        return 0
    best = ceil(sum(sizes) / capacity - _SLACK)
    # Only these values of the parameter can change a class of sizes; any gives a true bound, the
    # best is kept.
    for small in {0.0, *(size for size in sizes if size <= capacity / 2)}:
        alone = [size for size in sizes if size > capacity - small + slack]
        large = [s for s in sizes if capacity / 2 + slack < s <= capacity - small + slack]
        rest = [size for size in sizes if small - slack <= size <= capacity / 2 + slack]
        # What the small ones have left once they filled all room beside the large ones.
        over = sum(rest) - (len(large) * capacity - sum(large))
        more = max(0, ceil(over / capacity - _SLACK))
        best = max(best, len(alone) + len(large) + more)
    return best


def gap_words(plan: CutPlan, lang: Words) -> str:
    """How near a plan comes to the best possible one, for author and reader."""
    if plan.least_cost > 0 and plan.cost <= plan.least_cost * (1 + _SLACK):
        return lang.say("the best possible")
    above = len(plan.sheets) - plan.least
    if _in_price(plan):
        share = ceil((plan.cost / plan.least_cost - 1) * 100 - _SLACK)
        return lang.say(
            "at most {share} dearer than the best possible", share=lang.percent(share / 100)
        )
    # As few sheets as can be, but of a price that cannot be told from the best.
    if above <= 0:
        return lang.say("the best possible number of sheets")
    return lang.many(
        "at most {n} sheet above the best possible",
        "at most {n} sheets above the best possible",
        above,
    )


def is_best(plan: CutPlan) -> bool:
    """True where no plan can be cheaper, or of one size of sheet have fewer sheets."""
    if plan.least_cost > 0 and plan.cost <= plan.least_cost * (1 + _SLACK):
        return True
    return not _in_price(plan) and len(plan.sheets) <= plan.least


def _in_price(plan: CutPlan) -> bool:
    """True where sheets of several sizes can be told apart by their price alone."""
    return plan.least_cost > 0 and len({(s.width, s.height) for s in plan.sheets}) > 1


def above_best(plan: GuidePlan) -> str:
    """Plans of a guide that may not be the best possible, sizes of one gap together; else ''.

    'foam-6 at most 1 sheet above the best possible (M, L)'; for the author, in English.
    """
    found: dict[tuple[str, str], list[str]] = {}
    for size in plan.sizes:
        for cut in size.cut_plans:
            if cut.sheets and not is_best(cut):
                found.setdefault((cut.material, gap_words(cut, ENGLISH)), []).append(size.size)
    return "; ".join(
        f"{material} {gap} ({', '.join(sizes)})" for (material, gap), sizes in found.items()
    )


def swollen_room(sheet: SheetType, cutting: Cutting) -> float:
    """mm² of a sheet's room when half of the spacing may stand out on every side."""
    width, height = cutting.room(sheet)
    if width <= 0 or height <= 0:
        return 0.0
    # Pieces swollen by half of the spacing reach that far over the room on each side.
    return (width + cutting.spacing) * (height + cutting.spacing)
