"""A build of several days says so wherever it says how long it takes, with the hours it counts."""

from dataclasses import replace
from functools import cache

import pytest
from pictures.drawing_lint import elements, words
from pictures.english import draw_time_line
from render.html_reader import Page
from render.page_samples import downloads, sample, theme

from guidegen.layout.hours import Hours
from guidegen.layout.schedules import Schedule, Slot
from guidegen.layout.times.plans import plan_team
from guidegen.pictures.times.team_line import draw_team_line
from guidegen.render.booklets.booklet import booklet_html
from guidegen.render.booklets.summary import summary_html
from guidegen.render.site.pages import render_guide

PACE = (
    "4 days from start to end: 2 evenings and 2 free days, counted with 45 min an evening, "
    "50 min a free day, from a first free day on. What cures and dries goes on at night."
)
"""15 min on the first day; 90 on the second and third, since an hour is left on none; 20 more."""


@cache
def plan_in_days():
    """The sample, built in little time a day."""
    content, plan, pictures = sample()
    time = plan_team(plan.file.guide, content.stock, 1, Hours(45, 50))
    return content, replace(plan, time_line=time), pictures


def plain(text):
    """Text with ordinary spaces."""
    return " ".join(text.replace("\xa0", " ").split())


@cache
def made(name):
    """The words of a page or booklet."""
    content, plan, pictures = plan_in_days()
    if name in ("index", "steps"):
        files = render_guide(content, plan, pictures, theme(), downloads())
        return plain(Page(files[f"cuff/{name}.html"].decode()).text)
    make = booklet_html if name == "booklet" else summary_html
    html = make(content, plan, "M", ("a4",), pictures=pictures, theme=theme())
    return plain(Page(html).text)


@pytest.mark.parametrize("name", ["index", "steps", "booklet", "summary"])
def test_days_and_hours_stand_where_the_time_does(name):
    """Overview, steps, booklet and summary say the days, and which hours they are counted with."""
    assert PACE in made(name)


def test_facts_give_days():
    """Start to end is a count of days; a build that ends on its first day keeps its hours."""
    assert "Start to end 4 days" in made("index")


def test_the_time_line_counts_days():
    """Below the axis stand numbers of days, in the title strip how many there are."""
    content, plan, _ = plan_in_days()
    svg = draw_time_line(plan.time_line, plan.file.guide)
    said = [plain(word) for word in words(svg)]
    assert "4 days from start to end" in said
    assert [word for word in said if word in ("day", "1", "2", "3", "4")] == [
        "1",
        "2",
        "3",
        "4",
        "day",
    ]
    assert "time since start" not in said and "long waits" not in said
    assert "night or long wait, drawn shorter" in said
    assert len(list(elements(svg, "rect", "work"))) == 1 + 4  # key; days 1 and 2, the rest
    team = plan_team(plan.file.guide, content.stock, 2, Hours(45, 50))
    drawing = draw_team_line(team, plan.file.guide, content.words)
    assert "at the bench, 4 days from start to end" in plain(drawing.description)


def test_waits_that_overlap_are_one_bar_of_drying():
    """Two things dry from 60 and 90 to 200 and 150 minutes, a third alone from 400 to 500."""
    content, plan, _ = plan_in_days()
    steps = [step.id for step in plan.file.guide.steps[:3]]
    times = ((0, 60, 200), (60, 90, 150), (360, 400, 500))
    slots = tuple(
        Slot(step, ((float(start), float(end)),), float(ready), (0,))
        for step, (start, end, ready) in zip(steps, times, strict=True)
    )
    drawing = draw_team_line(Schedule(1, slots), plan.file.guide, content.words)
    bars = [one for one in drawing.items if getattr(one, "css", "") == "hatch"]
    assert len(bars) == 2 + 1  # and one in the key
