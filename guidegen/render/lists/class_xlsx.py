"""Plan of a class in → a workbook out, with the totals of class.csv as formulas."""

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.class_records import ClassPlan
from guidegen.layout.times.schedule import step_wait
from guidegen.render.lists.class_csv import person_note, steps_in_order
from guidegen.render.lists.materials_xlsx import Formula, Table, tables_xlsx
from guidegen.words import ENGLISH, Words, msg

type Row = tuple[str | float | Formula, ...]

MOST_NAME = 31
"""Letters of a sheet's name: the limit of the file format."""


def class_xlsx(
    plan: ClassPlan, guide: Guide, stock: Stock, site: Site, words: Words = ENGLISH
) -> bytes:
    """Sheets: shopping with cost in all and for each, tools, people, steps, who does what when."""
    tables = (
        _shopping(plan, site, words),
        _tools(plan, words),
        _people(plan, words),
        _steps(plan, guide, stock, words),
        _times(plan, guide, words),
    )
    title = words.say("{guide}, class of {count}", guide=guide.title, count=len(plan.people))
    return tables_xlsx(title, guide.author, tables)


def _table(
    words: Words, name: str, head: tuple[tuple[str, int], ...], rows: tuple[Row, ...]
) -> Table:
    """A sheet with its name and headings in the language of the workbook."""
    said = tuple((words.say(heading), width) for heading, width in head)
    return Table(words.say(name)[:MOST_NAME], said, rows)


def _shopping(plan: ClassPlan, site: Site, words: Words) -> Table:
    rows: list[Row] = []
    for line in plan.materials.lines:
        for number, pack in enumerate(line.packs):
            at = len(rows) + 2
            cost = round(pack.count * pack.price, 6)
            rows.append(
                (
                    line.name,
                    line.high if number == 0 else "",
                    line.unit,
                    pack.name,
                    float(pack.count),
                    pack.price,
                    Formula(f"=E{at}*F{at}", cost),
                    line.shop,
                )
            )
    last = len(rows) + 1
    total = Formula(f"=SUM(G2:G{max(2, last)})", round(plan.materials.cost, 6))
    each = Formula(f"=G{last + 1}/{len(plan.people)}", round(plan.per_head, 6))
    rows.append((words.say("Total"), "", "", "", "", "", total, ""))
    rows.append((words.say("Each person"), "", "", "", "", "", each, ""))
    head = (
        (msg("Material"), 36), (msg("Needed, at most"), 14), (msg("Unit"), 9), (msg("Pack"), 28),
        (msg("Buy packs"), 10), (words.say("Price each, {currency}", currency=site.currency), 12),
        (words.say("Cost, {currency}", currency=site.currency), 12), (msg("Shop"), 24),
    )  # fmt: skip
    return _table(words, msg("Shopping"), head, tuple(rows))


def _tools(plan: ClassPlan, words: Words) -> Table:
    head = (
        (msg("How many"), 10),
        (msg("What"), 50),
        (msg("People to one"), 14),
        (msg("Protective"), 12),
    )
    rows = tuple(
        (
            float(one.count),
            one.tool.name,
            float(one.shared_by),
            words.say("yes") if one.tool.protective else "",
        )
        for one in plan.tools
    )
    return _table(words, msg("Tools"), head, rows)


def _people(plan: ClassPlan, words: Words) -> Table:
    rows = tuple(
        (float(number), person.name, person_note(person, number, words))
        for number, person in enumerate(plan.people, 1)
    )
    head = ((msg("Number"), 9), (msg("Name"), 30), (msg("Size and mark"), 40))
    return _table(words, msg("People"), head, rows)


def _steps(plan: ClassPlan, guide: Guide, stock: Stock, words: Words) -> Table:
    head = (
        (msg("Step"), 50), (msg("From, min"), 10), (msg("To, min"), 10),
        (msg("Hands-on, min"), 13), (msg("Then wait, min"), 13), (msg("Note"), 60),
    )  # fmt: skip
    cautions = words.say("read the cautions of the handout before the step")
    rows = tuple(
        (
            step.title,
            span[0] if span else "",
            span[1] if span else "",
            step.time,
            step_wait(step, stock),
            cautions if span else words.say("before the class; {cautions}", cautions=cautions),
        )
        for step, span in steps_in_order(plan, guide)
    )
    return _table(words, msg("Steps"), head, rows)


def _times(plan: ClassPlan, guide: Guide, words: Words) -> Table:
    titles = {step.id: step.title for step in guide.steps}
    rows = tuple(
        (
            person.name,
            slot.start,
            slot.end,
            titles[slot.step],
            "" if slot.person == number else plan.people[slot.person].name,
        )
        for number, person in enumerate(plan.people)
        for slot in plan.times.of(number)
    )
    head = (
        (msg("Name"), 30), (msg("From, min"), 10), (msg("To, min"), 10), (msg("Step"), 50),
        (msg("Helps"), 30),
    )  # fmt: skip
    return _table(words, msg("Time table"), head, rows)
