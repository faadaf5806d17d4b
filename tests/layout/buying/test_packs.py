"""The cheapest packs that cover an amount."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.buildfile.records.materials import Pack
from guidegen.layout.buying import packs as search
from guidegen.layout.buying.packs import choose_packs, pack_name
from guidegen.words import ENGLISH

POT, TIN = Pack(amount=250, price=9), Pack(amount=500, price=15)


@pytest.mark.parametrize(
    ("need", "counts"),
    [
        (0, {}),
        (1, {250: 1}),
        (250, {250: 1}),
        (250.1, {500: 1}),
        (500, {500: 1}),
        (501, {500: 1, 250: 1}),
        (751, {500: 2}),
        (1000.0000000001, {500: 2}),
    ],
)
def test_by_hand(need: float, counts: dict[float, int]) -> None:
    """Worked by hand: 250 ml at 9 and 500 ml at 15."""
    chosen = choose_packs(need, (POT, TIN), "ml", ENGLISH)
    assert {pack.amount: pack.count for pack in chosen} == counts


packs = st.lists(
    st.tuples(st.integers(1, 50), st.integers(1, 60)), min_size=1, max_size=3, unique=True
)


@given(st.integers(1, 120), packs)
def test_covers_and_is_cheapest(need: int, kinds: list[tuple[int, int]]) -> None:
    """No list of packs is smaller than the need, and trying all small mixes finds none cheaper."""
    sold = tuple(Pack(amount=a, price=p) for a, p in kinds)
    chosen = choose_packs(need, sold, "pieces", ENGLISH)
    assert sum(pack.amount * pack.count for pack in chosen) >= need
    cost = sum(pack.price * pack.count for pack in chosen)
    ranges = [range(min(-(-need // int(pack.amount)), 24) + 1) for pack in sold]
    cheapest = min(
        (
            sum(n * pack.price for n, pack in zip(counts, sold, strict=True))
            for counts in product(*ranges)
            if sum(n * pack.amount for n, pack in zip(counts, sold, strict=True)) >= need
        ),
        default=cost,
    )
    assert cost <= cheapest


def test_names_for_readers() -> None:
    """Packs without a name of their own are called by their amount."""
    assert pack_name(250, "ml", ENGLISH) == "250 ml"
    assert pack_name(1500, "ml", ENGLISH) == "1.5 l"
    assert pack_name(5000, "mm", ENGLISH) == "5 m"
    assert pack_name(1, "pieces", ENGLISH) == "single"
    assert pack_name(20, "pieces", ENGLISH) == "pack of 20"


def test_a_search_that_gives_up_still_covers_the_need(monkeypatch: pytest.MonkeyPatch) -> None:
    """30 ml are 20 + 10 at 2.90; without tries to spend, two of the best value at 3.80."""
    kinds = [Pack(amount=20, price=1.9), Pack(amount=10, price=1.0)]
    found = choose_packs(30, kinds, "ml", ENGLISH)
    assert sorted((pack.amount, pack.count) for pack in found) == [(10, 1), (20, 1)]
    monkeypatch.setattr(search, "MAX_TRIES", 0)
    found = choose_packs(30, kinds, "ml", ENGLISH)
    assert [(pack.amount, pack.count) for pack in found] == [(20, 2)]
