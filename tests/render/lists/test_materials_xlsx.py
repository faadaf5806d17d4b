"""Workbooks of materials, opened with openpyxl and worked out again from their formulas."""

import csv
import io
import re
from dataclasses import replace
from math import ceil, floor

import pytest
from openpyxl import load_workbook
from render.page_samples import sample

from guidegen.layout.records import CutPlan, CutSheet, MaterialLine, PackCount
from guidegen.render.lists.materials_csv import materials_csv
from guidegen.render.lists.materials_xlsx import HEADINGS, materials_xlsx


def _line(unit, high, packs):
    """A line of `high` units bought in `packs` of (count, amount, price)."""
    counts = tuple(PackCount(f"p{amount}", count, amount, price) for count, amount, price in packs)
    cost = sum(count * price for count, _, price in packs)
    kind = {"ml": "liquid", "mm": "length", "pieces": "count", "sheets": "sheet"}[unit]
    name = f"{kind} {high:g}"
    return MaterialLine(
        "cement", name, kind, unit, high, high, high, "", counts, 0.0, cost, "shop", ()
    )


LINES = (
    _line("ml", 620.0, ((1, 500.0, 15.0), (1, 250.0, 9.0))),
    _line("ml", 500.0, ((2, 250.0, 9.0),)),
    _line("pieces", 7.0, ((2, 5.0, 3.0),)),
    _line("mm", 1800.0, ((3, 1000.0, 1.5),)),  # three straps of 600 mm: a metre holds only one
    _line("sheets", 4.0, ((3, 1.0, 5.0), (1, 2.0, 8.0))),
)


def _sample(lines=LINES):
    """The sample guide with `lines` in its first size."""
    content, plan, _ = sample()
    cost = sum(line.cost for line in lines)
    size = plan.sizes[0]
    size = replace(size, materials=replace(size.materials, lines=lines, cost=cost))
    return content, replace(plan, sizes=(size, *plan.sizes[1:]))


def _open(data, *, values=False):
    return load_workbook(io.BytesIO(data), data_only=values)


FIRST = HEADINGS + 2
"""Row of the first material, from 1."""


def _letter(sheet, heading):
    """Letter of the column under a heading."""
    (cell,) = [cell for cell in sheet[HEADINGS + 1] if cell.value == heading]
    return cell.column_letter


def _work_out(sheet, row):
    """Packs to buy by their formula, worked out with Python's own arithmetic."""
    formula = sheet[f"{_letter(sheet, 'Buy packs')}{row}"].value.removeprefix("=")

    def cell(match):
        return repr(float(_value(sheet, match[0])))

    text = re.sub(r"\b[A-Z]\d+\b", cell, formula)
    names = {
        "MAX": max, "MIN": min,
        "ROUNDUP": lambda x, _: ceil(x) if x > 0 else floor(x),
        "ROUNDDOWN": lambda x, _: floor(x) if x > 0 else ceil(x),
    }  # fmt: skip
    return eval(text, {"__builtins__": {}}, names)  # noqa: S307 - our own formula


def _value(sheet, address):
    """A number, or for what is left after the packs above, that difference."""
    value = sheet[address].value
    if isinstance(value, str) and address.startswith(_letter(sheet, "Needed, at most")):
        above = int(address[1:]) - 1
        have, amount = (f"{_letter(sheet, name)}{above}" for name in ("I have", "In a pack"))
        packs = sheet[amount].value * _work_out(sheet, above)
        need = _value(sheet, f"{address[0]}{above}")
        return max(0.0, need - sheet[have].value - packs)
    return value


def test_formulas_give_the_packs_of_the_list():
    """Each formula, worked out here, and each stored value are the packs that were chosen."""
    data = materials_xlsx(*_sample())
    sheet, stored = _open(data).worksheets[1], _open(data, values=True).worksheets[1]
    counts = [pack.count for line in LINES for pack in line.packs]
    rows = range(FIRST, FIRST + len(counts))
    assert [_work_out(sheet, row) for row in rows] == counts
    buy = _letter(sheet, "Buy packs")
    assert [stored[f"{buy}{row}"].value for row in rows] == counts


@pytest.mark.parametrize(
    ("row", "have", "packs"),
    [
        (2, 250, 1),  # 500 ml needed, a tin of 250 ml at hand: one more
        (3, 2, 1),  # 7 studs less 2 are 5: one bag of 5
        (4, 900, 3),  # a rest of 900 mm may be in pieces too short: nothing is taken off
        (4, 1000, 2),
    ],
)
def test_what_is_at_hand_is_taken_off(row, have, packs):
    """Amounts in the yellow column lower the packs to buy, worked by hand."""
    sheet = _open(materials_xlsx(*_sample())).worksheets[1]
    number = FIRST + row  # the first line has two packs
    sheet[f"{_letter(sheet, 'I have')}{number}"].value = have
    assert _work_out(sheet, number) == packs


def test_totals_equal_the_csv():
    """The total of a size's sheet is the sum of the costs in its CSV list."""
    content, plan = _sample()
    data = materials_xlsx(content, plan)
    book, stored = _open(data), _open(data, values=True)
    for number, size in enumerate(plan.sizes, 1):
        text = materials_csv(content, plan, size).decode("utf-8-sig")
        listed = sum(float(row["cost"]) for row in csv.DictReader(io.StringIO(text)) if row["cost"])
        last = book.worksheets[number].max_row
        cost = _letter(book.worksheets[number], "Cost")
        total = book.worksheets[number][f"{cost}{last}"].value
        assert total == f"=SUM({cost}{FIRST}:{cost}{last - 1})"
        assert stored.worksheets[number][f"{cost}{last}"].value == pytest.approx(listed, abs=0.005)
        compared = book.worksheets[0][f"B{3 + number}"].value
        assert compared == f"='{book.worksheets[number].title}'!{cost}{last}"
        spent = stored.worksheets[0][f"B{3 + number}"].value
        assert spent == pytest.approx(listed, abs=0.005)


def test_same_plan_same_bytes():
    """Nothing of the clock is in a workbook."""
    assert materials_xlsx(*_sample()) == materials_xlsx(*_sample())


def test_texts_never_become_formulas():
    """A name that begins like a formula stays a text."""
    sheet = _open(materials_xlsx(*_sample((replace(LINES[0], name="=1+1"),)))).worksheets[1]
    cell = sheet[f"{_letter(sheet, 'Material')}{FIRST}"]
    assert cell.value == "=1+1"
    assert cell.data_type in {"s", "inlineStr"} or cell.quotePrefix


def test_why_a_size_needs_more_foam():
    """The comparison names the foam, both counts and both areas."""
    content, plan = _sample()
    old = plan.sizes[0].cut_plans[0]
    sheet = old.sheets[0]
    first = replace(plan.sizes[0], cut_plans=(replace(old, sheets=(sheet,)),))
    more = CutSheet(sheet.name, sheet.width, sheet.height, (), sheet.width * sheet.height)
    larger = CutPlan(old.material, old.thickness, (sheet, more), 2, "rows")
    second = replace(plan.sizes[1], cut_plans=(larger,))
    book = _open(materials_xlsx(content, replace(plan, sizes=(first, second))))
    words = [str(cell.value) for row in book.worksheets[0] for cell in row if cell.value]
    (told,) = [text for text in words if "instead of" in text]
    assert told.startswith("M needs 2\u00a0sheets instead of 1 of Foam sheet, 5 mm")
    assert "No plan can do with the sheets of S." in told


def test_each_cost_is_packs_times_price():
    """Moving a column moves the formulas with it: each cost names the cells beside it."""
    sheet = _open(materials_xlsx(*_sample())).worksheets[1]
    buy, price, cost = (_letter(sheet, name) for name in ("Buy packs", "Price each", "Cost"))
    for row in range(FIRST, sheet.max_row):
        assert sheet[f"{cost}{row}"].value == f"={buy}{row}*{price}{row}"
