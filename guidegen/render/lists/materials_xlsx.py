"""Guide plan in → a workbook of all sizes out: a buying list to calculate with, and a comparison.

Every result is a formula beside its stored value, so that a change of price, amount or stock at
hand is followed.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.guide import Guide
from guidegen.layout.buying.compare import SheetUse, compare_sheets
from guidegen.layout.nesting.bounds import gap_words
from guidegen.layout.records import GuidePlan, MaterialsList, SizePlan
from guidegen.render.lists.workbook import MOST_NAME, Foot, Note, Table, WorkbookSheet, workbook
from guidegen.render.views.compare import change_words, sheet_words
from guidegen.render.views.material_rows import COLUMNS, MaterialRow, bought_rows
from guidegen.render.views.scene import size_title, step_numbers
from guidegen.render.views.tables import Column, Look
from guidegen.words import msg

HEADINGS = 2
"""Row of the headings of a buying list, from 0: below a title and a line on prices."""


def materials_xlsx(content: Content, plan: GuidePlan) -> bytes:
    """The workbook: 'All sizes' first, then a sheet for each size in the guide's order."""
    guide, words = plan.file.guide, content.words
    totals, sheets = [], []
    for number, size in enumerate(plan.sizes, 1):
        title = words.say(
            "{guide}, size {size}", guide=guide.title, size=size_title(size.size, words)
        )
        # A name that spreadsheets take: unique also without case, by its number.
        feet = (Foot(words.say("Total"), "cost", "=[sum]", _cost(size)),)
        table = buying_table(guide, size.materials, content.site.currency, feet)
        sheet = buying_sheet(content, f"{number} {size.size}"[:MOST_NAME], title, table)
        sheets.append(sheet)
        totals.append(sheet.address(table.address(table.feet[0])))
    compared = _comparison(content, plan, totals)
    return workbook(guide.title, guide.author, [compared, *sheets], words)


def buying_table(
    guide: Guide, materials: MaterialsList, currency: str, feet: tuple[Foot, ...]
) -> Table[MaterialRow]:
    """A row for each pack, with what the reader has taken off."""
    numbers = step_numbers(guide)
    rows = [row for line in materials.lines for row in bought_rows(line, numbers, currency)]
    return Table(COLUMNS, rows, feet, HEADINGS)


def buying_sheet(
    content: Content, name: str, title: str, table: Table[MaterialRow]
) -> WorkbookSheet:
    """A buying list with its title and what its prices are."""
    prices = content.words.say(
        "Prices in {currency}, of {date}. Fill in what you have (yellow).",
        currency=content.site.currency,
        date=content.site.prices_of,
    )
    # Kind and name of a material stay in sight beside its figures.
    return WorkbookSheet(name, (table,), title, (Note(1, prices),), kept=(HEADINGS + 1, 2))


def _cost(size: SizePlan) -> float:
    """What the formulas add up to: all packs of all lines."""
    packs = (pack for line in size.materials.lines for pack in line.packs)
    return round(sum(pack.count * pack.price for pack in packs), 6)


@dataclass(frozen=True, slots=True)
class _SizeRow:
    """One size in the comparison."""

    name: str
    plan: SizePlan
    total: str
    """Cell of its cost."""


def _size_columns(cost: str) -> tuple[Column[_SizeRow], ...]:
    """`cost` is the heading of what a size costs, with its currency."""
    return (
        Column("size", msg("Size"), lambda row: row.name, width=30),
        Column(
            "cost", cost, lambda row: _cost(row.plan), Look.MONEY, 12,
            formula=lambda row: f"={row.total}",
        ),
        Column(
            "foam", msg("Foam, g"), lambda row: round(row.plan.materials.weight), Look.COUNT, 10
        ),
        Column("sheets", msg("Sheets"), lambda row: _sheets(row.plan), Look.COUNT, 8),
    )  # fmt: skip


def _sheets(size: SizePlan) -> int:
    return sum(len(plan.sheets) for plan in size.cut_plans)


@dataclass(frozen=True, slots=True)
class _UseRow:
    """One sheet material of one size in the comparison."""

    name: str
    size: str
    use: SheetUse
    gap: str
    """How good its plan is, in words."""


_USES: tuple[Column[_UseRow], ...] = (
    Column("foam", msg("Foam"), lambda row: row.name, width=30),
    Column("size", msg("Size"), lambda row: row.size, width=12),
    Column("sheets", msg("Sheets"), lambda row: row.use.count, Look.COUNT, 10),
    Column(
        "used", msg("Used"), lambda row: row.use.used, Look.SHARE, 8,
        formula=lambda row: "=IF([bought]=0,0,[pieces]/[bought])",
    ),
    Column("pieces", msg("Pieces, m²"), lambda row: row.use.pieces / 1e6, Look.AREA, 11),
    Column("bought", msg("Bought, m²"), lambda row: row.use.bought / 1e6, Look.AREA, 11),
    Column("which", msg("Which"), lambda row: sheet_words(row.use), width=40),
    Column("gap", msg("This plan is"), lambda row: row.gap, width=34),
)  # fmt: skip


def _comparison(content: Content, plan: GuidePlan, totals: Sequence[str]) -> WorkbookSheet:
    """Cost and foam of all sizes, then why a size needs more foam than the one before."""
    words = content.words
    uses, changes = compare_sheets(plan.sizes)
    names = {key: material.name for key, material in content.stock.materials.items()}
    cost = words.say("Cost, {currency}", currency=content.site.currency)
    rows = [
        _SizeRow(size_title(size.size, words), size, total)
        for size, total in zip(plan.sizes, totals, strict=True)
    ]
    sizes = Table(_size_columns(cost), rows, top=HEADINGS)
    # One empty row between the tables, and before the reasons.
    below = HEADINGS + len(rows) + 2
    foams = Table(_USES, _use_rows(content, plan, uses, names), top=below)
    reasons = below + len(foams.rows) + 2
    notes = [Note(reasons, words.say("Why a size needs more material"), heading=True)]
    notes += [
        Note(row, change_words(change, names, words))
        for row, change in enumerate(changes, reasons + 1)
    ]
    title = words.say("{guide}: all sizes", guide=plan.file.guide.title)
    return WorkbookSheet(
        words.say("All sizes"), (sizes, foams), title, tuple(notes) if changes else (), kept=(0, 0)
    )


def _use_rows(
    content: Content, plan: GuidePlan, uses: Iterable[SheetUse], names: dict[str, str]
) -> list[_UseRow]:
    """By material in the order of the stock, then by size."""
    gaps = {
        (size.size, cut.material): gap_words(cut, content.words)
        for size in plan.sizes
        for cut in size.cut_plans
    }
    order = list(names)
    return [
        _UseRow(
            names[use.material],
            size_title(use.size, content.words),
            use,
            gaps[use.size, use.material],
        )
        for use in sorted(uses, key=lambda use: order.index(use.material))
    ]
