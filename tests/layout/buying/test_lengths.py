"""Cutting webbing and elastic: every cut is there, in one piece, from the cheapest packs."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.buildfile.records.materials import Pack
from guidegen.layout.buying.lengths import plan_lengths
from guidegen.layout.buying.lengths_fit import Steps, exact_fit, first_fit, fullest_fit
from guidegen.layout.records import LengthCut, LengthPlan
from guidegen.words import ENGLISH

METRE, ROLL = Pack(amount=1000, price=2.2), Pack(amount=5000, price=8.5, name="roll")


def cuts(*lengths: tuple[float, int]) -> list[LengthCut]:
    """Lengths in mm, and how often."""
    return [LengthCut("webbing", length, count, f"{length:g}") for length, count in lengths]


def plan(*lengths: tuple[float, int], packs: tuple[Pack, ...] = (METRE, ROLL)) -> LengthPlan:
    """The plan for lengths."""
    return plan_lengths("webbing", packs, cuts(*lengths), ENGLISH)


def test_by_hand() -> None:
    """Straps of 700, 300 and 450 mm: 700 + 300 and 450 + 450 fill two metres."""
    found = plan((700, 1), (300, 1), (450, 2))
    assert [pack.name for pack in found.packs] == ["1 m", "1 m"]
    assert sorted(pack.left for pack in found.packs) == [0, 100]
    assert found.cost == found.least_cost == 4.4
    first, second = found.packs[0].pieces
    assert (first.start, first.length, second.start, second.length) == (0, 700, 700, 300)


def test_mix_of_packs() -> None:
    """Six metres in straps of 1 m: a roll and a single metre, not two rolls or six metres."""
    found = plan((1000, 6))
    assert [pack.name for pack in found.packs] == ["roll", "1 m"]
    assert found.cost == pytest.approx(10.7)


def test_long_straps_need_the_roll() -> None:
    """A strap of 1.2 m is never joined from two single metres."""
    assert [pack.name for pack in plan((1200, 1)).packs] == ["roll"]


def test_too_long() -> None:
    """A strap longer than any pack is named and left out."""
    found = plan((5001, 2), (400, 1))
    assert [cut.length for cut in found.too_long] == [5001]
    assert [piece.length for pack in found.packs for piece in pack.pieces] == [400]


def test_nothing_to_cut() -> None:
    """No cuts, no packs; and no packs to buy, no plan."""
    assert plan().packs == ()
    found = plan_lengths("webbing", [], cuts((10, 1)), ENGLISH)
    assert found.packs == ()
    assert len(found.too_long) == 1


def test_spare_and_loss() -> None:
    """A share for spares is bought on top; what a melted end loses makes a metre too short."""
    more = plan_lengths("webbing", [METRE], cuts((500, 2)), ENGLISH, at_least=1100)
    assert len(more.packs) == 2
    melted = plan_lengths("webbing", [METRE], cuts((500, 2)), ENGLISH, loss=5)
    assert len(melted.packs) == 2
    single = plan_lengths("webbing", [METRE], cuts((1000, 1)), ENGLISH, loss=5)
    assert len(single.packs) == 1


pack_lists = st.lists(
    st.builds(Pack, amount=st.integers(10, 30), price=st.integers(1, 9)), min_size=1, max_size=2
)


@settings(max_examples=80, deadline=None)
@given(st.lists(st.integers(1, 30), min_size=1, max_size=6), pack_lists)
def test_cheapest_of_all(lengths: list[int], packs: list[Pack]) -> None:
    """For a few cuts no mix of packs that holds them is cheaper, by trying every one."""
    fitting = [length for length in lengths if length <= max(pack.amount for pack in packs)]
    found = plan_lengths("w", packs, cuts(*((length, 1) for length in lengths)), ENGLISH)
    placed = sorted(piece.length for pack in found.packs for piece in pack.pieces)
    assert placed == sorted(fitting)
    for pack in found.packs:
        assert sum(piece.length for piece in pack.pieces) + pack.left == pytest.approx(pack.amount)
    best = min(
        (
            sum(pack.price * count for pack, count in zip(packs, counts, strict=True))
            for counts in product(range(len(fitting) + 1), repeat=len(packs))
            if _holds(fitting, [
                pack.amount for pack, n in zip(packs, counts, strict=True) for _ in range(n)
            ])
        ),
        default=0,
    )  # fmt: skip
    assert found.cost == best == found.least_cost


def _holds(lengths: list[int], room: list[float]) -> bool:
    """True where the lengths go into the bins, by trying every bin for each."""
    if not lengths:
        return True
    return any(
        _holds(lengths[1:], [*room[:n], left - lengths[0], *room[n + 1 :]])
        for n, left in enumerate(room)
        if left >= lengths[0] and left not in room[:n]
    )


def test_search_gives_up_honestly() -> None:
    """Without steps to spend the plan still holds all cuts, and its bound says what is open."""
    lengths = cuts((51, 6), (27, 6), (26, 6), (23, 12))
    hasty = plan_lengths("w", [Pack(amount=100, price=1)], lengths, ENGLISH, steps=0)
    assert sum(len(pack.pieces) for pack in hasty.packs) == 30
    assert hasty.least_cost <= 9 <= hasty.cost


def test_a_mix_that_is_proven_too_small_leaves_nothing_open() -> None:
    """Three straps of 600 mm go into no two metres, which is certain: three metres are the best."""
    found = plan((600, 3), packs=(METRE,))
    assert (len(found.packs), found.cost, found.least_cost) == (3, 6.6, 6.6)
    # Whoever has no steps to prove it with says that two metres might do.
    hasty = plan_lengths("w", [METRE], cuts((600, 3)), ENGLISH, steps=0)
    assert (len(hasty.packs), hasty.cost) == (3, 6.6)
    assert hasty.least_cost in {4.4, 6.6}


def test_fits_agree() -> None:
    """Each way to fill bins respects their room; only the exact one may say that none is left."""
    sizes, room = [6.0, 5, 5, 4, 4, 4], [10.0, 9, 9]
    for bins in (fullest_fit(sizes, room), exact_fit(sizes, room, Steps(1000))[0]):
        assert bins is not None
        for number, most in enumerate(room):
            inside = [size for size, bin_ in zip(sizes, bins, strict=True) if bin_ == number]
            assert sum(inside) <= most
    assert first_fit([6, 5], [10]) is None
    assert exact_fit([6, 6], [11], Steps(1000)) == (None, True)
