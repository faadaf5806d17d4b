"""A hazard that anything brings to any step stands before the action, wherever the step is read.

Safety messages precede the step to which they apply: MIL-STD-2106A(SH), appendix B ("Safety
WARNINGS and CAUTIONS shall precede the step or steps to which they apply"); embedded messages of
ANSI Z535.6 belong to their step (from secondary sources; the standard was not read).
"""

import csv
import io
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import pypdfium2
import pytest
from demo_content import read_demo
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from render.html_reader import Page
from samples import GUIDE, changed, write_content

from guidegen.app.jobs.guides import gather_plan, plan_size
from guidegen.buildfile.derive.caution_places import builder_cautions, in_one_line
from guidegen.buildfile.derive.cautions import GRAVITY, step_cautions
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.read.theme import read_theme
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.safety.cautions import Caution, SignalWord
from guidegen.buildfile.records.stock import Stock
from guidegen.documents import Edition
from guidegen.geometry.pieces.kit import make_kit
from guidegen.layout.records import GuidePlan
from guidegen.layout.times.class_records import ClassPlan, HoursAdvice, Person
from guidegen.layout.times.class_times import plan_class_times
from guidegen.layout.times.plans import plan_time
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.compose import draw_guide, draw_size
from guidegen.pictures.records import GuidePictures
from guidegen.render.booklets.booklet import booklet_files, booklet_html
from guidegen.render.booklets.editions import edition_files
from guidegen.render.classes.pages import handout_html
from guidegen.render.lists.class_csv import class_csv
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.site.pages import render_guide
from guidegen.render.text.templates_engine import Theme
from guidegen.words import ENGLISH

ROOT = Path(__file__).parent.parent
DEMO = read_demo().stock
TOOLS = sorted(name for name, tool in DEMO.tools.items() if tool.cautions)
"""Tools of the demo's stock that bring a hazard."""
MATERIALS = sorted(
    name for name, entry in DEMO.materials.items() if entry.cautions and entry.kind == "liquid"
)
PROCESSES = sorted(name for name, process in DEMO.processes.items() if process.cautions)
STEPS = ("cut", "bend", "glue", "paint")
THEME = Theme("workshop", read_theme(ROOT / "themes", "workshop"))


@dataclass(frozen=True, repr=False)
class Made:
    """The sample, planned and drawn once, with all of the demo's hazards in its stock."""

    content: Content
    plan: GuidePlan
    pictures: GuidePictures

    def with_guide(self, guide: Guide, stock: Stock | None = None) -> "Made":
        """The same with other steps or another stock: what hangs on them is worked out again."""
        stock = stock or self.content.stock
        file = replace(self.plan.file, guide=guide)
        plan = replace(
            self.plan,
            file=file,
            cautions=gather_cautions(guide, stock),
            time_line=plan_time(guide, stock),
        )
        content = replace(self.content, stock=stock, guides=(file,))
        return replace(self, content=content, plan=plan)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    """The sample in one size."""
    one_size = changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", "")
    content = read_content(write_content(tmp_path_factory.mktemp("content"), guide=one_size))
    stock = content.stock.model_copy(
        update={
            key: {**getattr(DEMO, key), **getattr(content.stock, key)}
            for key in ("tools", "materials", "processes", "cautions", "terms")
        }
    )
    content = replace(content, stock=stock)
    (file,) = content.guides
    kit, problems = make_kit(file, stock, "M")
    assert kit is not None and not problems
    size = plan_size(content, file, kit, "", 0.0).plan
    plan = gather_plan(content, file, (size,))
    drawn = draw_guide(plan, {"M": draw_size(size, file.guide, stock, ENGLISH)}, stock, ENGLISH)
    return Made(content, plan, drawn)


def plain(text: str) -> str:
    """Words with single ordinary spaces."""
    return " ".join(text.replace("\u00a0", " ").replace("\u202f", " ").split())


STAGE, STEP, NAMED = "\ue002", "\ue000", "\ue001"
"""Marks of a stage, of a step, and of the end of its name, in the words of a page."""


def marked(html: str) -> str:
    """The words of a page, with a mark where each stage and each step begins."""
    body = re.sub(r'(<section class="stage"[^>]*>)', f"\\1{STAGE}", html)
    body = re.sub(r'(<article[^>]*\bid="step-([a-z0-9-]+)"[^>]*>)', f"\\1{STEP}\\2{NAMED}", body)
    return plain(Page(body).text)


def check_step(page: str, step: Step, stock: Stock) -> None:
    """Every caution of a step stands in it before its instruction, gravest first: in one line, or in
    full; what is one line stands in full before it in the same stage (on a sheet that has no stages,
    on the sheet)."""
    start = page.index(f"{STEP}{step.id}{NAMED}")
    action = page.index(plain(step.text), start)
    before, within = page[:start].rpartition(STAGE)[2], page[start:action]
    places = []
    for name in builder_cautions(step, stock):
        caution = stock.cautions[name]
        line = in_one_line(caution)
        parts = (
            (caution.short or "",)
            if line
            else (caution.title, caution.hazard, caution.consequence, caution.avoid)
        )
        at = [within.index(plain(part)) for part in parts]
        assert at == sorted(at)
        assert str(caution.word) in within[: at[0]]
        places.append(at[0])
        if line:
            whole = [plain(part) for part in (caution.title, caution.hazard, caution.avoid)]
            found = [before.index(part) for part in whole]
            assert found == sorted(found)
            assert str(caution.word) in before[: found[0]]
    ranks = sorted(zip(places, map(gravity_of(stock), builder_cautions(step, stock)), strict=True))
    assert [rank for _, rank in ranks] == sorted(rank for _, rank in ranks)


def gravity_of(stock: Stock) -> Callable[[str], tuple[bool, int]]:
    """Order of the cautions of a step: those in full first, then by signal word."""
    return lambda name: (in_one_line(stock.cautions[name]), GRAVITY[stock.cautions[name].word])


def brought(step: Step, stock: Stock) -> set[str]:
    """All cautions that anything in a step brings, worked out apart from the program."""
    process = stock.processes[step.process] if step.process else None
    tools = [*step.tools, *(process.tools if process else ())]
    found = {caution for tool in tools for caution in stock.tools[tool].cautions}
    found |= {caution for use in step.uses for caution in stock.materials[use.material].cautions}
    found |= set(step.cautions) | set(process.cautions if process else ())
    return found


SOURCES = st.one_of(
    st.sampled_from(TOOLS).map(lambda name: ("tools", name)),
    st.sampled_from(MATERIALS).map(lambda name: ("uses", name)),
    st.sampled_from(PROCESSES).map(lambda name: ("process", name)),
    st.sampled_from(sorted(DEMO.cautions)).map(lambda name: ("cautions", name)),
)
"""A tool, a material, a kind of work or a caution of the author's own."""


def with_sources(guide: Guide, added: dict[str, list[tuple[str, str]]]) -> Guide:
    """The guide with more hazards in some steps."""
    steps = []
    for step in guide.steps:
        values = step.model_dump(by_alias=True, exclude_unset=True)
        for key, name in added.get(step.id, ()):
            if key == "process":
                values[key] = name
            elif key == "uses":
                values[key] = (*values.get(key, ()), {"material": name, "amount": 1})
            else:
                values[key] = (*values.get(key, ()), name)
        steps.append(Step.model_validate(values))
    return guide.model_copy(update={"steps": tuple(steps)})


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(added=st.dictionaries(st.sampled_from(STEPS), st.lists(SOURCES, min_size=1, max_size=4), min_size=1))  # fmt: skip
def test_any_hazard_reaches_any_step(made, added):
    """Whatever brings a hazard to whichever step: data, site, booklet, handout and class list have it,
    before the action, gravest first."""
    guide = with_sources(made.plan.file.guide, added)
    here = made.with_guide(guide)
    stock = here.content.stock
    steps = guide.steps
    by_step = {found.step: found for found in here.plan.cautions}
    for step in steps:
        assert set(by_step[step.id].cautions) == brought(step, stock)
        ranks = [GRAVITY[stock.cautions[name].word] for name in by_step[step.id].cautions]
        assert ranks == sorted(ranks)
    site = render_guide(here.content, here.plan, here.pictures, THEME, {})
    page = marked(site["cuff/steps.html"].decode())
    booklet = booklet_html(
        here.content, here.plan, "M", ("a4",), pictures=here.pictures, theme=THEME
    )
    paper, at_table = marked(booklet), marked(handout(here, "a4"))
    for step in steps:
        for document in (page, paper, at_table):
            check_step(document, step, stock)
    safety = plain(Page(site["cuff/safety.html"].decode()).text)
    for name in {name for found in here.plan.cautions for name in found.cautions}:
        caution = stock.cautions[name]
        for part in (caution.hazard, caution.consequence, caution.avoid, caution.first_aid or ""):
            assert plain(part) in safety
    check_class_list(here)


def class_of_one(here: Made) -> ClassPlan:
    """A class of one person on the sample."""
    plan = here.plan
    times = plan_class_times(plan.file.guide, here.content.stock, 1)
    materials = plan.sizes[0].materials
    return ClassPlan((Person("A", "M"),), materials, (), times, 3.0, HoursAdvice(0.0))


def handout(here: Made, paper: str) -> str:
    """The handout of that person."""
    return handout_html(
        here.content, here.plan, class_of_one(here), 0, here.plan.kits[0], paper,
        here.pictures, THEME,
    )  # fmt: skip


def check_class_list(here: Made) -> None:
    """In a class's list the cautions of a step are the rows right before it."""
    plan = here.plan
    given_class = class_of_one(here)
    data = class_csv(
        given_class, plan.file.guide, here.content.stock, "EUR", here.content.words
    ).decode("utf-8-sig")
    rows = [*csv.DictReader(io.StringIO(data))]
    titles = {step.title: step for step in plan.file.guide.steps}
    waiting: list[str] = []
    seen = 0
    for row in rows:
        if row["section"] == "caution":
            waiting.append(row["note"])
        elif row["section"] == "step":
            step = titles[row["name"]]
            found = [
                here.content.stock.cautions[n] for n in step_cautions(step, here.content.stock)
            ]
            assert waiting == [f"{c.hazard} {c.consequence} {c.avoid}" for c in found]
            waiting, seen = [], seen + 1
    assert seen == len(titles)


WORDS = st.text("abcdefghij äß<&\"'%é", min_size=3, max_size=40).map(str.strip).filter(bool)


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    hazards=st.lists(
        st.tuples(st.sampled_from(list(SignalWord)), WORDS, WORDS, WORDS, WORDS),
        min_size=1,
        max_size=7,
    ),
    step=st.sampled_from(STEPS),
)
def test_any_caution_of_a_tool_is_read_first(made, hazards, step):
    """Cautions in any number and in any words come with a tool, and none is lost."""
    cautions = {
        f"own-{n}": Caution(
            word=word,
            title=f"Title{n}: {title}",
            hazard=f"Hazard{n}: {hazard}",
            consequence=f"Consequence{n}: {consequence}",
            avoid=f"Avoid{n}: {avoid}",
            short=f"Short{n}: {title}" if n % 2 else None,
        )
        for n, (word, title, hazard, consequence, avoid) in enumerate(hazards)
    }
    stock = made.content.stock
    tool = stock.tools["knife"].model_copy(update={"cautions": tuple(cautions)})
    stock = stock.model_copy(
        update={
            "cautions": {**stock.cautions, **cautions},
            "tools": {**stock.tools, "thing": tool},
        }
    )
    guide = with_sources(made.plan.file.guide, {step: [("tools", "thing")]})
    here = made.with_guide(guide, stock)
    site = render_guide(here.content, here.plan, here.pictures, THEME, {})
    page = marked(site["cuff/steps.html"].decode())
    (changed_step,) = [one for one in guide.steps if one.id == step]
    check_step(page, changed_step, stock)
    assert set(cautions) <= set(here.plan.cautions[STEPS.index(step)].cautions)


def test_a_bench_card_is_one_page_however_much_can_hurt(made):
    """With five times as many hazards as the demo knows the card is still one page: the gravest stand
    on it, none is cut through, and how many more there are is said."""
    stock = made.content.stock
    many = {
        f"{name}-{n}": caution.model_copy(update={"title": f"{caution.title} {n}"})
        for name, caution in DEMO.cautions.items()
        for n in range(5)
    }
    stock = stock.model_copy(update={"cautions": stock.cautions | many})
    first, *others = made.plan.file.guide.steps
    first = first.model_copy(update={"cautions": (*first.cautions, *many)})
    guide = made.plan.file.guide.model_copy(update={"steps": (first, *others)})
    here = made.with_guide(guide, stock)
    site = here.content.site.model_copy(
        update={"editions": (Edition.BENCH_CARD,), "papers": ("a4",)}
    )
    content = replace(here.content, site=site)
    (card,) = edition_files(content, here.plan, "M", here.pictures, THEME)
    with pypdfium2.PdfDocument(card.data) as document:
        (page,) = document
        words = plain(page.get_textpage().get_text_range())
    grave = [one for one in many.values() if one.word is SignalWord.DANGER]
    assert all(plain(one.short or one.title) in words for one in grave)
    assert re.search(r"\d+ more hazards stand in the booklet", words)


def test_every_hazardous_tool_on_paper(made):
    """In the printed booklet and on the handout of a class the cautions of every tool stand on the page of its action, and
    before it, as the text is extracted from the PDF: in one line or in full."""
    first = made.plan.file.guide.steps[0]
    steps = tuple(
        first.model_copy(
            update={
                "id": f"use-{tool}",
                "title": f"Use thing {n}",
                "process": None,
                "tools": (tool,),
                "text": f"Now take thing {n} and use it.",
            }
        )
        for n, tool in enumerate(TOOLS)
    )
    here = made.with_guide(made.plan.file.guide.model_copy(update={"steps": steps}))
    html = booklet_html(
        here.content, here.plan, "M", ("a4", "letter"), pictures=here.pictures, theme=THEME
    )
    for document in (html, handout(here, "letter")):
        check_paper(document, here, steps)


def check_paper(html: str, here: Made, steps: tuple[Step, ...]) -> None:
    """In the pages of a document all cautions of a step stand on its page, before its action."""
    data = write_pdf(html, files=booklet_files(here.plan, here.pictures), variant="pdf/ua-1")
    with pypdfium2.PdfDocument(data) as document:
        pages = [
            plain(page.get_textpage().get_text_range().replace("\ufffe", "-")) for page in document
        ]
    for step in steps:
        (page,) = [text for text in pages if step.text in text]
        end = page.index(step.text)
        start = max(
            (page.find(other.text) for other in steps if page.find(other.text) < end), default=0
        )
        before = page[max(start, 0) : end]
        for name in builder_cautions(step, here.content.stock):
            caution = here.content.stock.cautions[name]
            said = caution.short if in_one_line(caution) else caution.hazard
            assert str(caution.word) in before[: before.rindex(plain(said or ""))]
