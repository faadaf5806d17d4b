"""Workbook and list of a class in the language of its pages."""

import csv
import io
from dataclasses import replace
from pathlib import Path

from openpyxl import load_workbook
from samples import write_content

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.reader import read_content
from guidegen.layout.records import MaterialsList
from guidegen.layout.schedules import Schedule
from guidegen.layout.times.class_records import ClassPlan, HoursAdvice, Person
from guidegen.render.lists.class_csv import class_csv
from guidegen.render.lists.class_xlsx import class_xlsx
from guidegen.render.lists.materials_xlsx import HEADINGS
from guidegen.words import read_words


def small_class(folder: Path) -> tuple[Content, GuideFile, ClassPlan]:
    """Two people who buy nothing."""
    content = read_content(write_content(folder))
    (file,) = content.guides
    plan = ClassPlan(
        (Person("Kim", "M"), Person("Lou", "")),
        MaterialsList((), (), (), 30.0, 0.0),
        (),
        Schedule(2, (), tuple(step.id for step in file.guide.steps)),
        3.0,
        HoursAdvice(0.0),
    )
    return content, file, plan


def test_sheets_and_headings_are_in_the_language_of_the_pages(tmp_path):
    """In German every sheet, heading and total has German words; amounts stay where they were."""
    content, file, plan = small_class(tmp_path)
    made = class_xlsx(plan, file.guide, replace(content, words=read_words("de")))
    book = load_workbook(io.BytesIO(made), data_only=True)
    assert book.sheetnames == ["Einkauf", "Werkzeug", "Personen", "Schritte", "Zeitplan"]
    shopping = book["Einkauf"]
    heads = [cell.value for cell in shopping[HEADINGS + 1]]
    assert heads[:3] == ["Art", "Material", "Benötigt, höchstens"]
    assert "EUR" in shopping["A2"].value
    each = shopping[shopping.max_row]
    assert (each[0].value, each[heads.index("Kosten")].value) == ("Jede Person", 15)
    notes = [book["Personen"].cell(row, 3).value for row in (2, 3)]
    assert notes == ["Größe M, Teile mit der Nummer 1", "nach Maß, Teile mit der Nummer 2"]
    assert "Warnhinweise" in book["Schritte"].cell(2, 7).value


def test_the_list_speaks_the_language_of_the_pages(tmp_path):
    """In German class.csv has German columns, sections and notes; amounts are plain numbers."""
    content, file, plan = small_class(tmp_path)
    made = class_csv(plan, file.guide, content.stock, "EUR", read_words("de")).decode("utf-8-sig")
    rows = [*csv.DictReader(io.StringIO(made, newline=""))]
    assert rows[0]["Abschnitt"] == "zuerst" and "fachkundige Aufsicht" in rows[0]["Hinweis"]
    assert rows[-1]["Name"] == "jede Person" and rows[-1]["Kosten"] == "15.00"
    assert {row["Abschnitt"] for row in rows} >= {"Person", "Schritt", "Summe"}
    assert "nach Maß, Teile mit der Nummer 2" in [row["Hinweis"] for row in rows]
