"""Materials list in → rows of what to buy, what to cut and what to have at hand, with columns."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import ceil

from guidegen.buildfile.records.guide import Guide
from guidegen.layout.records import LengthCut, MaterialLine, MaterialsList, ToolLine
from guidegen.render.text.markdown import plain_text
from guidegen.render.views.scene import step_numbers
from guidegen.render.views.tables import CellValue, Column, Look, Medium
from guidegen.words import msg

KINDS = (
    msg("sheet"), msg("liquid"), msg("length"), msg("count"), msg("cut"), msg("protection"),
    msg("tool"), msg("sheets"), msg("pieces"),
)  # fmt: skip
"""What a row is about, and its unit."""

SLACK = 1e-9
"""Share of a pack by which a sum of floats may seem to miss; as in the choice of packs."""


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """One pack of a material to buy, a length to cut, or a tool."""

    kind: str
    name: str
    unit: str
    """Of all amounts of the row: 'sheets', 'ml', 'mm' or 'pieces'."""
    need: float | None = None
    low: float | None = None
    high: float | None = None
    """Of the whole line; stated in the first row of a line alone."""
    buy: int | None = None
    pack: str = ""
    amount: float | None = None
    """In one pack; mm of a length to cut."""
    price: float | None = None
    """Of one pack."""
    currency: str = ""
    left: float | None = None
    shop: str = ""
    steps: tuple[int, ...] = ()
    alternative: str = ""
    note: str = ""
    rest: float = 0.0
    """What this pack and those after it of the same line have to cover."""
    first: bool = True
    last: bool = True
    """Of the rows of its line."""
    line: MaterialLine | None = None
    """All that is known of it; None for lengths to cut and tools."""

    @property
    def cost(self) -> float | None:
        """Price of all packs of the row."""
        if self.buy is None or self.price is None:
            return None
        return round(self.buy * self.price, 6)

    @property
    def over(self) -> float | None:
        """What stays over at least, in the last row of a line."""
        if not self.last or self.buy is None or self.amount is None:
            return None
        return max(0.0, self.buy * self.amount - self.rest)


def _rest_formula(row: MaterialRow) -> str:
    """Of a mix of packs each covers what those above it leave open."""
    return "" if row.first else "=MAX(0,[^high]-[^have]-[^buy]*[^amount])"


def _buy_formula(row: MaterialRow) -> str:
    """Packs to buy: rounded up once; with cuts planned pack by pack, never fewer than planned.

    Of a mix of packs the first ones are bought as chosen, the last one covers what is left.
    """
    if row.buy is None or not row.amount:
        return ""
    cover = f"ROUNDUP(([high]-[have])/[amount]-{SLACK:.9f},0)"
    rounded = ceil(row.rest / row.amount - SLACK)
    if row.last and rounded == row.buy and row.unit != "mm":
        return f"=MAX(0,{cover})"
    if rounded > row.buy:
        return f"=MAX(0,MIN({row.buy},{cover}))"
    return f"=MAX(0,{row.buy}-ROUNDDOWN([have]/[amount],0),{cover})"


def _over_formula(row: MaterialRow) -> str:
    return "=MAX(0,[have]+[amount]*[buy]-[high])" if row.last else ""


def _listed(row: MaterialRow) -> str:
    return " ".join(map(str, row.steps))


def of_line(value: Callable[[MaterialLine], CellValue]) -> Callable[[MaterialRow], CellValue]:
    """A value of the whole line; None for rows that are of none."""
    return lambda row: None if row.line is None else value(row.line)


_CSV, _BOOK, _PAGE, _DATA = Medium.CSV, Medium.BOOK, Medium.PAGE, Medium.DATA

COLUMNS: tuple[Column[MaterialRow], ...] = (
    Column(
        "material", "", of_line(lambda line: line.material), media=_DATA,
        help="key of the material in stock.yaml",
    ),
    Column(
        "kind", msg("kind"), lambda row: row.kind, Look.WORD, 10, _CSV | _BOOK | _DATA,
        help="sheet, liquid, length or count",
    ),
    Column(
        "name", msg("name"), lambda row: row.name, width=34, title=msg("Material"),
        help="what it is called",
    ),
    # A page lists all packs of a line in one cell, each with words of its own.
    Column("packs", "", lambda row: None, media=_PAGE, title=msg("Buy")),
    Column(
        "need", msg("needed"), lambda row: row.need, Look.AMOUNT, media=_CSV | _DATA | _PAGE,
        title=msg("Needed"), help="likely amount, in the unit of the line",
    ),
    Column(
        "low", msg("least"), lambda row: row.low, Look.AMOUNT, media=_CSV | _DATA,
        help="least amount that may do",
    ),
    Column(
        "high", msg("most"), lambda row: row.high, Look.AMOUNT, media=_CSV | _DATA,
        help="most that may be needed: the packs cover it",
    ),
    Column(
        "high", "", lambda row: max(0.0, row.rest), Look.AMOUNT, 10, _BOOK,
        title=msg("Needed, at most"), formula=_rest_formula,
    ),
    Column(
        "have", "", lambda row: 0, Look.ENTRY, 9, _BOOK, title=msg("I have"),
    ),
    Column(
        "have", "", of_line(lambda line: line.have), Look.AMOUNT, media=_DATA,
        help="what is there already, in the unit of the line",
    ),
    Column(
        "unit", msg("unit"), lambda row: row.unit, Look.WORD, 8, _CSV | _BOOK | _DATA,
        help="unit of all amounts of the line: sheets, ml, mm or pieces",
    ),
    Column(
        "buy", msg("buy"), lambda row: row.buy, Look.COUNT, 10, _CSV | _BOOK,
        title=msg("Buy packs"), formula=_buy_formula,
    ),
    Column("pack", msg("pack"), lambda row: row.pack, width=24, media=_CSV | _BOOK),
    Column(
        "amount", msg("pack amount"), lambda row: row.amount, Look.AMOUNT, 10, _CSV | _BOOK,
        title=msg("In a pack"),
    ),
    Column("price", "", lambda row: row.price, Look.MONEY, 11, _BOOK, title=msg("Price each")),
    Column(
        "cost", msg("cost"), lambda row: row.cost, Look.MONEY, 11, _CSV | _BOOK,
        formula=lambda row: "=[buy]*[price]",
    ),
    Column(
        "cost", "", of_line(lambda line: line.cost if line.priced else None), Look.MONEY,
        media=_PAGE | _DATA, title=msg("Cost"), help="price of all packs of the line",
    ),
    Column("currency", msg("currency"), lambda row: row.currency, media=_CSV),
    Column(
        "left", msg("left over"), lambda row: row.left, Look.AMOUNT, media=_CSV | _DATA,
        help="what stays over of the likely amount",
    ),
    Column(
        "left", "", lambda row: row.over, Look.AMOUNT, 10, _BOOK,
        title=msg("Left over, at least"), formula=_over_formula,
    ),
    Column(
        "shop", msg("shop"), lambda row: row.shop, width=18, media=_CSV | _BOOK | _DATA,
        help="shop where it is bought; empty for wherever it is sold",
    ),
    Column("steps", msg("steps"), _listed, width=14, media=_CSV | _BOOK),
    Column(
        "alternative", msg("alternative"), lambda row: row.alternative, media=_CSV | _DATA,
        help="what may be used instead; empty for nothing",
    ),
    Column("note", msg("note"), lambda row: row.note, media=_CSV),
    Column(
        "note", "", of_line(lambda line: line.note), media=_DATA,
        help="the author's words, CommonMark; empty for none",
    ),
    Column(
        "basis", "", of_line(lambda line: line.basis), media=_DATA,
        help="how the amount was worked out",
    ),
    Column(
        "area", "", of_line(lambda line: line.area), Look.AMOUNT, media=_DATA,
        help="mm² of pieces; 0 for what is not sold in sheets",
    ),
    Column(
        "rate", "", of_line(lambda line: line.rate), media=_DATA,
        help="how far it goes, in words; empty where no rate was used",
    ),
    Column(
        "source", "", of_line(lambda line: line.source), media=_DATA,
        help="where the rate is from",
    ),
)  # fmt: skip
"""Of every medium, in their order. What stands twice is another figure in each: a workbook reckons
pack by pack, a page and JSON tell of the whole line."""


def material_rows(materials: MaterialsList, guide: Guide, currency: str) -> list[MaterialRow]:
    """One row for each pack to buy, then the lengths to cut, then the tools."""
    numbers = step_numbers(guide)
    names = {line.material: line.name for line in materials.lines}
    bought = [row for line in materials.lines for row in bought_rows(line, numbers, currency)]
    cuts = [_cut_row(cut, names.get(cut.material, cut.material)) for cut in materials.cuts]
    return [*bought, *cuts, *(_tool_row(tool, numbers) for tool in materials.tools)]


def bought_rows(
    line: MaterialLine, numbers: Mapping[str, int], currency: str
) -> Iterator[MaterialRow]:
    """A row for each pack of a line, with what is left to cover when those before it are bought.

    `numbers` are those of the steps by id.
    """
    whole = line_row(line, numbers, currency)
    rest = line.high
    for number, pack in enumerate(line.packs):
        first = number == 0
        yield replace(
            whole,
            need=whole.need if first else None,
            low=whole.low if first else None,
            high=whole.high if first else None,
            left=whole.left if first else None,
            buy=pack.count,
            pack=pack.name,
            amount=pack.amount,
            price=pack.price if line.priced else None,
            rest=rest,
            first=first,
            last=number == len(line.packs) - 1,
        )
        rest -= pack.count * pack.amount


def line_row(line: MaterialLine, numbers: Mapping[str, int], currency: str) -> MaterialRow:
    """A whole line in one row: nothing of its packs."""
    return MaterialRow(
        kind=line.kind,
        name=line.name,
        unit=line.unit,
        need=line.need,
        low=line.low,
        high=line.high,
        currency=currency,
        left=line.left,
        shop=line.shop,
        steps=_steps(line.steps, numbers),
        alternative=line.alternative,
        note=plain_text(line.note) if line.note else "",
        rest=line.high,
        line=line,
    )


def _cut_row(cut: LengthCut, name: str) -> MaterialRow:
    # Lengths to cut are told to a tenth of a millimetre, as they can be marked.
    return MaterialRow(
        "cut", name, "pieces", need=cut.pieces, amount=round(cut.length, 1), note=cut.note
    )


def _tool_row(tool: ToolLine, numbers: Mapping[str, int]) -> MaterialRow:
    return MaterialRow(
        "protection" if tool.protective else "tool",
        tool.name,
        "pieces",
        need=1,
        steps=_steps(tool.steps, numbers),
        alternative=tool.alternative,
        note=plain_text(tool.note) if tool.note else "",
    )


def _steps(ids: tuple[str, ...], numbers: Mapping[str, int]) -> tuple[int, ...]:
    return tuple(sorted(numbers[name] for name in ids if name in numbers))
