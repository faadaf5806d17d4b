"""Options of the class command that are pairs, in → what they say, checked."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from guidegen.app.commands.people.clock import When
from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.people.listed import MOST_PEOPLE, Listed, read_people
from guidegen.buildfile.read.people.table import PeopleTerms, read_people_table
from guidegen.buildfile.read.people.workbook import read_people_workbook
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.errors import UsageError
from guidegen.layout.times.class_records import Means, Person
from guidegen.layout.times.class_times import adults_there, lacking_before, too_few_adults
from guidegen.layout.times.plans import marked_beforehand
from guidegen.layout.times.scheduler import Crew
from guidegen.problems import Checked, did_you_mean
from guidegen.words import msg

MOST_TOOLS = 1000
"""Of one tool. Our choice: more than any class has."""


def tools_there(options: Iterable[str], guide: Guide, stock: Stock) -> Mapping[str, int]:
    """How many there are of some tools, from options such as heat-gun=2.

    A tool that the guide has no use for is no mistake: a leader may tell what the room has.
    Raises UsageError for tools that the stock lacks, and numbers that are none.
    """
    found: dict[str, int] = {}
    # Those of the guide first: of names that are equally near, one of them is meant.
    used = dict.fromkeys(tool for step in guide.steps for tool in step_tools(step, stock))
    known = list(dict.fromkeys([*used, *stock.tools]))
    for option in options:
        name, number = _pair(option, "--tools", "a tool and how many, such as heat-gun=2")
        if number > MOST_TOOLS:
            raise UsageError(f"--tools {option}: expected a number from 0 to {MOST_TOOLS}")
        if name not in stock.tools:
            raise UsageError(f'--tools: there is no tool "{name}"{_nearest(name, known)}')
        if name in found:
            raise UsageError(f"--tools: {name} is told twice")
        found[name] = number
    return found


def class_means(  # noqa: PLR0917 - a class and what it has
    tools: Iterable[str],
    helpers: int,
    people: Sequence[Listed | Person],
    when: When,
    guide: Guide,
    stock: Stock,
) -> Means:
    """What a class has to work with, and when.

    Raises UsageError for tools and numbers that are none, and where a step takes more adults than
    there are: nobody young is ever planned for it, so nobody could do it.
    """
    if not 0 <= helpers <= MOST_PEOPLE:
        raise UsageError(f"--helpers {helpers}: expected a number from 0 to {MOST_PEOPLE}")
    young = frozenset(number for number, one in enumerate(people) if one.young)
    counts = dict(tools_there(tools, guide, stock))
    for one in people:
        for thing in one.brings if isinstance(one, Listed) else ():
            tool, count = brought_tool(thing, stock)
            # Of a tool of which nobody has said how many there are it says nothing.
            if tool in counts:
                counts[tool] += count
    means = Means(
        counts,
        young,
        helpers,
        when.breaks,
        when.start,
        days=when.days,
        end=when.hours * 60,
    )
    _stop_on_none(means, guide, stock)
    lacking = too_few_adults(guide, stock, len(people), means)
    if lacking:
        there = adults_there(Crew(len(people), helpers, young), means)
        told = ", ".join(f"{step} ({most})" for step, most in lacking.items())
        raise UsageError(
            f"steps for adults take more of them at once than there are, {there} with the leader: "
            f"{told}; ask more to help: --helpers {helpers + max(lacking.values()) - there}"
        )
    return means


def _stop_on_none(means: Means, guide: Guide, stock: Stock) -> None:
    """Raise UsageError where there is none of a tool that steps in the room take."""
    for name in (name for name, count in means.tools.items() if not count):
        taking = [
            step.id
            for step in guide.steps
            if not step.beforehand and name in step_tools(step, stock)
        ]
        if taking:
            told = ", ".join(taking)
            raise UsageError(
                f"--tools {name}=0: these steps of the class take one: {told}; bring one, or do "
                f"them beforehand with another: --beforehand {taking[0]}"
            )


def with_beforehand(file: GuideFile, names: Sequence[str]) -> GuideFile:
    """The guide with further steps marked as done before the class.

    Raises UsageError for steps that the guide lacks, and for those that need others first.
    """
    guide = file.guide
    known = [step.id for step in guide.steps]
    for name in names:
        if name not in known:
            raise UsageError(f'--beforehand: there is no step "{name}"{did_you_mean(name, known)}')
    before = {*marked_beforehand(guide), *names}
    for step in guide.steps:
        if step.id in names and (first := lacking_before(guide, step, before)):
            raise UsageError(
                f"--beforehand {step.id}: these steps come before it: {', '.join(first)}; do them "
                "beforehand as well"
            )
    steps = tuple(
        step.model_copy(update={"beforehand": True}) if step.id in names else step
        for step in guide.steps
    )
    return replace(file, guide=guide.model_copy(update={"steps": steps}))


def brought_tool(thing: str, stock: Stock) -> tuple[str, int]:
    """Tool and number of a thing such as craft-knife=2 or 'Heat gun'; no tool, and 0, else."""
    name, _, number = thing.partition("=")
    digits = number.strip()[:4]
    count = int(digits) if digits.isascii() and digits.isdigit() else 1
    wanted = name.strip().lower()
    for key, tool in stock.tools.items():
        if wanted in {key.lower(), tool.name.lower()}:
            return key, min(count, MOST_TOOLS)
    return "", 0


def brought_words(things: Iterable[str], stock: Stock) -> tuple[str, ...]:
    """What somebody brings, in words: '2 × Craft knife', or as it was told."""
    found = []
    for thing in things:
        tool, count = brought_tool(thing, stock)
        name = stock.tools[tool].name if tool else thing
        found.append(f"{count} × {name}" if count > 1 else name)
    return tuple(found)


INSIST = msg("add --sure NAME")
"""How a leader says that a measurement is right: for this person alone."""
WORKBOOKS = {".xls", ".ods"}
"""Of these the table is to be saved as CSV or .xlsx."""


def people_from(path: Path, file: GuideFile) -> Checked[list[Listed]]:
    """People of a table or of a file of names, by its ending. Raises UsageError for workbooks."""
    ending = path.suffix.lower()
    if ending in WORKBOOKS:
        raise UsageError(f"--people {path}: such workbooks are not read; save it as .xlsx or CSV")
    guide = file.guide
    if ending not in {".xlsx", ".csv", ".tsv"}:
        people = yield from read_people(path, file.size_names())
    else:
        read = read_people_workbook if ending == ".xlsx" else read_people_table
        called = {key: one.name for key, one in guide.measurements.items()}
        terms = PeopleTerms(file.size_names(), [*guide.measurements, *guide.sides], called)
        people = yield from read(path, terms)
    return [replace(one, body=_on_both_sides(one.body, guide)) for one in people]


def _on_both_sides(body: Mapping[str, float], guide: Guide) -> Mapping[str, float]:
    """Measurements with one length for left and right said for each side, as sizes may say them.

    What is told of a side itself stands.
    """
    both = {
        side: body[name] for name, sides in guide.sides.items() if name in body for side in sides
    }
    return {**both, **{name: value for name, value in body.items() if name not in guide.sides}}


def names_of(names: Iterable[str], people: Iterable[Listed]) -> frozenset[str]:
    """Names of --sure, as they stand in the file. Raises UsageError for names of nobody."""
    known = [one.name for one in people]
    for name in names:
        if name not in known:
            raise UsageError(f'--sure: nobody is called "{name}"{did_you_mean(name, known)}')
    return frozenset(names)


def size_and_count(option: str, sizes: Iterable[str]) -> tuple[str, int]:
    """Size and number of people, from an option such as M=5. Raises UsageError."""
    expected = f"a size and how many, such as M=5, at most {MOST_PEOPLE}"
    size, number = _pair(option, "--count", expected)
    if not 0 < number <= MOST_PEOPLE:
        raise UsageError(f"--count {option}: expected {expected}")
    names = list(sizes)
    if size not in names:
        raise UsageError(f'--count: there is no size "{size}"{did_you_mean(size, names)}')
    return size, number


def _pair(option: str, flag: str, expected: str) -> tuple[str, int]:
    name, _, number = option.partition("=")
    # Digits of other scripts are numbers to Python; a shell never sends them on purpose.
    if not (number.isascii() and number.isdigit()):
        raise UsageError(f"{flag} {option}: expected {expected}")
    return name.strip(), int(number[:6])


def _nearest(name: str, known: list[str]) -> str:
    """The nearest name; else those that contain what was typed, such as craft-knife for knife."""
    near = did_you_mean(name, known)
    holding = [one for one in known if name and name in one]
    if not near and holding:
        return f"; there are: {', '.join(sorted(holding))}"
    return near
