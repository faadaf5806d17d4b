"""Plan of a class in → its shopping list, tools, people and hours as CSV bytes out."""

import csv
import io

from guidegen.buildfile.cautions import step_cautions
from guidegen.buildfile.guide import Guide, Step
from guidegen.buildfile.stock import Stock
from guidegen.layout.class_records import ClassPlan, Person
from guidegen.layout.schedule import step_wait
from guidegen.render.materials_csv import safe_cell
from guidegen.units import mm_text
from guidegen.words import ENGLISH, Words

HEADER = (
    "section", "name", "needed", "unit", "buy", "pack", "pack amount", "cost", "currency",
    "left over", "shop", "start min", "end min", "hands-on min", "wait min", "note",
)  # fmt: skip
"""Columns; cells that a section has no use for are empty."""


DEFERENCE = (
    "A list cannot know your products, your room or your people. The safety data sheet and label "
    "of each product, local rules and a qualified supervisor come first. Read the safety page of "
    "the guide with everybody before the first step."
)
"""What a leader reads first."""


type _Cells = dict[str, str]


def class_csv(plan: ClassPlan, guide: Guide, stock: Stock, currency: str) -> bytes:
    """RFC 4180, UTF-8 with a byte order mark; safety first, each caution before its step."""
    rows = [{"section": "first", "name": "Safety", "note": DEFERENCE}]
    rows += [*_bought(plan, currency), *_tools(plan)]
    rows += [
        {"section": "person", "name": person.name, "note": person_note(person, number)}
        for number, person in enumerate(plan.people, 1)
    ]
    rows += [*_steps(plan, guide, stock), *_slots(plan, guide)]
    for name, cost in (("all", plan.materials.cost), ("each person", plan.per_head)):
        rows.append({"section": "total", "name": name, "cost": f"{cost:.2f}", "currency": currency})
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(HEADER)
    writer.writerows([safe_cell(row.get(column, "")) for column in HEADER] for row in rows)
    return ("\ufeff" + stream.getvalue()).encode("utf-8")


def person_note(person: Person, number: int, words: Words = ENGLISH) -> str:
    """Size and mark of somebody's pieces."""
    if person.size:
        return words.say("size {size}, pieces marked {number}", size=person.size, number=number)
    return words.say("made to measure, pieces marked {number}", number=number)


def _bought(plan: ClassPlan, currency: str) -> list[_Cells]:
    return [
        {
            "section": "buy",
            "name": line.name,
            "needed": mm_text(line.high, 2) if number == 0 else "",
            "unit": line.unit,
            "buy": str(pack.count),
            "pack": pack.name,
            "pack amount": mm_text(pack.amount, 2),
            "cost": f"{pack.count * pack.price:.2f}",
            "currency": currency,
            "left over": mm_text(line.left, 2) if number == 0 else "",
            "shop": line.shop,
            "note": line.alternative,
        }
        for line in plan.materials.lines
        for number, pack in enumerate(line.packs)
    ]


def _tools(plan: ClassPlan) -> list[_Cells]:
    return [
        {
            "section": "protection" if count.tool.protective else "tool",
            "name": count.tool.name,
            "needed": str(count.count),
            "unit": "pieces",
            "note": "one for each" if count.shared_by == 1 else f"one for {count.shared_by} people",
        }
        for count in plan.tools
    ]


def steps_in_order(plan: ClassPlan, guide: Guide) -> list[tuple[Step, tuple[float, float] | None]]:
    """Steps of before the class, then those of the class by their first start, with their span."""
    before = [(step, None) for step in guide.steps if step.id in plan.times.beforehand]
    inside = [
        (step, plan.times.span(step.id))
        for step in guide.steps
        if step.id not in plan.times.beforehand
    ]
    return [*before, *sorted(inside, key=lambda pair: pair[1][0])]


def _steps(plan: ClassPlan, guide: Guide, stock: Stock) -> list[_Cells]:
    """The steps in the order of work, each after its cautions."""
    rows: list[_Cells] = []
    for step, span in steps_in_order(plan, guide):
        for caution_id in step_cautions(step, stock):
            caution = stock.cautions[caution_id]
            words = f"{caution.hazard} {caution.consequence} {caution.avoid}"
            label = f"{caution.word}: {caution.title}"
            rows.append({"section": "caution", "name": label, "note": words})
        rows.append(
            {
                "section": "step",
                "name": step.title,
                "start min": mm_text(span[0], 0) if span else "",
                "end min": mm_text(span[1], 0) if span else "",
                "hands-on min": mm_text(step.time, 0),
                "wait min": mm_text(step_wait(step, stock), 0),
                "note": "" if span else "before the class",
            }
        )
    return rows


def _slots(plan: ClassPlan, guide: Guide) -> list[_Cells]:
    """Who does what when, person by person."""
    titles = {step.id: step.title for step in guide.steps}
    return [
        {
            "section": "time",
            "name": person.name,
            "start min": mm_text(slot.start, 0),
            "end min": mm_text(slot.end, 0),
            "note": titles[slot.step]
            + ("" if slot.person == number else f" (helps {slot.person + 1})"),
        }
        for number, person in enumerate(plan.people)
        for slot in plan.times.of(number)
    ]
