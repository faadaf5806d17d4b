"""What readers have already: the script's packs are those that the program would choose."""

import random

import pytest
from conftest import Asking
from journeys.visits import Browsing

from guidegen.buildfile.records.materials import Pack
from guidegen.layout.buying.packs import choose_packs
from guidegen.words import ENGLISH

SIZE = "mooring-bracer/M/index.html"


def test_script_chooses_packs_as_the_program_does(ask_script: Asking) -> None:
    """For hundreds of needs and shops the mix costs and holds the same."""
    chance = random.Random(11)
    items = []
    for _ in range(300):
        kinds = [
            {"amount": chance.choice([50, 75, 100, 250, 650, 1000]), "price": chance.randint(2, 40)}
            for _ in range(chance.randint(1, 4))
        ]
        items.append([chance.choice([0, 1, 60, 240, 777.5, 1900]), kinds])
    answers = ask_script("have.js", "script.choosePacks(item[0], item[1])", items)
    for (need, kinds), counts in zip(items, answers, strict=True):
        packs = tuple(Pack(amount=kind["amount"], price=kind["price"]) for kind in kinds)
        chosen = choose_packs(need, packs, "ml", ENGLISH)
        for key in ("amount", "price"):
            found = sum(n * kind[key] for n, kind in zip(counts, kinds, strict=True))
            assert found == pytest.approx(sum(c.count * getattr(c, key) for c in chosen))


@pytest.mark.parametrize(
    ("need", "has", "left"),
    [(7000, 0, [1, 2]), (7000, 7000, [0, 0]), (7000, 1999, [1, 2]), (7000, 2000, [1, 1]),
     (7000, 5000, [0, 2]), (7000, 6999, [0, 2])],
)  # fmt: skip
def test_lengths_at_hand_are_never_joined(
    ask_script: Asking, need: float, has: float, left: list[int]
) -> None:
    """A length stands in only for packs that it is as long as, or for all where it holds all."""
    packs = [
        {"amount": 5000, "price": 6, "count": 1},
        {"amount": 2000, "price": 3, "count": 2},
    ]
    item = [need, packs, has]
    assert ask_script("have.js", "script.keepLengths(...item)", [item]) == [left]


def test_sheets_count_whole_and_by_their_kind(ask_script: Asking) -> None:
    """Two and a half sheets are two; of packs of three, what is left is bought in whole packs."""
    packs = [{"amount": 1, "price": 5, "count": 4}, {"amount": 3, "price": 9, "count": 2}]
    items = [[packs, [2.5, 0]], [packs, [9, 2]], [packs, [0, 3]]]
    found = ask_script("have.js", "script.keepSheets(...item)", items)
    assert found == [[2, 2], [0, 2], [4, 1]]


@pytest.mark.parametrize(
    ("text", "amount"),
    [("250", 250), ("2,5", 2.5), (" 0.5 ", 0.5), ("", None), ("-1", None), ("1e9", None),
     ("a tin", None)],
)  # fmt: skip
def test_amounts_are_read_as_people_write_them(
    ask_script: Asking, text: str, amount: float | None
) -> None:
    """Decimal point or comma; anything else is no amount."""
    assert ask_script("have.js", "script.readAmount(item)", [text]) == [amount]


def test_amounts_at_hand_change_the_list_and_stay(browsing: Browsing, address: str) -> None:
    """A sheet at hand is not bought, the sum is told and kept; without amounts all is as before."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address + SIZE)
        row = page.locator("#material-foam-6")
        before = row.locator(".packs").inner_text()
        amount = page.get_by_label("Amount that I have: Foam sheet, 6 mm")
        amount.fill("1")
        amount.press("Tab")
        assert "enough at hand" in row.locator(".packs").inner_text()
        told = page.locator(".have-sum")
        assert told.get_attribute("role") == "status"
        assert told.inner_text().startswith("With what you have: €")
        page.reload()
        assert amount.input_value() == "1"
        assert "enough at hand" in row.locator(".packs").inner_text()
        visit.shoot("amounts-at-hand-360")
        amount.fill("a tin")
        amount.press("Tab")
        assert amount.get_attribute("aria-invalid") == "true"
        amount.fill("")
        amount.press("Tab")
        assert row.locator(".packs").inner_text() == before
        assert told.inner_text() == ""
        assert visit.complaints == []


def test_lengths_at_hand_follow_the_chosen_unit(browsing: Browsing, address: str) -> None:
    """What was typed in cm stands in inches once these are chosen, and is worth the same."""
    with browsing.visit(1440) as visit:
        page = visit.page
        page.goto(address + SIZE)
        amount = page.get_by_label("Amount that I have: Round elastic cord, 3 mm")
        amount.fill("254")
        amount.press("Tab")
        packs = page.locator("#material-lacing-cord .packs")
        assert "enough at hand" in packs.inner_text()
        page.locator("#units").select_option("in")
        assert amount.input_value() == "100"
        assert "enough at hand" in packs.inner_text()


def test_list_reads_without_a_script(browsing: Browsing, address: str) -> None:
    """Without a script there is no field, and packs and cost stand there."""
    with browsing.visit(820, scripts=False) as visit:
        visit.page.goto(address + SIZE)
        assert not visit.page.locator(".have").first.is_visible()
        assert visit.page.locator("#material-foam-6 .pack").is_visible()
