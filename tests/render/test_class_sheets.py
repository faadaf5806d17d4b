"""Papers of a class of the demo's workshop guide: how many pages, and what is on whose."""

from dataclasses import replace
from pathlib import Path

import pytest

from guidegen.app.jobs.opening import open_guide
from guidegen.app.measured.bodies import whole_kit
from guidegen.layout.class_hours import ClassDay
from guidegen.layout.records import GuidePlan, MaterialsList, SizePlan
from guidegen.layout.times.class_records import ClassPlan, HoursAdvice, Means, Person
from guidegen.layout.times.class_times import plan_class_times
from guidegen.layout.times.plans import plan_team
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.compose import draw_guide
from guidegen.render.booklets.booklet import booklet_files
from guidegen.render.classes.agenda import agenda_views, used_on
from guidegen.render.classes.before import hazard_views, touched_names
from guidegen.render.classes.pages import HANDOUT_PAGES, HandoutDensity, handout_html
from guidegen.render.pdf.finish import page_count
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.text.links import BookletLinks
from guidegen.render.text.living import guide_in_size
from guidegen.render.views.scene import Scene

ROOT = Path(__file__).parents[2]
NAMES = ("Robin", "Kim", "Alex", "Sam")
DAYS = (ClassDay(0, 65, "Saturday", frozenset({1})), ClassDay(1500, 1740, "Sunday"))


def _class(language: str, means: Means):
    """Four people of the demo's bracer, the first of them young."""
    opened = open_guide(ROOT / "content", "mooring-bracer", ROOT / "themes", language)
    content, file = opened.content, opened.file
    kit = whole_kit(file, content.stock, "M", words=content.words)
    times = plan_class_times(file.guide, content.stock, len(NAMES), means=means)
    people = tuple(Person(name, "M", name == "Robin") for name in NAMES)
    materials = MaterialsList((), (), (), 0.0, 0.0)
    plan = ClassPlan(people, materials, (), times, 30, HoursAdvice(0.0), start=540.0)
    guide = GuidePlan(
        replace(file, guide=guide_in_size(file.guide, kit, content.words)),
        (SizePlan(kit),),
        gather_cautions(file.guide, content.stock),
        plan_team(file.guide, content.stock, 1),
    )
    return opened, kit, plan, guide, draw_guide(guide, {}, content.stock, content.words, {})


def test_a_handout_of_the_demo_takes_one_sheet():
    """Nine steps with their cautions, pieces and hands to lend stand on two pages, in the language
    that takes more room, on two days with the break of one."""
    means = Means(young=frozenset({0}), days=DAYS, breaks=((40.0, 50.0),))
    opened, kit, plan, guide, pictures = _class("de", means)
    html = handout_html(
        opened.content, guide, plan, 0, kit, "a4", pictures, opened.theme, HandoutDensity.FLOWING
    )
    assert page_count(write_pdf(html, files=booklet_files(guide, pictures))) <= HANDOUT_PAGES


@pytest.fixture(scope="module")
def two_days():
    """Scene and plan of the class on two days."""
    opened, _, plan, guide, pictures = _class("", Means(days=DAYS))
    return Scene(opened.content, guide, pictures, BookletLinks(frozenset()), paper=True), plan


def test_days_of_the_leader(two_days):
    """On Saturday Kim is away; glue that dries until after its end is told in the evening with
    whose it is; the cord's nail varnish is for Sunday alone; cautions are said anew on each day."""
    scene, plan = two_days
    first, second = agenda_views(scene, plan)
    assert (first.away, second.away) == ("Not there: Kim.", "")
    assert first.name == "Saturday, 9:00 to 10:05" and second.night is None
    assert first.night is not None
    assert first.night.dries == (
        "step 10, Coat both faces with glue: Robin, Alex, and Sam, until Saturday, 10:30",
    )
    assert "Scissors" in first.night.stays and not first.night.goes_on
    assert used_on(scene, plan, "fray-glue") == "Sunday"
    assert used_on(scene, plan, "paper-scissors") == ""
    glue = "Wash hands afterwards"
    assert any(glue in line for row in first.rows for line in row.say)
    assert any(glue in line for row in second.rows for line in row.say)


def test_consent_names_what_people_meet(two_days):
    """Blades and dust are met by adults beforehand alone: no paper for people of the class has
    them; a notice about prints is no hazard."""
    scene, plan = two_days
    named = {item.id for item in hazard_views(scene, plan)}
    assert "flame-near-foam" in named
    assert not named & {"sharp-blade", "fine-dust", "true-scale"}
    assert touched_names(scene, plan) == ()
