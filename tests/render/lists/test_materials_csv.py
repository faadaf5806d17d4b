"""Materials lists for spreadsheets."""

import csv
import io
from dataclasses import replace

import pytest
from render.page_samples import sample

from guidegen.render.lists.materials_csv import materials_csv
from guidegen.words import read_words

HEADINGS = [
    "kind", "name", "needed", "least", "most", "unit", "buy", "pack", "pack amount", "cost",
    "currency", "left over", "shop", "steps", "alternative", "note",
]  # fmt: skip
"""Names by which programs of readers find their columns: they stay."""


def rows(data):
    """The rows of a list by column name, read by the csv module."""
    text = data.decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def renamed(name):
    """The list of the sample with its first material called `name`."""
    content, plan, _ = sample()
    size = plan.sizes[0]
    first = replace(size.materials.lines[0], name=name)
    lines = (first, *size.materials.lines[1:])
    changed = replace(size, materials=replace(size.materials, lines=lines))
    return materials_csv(content, plan, changed)


def test_every_line_has_its_figures():
    """Sheets, liquids, lengths, cuts and tools each have their row."""
    content, plan, _ = sample()
    data = materials_csv(content, plan, plan.sizes[0])
    assert data.startswith(b"\xef\xbb\xbf")
    found = rows(data)
    assert [*found[0]] == HEADINGS
    assert [row["kind"] for row in found] == [
        "sheet", "liquid", "length", "cut", "tool", "protection",
    ]  # fmt: skip
    cement = found[1]
    assert [cement[key] for key in ("needed", "least", "most", "unit")] == ["25", "20", "34", "ml"]
    assert (cement["buy"], cement["pack amount"], cement["cost"]) == ("1", "250", "8.00")
    assert (found[3]["needed"], found[3]["pack amount"]) == ("2", "300")


def test_columns_and_kinds_speak_the_language_of_the_pages():
    """In German columns, kinds and units have German words; amounts stay plain numbers."""
    content, plan, _ = sample()
    found = rows(materials_csv(replace(content, words=read_words("de")), plan, plan.sizes[0]))
    assert [row["Art"] for row in found][:2] == ["Platte", "Flüssigkeit"]
    assert (found[1]["benötigt"], found[1]["Einheit"], found[1]["Kosten"]) == ("25", "ml", "8.00")


@pytest.mark.parametrize(
    "name", ["=1+1", "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C x'!A0"]
)
def test_no_cell_is_taken_for_a_formula(name):
    """Cells that begin like a formula are made text.

    OWASP, "CSV Injection": cells beginning with =, +, -, @, tab or carriage return.
    """
    assert rows(renamed(name))[0]["name"] == "'" + name


def test_quotes_and_commas_come_back():
    """Names with commas, quotes and line ends are read back as they were (RFC 4180)."""
    name = 'Foam, "soft"\nsheet'
    assert rows(renamed(name))[0]["name"] == name


def test_same_list_same_bytes():
    """The same list gives the same bytes."""
    content, plan, _ = sample()
    size = plan.sizes[0]
    assert materials_csv(content, plan, size) == materials_csv(content, plan, size)
