"""An amount and the packs in which it is sold in → the cheapest packs that cover it."""

from collections.abc import Sequence
from math import ceil, inf

from guidegen.buildfile.records.materials import Pack
from guidegen.layout.records import PackCount
from guidegen.words import Words

_EPSILON = 1e-9
"""Share of a pack by which a sum of floats may seem to miss."""


MAX_TRIES = 20_000
"""Mixes that are looked at. Our choice: far above what any real shop's packs need."""


def weighed(packs: Sequence[Pack]) -> tuple[Pack, ...]:
    """The packs with a figure to choose by: their price, or where one has none a share of their
    amount. Our choice of share: large packs are cheaper for what is in them.
    """
    if all(pack.price is not None for pack in packs):
        return tuple(packs)
    return tuple(pack.model_copy(update={"price": pack.amount**0.9}) for pack in packs)


def price_of(pack: Pack) -> float:
    """The price of a pack; 0 where nobody has looked it up."""
    return pack.price or 0.0


def choose_packs(
    need: float, packs: tuple[Pack, ...], unit: str, lang: Words
) -> tuple[PackCount, ...]:
    """The cheapest mix of packs with at least `need`; of equals, the one with the least left over.

    Branch and bound: what is still missing costs at least its amount at the best price, so a mix
    that cannot beat the best one found is left. Packs without end (thousands of kinds at one
    price) stop the search at MAX_TRIES with a mix that covers the need.
    """
    if need <= 0:
        return ()
    # The best value first: it fills up whatever the others leave, and bounds what is missing.
    kinds = sorted(weighed(packs), key=lambda pack: (price_of(pack) / pack.amount, -pack.amount))
    known = all(pack.price is not None for pack in packs)
    search = _Search(kinds)
    search.choose(1, [], need, 0.0)
    counts = [
        PackCount(
            pack.name or pack_name(pack.amount, unit, lang),
            count,
            pack.amount,
            price_of(pack) if known else 0.0,
        )
        for pack, count in zip(kinds, search.counts, strict=True)
        if count
    ]
    return tuple(sorted(counts, key=lambda count: -count.amount))


class _Search:
    """Tries counts of all kinds but the first, and fills up with the first, the best value."""

    def __init__(self, kinds: list[Pack]) -> None:
        self._kinds = kinds
        self._best = (inf, inf)
        self._tries = 0
        self.counts: list[int] = []
        """Counts of the best mix, by kind."""

    def choose(self, index: int, counts: list[int], missing: float, price: float) -> None:
        """Try all counts of kind `index` and later, after `counts` of those before."""
        bulk = self._kinds[0]
        if index == len(self._kinds):
            # Sums of rates miss a whole pack by rounding; without the epsilon that would buy one
            # more.
            fill = max(0, ceil(missing / bulk.amount - _EPSILON))
            found = (price + fill * price_of(bulk), fill * bulk.amount - missing)
            # A pair: price first, then what is left over; the first of equals stays, so the order
            # of the stock decides.
            if found < self._best:
                self._best, self.counts = found, [fill, *counts]
            return
        pack = self._kinds[index]
        for count in range(max(0, ceil(missing / pack.amount - _EPSILON)) + 1):
            self._tries += 1
            rest, paid = missing - count * pack.amount, price + count * price_of(pack)
            floor = paid + max(0.0, rest) * price_of(bulk) / bulk.amount
            # More of this kind only costs more, so all higher counts end here too. After too many
            # tries each kind still gets its count of 0: a mix that covers the need is always
            # found.
            if floor > self._best[0] + _EPSILON or (count and self._tries > MAX_TRIES):
                return
            self.choose(index + 1, [*counts, count], rest, paid)


def pack_name(amount: float, unit: str, lang: Words) -> str:
    """Name of a pack for readers: '250 ml', '1 l', '5 m', 'pack of 20'."""
    if unit == "ml":
        whole, small = "l", "ml"
    elif unit == "mm":
        whole, small = "m", "mm"
    elif amount == 1:
        return lang.say("single")
    else:
        return lang.say("pack of {count}", count=lang.number(amount, 2))
    if amount >= 1000:
        return f"{lang.number(amount / 1000, 3)} {whole}"
    return f"{lang.number(amount, 2)} {small}"
