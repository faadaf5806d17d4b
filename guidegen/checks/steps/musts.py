"""The stock's rules of what must be there: work that has been forgotten is told."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.musts import Must
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.tree import Trail
from guidegen.checks.steps.step_parts import worked_parts
from guidegen.problems import Problem

SHOWN = 4
"""Parts that a message names; the others are counted. Our choice."""


def check_musts(content: Content, file: GuideFile) -> Iterator[Problem]:
    """One finding for each rule that a guide does not keep, however many parts it concerns.

    None while a part's material is not in stock: usual steps find their parts by what these are
    made of, so work would seem forgotten because of a slip that is told by itself.
    """
    if any(part.material not in content.stock.materials for part in file.guide.parts.values()):
        return
    for must in content.stock.musts:
        if must.level == "none" or (must.kinds and file.guide.kind not in must.kinds):
            continue
        finders = {"guide": _in_guide, "part": _on_parts, "step": _before_steps}
        fault = finders[must.on](must, file)
        if fault is not None:
            trail, message = fault
            names = " or ".join(f'"{_name(name, content.stock)}"' for name in must.need)
            yield file.source.problem(
                "missing-work" if must.level == "stop" else "advised-work",
                trail,
                f"no step does {names}{message}: {must.reason} ({must.source})",
            )


def _name(process: str, stock: Stock) -> str:
    """What a reader calls a kind of work."""
    return stock.processes[process].name if process in stock.processes else process


def _triggers(must: Must, file: GuideFile) -> list[int]:
    """Numbers of the steps that make a rule count."""
    closed = file.guide.fastenings
    return [
        number
        for number, step in enumerate(file.guide.steps)
        if step.process in must.when
        or any(use.material in must.uses for use in step.uses)
        or any(closed[name].fastener in must.uses for name in step.fastens if name in closed)
    ]


def _steps(file: GuideFile, names: tuple[str, ...]) -> list[int]:
    """Numbers of the steps of some kinds of work."""
    steps = enumerate(file.guide.steps)
    return [number for number, step in steps if step.process in names]


def _in_guide(must: Must, file: GuideFile) -> tuple[Trail, str] | None:
    """What is missing in the whole guide, with its place."""
    triggers = _triggers(must, file)
    if not triggers and (must.when or must.uses):
        return None
    found = _steps(file, must.need)
    first = min(_steps(file, must.after), default=-1)
    last = min(_steps(file, must.before), default=len(file.guide.steps))
    if any(first < number < last for number in found):
        return None
    between = [
        f'{word} "{file.guide.steps[number].title}"'
        for word, names, number in (("after", must.after, first), ("before", must.before, last))
        if names and 0 <= number < len(file.guide.steps)
    ]
    trail: Trail = ("steps", triggers[0], "process") if triggers else ("steps",)
    return trail, "".join(f" {words}" for words in between)


def _on_parts(must: Must, file: GuideFile) -> tuple[Trail, str] | None:
    """Parts that see the one kind of work and never the other."""
    guide = file.guide
    last = {
        part: number for number in _steps(file, must.need) for part in guide.steps[number].parts
    }
    lacking: dict[str, int] = {}
    for number in _triggers(must, file):
        for part in guide.steps[number].parts:
            late = last.get(part, -1) > number or not must.after
            if part in guide.parts and not (part in last and late):
                lacking.setdefault(part, number)
    if not lacking:
        return None
    names = ", ".join([*lacking][:SHOWN])
    more = f" and {len(lacking) - SHOWN} more" if len(lacking) > SHOWN else ""
    number = min(lacking.values())
    return (
        ("steps", number, "process"),
        f' on {names}{more}, which "{guide.steps[number].title}" works on',
    )


def _before_steps(must: Must, file: GuideFile) -> tuple[Trail, str] | None:
    """The first step that none of its parts is ready for."""
    steps = file.guide.steps
    for number in _triggers(must, file):
        parts = {*worked_parts(steps[number], file.guide)}
        earlier = (n for n in _steps(file, must.need) if n < number)
        if not any(parts & {*steps[n].parts} for n in earlier):
            return ("steps", number), f' on a part of "{steps[number].title}" before it'
    return None
