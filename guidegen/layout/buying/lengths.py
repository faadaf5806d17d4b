"""Lengths to cut and packs that are sold in → the cheapest packs, and which cuts from which (mm).

Mixes of packs are tried from the cheapest on; the first that holds all cuts is the best. A strap
is never joined from two rests.
"""

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from guidegen.buildfile.records.materials import Pack
from guidegen.layout.buying.lengths_fit import Steps, exact_fit, first_fit, fullest_fit
from guidegen.layout.buying.packs import pack_name, price_of, weighed
from guidegen.layout.nesting.bounds import least_bins
from guidegen.layout.records import CutLength, LengthCut, LengthPiece, LengthPlan
from guidegen.words import Words

_SLACK = 1e-6
"""mm by which sums of floats may seem not to fit."""

MOST_STEPS = 60_000
"""Steps of branch and bound over all mixes. Our choice: under a second."""

MOST_MIXES = 20_000
"""Mixes of packs looked at. Our choice: bounds memory; demands of a kit need tens."""


@dataclass(frozen=True, slots=True)
class _Cut:
    """One length, once."""

    size: float
    """mm that it takes, what the cut itself takes included."""
    length: float
    note: str


def plan_lengths(
    material: str,
    packs: Sequence[Pack],
    cuts: Sequence[LengthCut],
    lang: Words,
    *,
    loss: float = 0.0,
    at_least: float = 0.0,
    steps: int = MOST_STEPS,
) -> LengthPlan:
    """The cheapest packs for all cuts, of equals the shortest; and the cuts from each.

    `loss` is mm lost at every cut, such as an end that is melted off; `at_least` is mm to buy in
    any case, such as a share for spares. Without packs, or with more cuts than can be searched,
    the plan may be dearer than the best: `least_cost` tells by how much at most.
    """
    known = all(pack.price is not None for pack in packs)
    packs = weighed(packs)
    longest = max((pack.amount for pack in packs), default=0.0)
    single = sorted(
        (
            # Each cut takes its loss with it; packs are made longer by one loss in return (see
            # room below), since the last cut of a pack is its own end.
            _Cut(cut.length + loss, cut.length, cut.note)
            for cut in cuts
            if cut.length <= longest + _SLACK
            for _ in range(cut.pieces)
        ),
        # Longest first, which all three fits want; notes decide among equals, so that plans do not
        # change.
        key=lambda cut: (-cut.size, cut.note),
    )
    too_long = tuple(cut for cut in cuts if cut.length > longest + _SLACK and cut.pieces > 0)
    least = least_bins([cut.size for cut in single], longest + loss) if single else 0
    if not packs or (not single and at_least <= _SLACK):
        return LengthPlan(material, (), 0.0, 0.0, least, too_long)
    mix, filled, least_cost = _search(single, packs, loss, at_least, Steps(steps))
    done = [_cut_length(pack, inside, loss, lang) for pack, inside in zip(mix, filled, strict=True)]
    done.sort(key=lambda pack: (-pack.amount, pack.left))
    cost = round(_price(mix), 6)
    if not known:
        # What was chosen by is no price: a plan of unknown prices tells none.
        done, cost, least_cost = [replace(pack, price=0.0) for pack in done], 0.0, 0.0
    return LengthPlan(material, tuple(done), cost, min(round(least_cost, 6), cost), least, too_long)


def _search(
    cuts: list[_Cut], packs: Sequence[Pack], loss: float, at_least: float, steps: Steps
) -> tuple[tuple[Pack, ...], list[list[_Cut]], float]:
    """Packs, what goes into each, and a price that no plan can go below."""
    sizes = [cut.size for cut in cuts]
    simple = _simple_mix(sizes, packs, loss, at_least)
    least_cost: float | None = None
    for mix in _mixes(packs, max(sum(sizes) - loss * len(sizes), at_least), _price(simple)):
        room = [pack.amount + loss for pack in mix]
        # Quick ones first: nearly every mix that holds all cuts is filled by one of them. Only
        # where both fail is it worth proving.
        bins = first_fit(sizes, room) or fullest_fit(sizes, room)
        if bins is None:
            bins, certain = exact_fit(sizes, room, steps)
            # The first mix that could neither be filled nor ruled out: nothing cheaper than it is
            # possible, since mixes come in the order of their price.
            if not certain and least_cost is None:
                least_cost = _price(mix)
        if bins is not None:
            price = _price(mix)
            return mix, _filled(cuts, bins, len(mix)), price if least_cost is None else least_cost
    room = [pack.amount + loss for pack in simple]
    bins = first_fit(sizes, room) or []
    return simple, _filled(cuts, bins, len(simple)), least_cost or 0.0


def _price(mix: Sequence[Pack]) -> float:
    return sum(price_of(pack) for pack in mix)


def _simple_mix(
    sizes: list[float], packs: Sequence[Pack], loss: float, at_least: float
) -> tuple[Pack, ...]:
    """The cheapest mix of one kind of pack that first-fit decreasing fills, the longest if none."""
    best: tuple[Pack, ...] | None = None
    for pack in sorted(packs, key=lambda pack: (-pack.amount, price_of(pack))):
        if sizes and sizes[0] > pack.amount + loss + _SLACK:
            continue
        bins = first_fit(sizes, [pack.amount + loss] * len(sizes)) or []
        # Also where no cut asks for it: spares are bought as length.
        enough = ceil(at_least / pack.amount - _SLACK)
        mix = (pack,) * max(max(bins, default=-1) + 1, enough)
        if best is None or _price(mix) < _price(best):
            best = mix
    return best or ()


def _mixes(packs: Sequence[Pack], need: float, most: float) -> Iterator[tuple[Pack, ...]]:
    """Mixes of at least `need` mm for at most the price `most`, cheapest first, then shortest."""
    order = sorted(packs, key=lambda pack: (-pack.amount, price_of(pack)))
    heap: list[tuple[float, float, tuple[int, ...]]] = [(0.0, 0.0, ())]
    for _ in range(MOST_MIXES):
        if not heap:
            return
        price, amount, numbers = heapq.heappop(heap)
        if amount >= need - _SLACK and numbers:
            yield tuple(order[number] for number in numbers)
        if len(numbers) >= _MOST_PACKS:
            continue
        # From the last kind on: each mix is reached once, not in every order of its packs.
        for number in range(numbers[-1] if numbers else 0, len(order)):
            pack = order[number]
            dearer = round(price + price_of(pack), 6)
            if dearer <= most + 1e-6:
                heapq.heappush(heap, (dearer, amount + pack.amount, (*numbers, number)))


_MOST_PACKS = 300
"""Packs in a mix: only packs that cost nothing would ever come so far."""


def _filled(cuts: list[_Cut], bins: list[int], count: int) -> list[list[_Cut]]:
    inside: list[list[_Cut]] = [[] for _ in range(count)]
    for cut, number in zip(cuts, bins, strict=True):
        inside[number].append(cut)
    return inside


def _cut_length(pack: Pack, cuts: list[_Cut], loss: float, lang: Words) -> CutLength:
    pieces = []
    at = 0.0
    for cut in cuts:
        pieces.append(LengthPiece(round(at, 3), cut.length, cut.note))
        at += cut.length + loss
    # The last cut loses nothing where it is the pack's own end.
    left = max(0.0, pack.amount - at)
    name = pack.name or pack_name(pack.amount, "mm", lang)
    return CutLength(name, pack.amount, price_of(pack), tuple(pieces), round(left, 3))
