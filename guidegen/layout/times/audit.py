"""The time line and the stock's rules in → steps that share a room too soon."""

from collections.abc import Iterator, Sequence

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.musts import OrderRule
from guidegen.buildfile.records.stock import Stock
from guidegen.checks.steps.order import Kinds, is_strict, rule_reason, step_kinds
from guidegen.layout.schedules import Slot
from guidegen.layout.times.plans import plan_time
from guidegen.problems import Problem
from guidegen.quantities import exact_words


def audit_rooms(file: GuideFile, stock: Stock) -> Iterator[Problem]:
    """What never shares a room: in one step, or on the time line before the wait of the rule.

    Steps must be in an order that works (the checks see to that).
    """
    rules = [rule for rule in stock.rules if rule.apart]
    if not rules:
        return
    slots = plan_time(file.guide, stock).slots
    kinds = step_kinds(file.guide, stock)
    for rule in rules:
        yield from _audit(file, rule, kinds, slots)


def _audit(
    file: GuideFile, rule: OrderRule, kinds: Kinds, slots: Sequence[Slot]
) -> Iterator[Problem]:
    steps = file.guide.steps
    numbers = {step.id: number for number, step in enumerate(steps)}
    firsts, thens = set(kinds.steps(rule, rule.first)), set(kinds.steps(rule, rule.then))
    last: Slot | None = None
    for slot in slots:
        number = numbers[slot.step]
        step = steps[number]
        begins, follows = number in firsts, number in thens
        if begins and follows:
            message = f'"{step.title}" brings {rule.first} and {rule.then} into one step'
            yield _problem(file, rule, number, message)
        elif follows and last is not None and slot.start - last.end < rule.wait:
            yield _problem(
                file,
                rule,
                number,
                f'"{step.title}" ({rule.then}) begins {exact_words(slot.start - last.end)} after '
                f'"{steps[numbers[last.step]].title}" ({rule.first}) on the time line, but '
                f"{exact_words(rule.wait)} are needed",
            )
        # Only the last one counts: it is the nearest in time, and airs out last.
        if begins:
            last = slot


def _problem(file: GuideFile, rule: OrderRule, number: int, message: str) -> Problem:
    return file.source.problem(
        "not-apart" if is_strict(rule) else "apart-advised",
        ("steps", number),
        f"{message}: {rule_reason(rule)}",
    )
