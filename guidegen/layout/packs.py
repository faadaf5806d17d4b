"""An amount and the packs in which it is sold in → the cheapest packs that cover it."""

from math import ceil, inf

from guidegen.buildfile.stock import Pack
from guidegen.layout.records import PackCount

_EPSILON = 1e-9
"""Share of a pack by which a sum of floats may seem to miss."""


def choose_packs(need: float, packs: tuple[Pack, ...], unit: str) -> tuple[PackCount, ...]:
    """The cheapest mix of packs with at least `need`; of equals, the one with the least left over.

    All but the pack with the best price for its amount are tried only up to the point where that
    one would replace them, so the search stays small.
    """
    if need <= 0:
        return ()
    kinds = sorted(packs, key=lambda pack: (pack.price / pack.amount, -pack.amount))
    best = _cheapest(need, kinds)
    counts = [
        PackCount(pack.name or pack_name(pack.amount, unit), count, pack.amount, pack.price)
        for pack, count in zip(kinds, best, strict=True)
        if count
    ]
    return tuple(sorted(counts, key=lambda count: -count.amount))


def _cheapest(need: float, kinds: list[Pack]) -> list[int]:
    """Counts by kind: loops over the others, fills up with the first, which is best value."""
    bulk, others = kinds[0], kinds[1:]
    best: tuple[float, float, list[int]] = (inf, inf, [])

    def choose(index: int, counts: list[int], missing: float, price: float) -> None:
        nonlocal best
        if price > best[0]:
            return
        if index == len(others):
            fill = max(0, ceil(missing / bulk.amount - _EPSILON))
            total = price + fill * bulk.price
            left = fill * bulk.amount - missing
            if (total, left) < best[:2]:
                best = (total, left, [fill, *counts])
            return
        pack = others[index]
        most = min(ceil(bulk.amount / pack.amount), max(0, ceil(missing / pack.amount - _EPSILON)))
        for count in range(min(most, 60) + 1):
            choose(
                index + 1,
                [*counts, count],
                missing - count * pack.amount,
                price + count * pack.price,
            )

    choose(0, [], need, 0.0)
    return best[2]


def pack_name(amount: float, unit: str) -> str:
    """Name of a pack for readers: '250 ml', '1 l', '5 m', 'pack of 20'."""
    if unit == "ml":
        return f"{amount / 1000:g} l" if amount >= 1000 else f"{amount:g} ml"
    if unit == "mm":
        return f"{amount / 1000:g} m" if amount >= 1000 else f"{amount:g} mm"
    return "single" if amount == 1 else f"pack of {amount:g}"
