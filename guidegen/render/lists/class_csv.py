"""Plan of a class in → its shopping list, tools, people and hours as CSV bytes out."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.class_records import ClassPlan, Person, ToolCount
from guidegen.render.lists.csv_text import csv_bytes
from guidegen.render.text.class_names import all_hands, hand_name, span_words
from guidegen.render.views.material_rows import bought_rows
from guidegen.render.views.scene import step_numbers
from guidegen.render.views.tables import Column, Look
from guidegen.words import Words, msg

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


@dataclass(frozen=True, slots=True)
class ClassRow:
    """One row of the list; what a section has no use for is left out."""

    section: str
    name: str
    needed: float | None = None
    unit: str = ""
    buy: int | None = None
    pack: str = ""
    amount: float | None = None
    """In one pack."""
    cost: float | None = None
    currency: str = ""
    left: float | None = None
    shop: str = ""
    start: float | None = None
    end: float | None = None
    clock: str = ""
    """From when to when, by the clock where the class has one."""
    work: float | None = None
    wait: float | None = None
    """Minutes, whole ones."""
    note: str = ""


COLUMNS: tuple[Column[ClassRow], ...] = (
    Column("section", msg("section"), lambda row: row.section, Look.WORD),
    Column("name", msg("name"), lambda row: row.name),
    Column("needed", msg("needed"), lambda row: row.needed, Look.AMOUNT),
    Column("unit", msg("unit"), lambda row: row.unit, Look.WORD),
    Column("buy", msg("buy"), lambda row: row.buy, Look.COUNT),
    Column("pack", msg("pack"), lambda row: row.pack),
    Column("amount", msg("pack amount"), lambda row: row.amount, Look.AMOUNT),
    Column("cost", msg("cost"), lambda row: row.cost, Look.MONEY),
    Column("currency", msg("currency"), lambda row: row.currency),
    Column("left", msg("left over"), lambda row: row.left, Look.AMOUNT),
    Column("shop", msg("shop"), lambda row: row.shop),
    Column("start", msg("start min"), lambda row: row.start, Look.COUNT),
    Column("end", msg("end min"), lambda row: row.end, Look.COUNT),
    Column("clock", msg("clock"), lambda row: row.clock),
    Column("work", msg("hands-on min"), lambda row: row.work, Look.COUNT),
    Column("wait", msg("wait min"), lambda row: row.wait, Look.COUNT),
    Column("note", msg("note"), lambda row: row.note),
)
"""In their order. Amounts are plain numbers."""


def class_csv(plan: ClassPlan, guide: Guide, stock: Stock, currency: str, words: Words) -> bytes:
    """The list: safety first, each caution before its step."""
    return csv_bytes(COLUMNS, _rows(plan, guide, stock, currency, words), words)


def _rows(
    plan: ClassPlan, guide: Guide, stock: Stock, currency: str, words: Words
) -> Iterator[ClassRow]:
    yield ClassRow("first", words.say("Safety"), note=words.say(DEFERENCE))
    yield from _bought(plan, guide, currency)
    yield from _tools(plan, words)
    for number, person in enumerate(plan.people, 1):
        yield ClassRow("person", person.name, note=person_note(person, number, words))
    yield from _steps(plan, guide, stock, words)
    yield from _slots(plan, guide, words)
    totals = ((words.say("all"), plan.materials.cost), (words.say("each person"), plan.per_head))
    for name, cost in totals:
        yield ClassRow("total", name, cost=cost, currency=currency)


def person_note(person: Person, number: int, words: Words) -> str:
    """Size and mark of somebody's pieces."""
    if person.size:
        return words.say("size {size}, pieces marked {number}", size=person.size, number=number)
    return words.say("made to measure, pieces marked {number}", number=number)


def _bought(plan: ClassPlan, guide: Guide, currency: str) -> Iterator[ClassRow]:
    numbers = step_numbers(guide)
    for line in plan.materials.lines:
        for row in bought_rows(line, numbers, currency):
            yield ClassRow(
                section="buy",
                name=row.name,
                needed=row.high,
                unit=row.unit,
                buy=row.buy,
                pack=row.pack,
                amount=row.amount,
                cost=row.cost,
                currency=row.currency,
                left=row.left,
                shop=row.shop,
                note=row.alternative,
            )


def _tools(plan: ClassPlan, words: Words) -> Iterator[ClassRow]:
    before = words.say("before the class")
    rows = [(one, "") for one in plan.tools] + [(one, before) for one in plan.before_tools]
    for count, when in rows:
        shared = words.many("one for {n} person", "one for {n} people", count.shared_by)
        shared = words.say("one for each") if count.shared_by == 1 else shared
        yield ClassRow(
            "protection" if count.tool.protective else "tool",
            count.tool.name,
            needed=count.count,
            unit="pieces",
            note=", ".join(part for part in (when, shared, _there(count, words)) if part),
        )


def _there(count: ToolCount, words: Words) -> str:
    """How many there are, where the leader has said; else empty."""
    return "" if count.there is None else words.say("{count} there", count=count.there)


def steps_in_order(plan: ClassPlan, guide: Guide) -> list[tuple[Step, tuple[float, float] | None]]:
    """Steps of before the class, then those of the class by their first start, with their span."""
    before = [(step, None) for step in guide.steps if step.id in plan.times.beforehand]
    inside = [
        (step, plan.times.span(step.id))
        for step in guide.steps
        if step.id not in plan.times.beforehand
    ]
    return [*before, *sorted(inside, key=lambda pair: pair[1][0])]


def _steps(plan: ClassPlan, guide: Guide, stock: Stock, words: Words) -> Iterator[ClassRow]:
    """The steps in the order of work, each after its cautions."""
    for step, span in steps_in_order(plan, guide):
        for caution_id in step_cautions(step, stock):
            caution = stock.cautions[caution_id]
            message = f"{caution.hazard} {caution.consequence} {caution.avoid}"
            yield ClassRow("caution", f"{words.say(caution.word)}: {caution.title}", note=message)
        yield ClassRow(
            "step",
            step.title,
            start=round(span[0]) if span else None,
            end=round(span[1]) if span else None,
            clock=span_words(plan, *span, words) if span else "",
            work=round(step.time),
            wait=round(step_wait(step, stock)),
            note="" if span else words.say("before the class"),
        )


def _slots(plan: ClassPlan, guide: Guide, words: Words) -> Iterator[ClassRow]:
    """Who does what when, person by person."""
    titles = {step.id: step.title for step in guide.steps}
    for number in all_hands(plan):
        for slot in plan.times.of(number):
            title = titles[slot.step]
            helps = words.say("{step} (helps {number})", step=title, number=slot.kit + 1)
            yield ClassRow(
                "time",
                hand_name(plan, number, words),
                start=round(slot.start),
                end=round(slot.end),
                clock=span_words(plan, slot.start, slot.end, words),
                note=title if slot.kit == number else helps,
            )
