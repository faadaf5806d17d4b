"""Papers of a class of the demo's workshop guide: how many pages, and what is on whose."""

from dataclasses import replace
from pathlib import Path

import pytest

from guidegen.app.jobs.opening import open_guide
from guidegen.app.measured.bodies import whole_kit
from guidegen.buildfile.derive.cautions import step_tools
from guidegen.layout.class_hours import ClassDay
from guidegen.layout.records import GuidePlan, MaterialsList, SizePlan, ToolLine
from guidegen.layout.times.class_records import ClassPlan, HoursAdvice, Means, Person, ToolCount
from guidegen.layout.times.class_times import plan_class_times
from guidegen.layout.times.plans import plan_team
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.compose import draw_guide
from guidegen.render.booklets.booklet import booklet_files
from guidegen.render.classes.agenda import agenda_views, used_on
from guidegen.render.classes.before import hazard_views, touched_names
from guidegen.render.classes.handout import slot_views
from guidegen.render.classes.pages import HANDOUT_PAGES, HandoutDensity, handout_html
from guidegen.render.classes.room import room_views
from guidegen.render.classes.views import hour_views
from guidegen.render.pdf.finish import page_count
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.text.links import BookletLinks
from guidegen.render.text.living import guide_in_size
from guidegen.render.views.scene import Scene, step_numbers

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
    whose it is; the fine brush of the paint is for Sunday alone; cautions are said anew on each day."""
    scene, plan = two_days
    first, second = agenda_views(scene, plan)
    assert (first.away, second.away) == ("Not there: Kim.", "")
    assert first.name == "Saturday, 9:00 to 10:05" and second.night is None
    assert first.night is not None
    assert first.night.dries == (
        "step 10, Coat both faces with glue: Robin, Alex, and Sam, until Saturday, 10:30",
    )
    assert "Scissors" in first.night.stays and not first.night.goes_on
    assert used_on(scene, plan, "brush-fine") == "Sunday"
    assert used_on(scene, plan, "paper-scissors") == ""
    glue = "Wash hands afterwards"
    assert any(glue in line for row in first.rows for line in row.say)
    assert any(glue in line for row in second.rows for line in row.say)


def test_what_is_left_after_the_class_has_no_time(two_days):
    """Of a class that would run on for more than two hours nothing is told by the clock that nobody
    is there for: it is left, in the table, on the handout under one heading with its time of work,
    and no hand is lent. A class that is over by less keeps its times, as people may stay."""
    scene, plan = two_days
    first = plan.times.slots[0]
    over = replace(plan, hours=(plan.times.end - 121) / 60)
    limit = over.hours * 60
    left = {slot.step for slot in over.times.slots if over.is_left(slot.start)}
    assert left and not over.is_left(first.start)
    clocks = {row.id: row.clock for row in hour_views(scene, over)}
    late = {step for step in clocks if over.times.span(step)[0] >= limit}
    assert {step for step, clock in clocks.items() if clock == "after the class"} == late
    for step, clock in clocks.items():
        start, end = over.times.span(step)
        assert ("from" in clock) is (start < limit < end)
    slots = slot_views(scene, over, 0, drawn=False)
    assert sum(slot.left for slot in slots) == 1
    at = [slot.left for slot in slots].index(True)
    assert all(":" in slot.clock for slot in slots[:at])
    assert all(slot.clock.endswith(("min", " h")) and not slot.helped for slot in slots[at:])
    last = agenda_views(scene, over)[-1]
    assert not {row.number for row in last.rows} & {
        number for step, number in step_numbers(scene.guide).items() if step in late
    }
    # Over before anybody paints: the brush is for what is left, scissors are used before that too.
    stock = scene.content.stock
    painting = [step.id for step in scene.guide.steps if "brush-fine" in step_tools(step, stock)]
    unpainted = replace(plan, hours=min(plan.times.span(step)[0] for step in painting) / 60)
    assert unpainted.runs_on
    assert used_on(scene, unpainted, "brush-fine") == "after the class"
    assert used_on(scene, unpainted, "paper-scissors") != "after the class"
    less = replace(plan, hours=(plan.times.end - 119) / 60)
    assert not less.runs_on
    assert all(":" in row.clock for row in hour_views(scene, less))


def test_who_is_away_on_the_last_day_has_nothing_to_do_after_it():
    """Kim, away on Sunday, would go on when Sunday's class is over: that is left as well, although
    the class is over by less than people stay."""
    days = (DAYS[0], replace(DAYS[1], end=1600.0, away=frozenset({1})))
    opened, _, plan, guide, pictures = _class("", Means(days=days))
    scene = Scene(opened.content, guide, pictures, BookletLinks(frozenset()), paper=True)
    plan = replace(plan, hours=(plan.times.end - 60) / 60)
    limit = plan.hours * 60
    assert not plan.runs_on
    kim = [slot for slot in slot_views(scene, plan, 1, drawn=False) if slot.left]
    sam = [slot for slot in slot_views(scene, plan, 3, drawn=False) if slot.left]
    assert any(slot.kit == 1 and slot.start >= limit for slot in plan.times.slots)
    assert (len(kim), len(sam)) == (1, 0)


def test_sockets_are_counted_for_all_guns_that_are_used():
    """Three guns at hand for four people, where the class would have one: three sockets."""
    opened = open_guide(ROOT / "content", "tide-herald", ROOT / "themes")
    content, file = opened.content, opened.file
    times = plan_class_times(file.guide, content.stock, 4, means=Means({"heat-gun": 3}))
    gun = ToolCount(ToolLine("heat-gun", "Heat gun", protective=False, steps=()), 1, 6, 3)
    materials = MaterialsList((), (), (), 0.0, 0.0)
    people = tuple(Person(name, "M") for name in NAMES)
    plan = ClassPlan(people, materials, (gun,), times, 30, HoursAdvice(0.0))
    cautions = gather_cautions(file.guide, content.stock)
    guide = GuidePlan(file, (), cautions, plan_team(file.guide, content.stock, 1))
    pictures = draw_guide(guide, {}, content.stock, content.words, {})
    scene = Scene(content, guide, pictures, BookletLinks(frozenset()), paper=True)
    (sockets,) = [room for room in room_views(scene, plan) if room.name == "Sockets"]
    assert sockets.words.startswith("3\N{NO-BREAK SPACE}sockets")


def test_consent_names_what_people_meet(two_days):
    """Blades and dust are met by adults beforehand alone: no paper for people of the class has
    them; a notice about prints is no hazard."""
    scene, plan = two_days
    named = {item.id for item in hazard_views(scene, plan)}
    assert "flame-near-foam" in named
    assert not named & {"sharp-blade", "fine-dust", "true-scale"}
    assert touched_names(scene, plan) == ()
