"""The one tuple of columns of the materials list, and its rows."""

import csv
import io
import json
from dataclasses import replace

import pytest
from openpyxl import load_workbook
from render.page_samples import sample
from render.views.test_views import scene

from guidegen.render.lists import materials_csv, materials_json, materials_xlsx
from guidegen.render.views import materials
from guidegen.render.views.material_rows import COLUMNS, bought_rows
from guidegen.render.views.tables import Column, Medium, shown_in


@pytest.mark.parametrize("medium", list(Medium))
def test_a_column_stands_once_in_a_medium(medium):
    """No two columns of one medium have the same name, and each has what its medium needs."""
    columns = shown_in(COLUMNS, medium)
    names = [column.id for column in columns]
    assert len(names) == len(set(names)) > 3
    for column in columns:
        assert medium is not Medium.DATA or column.help, f"{column.id}: no help for programs"
        assert medium is not Medium.BOOK or column.width, f"{column.id}: no width in a workbook"
        assert medium is not Medium.CSV or column.heading, f"{column.id}: no heading in a list"
        headed = column.title or column.heading or medium is Medium.DATA
        assert headed, f"{column.id}: no heading for people"


def test_packs_of_a_line_share_its_need():
    """Each pack covers what those before it leave open, and the figures stand in the first row."""
    _, plan, _ = sample()
    line = plan.sizes[0].materials.lines[1]
    packs = (replace(line.packs[0], count=2, amount=10.0), replace(line.packs[0], count=3))
    rows = [*bought_rows(replace(line, packs=packs), dict.fromkeys(line.steps, 1), "EUR")]
    assert [row.rest for row in rows] == [line.high, line.high - 20]
    assert [row.need for row in rows] == [line.need, None]
    assert [(row.first, row.last) for row in rows] == [(True, False), (False, True)]
    assert [row.over is None for row in rows] == [True, False]


def test_one_entry_reaches_every_medium(monkeypatch):
    """A column added to the tuple stands in list, workbook, page, JSON and its schema, under the
    heading that it is given there and nowhere else.
    """
    colour = Column(
        "colour", "colour", lambda row: f"{row.name} in grey", width=12, help="what it looks like"
    )
    for module in (materials_csv, materials_xlsx, materials_json, materials):
        monkeypatch.setattr(module, "COLUMNS", (*COLUMNS, colour))
    content, plan, _ = sample()
    size = plan.sizes[0]
    name = size.materials.lines[0].name
    text = materials_csv.materials_csv(content, plan, size).decode("utf-8-sig")
    assert next(csv.DictReader(io.StringIO(text)))["colour"] == f"{name} in grey"
    book = load_workbook(io.BytesIO(materials_xlsx.materials_xlsx(content, plan)))
    heads = [cell.value for cell in book.worksheets[1][materials_xlsx.HEADINGS + 1]]
    assert heads[-1] == "Colour"
    row = book.worksheets[1][materials_xlsx.HEADINGS + 2]
    assert row[len(heads) - 1].value == f"{name} in grey"
    view = materials.materials_view(scene(), size.materials)
    assert view.columns[-1].title == "Colour"
    assert view.shops[0].lines[0].cells[-1].words == f"{name} in grey"
    told = json.loads(materials_json.materials_json(content, plan, size))
    assert told["lines"][0]["colour"] == f"{name} in grey"
    schema = json.loads(materials_json.materials_schema())
    assert "colour" in schema["properties"]["lines"]["items"]["properties"]
