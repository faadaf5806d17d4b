"""The time line and the stock's rules in → steps that share a room too soon."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.stock import OrderRule, Stock
from guidegen.checks.steps.order import Kinds, is_strict, minutes_words, rule_reason, step_kinds
from guidegen.layout.times.schedule import plan_time
from guidegen.problems import Problem


@dataclass(frozen=True, slots=True)
class _Slot:
    """When one person works on a step, in minutes."""

    number: int
    start: float
    end: float


def audit_rooms(file: GuideFile, stock: Stock) -> Iterator[Problem]:
    """What never shares a room: in one step, or on the time line before the wait of the rule.

    Steps must be in an order that works (the checks see to that).
    """
    rules = [rule for rule in stock.rules if rule.apart]
    if not rules:
        return
    line = plan_time(file.guide, stock)
    numbers = {step.id: number for number, step in enumerate(file.guide.steps)}
    slots = [
        _Slot(numbers[name], start, start + file.guide.steps[numbers[name]].time)
        for name, start in zip(line.order, line.starts, strict=True)
    ]
    kinds = step_kinds(file.guide, stock)
    for rule in rules:
        yield from _audit(file, rule, kinds, slots)


def _audit(file: GuideFile, rule: OrderRule, kinds: Kinds, slots: list[_Slot]) -> Iterator[Problem]:
    steps = file.guide.steps
    firsts, thens = set(kinds.steps(rule, rule.first)), set(kinds.steps(rule, rule.then))
    last: _Slot | None = None
    for slot in slots:
        step = steps[slot.number]
        begins, follows = slot.number in firsts, slot.number in thens
        if begins and follows:
            message = f'"{step.title}" brings {rule.first} and {rule.then} into one step'
            yield _problem(file, rule, slot.number, message)
        elif follows and last is not None and slot.start - last.end < rule.wait:
            yield _problem(
                file,
                rule,
                slot.number,
                f'"{step.title}" ({rule.then}) begins {minutes_words(slot.start - last.end)} after '
                f'"{steps[last.number].title}" ({rule.first}) on the time line, but '
                f"{minutes_words(rule.wait)} are needed",
            )
        if begins:
            last = slot


def _problem(file: GuideFile, rule: OrderRule, number: int, message: str) -> Problem:
    return file.source.problem(
        "not-apart" if is_strict(rule) else "apart-advised",
        ("steps", number),
        f"{message}: {rule_reason(rule)}",
    )
