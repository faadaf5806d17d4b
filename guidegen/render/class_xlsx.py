"""Plan of a class in → a workbook out, with the totals of class.csv as formulas."""

from guidegen.buildfile.guide import Guide
from guidegen.buildfile.site import Site
from guidegen.buildfile.stock import Stock
from guidegen.layout.class_records import ClassPlan
from guidegen.layout.schedule import step_wait
from guidegen.render.class_csv import person_note, steps_in_order
from guidegen.render.materials_xlsx import Formula, Table, tables_xlsx


def class_xlsx(plan: ClassPlan, guide: Guide, stock: Stock, site: Site) -> bytes:
    """Sheets: shopping with cost in all and for each, tools, people, steps, who does what when."""
    tables = (
        _shopping(plan, site),
        _tools(plan),
        _people(plan),
        _steps(plan, guide, stock),
        _times(plan, guide),
    )
    return tables_xlsx(f"{guide.title}, class of {len(plan.people)}", guide.author, tables)


def _shopping(plan: ClassPlan, site: Site) -> Table:
    rows: list[tuple[str | float | Formula, ...]] = []
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
    rows.append(("Total", "", "", "", "", "", total, ""))
    rows.append(("Each person", "", "", "", "", "", each, ""))
    head = (
        ("Material", 36), ("Needed, at most", 14), ("Unit", 9), ("Pack", 28), ("Buy packs", 10),
        (f"Price each, {site.currency}", 12), (f"Cost, {site.currency}", 12), ("Shop", 24),
    )  # fmt: skip
    return Table("Shopping", head, tuple(rows))


def _tools(plan: ClassPlan) -> Table:
    head = (("How many", 10), ("What", 50), ("People to one", 14), ("Protective", 12))
    rows = tuple(
        (
            float(one.count),
            one.tool.name,
            float(one.shared_by),
            "yes" if one.tool.protective else "",
        )
        for one in plan.tools
    )
    return Table("Tools", head, rows)


def _people(plan: ClassPlan) -> Table:
    rows = tuple(
        (float(number), person.name, person_note(person, number))
        for number, person in enumerate(plan.people, 1)
    )
    return Table("People", (("Number", 9), ("Name", 30), ("Size and mark", 40)), rows)


def _steps(plan: ClassPlan, guide: Guide, stock: Stock) -> Table:
    head = (
        ("Step", 50), ("From, min", 10), ("To, min", 10), ("Hands-on, min", 13),
        ("Then wait, min", 13), ("Note", 60),
    )  # fmt: skip
    cautions = "read the cautions of the handout before the step"
    rows = tuple(
        (
            step.title,
            span[0] if span else "",
            span[1] if span else "",
            step.time,
            step_wait(step, stock),
            cautions if span else f"before the class; {cautions}",
        )
        for step, span in steps_in_order(plan, guide)
    )
    return Table("Steps", head, rows)


def _times(plan: ClassPlan, guide: Guide) -> Table:
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
    head = (("Name", 30), ("From, min", 10), ("To, min", 10), ("Step", 50), ("Helps", 30))
    return Table("Time table", head, rows)
