"""A class of people in → one shopping list, one set of cut plans, tools and hours, in a folder."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from guidegen.buildfile.reader import read_content, read_file
from guidegen.buildfile.records import Content, GuideFile
from guidegen.buildfile.sizes import size_numbers
from guidegen.buildfile.tree import read_tree
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError, UsageError
from guidegen.geometry.kit import make_kit
from guidegen.geometry.records import Kit
from guidegen.layout.audit import audit_rooms
from guidegen.layout.class_plan import Person, count_tools, join_kits, minutes_over, people_of
from guidegen.layout.cutplan import plan_cuts
from guidegen.layout.materials import list_for_all
from guidegen.layout.records import CutPlan
from guidegen.layout.schedule import plan_time
from guidegen.pictures.cut_sheets import draw_cut_sheets
from guidegen.problems import Problem, Severity, did_you_mean
from guidegen.progress import Reporter
from guidegen.render.class_csv import ClassPlan, class_csv
from guidegen.render.views_words import duration_words, money_words
from guidegen.write.staging import MARKER, staging

MOST_PEOPLE = 60
"""People of one class. Our choice: bounds the time that nesting takes."""


@dataclass(frozen=True)
class ClassOptions:
    """Who builds what, for how long, and where to."""

    content: Path
    out: Path
    guide: str
    people: Path | None = None
    """YAML file of names and sizes."""
    counts: tuple[str, ...] = ()
    """Options such as M=5."""
    hours: float = 3.0
    """Length of the workshop."""
    nesting_seconds: float = 4.0


@dataclass(frozen=True)
class ClassResult:
    """What was made for a class."""

    out: Path
    files: tuple[str, ...]
    plan: ClassPlan
    currency: str
    hours: float

    def summary(self) -> str:
        """The closing words."""
        people = len(self.plan.people)
        over = minutes_over(self.plan.time_line, self.hours)
        elapsed = duration_words(self.plan.time_line.elapsed)
        fits = f"fits in {self.hours:g} h"
        if over:
            fits = f"{duration_words(over)} more than the {self.hours:g} h of the workshop"
        cost = money_words(self.plan.materials.cost, self.currency)
        head = money_words(self.plan.per_head, self.currency)
        return (
            f"class of {people} in {self.out}: {', '.join(self.files)}\n"
            f"{cost} in all, {head} for each\n"
            f"{elapsed} with all working at the same time, drying included, if nobody has to wait "
            f"for a shared tool: {fits}"
        )


def plan_class(options: ClassOptions, progress: Reporter) -> ClassResult:
    """Write class.csv and the class's cut plans.

    Raises ContentError for content that is wrong, or pieces that fit no sheet; UsageError for
    unknown guides and sizes.
    """
    content = read_content(options.content, (options.guide,))
    file = next((file for file in content.guides if file.id == options.guide), None)
    if file is None:
        names = [known.id for known in content.guides]
        raise UsageError(f'there is no guide "{options.guide}"{did_you_mean(options.guide, names)}')
    people = _people(options, file)
    kits = _kits(content, file, people)
    joined = join_kits([kits[person.size][0] for person in people])
    progress.stage("planning", 1)
    cut_plans, _, problems = plan_cuts(
        joined,
        content.stock,
        seconds=options.nesting_seconds,
        solve=options.nesting_seconds > 0,
        source=file.source,
    )
    _stop_on_errors(problems)
    progress.step("class")
    materials = list_for_all(
        file.guide, content.stock, [kits[person.size] for person in people], cut_plans
    )
    tools = count_tools(materials.tools, content.stock, len(people))
    plan = ClassPlan(people, materials, tools, plan_time(file.guide, content.stock))
    files = _sheets(cut_plans, joined, content)
    site = content.site
    files["class.csv"] = class_csv(plan, file.guide, content.stock, site.currency)
    with staging(options.out) as stage:
        for name, data in files.items():
            stage.write(name, data)
        stage.write(MARKER, b"made by guidegen for a class\n")
    return ClassResult(options.out, tuple(files), plan, site.currency, options.hours)


def _people(options: ClassOptions, file: GuideFile) -> tuple[Person, ...]:
    """Those of the file, then those of the options."""
    listed = () if options.people is None else _read_people(options.people, file)
    people = (*listed, *people_of([_count(option, file) for option in options.counts]))
    if not people:
        raise UsageError("tell who takes part: --people FILE.yaml, or --count M=5")
    if len(people) > MOST_PEOPLE:
        raise UsageError(f"{len(people)} people are too many for one class; at most {MOST_PEOPLE}")
    return people


def _read_people(path: Path, file: GuideFile) -> tuple[Person, ...]:
    problems: list[Problem] = []
    text = read_file(path, path.as_posix(), problems)
    if text is None:
        raise ContentError(problems)
    value, source, found = read_tree(text, path.as_posix())
    if found:
        raise ContentError(found)
    if not isinstance(value, dict) or not value:
        message = "expected names with sizes, such as Robin: M"
        raise ContentError([source.problem("not-a-mapping", (), message)])
    people = []
    for name, size in value.items():
        where = f"{source.place((name,))}: "
        people.append(Person(str(name), _size(str(size), file, where)))
    return tuple(people)


def _count(option: str, file: GuideFile) -> tuple[str, int]:
    """Size and number of an option such as M=5."""
    size, _, number = option.partition("=")
    if not (number.isascii() and number.isdigit() and 0 < int(number[:6]) <= MOST_PEOPLE):
        raise UsageError(
            f"--count {option}: expected a size and how many, such as M=5, at most {MOST_PEOPLE}"
        )
    return _size(size.strip(), file, "--count: "), int(number)


def _size(size: str, file: GuideFile, where: str) -> str:
    sizes = file.size_names()
    if size not in sizes:
        raise UsageError(f'{where}there is no size "{size}"{did_you_mean(size, sizes)}')
    return size


def _kits(
    content: Content, file: GuideFile, people: tuple[Person, ...]
) -> dict[str, tuple[Kit, Mapping[str, float]]]:
    """Kit and names of each size that somebody has. Raises ContentError."""
    problems = run_checks(content)
    _stop_on_errors(problems)
    _stop_on_errors([*audit_rooms(file, content.stock)])
    kits: dict[str, tuple[Kit, Mapping[str, float]]] = {}
    for size in dict.fromkeys(person.size for person in people):
        kit, found = make_kit(file, content.stock, size)
        _stop_on_errors(found)
        numbers, _ = size_numbers(file, size)
        if kit is not None:
            kits[size] = (kit, numbers.names())
    return kits


def _stop_on_errors(problems: list[Problem]) -> None:
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    if errors:
        raise ContentError(errors)


def _sheets(plans: tuple[CutPlan, ...], kit: Kit, content: Content) -> dict[str, bytes]:
    """A drawing for each sheet of foam; pieces are numbered by person, in the order of the list."""
    names = {key: material.name for key, material in content.stock.materials.items()}
    return {
        f"cut-{plan.material}-{number}.svg": svg.encode()
        for plan in plans
        for number, svg in enumerate(draw_cut_sheets(plan, kit, "class", names), 1)
    }
