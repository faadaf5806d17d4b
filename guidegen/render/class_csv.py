"""Plan of a class in → its shopping list, tools, people and hours as CSV bytes out."""

import csv
import io
from dataclasses import dataclass

from guidegen.buildfile.cautions import step_cautions
from guidegen.buildfile.guide import Guide
from guidegen.buildfile.stock import Stock
from guidegen.layout.class_plan import Person, ToolCount
from guidegen.layout.records import MaterialsList, TimeLine
from guidegen.layout.schedule import step_wait
from guidegen.render.materials_csv import safe_cell
from guidegen.units import mm_text

HEADER = (
    "section", "name", "needed", "unit", "buy", "pack", "pack amount", "cost", "currency",
    "left over", "shop", "start min", "hands-on min", "wait min", "note",
)  # fmt: skip
"""Columns; cells that a section has no use for are empty."""


DEFERENCE = (
    "A list cannot know your products, your room or your people. The safety data sheet and label "
    "of each product, local rules and a qualified supervisor come first. Read the safety page of "
    "the guide with everybody before the first step."
)
"""What a leader reads first."""


@dataclass(frozen=True)
class ClassPlan:
    """All that was worked out for one class."""

    people: tuple[Person, ...]
    materials: MaterialsList
    tools: tuple[ToolCount, ...]
    time_line: TimeLine

    @property
    def per_head(self) -> float:
        """Cost of everything that is bought, shared by all, in the site's currency."""
        return self.materials.cost / len(self.people)


type _Cells = dict[str, str]


def class_csv(plan: ClassPlan, guide: Guide, stock: Stock, currency: str) -> bytes:
    """RFC 4180, UTF-8 with a byte order mark; safety first, each caution before its step."""
    rows = [{"section": "first", "name": "Safety", "note": DEFERENCE}]
    rows += [*_bought(plan, currency), *_tools(plan)]
    rows += [
        {
            "section": "person",
            "name": person.name,
            "note": f"size {person.size}, pieces marked {number}",
        }
        for number, person in enumerate(plan.people, 1)
    ]
    rows += _steps(plan.time_line, guide, stock)
    for name, cost in (("all", plan.materials.cost), ("each person", plan.per_head)):
        rows.append({"section": "total", "name": name, "cost": f"{cost:.2f}", "currency": currency})
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(HEADER)
    writer.writerows([safe_cell(row.get(column, "")) for column in HEADER] for row in rows)
    return ("\ufeff" + stream.getvalue()).encode("utf-8")


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


def _steps(time_line: TimeLine, guide: Guide, stock: Stock) -> list[_Cells]:
    """The steps in the order of work, each after its cautions; waits run beside what follows."""
    steps = {step.id: step for step in guide.steps}
    rows: list[_Cells] = []
    for name, start in zip(time_line.order, time_line.starts, strict=True):
        step = steps[name]
        for caution_id in step_cautions(step, stock):
            caution = stock.cautions[caution_id]
            words = f"{caution.hazard} {caution.consequence} {caution.avoid}"
            label = f"{caution.word}: {caution.title}"
            rows.append({"section": "caution", "name": label, "note": words})
        rows.append(
            {
                "section": "step",
                "name": step.title,
                "start min": mm_text(start, 0),
                "hands-on min": mm_text(step.time, 0),
                "wait min": mm_text(step_wait(step, stock), 0),
            }
        )
    return rows
