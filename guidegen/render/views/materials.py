"""Materials list in → the buying list, lengths to cut and tools, in words."""

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import compress, groupby

from markupsafe import Markup

from guidegen.layout.buying.packs import pack_name, price_of, weighed
from guidegen.layout.records import (
    Alternative,
    CutLength,
    LengthCut,
    LengthPlan,
    MaterialLine,
    MaterialsList,
    PackCount,
)
from guidegen.quantities import (
    amount_words,
    area_words,
    inch_words,
    length_words,
    money_words,
    spent_words,
    weight_words,
)
from guidegen.render.views.material_rows import COLUMNS, MaterialRow, line_row
from guidegen.render.views.scene import LinkView, Scene, step_links, step_numbers
from guidegen.render.views.tables import Column, Look, Medium, shown_in
from guidegen.render.views.tools import ToolView, tool_views
from guidegen.units import mm_text
from guidegen.words import SPACE, Words


@dataclass(frozen=True, slots=True)
class PackView:
    """A pack to buy, with plain figures for a script that reckons with what the reader has."""

    words: str
    """'2 × tin 250 ml'."""
    name: str
    count: int
    amount: str
    """Of one pack, in the line's base unit: ml, mm, sheets or pieces."""
    price: str
    """Of one pack."""


@dataclass(frozen=True, slots=True)
class HeadingView:
    """A column of the buying list."""

    id: str
    title: str
    figures: bool
    """True for a column of numbers."""


@dataclass(frozen=True, slots=True)
class CellView:
    """A cell of the buying list; what a theme shows with more than words it knows by its column."""

    column: HeadingView
    words: str


@dataclass(frozen=True, slots=True)
class BuyView:
    """One line of the buying list."""

    id: str
    name: str
    href: str
    need: str
    """The exact figure."""
    spread: str
    """From least to most, where the figure is uncertain; else empty."""
    basis: str
    packs: tuple[str, ...]
    left: str
    """What stays over; empty for nothing."""
    cost: str
    shop: str
    alternative: str
    note: Markup
    steps: tuple[LinkView, ...]
    other_shops: tuple[str, ...] = ()
    """Further shops that sell it."""
    rate: str = ""
    """How far it goes, with its spread; empty where no rate was used."""
    source: str = ""
    """Where the rate is from."""
    others: tuple[str, ...] = ()
    """Other packs that would do as well, with what they cost."""
    bought: tuple[PackView, ...] = ()
    """The packs with their figures."""
    figures: tuple[str, str] = ("0", "")
    """What has to be covered by packs, and its base unit."""
    likely: str = "0"
    """As the first of these, by the likely figure: what is above it stays over."""
    offers: str = ""
    """JSON of all packs on sale: words for one, amount, price; empty for sheets and lengths."""
    price: str = "0"
    """Plain figure of the cost."""
    cells: tuple[CellView, ...] = ()
    """One for each column."""


@dataclass(frozen=True, slots=True)
class ShopView:
    """What is bought in one shop."""

    name: str
    lines: tuple[BuyView, ...]
    cost: str
    note: Markup
    """What the site says of the shop; empty for nothing."""
    address: str = ""
    """Of its page; empty for none."""


@dataclass(frozen=True, slots=True)
class CutLengthView:
    """A length to cut from webbing, elastic or tape."""

    material: str
    length: str
    inches: str
    pieces: int
    note: str


@dataclass(frozen=True, slots=True)
class CutOrderView:
    """Packs of webbing, elastic or tape that are cut alike."""

    material: str
    pack: str
    """'2 × roll, 5 m'."""
    cuts: tuple[str, ...]
    """Lengths from the pack's end on, the longest first, with what they are for."""
    left: str
    """What stays over of each; empty for nothing."""


@dataclass(frozen=True, slots=True)
class MaterialsView:
    """What one size needs."""

    sheets: tuple[BuyView, ...]
    """Sheet materials."""
    others: tuple[BuyView, ...]
    """All else that is bought."""
    cuts: tuple[CutLengthView, ...]
    tools: tuple[ToolView, ...]
    protection: tuple[ToolView, ...]
    cost: str
    weight: str
    """Of the foam in the finished kit; empty where unknown."""
    prices_of: str
    loose_cuts: tuple[CutLengthView, ...] = ()
    """The lengths that no pack in `cut_order` holds."""
    cut_order: tuple[CutOrderView, ...] = ()
    """How the lengths are cut from the packs."""
    shops: tuple[ShopView, ...] = ()
    """All that is bought, by shop: shops as site.yaml lists them, lines as the stock does."""
    currency: str = ""
    """ISO 4217 code of all prices."""
    columns: tuple[HeadingView, ...] = ()
    """Of the buying list."""
    finished_weight: str = ""
    """Of the finished kit with all that stays in it; empty where only the foam is known."""


def materials_view(scene: Scene, materials: MaterialsList) -> MaterialsView:
    """The materials list of one size, in words."""
    names = {line.material: line.name for line in materials.lines}
    lines = [(line.kind, _buy_view(scene, line)) for line in materials.lines]
    more = materials.finished_weight - materials.weight
    cuts = [_cut_view(scene, names.get(cut.material, cut.material), cut) for cut in materials.cuts]
    packed = {plan.material for plan in materials.lengths if plan.packs and not plan.too_long}
    loose = (cut.material not in packed for cut in materials.cuts)
    return MaterialsView(
        sheets=tuple(view for kind, view in lines if kind == "sheet"),
        others=tuple(view for kind, view in lines if kind != "sheet"),
        cuts=tuple(cuts),
        loose_cuts=tuple(compress(cuts, loose)),
        tools=tool_views(scene, materials.tools, protective=False),
        protection=tool_views(scene, materials.tools, protective=True),
        cost=spent_words(
            materials.cost, materials.unpriced, scene.content.site.currency, scene.words
        ),
        weight=weight_words(materials.weight, scene.words) if materials.weight else "",
        prices_of=scene.content.site.prices_of,
        cut_order=tuple(
            view
            for plan in materials.lengths
            for view in _cut_order(plan, names[plan.material], scene.words)
        ),
        shops=_shops(scene, materials.lines, [view for _, view in lines]),
        currency=scene.content.site.currency,
        columns=tuple(_heading(column, scene.words) for column in _page_columns()),
        finished_weight=weight_words(materials.finished_weight, scene.words) if more >= 1 else "",
    )


def _cut_view(scene: Scene, name: str, cut: LengthCut) -> CutLengthView:
    length, inches = length_words(cut.length, scene.words), inch_words(cut.length, scene.words)
    return CutLengthView(name, length, inches, cut.pieces, cut.note)


def _shops(
    scene: Scene, lines: Sequence[MaterialLine], views: Sequence[BuyView]
) -> tuple[ShopView, ...]:
    """Lines by shop, with what is spent in each; last what no shop is named for."""
    site = scene.content.site
    found: dict[tuple[str, str], list[tuple[MaterialLine, BuyView]]] = {}
    for line, view in zip(lines, views, strict=True):
        found.setdefault((line.shop_id, line.shop), []).append((line, view))
    order = {shop: number for number, shop in enumerate(site.shops)}
    shops = []
    for shop, name in sorted(found, key=lambda key: (not key[1], order.get(key[0], len(order)))):
        bought, known = found[shop, name], site.shops.get(shop)
        spent = sum(line.cost for line, _ in bought)
        unknown = sum(bool(line.packs) and not line.priced for line, _ in bought)
        shops.append(
            ShopView(
                name or scene.words.say("Wherever it is sold"),
                tuple(view for _, view in bought),
                spent_words(spent, unknown, site.currency, scene.words),
                scene.line(known.note) if known else Markup(),
                (known.address or "") if known else "",
            )
        )
    return tuple(shops)


def _other_words(scene: Scene, other: Alternative, unit: str) -> str:
    """'3 × sheet 500 × 500 mm, €16.50'; with its name where it is another material."""
    words = scene.words
    packs = " + ".join(_pack_words(pack, unit, words) for pack in other.packs)
    if not other.cost and other.material:
        return words.say("{packs} of {material}", packs=packs, material=other.material)
    if not other.cost:
        return packs
    cost = money_words(other.cost, scene.content.site.currency, words)
    if other.material:
        return words.say(
            "{packs} of {material}, {cost}", packs=packs, material=other.material, cost=cost
        )
    return words.say("{packs}, {cost}", packs=packs, cost=cost)


def _cut_order(plan: LengthPlan, name: str, words: Words) -> Iterator[CutOrderView]:
    """A view for each way of cutting a pack, in the order of the plan."""
    alike: dict[tuple[str, float, tuple[str, ...], float], int] = {}
    for pack in plan.packs:
        key = (pack.name, pack.amount, _cuts(pack, words), pack.left)
        alike[key] = alike.get(key, 0) + 1
    for (called, amount, cuts, left), count in alike.items():
        packed = _pack_words(PackCount(called, count, amount, 0.0), "mm", words)
        yield CutOrderView(name, packed, cuts, length_words(left, words) if left >= 1 else "")


def _cuts(pack: CutLength, words: Words) -> tuple[str, ...]:
    """'3 × 600 mm, shoulder strap': equal neighbours together."""
    groups = groupby(pack.pieces, key=lambda piece: (piece.length, piece.note))
    return tuple(
        f"{len(list(pieces))} × {length_words(length, words)} ({inch_words(length, words)})"
        + (f", {note}" if note else "")
        for (length, note), pieces in groups
    )


def _buy_view(scene: Scene, line: MaterialLine) -> BuyView:
    sheet = line.kind == "sheet"
    need = (
        area_words(line.area, scene.words)
        if sheet and line.area
        else amount_words(line.need, line.unit, scene.words)
    )
    uncertain = line.high - line.low > 1e-9
    spread = scene.words.say(
        "{first} to {last}",
        first=amount_words(line.low, line.unit, scene.words),
        last=amount_words(line.high, line.unit, scene.words),
    )
    return BuyView(
        id=line.material,
        name=line.name,
        href=scene.links.to("material", line.material),
        need=need,
        spread=spread if uncertain else "",
        basis=line.basis,
        packs=tuple(_pack_words(pack, line.unit, scene.words) for pack in line.packs),
        left=amount_words(line.left, line.unit, scene.words) if line.left > 1e-9 else "",
        cost=money_words(line.cost, scene.content.site.currency, scene.words)
        if line.priced
        else "",
        shop=line.shop,
        other_shops=line.other_shops,
        alternative=line.alternative,
        note=scene.prose(line.note),
        steps=step_links(scene, line.steps),
        rate=line.rate,
        source=line.source,
        others=tuple(_other_words(scene, other, line.unit) for other in line.others),
        bought=tuple(
            PackView(
                _pack_words(pack, line.unit, scene.words),
                pack.name,
                pack.count,
                mm_text(pack.amount, 3),
                f"{pack.price:.2f}",
            )
            for pack in line.packs
        ),
        figures=(mm_text(max(0.0, line.high - line.have), 3), line.unit),
        likely=mm_text(max(0.0, line.need - line.have), 3),
        offers=_offers(scene, line),
        price=f"{line.cost:.2f}",
        cells=tuple(_cell(scene, column, line) for column in _page_columns()),
    )


def _page_columns() -> tuple[Column[MaterialRow], ...]:
    return shown_in(COLUMNS, Medium.PAGE)


def _heading(column: Column[MaterialRow], words: Words) -> HeadingView:
    figures = column.look in {Look.AMOUNT, Look.COUNT, Look.MONEY}
    return HeadingView(column.id, column.said(words), figures)


def _cell(scene: Scene, column: Column[MaterialRow], line: MaterialLine) -> CellView:
    """What a column says of a line, in words."""
    words = scene.words
    row = line_row(line, step_numbers(scene.guide), scene.content.site.currency)
    value = column.value(row)
    heading = _heading(column, words)
    if value is None or isinstance(value, str):
        text = value or ""
    elif column.look is Look.MONEY:
        text = money_words(value, scene.content.site.currency, words)
    elif column.look is Look.AMOUNT:
        text = amount_words(value, line.unit, words)
    else:
        text = words.number(value)
    return CellView(heading, words.say(text) if column.look is Look.WORD else text)


def _offers(scene: Scene, line: MaterialLine) -> str:
    """Packs of a liquid or of single things, for the script; sheets and lengths have plans."""
    known = scene.content.stock.materials.get(line.material)
    if known is None or line.unit not in {"ml", "pieces"}:
        return ""
    offers = []
    # Weighed as where packs are chosen: what readers have changes how many, not by what measure.
    for pack in weighed(known.packs):
        name = pack.name or pack_name(pack.amount, line.unit, scene.words)
        one = PackCount(name, 1, pack.amount, price_of(pack))
        words = _pack_words(one, line.unit, scene.words)
        offers.append({"words": words, "amount": pack.amount, "price": one.price})
    return json.dumps(offers, ensure_ascii=False, separators=(",", ":"))


def _pack_words(pack: PackCount, unit: str, words: Words) -> str:
    """'2 × roll, 5 m' for packs with a name, '2 × 250 ml' without."""
    amount = amount_words(pack.amount, unit, words)
    if unit == "sheets":  # the name says how many are in a pack of several
        return f"{pack.count} × {pack.name}"
    figure, name = amount.partition(SPACE)[0], pack.name
    if not name:
        return f"{pack.count} × {amount}"
    # 'tin 650 ml' and 'bag of 6' say their amount already, and one piece goes without saying.
    if re.search(rf"(?<![\d.]){re.escape(figure)}(?![\d.])", name) or (unit, figure) == (
        "pieces",
        "1",
    ):
        return f"{pack.count} × {name}"
    return f"{pack.count} × {pack.name}, {amount}"
