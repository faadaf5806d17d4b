"""One reader's measurements in → a complete pack for that body, in a folder of its own."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.app.jobs.guides import gather_plan, make_size, plan_size
from guidegen.app.jobs.opening import open_guide
from guidegen.app.measured.bodies import MADE, judge_body, on_hand_from, stop_on_errors, whole_kit
from guidegen.buildfile.read.body import parse_measures, read_body
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.yaml.expressions import parse_expression
from guidegen.errors import UsageError
from guidegen.geometry.fit.advice import advise_size
from guidegen.geometry.fit.records import EdgeGrowth, SizeAdvice
from guidegen.problems import Place, collect
from guidegen.progress import Reporter
from guidegen.units import mm_text
from guidegen.write.staging import staging

MOST_PARTS = 6
"""Parts that are told of one by one. Our choice: a screen holds them with the rest."""


@dataclass(frozen=True)
class FitOptions:
    """Whom to fit, and where to."""

    content: Path
    themes: Path
    out: Path
    guide: str
    body: Path | None = None
    """YAML file of measurements."""
    measures: tuple[str, ...] = ()
    """Options such as chest=98cm; they win over the file."""
    sure: bool = False
    """Make the pack although a measurement looks wrong."""
    nesting_seconds: float = 4.0
    have: Path | None = None
    """YAML file of offcuts and materials that are there already."""
    language: str = ""
    """Of the documents; empty for the site's own."""


@dataclass(frozen=True)
class FitResult:
    """What was made for one body."""

    out: Path
    files: tuple[str, ...]
    advice: SizeAdvice | None
    """Which of the guide's sizes is nearest."""
    doubts: tuple[str, ...]
    """Measurements that looked wrong and were taken as they are."""

    def summary(self) -> str:
        """The closing words."""
        lines = [f"made to measure in {self.out}: {', '.join(self.files)}"]
        lines += [f"taken as it is: {doubt}" for doubt in self.doubts]
        if self.advice is not None:
            lines += advice_words(self.advice)
        return "\n".join(lines)


def advice_words(advice: SizeAdvice) -> list[str]:
    """Lines on the nearest size: what is off, and whether trim allowances cover it.

    Of each part the edge that lacks most is told, of parts the first `MOST_PARTS`.
    """
    size = advice.size
    lines = [f"nearest size: {size}"]
    lines += [
        f"  {misfit.measurement}: {mm_text(misfit.body)} mm, size {size} has "
        f"{mm_text(misfit.size)} ({misfit.difference:+.0f})"
        for misfit in advice.misfits
        if abs(misfit.difference) >= 1
    ]
    if advice.short:
        names = ", ".join(advice.short)
        lines.append(
            f"size {size} does not close ({names}), and no size is larger there: wear only"
        )
        lines.append("  what was made to measure")
    # Edges without enough allowance come first, so the first of a part is its worst.
    worst: dict[str, EdgeGrowth] = {}
    for growth in advice.growths:
        worst.setdefault(growth.part, growth)
    short = [growth for growth in worst.values() if not growth.covered]
    covered = [growth.part for growth in worst.values() if growth.covered]
    if short:
        lines.append(f"too small in size {size}, by more than trim allowances cover:")
        lines += [
            f"  {growth.part}: edge {growth.edge} needs {mm_text(growth.growth)} mm more, "
            f"allowance {mm_text(growth.room)} mm"
            for growth in short[:MOST_PARTS]
        ]
        if len(short) > MOST_PARTS:
            lines.append(f"  and {len(short) - MOST_PARTS} more parts")
    if covered:
        lines.append(f"small in size {size}, covered by trim allowances: {', '.join(covered)}")
    return lines


def fit(options: FitOptions, progress: Reporter) -> FitResult:
    """Make booklet, templates, materials and pack for one body.

    Raises ContentError for measurements that are missing, unknown or, without `sure`, doubtful.
    """
    opened = open_guide(options.content, options.guide, options.themes, options.language)
    content, file, stock = opened.content, opened.file, opened.content.stock
    if not file.guide.measurements:
        raise UsageError(f'"{file.id}" has one size for everybody; there is nothing to fit')
    body = _measured(options)
    place = Place(options.body.as_posix() if options.body is not None else "measurements")
    wrong, doubts = judge_body(file, body, place, sure=options.sure)
    stop_on_errors(wrong)
    on_hand = on_hand_from(options.have, stock)
    kit = whole_kit(file, stock, MADE, body, words=content.words, place=place)
    with staging(options.out) as stage:
        progress.stage("planning", 1)
        planned = plan_size(content, file, kit, "", options.nesting_seconds, on_hand=on_hand)
        progress.step(MADE)
        progress.stage("documents", 1)
        plan = gather_plan(content, _with_size(file, body), (planned.plan,))
        made = make_size(content, plan, MADE, opened.theme)
        progress.step(MADE)
        start = len(f"{file.id}/{MADE}/")
        names = tuple(path[start:] for path in made.files)
        for path, data in made.files.items():
            stage.write(path[start:], data)
    return FitResult(options.out, names, advise_size(file, body, stock), doubts)


def _measured(options: FitOptions) -> dict[str, float]:
    """Lengths of the file, then of the options."""
    lengths, problems = ({}, []) if options.body is None else collect(read_body(options.body))
    later, wrong = collect(parse_measures(options.measures))
    stop_on_errors(problems + wrong)
    return lengths | later


def _with_size(file: GuideFile, body: Mapping[str, float]) -> GuideFile:
    """The guide with the body as one more size, so that its documents show it in the table."""
    row = {name: parse_expression(round(body[name], 2)) for name in file.guide.measurements}
    sizes = {**file.guide.sizes, MADE: row}
    return replace(file, guide=file.guide.model_copy(update={"sizes": sizes}))
