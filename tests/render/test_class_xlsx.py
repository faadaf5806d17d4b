"""The workbook of a class in the language of its pages."""

import io

from openpyxl import load_workbook
from samples import write_content

from guidegen.buildfile.reader import read_content
from guidegen.layout.class_records import ClassPlan, ClassTimes, HoursAdvice, Person
from guidegen.layout.records import MaterialsList
from guidegen.render.class_xlsx import class_xlsx
from guidegen.words import read_words


def test_sheets_and_headings_are_in_the_language_of_the_pages(tmp_path):
    """In German every sheet, heading and total has German words; amounts stay where they were."""
    content = read_content(write_content(tmp_path))
    (file,) = content.guides
    plan = ClassPlan(
        (Person("Kim", "M"), Person("Lou", "")),
        MaterialsList((), (), (), 30.0, 0.0),
        (),
        ClassTimes(2, (), {}, tuple(step.id for step in file.guide.steps)),
        3.0,
        HoursAdvice(0.0),
    )
    made = class_xlsx(plan, file.guide, content.stock, content.site, read_words("de"))
    book = load_workbook(io.BytesIO(made), data_only=True)
    assert book.sheetnames == ["Einkauf", "Werkzeug", "Personen", "Schritte", "Zeitplan"]
    shopping = book["Einkauf"]
    heads = [cell.value for cell in shopping[1]]
    assert heads[:2] == ["Material", "Benötigt, höchstens"]
    assert heads[5:7] == ["Preis je Packung, EUR", "Kosten, EUR"]
    assert (shopping["A3"].value, shopping["G3"].value) == ("Jede Person", 15)
    notes = [book["Personen"].cell(row, 3).value for row in (2, 3)]
    assert notes == ["Größe M, Teile mit der Nummer 1", "nach Maß, Teile mit der Nummer 2"]
    assert "Warnhinweise" in book["Schritte"].cell(2, 6).value
