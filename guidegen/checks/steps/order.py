"""The stock's rules of order: what comes first on a part, and how long after it the next may."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.musts import OrderRule
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.tree import Trail
from guidegen.checks.steps.step_parts import minutes_between, worked_parts
from guidegen.problems import Problem
from guidegen.quantities import exact_words


@dataclass(frozen=True, slots=True)
class Kinds:
    """What the names of rules may mean, for every step of a guide."""

    processes: tuple[frozenset[str], ...]
    cautions: tuple[frozenset[str], ...]

    def steps(self, rule: OrderRule, name: str) -> list[int]:
        """Numbers of the steps that a name of the rule means."""
        kinds = self.processes if rule.by == "process" else self.cautions
        return [number for number, kind in enumerate(kinds) if name in kind]


def step_kinds(guide: Guide, stock: Stock) -> Kinds:
    """Process and cautions of every step; waived cautions are not in the room."""
    return Kinds(
        tuple(frozenset([step.process] if step.process else []) for step in guide.steps),
        tuple(frozenset(step_cautions(step, stock)) for step in guide.steps),
    )


def is_strict(rule: OrderRule) -> bool:
    """Whether a guide that breaks the rule is not published; else its author is told."""
    return rule.level == "stop"


def rule_reason(rule: OrderRule) -> str:
    """Why the rule is there, and who says so."""
    return f"{rule.reason} ({rule.source})"


@dataclass(frozen=True)
class _Work:
    """The steps of a guide by part."""

    file: GuideFile
    stock: Stock
    parts: tuple[tuple[str, ...], ...]
    """Parts of each step."""

    def on(self, numbers: list[int]) -> dict[str, list[int]]:
        """For each part those of the steps that work on it, in order."""
        found: dict[str, list[int]] = {}
        for number in numbers:
            for part in self.parts[number]:
                found.setdefault(part, []).append(number)
        return found


def check_order_rules(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every rule that concerns one part, on every part that sees both kinds of work."""
    steps = file.guide.steps
    work = _Work(file, content.stock, tuple(worked_parts(step, file.guide) for step in steps))
    kinds = step_kinds(file.guide, content.stock)
    for rule in content.stock.rules:
        if rule.apart or rule.level == "none":
            continue  # what may not be together is looked at on the time line
        firsts, thens = kinds.steps(rule, rule.first), kinds.steps(rule, rule.then)
        if firsts and thens:
            yield from _order(rule, work, firsts, thens)
            yield from _waits(rule, work, firsts, thens)


def _order(rule: OrderRule, work: _Work, firsts: list[int], thens: list[int]) -> Iterator[Problem]:
    """A step that comes too late; a second pass with a name may."""
    steps = work.file.guide.steps
    plain = [number for number in firsts if steps[number].again is None]
    last = {part: numbers[-1] for part, numbers in work.on(plain).items()}
    if rule.first == rule.then:
        return
    for number in thens:
        late = sorted({p for p in work.parts[number] if last.get(p, -1) > number})
        for other in sorted({last[part] for part in late}):
            parts = ", ".join(part for part in late if last[part] == other)
            yield work.file.source.problem(
                "order-rule" if is_strict(rule) else "order-advised",
                _trail(rule, number),
                f'"{steps[other].title}" ({rule.first}) must come before '
                f'"{steps[number].title}" ({rule.then}) on {parts}: {rule_reason(rule)}',
            )


def _waits(rule: OrderRule, work: _Work, firsts: list[int], thens: list[int]) -> Iterator[Problem]:
    """A step that comes too soon after the last one before it."""
    if not rule.wait:
        return
    steps = work.file.guide.steps
    by_part = work.on(firsts)
    for number in thens:
        short: dict[int, list[tuple[float, str]]] = {}
        for part in work.parts[number]:
            earlier = [first for first in by_part.get(part, ()) if first < number]
            if earlier:
                minutes = minutes_between(work.file.guide, work.stock, part, earlier[-1], number)
                if minutes < rule.wait:
                    short.setdefault(earlier[-1], []).append((minutes, part))
        for other, found in sorted(short.items()):
            parts = ", ".join(sorted(part for _, part in found))
            yield work.file.source.problem(
                "too-soon" if is_strict(rule) else "sooner-than-advised",
                _trail(rule, number),
                f'"{steps[number].title}" ({rule.then}) may begin {exact_words(min(found)[0])} '
                f'after "{steps[other].title}" ({rule.first}) on {parts}, but '
                f"{exact_words(rule.wait)} are needed: {rule_reason(rule)}",
            )


def _trail(rule: OrderRule, number: int) -> Trail:
    return ("steps", number, "process") if rule.by == "process" else ("steps", number)
