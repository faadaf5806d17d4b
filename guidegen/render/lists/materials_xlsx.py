"""Guide plan in → a workbook of all sizes out: a buying list to calculate with, and a comparison.

The only module that imports XlsxWriter. Every result is a formula beside its stored value, so that
a change of price, amount or stock at hand is followed, and a plain reader sees the figures too.
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from math import ceil

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from guidegen.buildfile.read.content import Content
from guidegen.layout.buying.compare import SheetUse, compare_sheets
from guidegen.layout.nesting.bounds import gap_words
from guidegen.layout.records import GuidePlan, MaterialLine, PackCount, SizePlan
from guidegen.render.views.compare import change_words, sheet_words
from guidegen.render.views.scene import size_title, step_numbers
from guidegen.words import Words, msg

COLUMNS = (
    (msg("Material"), 34),
    (msg("Kind"), 8),
    (msg("Needed, at most"), 10),
    (msg("I have"), 9),
    (msg("Unit"), 8),
    (msg("Pack"), 24),
    (msg("In a pack"), 10),
    (msg("Buy packs"), 10),
    (msg("Price each"), 11),
    (msg("Cost"), 11),
    (msg("Left over, at least"), 10),
    (msg("Shop"), 18),
    (msg("Steps"), 14),
)
"""Columns of a size's sheet: heading and width in characters."""

FIRST = 4
"""Row of the first material, from 1."""

_SLACK = 1e-9
"""Share of a pack by which a sum of floats may seem to miss; as in the choice of packs."""

_EPOCH = datetime(1980, 1, 1, tzinfo=UTC).replace(tzinfo=None)
"""Date of the workbook: no clock, so the same plan gives the same bytes."""


@dataclass(frozen=True, slots=True)
class _Styles:
    """Formats of cells."""

    title: Format
    head: Format
    text: Format
    amount: Format
    count: Format
    money: Format
    entry: Format
    total: Format
    share: Format


@dataclass(frozen=True, slots=True)
class _Row:
    """One pack of one material."""

    line: MaterialLine
    pack: PackCount
    need: float
    """What this pack and those after it of the same line have to cover."""
    first: bool
    last: bool


def materials_xlsx(content: Content, plan: GuidePlan) -> bytes:
    """The workbook: 'All sizes' first, then a sheet for each size in the guide's order."""
    stream = io.BytesIO()
    # Texts stay texts: nothing that an author wrote becomes a formula or a link.
    book = xlsxwriter.Workbook(
        stream, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    guide = plan.file.guide
    book.set_properties({"title": guide.title, "author": guide.author, "created": _EPOCH})
    styles = _make_styles(book)
    compared = book.add_worksheet(content.words.say("All sizes")[:31])
    totals: list[str] = []
    for number, size in enumerate(plan.sizes, 1):
        name = _sheet_name(number, size.size)
        totals.append(_write_size(book.add_worksheet(name), styles, content, plan, size))
    _write_comparison(compared, styles, content, plan, totals)
    book.close()
    return stream.getvalue()


def _make_styles(book: xlsxwriter.Workbook) -> _Styles:
    edge = {"bottom": 1, "bottom_color": "#B8B8B8", "valign": "top"}
    return _Styles(
        title=book.add_format({"bold": True, "font_size": 14}),
        head=book.add_format({"bold": True, "bottom": 2, "text_wrap": True, "valign": "bottom"}),
        text=book.add_format({**edge, "text_wrap": True}),
        amount=book.add_format({**edge, "num_format": "#,##0"}),
        count=book.add_format({**edge, "num_format": "0", "bold": True}),
        money=book.add_format({**edge, "num_format": "#,##0.00"}),
        entry=book.add_format({**edge, "num_format": "#,##0", "bg_color": "#FFF7D6"}),
        total=book.add_format({"bold": True, "num_format": "#,##0.00", "top": 2}),
        share=book.add_format({**edge, "num_format": "0 %"}),
    )


def _sheet_name(number: int, size: str) -> str:
    """A name that spreadsheets take: 31 characters at most, unique also without case."""
    return f"{number} {size}"[:31]


def _write_size(
    sheet: Worksheet,
    styles: _Styles,
    content: Content,
    plan: GuidePlan,
    size: SizePlan,
) -> str:
    """Write one size's buying list; the address of its total."""
    guide, site = plan.file.guide, content.site
    words = content.words
    title = words.say("{guide}, size {size}", guide=guide.title, size=size_title(size.size, words))
    sheet.write_string(0, 0, title, styles.title)
    prices = words.say(
        "Prices in {currency}, of {date}. Fill in what you have (yellow).",
        currency=site.currency,
        date=site.prices_of,
    )
    sheet.write_string(1, 0, prices)
    _write_head(sheet, styles, FIRST - 2, _said(COLUMNS, words))
    rows = [row for line in size.materials.lines for row in _rows(line)]
    numbers = step_numbers(guide)
    for index, row in enumerate(rows):
        steps = sorted(numbers[step] for step in row.line.steps)
        _write_row(sheet, styles, FIRST + index, row, " ".join(map(str, steps)))
    last = FIRST + len(rows)
    sheet.write_string(last - 1, 0, words.say("Total"), styles.total)
    total = f"SUM(J{FIRST}:J{max(FIRST, last - 1)})"
    sheet.write_formula(last - 1, 9, f"={total}", styles.total, _cost(size))
    sheet.freeze_panes(FIRST - 1, 1)
    _set_page(sheet)
    return f"'{sheet.get_name().replace("'", "''")}'!J{last}"


def _cost(size: SizePlan) -> float:
    """What the formulas add up to: all packs of all lines."""
    packs = (pack for line in size.materials.lines for pack in line.packs)
    return round(sum(pack.count * pack.price for pack in packs), 6)


def _rows(line: MaterialLine) -> list[_Row]:
    """A line's packs, each with what is left to cover when those before it are bought."""
    rows: list[_Row] = []
    need = line.high
    for number, pack in enumerate(line.packs):
        rows.append(_Row(line, pack, need, number == 0, number == len(line.packs) - 1))
        need -= pack.count * pack.amount
    return rows


def _write_row(sheet: Worksheet, styles: _Styles, number: int, row: _Row, steps: str) -> None:
    """One pack; `number` is its row from 1. Formulas see what the reader changes."""
    line, pack, index = row.line, row.pack, number - 1
    texts = ((0, line.name), (1, line.kind), (4, line.unit), (5, pack.name))
    for column, text in (*texts, (11, line.shop), (12, steps)):
        sheet.write_string(index, column, text, styles.text)
    if row.first:
        sheet.write_number(index, 2, line.high, styles.amount)
        sheet.write_number(index, 3, 0, styles.entry)
    else:
        above = number - 1
        rest = f"=MAX(0,C{above}-D{above}-G{above}*H{above})"
        sheet.write_formula(index, 2, rest, styles.amount, max(0.0, row.need))
        sheet.write_number(index, 3, 0, styles.entry)
    sheet.write_number(index, 6, pack.amount, styles.amount)
    sheet.write_formula(index, 7, _buy_formula(number, row), styles.count, pack.count)
    sheet.write_number(index, 8, pack.price, styles.money)
    cost = round(pack.count * pack.price, 6)
    sheet.write_formula(index, 9, f"=H{number}*I{number}", styles.money, cost)
    bought = pack.count * pack.amount
    if row.last:
        left = f"=MAX(0,D{number}+G{number}*H{number}-C{number})"
        sheet.write_formula(index, 10, left, styles.amount, max(0.0, bought - row.need))
    else:
        sheet.write_blank(index, 10, None, styles.text)


def _buy_formula(number: int, row: _Row) -> str:
    """Packs to buy: rounded up once; with cuts planned pack by pack, never fewer than planned.

    Of a mix of packs the first ones are bought as chosen, the last one covers what is left.
    """
    cover = f"ROUNDUP((C{number}-D{number})/G{number}-{_SLACK:.9f},0)"
    rounded = ceil(row.need / row.pack.amount - _SLACK)
    if row.last and rounded == row.pack.count and row.line.unit != "mm":
        return f"=MAX(0,{cover})"
    if rounded > row.pack.count:
        return f"=MAX(0,MIN({row.pack.count},{cover}))"
    return f"=MAX(0,{row.pack.count}-ROUNDDOWN(D{number}/G{number},0),{cover})"


def _write_comparison(
    sheet: Worksheet, styles: _Styles, content: Content, plan: GuidePlan, totals: Sequence[str]
) -> None:
    """Cost and foam of all sizes, then why a size needs more foam than the one before."""
    uses, changes = compare_sheets(plan.kits, plan.sizes)
    names = {key: material.name for key, material in content.stock.materials.items()}
    words = content.words
    title = words.say("{guide}: all sizes", guide=plan.file.guide.title)
    sheet.write_string(0, 0, title, styles.title)
    cost = words.say("Cost, {currency}", currency=content.site.currency)
    heads = ((msg("Size"), 30), (cost, 12), (msg("Foam, g"), 10), (msg("Sheets"), 8))
    _write_head(sheet, styles, 2, _said(heads, words))
    row = 3
    for size, total in zip(plan.sizes, totals, strict=True):
        sheet.write_string(row, 0, size_title(size.size, words), styles.text)
        sheet.write_formula(row, 1, f"={total}", styles.money, _cost(size))
        sheet.write_number(row, 2, round(size.materials.weight), styles.count)
        sheet.write_number(row, 3, sum(len(p.sheets) for p in size.cut_plans), styles.count)
        row += 1
    gaps = {
        (s.size, cut.material): gap_words(cut, content.words)
        for s in plan.sizes
        for cut in s.cut_plans
    }
    row = _write_uses(sheet, styles, row + 1, uses, (names, gaps, words))
    if changes:
        sheet.write_string(row + 1, 0, words.say("Why a size needs more foam"), styles.head)
        for offset, change in enumerate(changes, row + 2):
            sheet.write_string(offset, 0, change_words(change, names, words))
    _set_page(sheet)


def _write_uses(
    sheet: Worksheet,
    styles: _Styles,
    row: int,
    uses: Sequence[SheetUse],
    said: tuple[dict[str, str], dict[tuple[str, str], str], Words],
) -> int:
    """A row for each size and sheet material; the row after them.

    `said` are the names of the materials, by size and material how good its plan is, and words.
    """
    names, gaps, words = said
    heads = (
        (msg("Foam"), 30),
        (msg("Size"), 12),
        (msg("Sheets"), 10),
        (msg("Used"), 8),
        (msg("Pieces, m²"), 11),
        (msg("Bought, m²"), 11),
        (msg("Which"), 40),
        (msg("This plan is"), 34),
    )
    _write_head(sheet, styles, row, _said(heads, words))
    for use in sorted(uses, key=lambda use: list(names).index(use.material)):
        row += 1
        sheet.write_string(row, 0, names[use.material], styles.text)
        sheet.write_string(row, 1, size_title(use.size, words), styles.text)
        sheet.write_number(row, 2, use.count, styles.count)
        figures = f"=IF(F{row + 1}=0,0,E{row + 1}/F{row + 1})"
        sheet.write_formula(row, 3, figures, styles.share, use.used)
        sheet.write_number(row, 4, use.pieces / 1e6, styles.money)
        sheet.write_number(row, 5, use.bought / 1e6, styles.money)
        sheet.write_string(row, 6, sheet_words(use), styles.text)
        sheet.write_string(row, 7, gaps[use.size, use.material], styles.text)
    return row + 1


def _said(columns: Sequence[tuple[str, int]], words: Words) -> list[tuple[str, int]]:
    """Headings in the language of the workbook, with their widths."""
    return [(words.say(heading), width) for heading, width in columns]


def _write_head(
    sheet: Worksheet, styles: _Styles, row: int, columns: Sequence[tuple[str, int]]
) -> None:
    for column, (heading, width) in enumerate(columns):
        sheet.set_column(column, column, width)
        sheet.write_string(row, column, heading, styles.head)


def _set_page(sheet: Worksheet) -> None:
    """A4, across, as wide as the page."""
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.fit_to_pages(1, 0)


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula with its value, for readers that do not calculate."""

    text: str
    value: float


@dataclass(frozen=True, slots=True)
class Table:
    """A sheet of a workbook: one row of headings, then rows of texts, numbers and formulas."""

    name: str
    head: tuple[tuple[str, int], ...]
    """Heading and width in characters."""
    rows: tuple[tuple[str | float | Formula, ...], ...]


def tables_xlsx(title: str, author: str, tables: Sequence[Table]) -> bytes:
    """A workbook of plain tables. Texts stay texts, whoever wrote them."""
    stream = io.BytesIO()
    book = xlsxwriter.Workbook(
        stream, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    book.set_properties({"title": title, "author": author, "created": _EPOCH})
    styles = _make_styles(book)
    for table in tables:
        sheet = book.add_worksheet(table.name)
        _write_head(sheet, styles, 0, table.head)
        for number, row in enumerate(table.rows, 1):
            for column, value in enumerate(row):
                if isinstance(value, Formula):
                    sheet.write_formula(number, column, value.text, styles.money, value.value)
                elif isinstance(value, str):
                    sheet.write_string(number, column, value, styles.text)
                else:
                    sheet.write_number(number, column, value, styles.text)
        sheet.freeze_panes(1, 0)
        _set_page(sheet)
    book.close()
    return stream.getvalue()
