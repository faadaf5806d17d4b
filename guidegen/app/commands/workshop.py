"""A class of people in → lists, a time table, leader's sheets, cards and handouts, in a folder."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from guidegen.app.commands.people.clock import when_told
from guidegen.app.commands.people.given import (
    INSIST,
    brought_words,
    class_means,
    names_of,
    people_from,
    size_and_count,
    with_beforehand,
)
from guidegen.app.commands.people.when import WhenTold
from guidegen.app.jobs.class_files import ClassWork, make_class_files
from guidegen.app.jobs.opening import open_guide
from guidegen.app.measured.bodies import MADE, judge_body, on_hand_from, stop_on_errors, whole_kit
from guidegen.app.workers.local import local_pool
from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.people.class_days import MOST_DAYS
from guidegen.buildfile.read.people.listed import MOST_PEOPLE, Listed
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.errors import UsageError
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.buying.left_in_tools import Wetters
from guidegen.layout.buying.materials import list_for_all
from guidegen.layout.buying.on_hand import offcut_sheets
from guidegen.layout.buying.shops import with_shops
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.nesting.stored_plans import parse_plans, plans_text
from guidegen.layout.records import MaterialsList
from guidegen.layout.times.class_beside import plan_before, plan_missing, plan_own_room
from guidegen.layout.times.class_plan import (
    count_tools,
    count_tools_before,
    join_kits,
    people_of,
)
from guidegen.layout.times.class_records import SHORTER, ClassPlan, Gain, GainKind, Means, Person
from guidegen.layout.times.class_times import advise_hours, plan_class_times
from guidegen.layout.times.plans import marked_beforehand
from guidegen.problems import collect, did_you_mean
from guidegen.progress import Reporter
from guidegen.quantities import duration_words, money_words, spent_words
from guidegen.render.classes.names import HANDOUT
from guidegen.render.text.class_names import minute_words
from guidegen.words import ENGLISH
from guidegen.write.plans import load_plans
from guidegen.write.staging import staging

SEVERAL = 6
"""People from which on several processes make papers: each takes seconds to begin. Our choice."""
MOST_ROOMS = 9
"""Our choice: two are as many as the plan makes use of."""
CUT_PLANS = "cut-plans.json"
"""How all pieces lie on their sheets: read again, so that a class keeps its plans."""
MOST_TOLD = 8
"""Steps that the closing words name. Our choice: a line or two."""


@dataclass(frozen=True)
class ClassOptions:
    """Who builds what, for how long, and where to."""

    content: Path
    themes: Path
    out: Path
    guide: str
    people: Path | None = None
    """YAML file of names with sizes or measurements."""
    counts: tuple[str, ...] = ()
    """Options such as M=5."""
    tools: tuple[str, ...] = ()
    """Options such as heat-gun=2."""
    beforehand: tuple[str, ...] = ()
    """Steps that are done before the class, beside those that the guide marks."""
    helpers: int = 0
    """Adults who help, the leader not counted."""
    rooms: int = 1
    """With a door between them."""
    when: WhenTold = field(default_factory=WhenTold)
    """Hours, start, end, breaks and days."""
    paper: str = ""
    """Of the site's papers; empty for the first."""
    have: Path | None = None
    """YAML file of offcuts and materials that are there already."""
    sure: bool = False
    """Go on although a measurement looks wrong."""
    sure_of: tuple[str, ...] = ()
    """Names of people whose measurements are right although they look wrong."""
    nesting_seconds: float = 4.0
    language: str = ""
    """Of the documents; empty for the site's own."""


@dataclass(frozen=True)
class ClassResult:
    """What was made for a class."""

    out: Path
    files: tuple[str, ...]
    plan: ClassPlan
    currency: str
    doubts: tuple[str, ...] = ()
    """Measurements that looked wrong and were taken as they are."""

    def summary(self) -> str:
        """The closing words."""
        plan = self.plan
        end, over = duration_words(plan.times.end, ENGLISH), plan.advice.over
        days = len(plan.times.class_days)
        length = f"{days} days" if days else f"{plan.hours:g} h"
        fits = f"fits in {length}"
        if over:
            fits = f"{duration_words(over, ENGLISH)} more than the {length} of the workshop"
        took = f"{end} in the room"
        if days:
            took = f"ends on {minute_words(plan, plan.times.end, ENGLISH)}"
        cost = spent_words(plan.materials.cost, plan.materials.unpriced, self.currency, ENGLISH)
        head = money_words(plan.per_head, self.currency, ENGLISH)
        handouts = [name for name in self.files if name.startswith(HANDOUT)]
        templates = [name for name in self.files if name.startswith("templates-")]
        named = [name for name in self.files if name not in {*handouts, *templates}]
        lines = [
            f"class of {len(plan.people)} in {self.out}: {', '.join(named)}, "
            f"{len(handouts)} handouts, {len(templates)} sets of templates",
            f"{cost} in all, {head} for each",
            f"{took}, drying and turns with shared tools included: {fits}",
        ]
        if over and plan.advice.left:
            more = len(plan.advice.left) - MOST_TOLD
            told = [*plan.advice.left[:MOST_TOLD], *([f"{more} more"] if more > 0 else [])]
            lines.append(f"left for home, or to skip: {', '.join(told)}")
        if plan.advice.days == 0:
            lines.append(
                f"nor does it fit on {MOST_DAYS} days of these hours: a smaller guide would"
            )
        if plan.advice.days:
            lines.append(f"{plan.advice.days} days of these hours would do: --day, --days")
        lines += [_gain_words(gain) for gain in plan.advice.gains]
        lines += [f"taken as it is: {doubt}" for doubt in self.doubts]
        return "\n".join(lines)


def _gain_words(gain: Gain) -> str:
    what = {
        GainKind.TOOL: f"one more of {gain.name}",
        GainKind.STEP: f"{gain.name} beforehand",
        GainKind.BREAK: f"break {gain.name} {SHORTER:g} min shorter",
        GainKind.HELPER: "one more adult who helps",
    }[gain.kind]
    fits = ", and it fits" if gain.fits else ""
    return f"{what}: {duration_words(gain.minutes, ENGLISH)} less{fits}"


@dataclass
class _Makers:
    """Everybody with a kit and the numbers of its arithmetic."""

    people: list[Person] = field(default_factory=list)
    kits: list[Kit] = field(default_factory=list)
    names: list[Mapping[str, float]] = field(default_factory=list)


def plan_class(options: ClassOptions, progress: Reporter) -> ClassResult:
    """Write lists, documents and cut plans of a class.

    Raises ContentError for content or people that are wrong, or pieces that fit no sheet;
    UsageError for unknown guides, sizes of options, and papers.
    """
    opened = open_guide(options.content, options.guide, options.themes, options.language)
    content, file = opened.content, with_beforehand(opened.file, options.beforehand)
    paper = _paper(options.paper, content)
    listed, doubts = _people(options, file)
    when = when_told(options.when, [one.name for one in listed])
    means = class_means(options.tools, options.helpers, listed, when, file.guide, content.stock)
    if not 1 <= options.rooms <= MOST_ROOMS:
        raise UsageError(f"--rooms {options.rooms}: expected a number from 1 to {MOST_ROOMS}")
    means = replace(means, rooms=options.rooms)
    on_hand = on_hand_from(options.have, content.stock)
    makers = _makers(content, file, listed)
    joined = join_kits(makers.kits)
    progress.stage("planning", 1)
    kept, unread = parse_plans(load_plans(options.out / CUT_PLANS), CUT_PLANS)
    cut_plans, found, problems = plan_cuts(
        joined,
        content.stock,
        stored=kept,
        seconds=options.nesting_seconds,
        solve=options.nesting_seconds > 0,
        source=file.source,
        offcuts=offcut_sheets(on_hand, content.words),
    )
    stop_on_errors([*unread, *problems])
    progress.step("class")
    pairs = tuple(zip(makers.kits, makers.names, strict=True))
    before = frozenset(marked_beforehand(file.guide))
    wetters = Wetters(len(pairs), 1 + means.helpers, before, means.tools)
    materials = list_for_all(
        file.guide, content.stock, pairs, cut_plans, content.words, on_hand, wetters
    )
    materials = with_shops(materials, content.stock, content.site.shops)
    plan = _plan(file.guide, content.stock, makers.people, materials, means, when.hours)
    plan = replace(plan, cut_plans=cut_plans)
    work = ClassWork(content, file, plan, tuple(makers.kits), joined, paper, opened.theme)
    with staging(options.out) as stage:
        with local_pool(0 if len(makers.people) >= SEVERAL else 1) as pool:
            files = make_class_files(work, pool, progress)
        files |= {CUT_PLANS: plans_text(found).encode()}
        for name, data in files.items():
            stage.write(name, data)
    return ClassResult(options.out, tuple(files), plan, content.site.currency, doubts)


def _plan(  # noqa: PLR0917 - a class and what it has
    guide: Guide,
    stock: Stock,
    people: list[Person],
    materials: MaterialsList,
    means: Means,
    hours: float,
) -> ClassPlan:
    """Times, tools and advice."""
    sets = len({person.size or number for number, person in enumerate(people)})
    times = plan_class_times(guide, stock, len(people), means=means)
    before = times.beforehand
    busy = {hand for slot in times.slots for hand in slot.hands}
    more = len(busy) - len(busy & set(range(len(people))))
    return ClassPlan(
        tuple(people),
        materials,
        count_tools(materials.tools, stock, len(people), means, before, adults=more),
        times,
        hours,
        advise_hours(guide, stock, times, hours, means),
        before_tools=count_tools_before(materials.tools, stock, means, before),
        start=means.start,
        helpers=means.helpers,
        own_room=plan_own_room(guide, stock, before, means),
        before=plan_before(guide, len(people), before, means, sets),
        missing=plan_missing(guide, stock, len(people), before, means, hours),
    )


def _paper(name: str, content: Content) -> str:
    papers = content.site.papers
    if name and name not in papers:
        raise UsageError(f'the site has no paper "{name}"{did_you_mean(name, papers)}')
    return name or papers[0]


def _people(
    options: ClassOptions, file: GuideFile
) -> tuple[list[Listed | Person], tuple[str, ...]]:
    """Those of the file, then those of the options; and doubts about bodies that are waived."""
    found: list[Listed | Person] = []
    doubts: list[str] = []
    if options.people is not None:
        people, problems = collect(people_from(options.people, file))
        sure_of = names_of(options.sure_of, people) if not problems else frozenset()
        for one in people:
            if one.body:
                wrong, waived = judge_body(
                    file,
                    one.body,
                    one.place,
                    sure=options.sure or one.name in sure_of,
                    insist=INSIST,
                )
                problems += wrong
                doubts += [f"{one.name}, {doubt}" for doubt in waived]
        stop_on_errors(problems)
        found += people
    found += people_of([size_and_count(option, file.size_names()) for option in options.counts])
    if not found:
        raise UsageError("tell who takes part: --people FILE.yaml, or --count M=5")
    if len(found) > MOST_PEOPLE:
        raise UsageError(f"{len(found)} people are too many for one class; at most {MOST_PEOPLE}")
    return found, tuple(doubts)


def _makers(content: Content, file: GuideFile, listed: list[Listed | Person]) -> _Makers:
    """Kit and numbers of everybody; those of one size share a kit. Raises ContentError."""
    makers = _Makers()
    known: dict[str, tuple[Kit, Mapping[str, float]]] = {}
    for number, one in enumerate(listed, 1):
        body = one.body if isinstance(one, Listed) and one.body else None
        key = one.size if body is None else f"{MADE}-{number}"
        if key not in known:
            place = one.place if isinstance(one, Listed) else None
            kit = whole_kit(file, content.stock, key, body, words=content.words, place=place)
            known[key] = (kit, {**size_numbers(file, key, body)[0].names(), **kit.names()})
        brings = brought_words(one.brings, content.stock) if isinstance(one, Listed) else ()
        makers.people.append(Person(one.name, one.size, one.young, brings))
        makers.kits.append(known[key][0])
        makers.names.append(known[key][1])
    return makers
