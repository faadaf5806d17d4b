"""Plan of a class in → its shopping list, tools, people and hours as CSV bytes out."""

import csv
import io

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.class_records import ClassPlan, Person
from guidegen.layout.times.schedule import step_wait
from guidegen.render.lists.materials_csv import safe_cell
from guidegen.units import mm_text
from guidegen.words import ENGLISH, Words, msg

HEADER = (
    msg("section"), msg("name"), msg("needed"), msg("unit"), msg("buy"), msg("pack"),
    msg("pack amount"), msg("cost"), msg("currency"), msg("left over"), msg("shop"),
    msg("start min"), msg("end min"), msg("hands-on min"), msg("wait min"), msg("note"),
)  # fmt: skip
"""Columns; cells that a section has no use for are empty. Amounts are plain numbers."""

SECTIONS = (
    msg("first"), msg("buy"), msg("protection"), msg("tool"), msg("person"), msg("caution"),
    msg("step"), msg("time"), msg("total"),
)  # fmt: skip
"""What a row is about, in the order of the list."""
UNITS = ("ml", "mm", msg("sheets"), msg("pieces"))


DEFERENCE = msg(
    "A list cannot know your products, your room or your people. The safety data sheet and label "
    "of each product, local rules and a qualified supervisor come first. Read the safety page of "
    "the guide with everybody before the first step."
)
"""What a leader reads first."""


type _Cells = dict[str, str]


def class_csv(
    plan: ClassPlan, guide: Guide, stock: Stock, currency: str, words: Words = ENGLISH
) -> bytes:
    """RFC 4180, UTF-8 with a byte order mark; safety first, each caution before its step."""
    rows = [{"section": "first", "name": words.say("Safety"), "note": words.say(DEFERENCE)}]
    rows += [*_bought(plan, currency), *_tools(plan, words)]
    rows += [
        {"section": "person", "name": person.name, "note": person_note(person, number, words)}
        for number, person in enumerate(plan.people, 1)
    ]
    rows += [*_steps(plan, guide, stock, words), *_slots(plan, guide, words)]
    totals = ((words.say("all"), plan.materials.cost), (words.say("each person"), plan.per_head))
    for name, cost in totals:
        rows.append({"section": "total", "name": name, "cost": f"{cost:.2f}", "currency": currency})
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([words.say(column) for column in HEADER])
    for row in rows:
        row["section"], row["unit"] = words.say(row["section"]), words.say(row.get("unit", ""))
        writer.writerow([safe_cell(row.get(column, "")) for column in HEADER])
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


def _tools(plan: ClassPlan, words: Words) -> list[_Cells]:
    return [
        {
            "section": "protection" if count.tool.protective else "tool",
            "name": count.tool.name,
            "needed": str(count.count),
            "unit": "pieces",
            "note": words.say("one for each")
            if count.shared_by == 1
            else words.many("one for {n} person", "one for {n} people", count.shared_by),
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


def _steps(plan: ClassPlan, guide: Guide, stock: Stock, words: Words) -> list[_Cells]:
    """The steps in the order of work, each after its cautions."""
    rows: list[_Cells] = []
    for step, span in steps_in_order(plan, guide):
        for caution_id in step_cautions(step, stock):
            caution = stock.cautions[caution_id]
            message = f"{caution.hazard} {caution.consequence} {caution.avoid}"
            label = f"{words.say(caution.word)}: {caution.title}"
            rows.append({"section": "caution", "name": label, "note": message})
        rows.append(
            {
                "section": "step",
                "name": step.title,
                "start min": mm_text(span[0], 0) if span else "",
                "end min": mm_text(span[1], 0) if span else "",
                "hands-on min": mm_text(step.time, 0),
                "wait min": mm_text(step_wait(step, stock), 0),
                "note": "" if span else words.say("before the class"),
            }
        )
    return rows


def _slots(plan: ClassPlan, guide: Guide, words: Words) -> list[_Cells]:
    """Who does what when, person by person."""
    titles = {step.id: step.title for step in guide.steps}
    return [
        {
            "section": "time",
            "name": person.name,
            "start min": mm_text(slot.start, 0),
            "end min": mm_text(slot.end, 0),
            "note": titles[slot.step]
            if slot.person == number
            else words.say(
                "{step} (helps {number})", step=titles[slot.step], number=slot.person + 1
            ),
        }
        for number, person in enumerate(plan.people)
        for slot in plan.times.of(number)
    ]
