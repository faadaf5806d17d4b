"""Plan of a class in → a workbook out, with the totals of class.csv as formulas."""

from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.schedules import Slot
from guidegen.layout.times.class_records import ClassPlan, Person, ToolCount
from guidegen.render.lists.class_csv import person_note, steps_in_order
from guidegen.render.lists.materials_xlsx import buying_sheet, buying_table
from guidegen.render.lists.workbook import Foot, Table, WorkbookSheet, workbook
from guidegen.render.text.class_names import all_hands, hand_name, span_words
from guidegen.render.views.tables import Column, Look
from guidegen.words import Words, msg

type Spanned = tuple[Step, tuple[float, float] | None]
"""A step with minutes from the start; None for one that is done before the class."""
type PersonSlot = tuple[str, Slot, bool]
"""Somebody's time at a step, and whether it is spent on another's kit."""


def class_xlsx(plan: ClassPlan, guide: Guide, content: Content) -> bytes:
    """Sheets: shopping with cost in all and for each, tools, people, steps, who does what when."""
    words = content.words
    title = words.say("{guide}, class of {count}", guide=guide.title, count=len(plan.people))
    people = list(enumerate(plan.people, 1))
    slots = [
        (hand_name(plan, number, words), slot, slot.kit != number)
        for number in all_hands(plan)
        for slot in plan.times.of(number)
    ]
    sheets = (
        _shopping(plan, guide, content, title),
        _sheet(words.say("Tools"), Table(_tool_columns(words), _tool_rows(plan))),
        _sheet(words.say("People"), Table(_person_columns(words), people)),
        _sheet(
            words.say("Steps"),
            Table(_step_columns(plan, content.stock, words), steps_in_order(plan, guide)),
        ),
        _sheet(words.say("Time table"), Table(_slot_columns(plan, guide, words), slots)),
    )
    return workbook(title, guide.author, sheets, words)


def _sheet[Row](name: str, table: Table[Row]) -> WorkbookSheet:
    return WorkbookSheet(name, (table,))


def _shopping(plan: ClassPlan, guide: Guide, content: Content, title: str) -> WorkbookSheet:
    words = content.words
    feet = (
        Foot(words.say("Total"), "cost", "=[sum]", round(plan.materials.cost, 6)),
        Foot(
            words.say("Each person"),
            "cost",
            f"=[^cost]/{len(plan.people)}",
            round(plan.per_head, 6),
        ),
    )
    table = buying_table(guide, plan.materials, content.site.currency, feet)
    return buying_sheet(content, words.say("Shopping"), title, table)


def _tool_rows(plan: ClassPlan) -> list[tuple[ToolCount, bool]]:
    """Tools of the room, then those of before the class."""
    before = [(one, True) for one in plan.before_tools]
    return [(one, False) for one in plan.tools] + before


def _tool_columns(words: Words) -> tuple[Column[tuple[ToolCount, bool]], ...]:
    yes = words.say("yes")
    when = words.say("before the class"), words.say("in the room")
    return (
        Column("count", msg("How many"), lambda row: row[0].count, Look.PLAIN, 10),
        Column("there", msg("There"), lambda row: row[0].there, Look.PLAIN, 10),
        Column("name", msg("What"), lambda row: row[0].tool.name, width=50),
        Column("when", msg("Where"), lambda row: when[0] if row[1] else when[1], width=18),
        Column("shared", msg("People to one"), lambda row: row[0].shared_by, Look.PLAIN, 14),
        Column(
            "protective", msg("Protective"), lambda row: yes if row[0].tool.protective else "",
            width=12,
        ),
    )  # fmt: skip


def _person_columns(words: Words) -> tuple[Column[tuple[int, Person]], ...]:
    return (
        Column("number", msg("Number"), lambda row: row[0], Look.PLAIN, 9),
        Column("name", msg("Name"), lambda row: row[1].name, width=30),
        Column(
            "note", msg("Size and mark"), lambda row: person_note(row[1], row[0], words), width=40
        ),
    )


def _step_columns(plan: ClassPlan, stock: Stock, words: Words) -> tuple[Column[Spanned], ...]:
    cautions = words.say("read the cautions of the handout before the step")
    before = words.say("before the class; {cautions}", cautions=cautions)
    return (
        Column("step", msg("Step"), lambda row: row[0].title, width=50),
        Column(
            "start", msg("From, min"), lambda row: row[1][0] if row[1] else None, Look.PLAIN, 10
        ),
        Column("end", msg("To, min"), lambda row: row[1][1] if row[1] else None, Look.PLAIN, 10),
        Column(
            "clock",
            msg("Clock"),
            lambda row: span_words(plan, *row[1], words) if row[1] else "",
            width=18,
        ),
        Column("work", msg("Hands-on, min"), lambda row: row[0].time, Look.PLAIN, 13),
        Column("wait", msg("Then wait, min"), lambda row: step_wait(row[0], stock), Look.PLAIN, 13),
        Column("note", msg("Note"), lambda row: cautions if row[1] else before, width=60),
    )


def _slot_columns(plan: ClassPlan, guide: Guide, words: Words) -> tuple[Column[PersonSlot], ...]:
    titles = {step.id: step.title for step in guide.steps}
    return (
        Column("name", msg("Name"), lambda row: row[0], width=30),
        Column("start", msg("From, min"), lambda row: row[1].start, Look.PLAIN, 10),
        Column("end", msg("To, min"), lambda row: row[1].end, Look.PLAIN, 10),
        Column(
            "clock", msg("Clock"),
            lambda row: span_words(plan, row[1].start, row[1].end, words), width=18,
        ),
        Column("step", msg("Step"), lambda row: titles[row[1].step], width=50),
        Column(
            "helps", msg("Helps"),
            lambda row: plan.people[row[1].kit].name if row[2] else "", width=30,
        ),
    )  # fmt: skip
