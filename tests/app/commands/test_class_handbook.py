"""The handbook's page on classes: its examples are read, its picture is what is drawn."""

import re
from pathlib import Path

from demo_content import read_demo
from pictures.english import draw_class_lines

from guidegen.app.commands.people.clock import when_told
from guidegen.app.commands.people.when import WhenTold
from guidegen.buildfile.read.on_hand import Offcut, read_on_hand
from guidegen.buildfile.read.people.listed import read_people
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.safety.cautions import RoomNeed
from guidegen.buildfile.records.stock import Stock
from guidegen.cli import build_parser
from guidegen.layout.times.class_times import plan_class_times
from guidegen.problems import collect

ROOT = Path(__file__).parents[3]
HANDBOOK = ROOT / "guidegen" / "handbook" / "teach"
PAGE = (HANDBOOK / "class.md").read_text(encoding="utf-8")
PEOPLE, HAVE, DAYS = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)

STEPS = [
    {"id": "trace", "time": 10},
    {"id": "form", "time": 10, "tools": ["gun"], "wait": 5},
    {"id": "glue", "time": 15},
]
GUIDE = {
    "title": "T", "version": "1", "date": "2026-11-01", "author": "A", "licence": "L",
    "licence_words": "L", "summary": "S", "overview": "O",
    "parts": {"p": {"name": "P", "label": "P", "material": "foam", "shape": "disc",
                    "dimensions": {"diameter": 9}}},
    "steps": [
        {"title": "Do", "stage": "forming", "text": "Do it.", "parts": ["p"], **step}
        for step in STEPS
    ],
}  # fmt: skip
NAMES = ("Robin", "Kim", "Alex", "Sam", "Jo", "Max", "Noa", "Toni", "Luca", "Mika", "Andrea",
         "Chris")  # fmt: skip


def draw() -> str:
    """Twelve people who share two heat guns."""
    guide = Guide.model_validate(GUIDE)
    gun = {"name": "Heat gun", "shared-by": 6, "turns": True}
    times = plan_class_times(guide, Stock.model_validate({"tools": {"gun": gun}}), len(NAMES))
    (drawing,) = draw_class_lines(
        times, dict(enumerate(NAMES)), {"trace": 1, "form": 2, "glue": 3}, 1.5
    )
    return drawing


def test_the_picture_is_what_is_drawn() -> None:
    """The time table on the page is that of twelve people with two heat guns."""
    assert (HANDBOOK / "pictures" / "class-time-table.svg").read_text(encoding="utf-8") == draw()


def test_examples_are_read(tmp_path: Path) -> None:
    """People and things at hand as on the page, with the demo's guide and stock."""
    content = read_demo("mooring-bracer")
    (file,) = content.guides
    path = tmp_path / "file.yaml"
    path.write_text(PEOPLE, encoding="utf-8")
    people, problems = collect(read_people(path, file.size_names()))
    assert not problems
    assert [(one.name, one.size) for one in people] == [
        ("Robin", "M"),
        ("Kim", ""),
        ("Alex", "M"),
    ]
    path.write_text(HAVE, encoding="utf-8")
    have, problems = collect(read_on_hand(path, content.stock))
    assert not problems
    assert have.offcuts == {"foam-6": (Offcut(500, 300, 2),)}
    assert have.amounts == {"sealer": 250, "lacing-cord": 3000}


def test_days_on_the_page_are_read(tmp_path: Path) -> None:
    """The days of the page follow each other, with Kim away on the second."""
    path = tmp_path / "days.yaml"
    path.write_text(DAYS, encoding="utf-8")
    when = when_told(WhenTold(file=path), ("Robin", "Kim"))
    assert [(day.name, day.away) for day in when.days] == [
        ("Saturday", frozenset()), ("Sunday", frozenset({1})),
    ]  # fmt: skip
    assert when.days[1].start == 1440 + 30


def test_the_command_on_the_page_is_one() -> None:
    """The command line is accepted, and `fit` knows --have as well."""
    (command,) = re.findall(r"\./start guidegen (class .*)", PAGE)
    options = build_parser().parse_args(command.split())
    assert (options.guide, options.count, options.hours) == ("mooring-bracer", ["M=5"], 3.0)
    assert options.tools == ["heat-gun=2"]
    assert build_parser().parse_args(["fit", "x", "--have", "f.yaml"]).have == Path("f.yaml")


def test_needs_of_rooms_are_named() -> None:
    """Every word that `room` may hold is on the page."""
    assert all(f"`{need}`" in PAGE for need in RoomNeed)
