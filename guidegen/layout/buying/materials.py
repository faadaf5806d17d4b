"""Kit, cut plans and stock in → what to buy, what to cut from rolls, which tools."""

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import ceil

from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.read.on_hand import NOTHING, OnHand
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.materials import Material, MaterialKind
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.buying.alternatives import (
    length_alternatives,
    pack_alternatives,
    sheet_alternatives,
    sheet_pack_name,
    with_alternatives,
)
from guidegen.layout.buying.both_sides import by_side
from guidegen.layout.buying.consumption import (
    Demand,
    kit_weight,
    piece_area,
    reach_words,
    weight_that_stays,
)
from guidegen.layout.buying.left_in_tools import Wetters, left_in_tools
from guidegen.layout.buying.lengths import plan_lengths
from guidegen.layout.buying.on_hand import take_lengths
from guidegen.layout.buying.packs import choose_packs, pack_name
from guidegen.layout.nesting.pieces import roll_length, roll_name, roll_step
from guidegen.layout.records import (
    CutPlan,
    LengthCut,
    LengthPlan,
    MaterialLine,
    MaterialsList,
    PackCount,
    ToolLine,
)
from guidegen.words import Words

UNITS = {
    MaterialKind.SHEET: "sheets",
    MaterialKind.LIQUID: "ml",
    MaterialKind.LENGTH: "mm",
    MaterialKind.COUNT: "pieces",
}


def list_materials(  # noqa: PLR0917 - what is built, of what, and how it is said
    guide: Guide,
    stock: Stock,
    kit: Kit,
    plans: tuple[CutPlan, ...],
    names: Mapping[str, float],
    lang: Words,
    on_hand: OnHand = NOTHING,
) -> MaterialsList:
    """The bill of materials of one size, in the order of the stock.

    Liquids are bought for the high estimate, so that nothing runs out half way; packs are rounded
    up once, over all steps.
    """
    return list_for_all(guide, stock, ((kit, names),), plans, lang, on_hand)


def list_for_all(  # noqa: PLR0917 - the same
    guide: Guide,
    stock: Stock,
    makers: Sequence[tuple[Kit, Mapping[str, float]]],
    plans: tuple[CutPlan, ...],
    lang: Words,
    on_hand: OnHand = NOTHING,
    wetters: Wetters | None = None,
) -> MaterialsList:
    """One bill of materials for several people, each with a kit and its names.

    `plans` hold the pieces of all kits together, some of them on offcuts of `on_hand`. Packs are
    rounded up once, over everybody, for what `on_hand` does not hold. `wetters` work with the
    tools; by default as many as there are makers.
    """
    demands: dict[str, list[Demand]] = {}
    materials = rated_materials(guide, stock)
    sizes: set[str] = set()
    for kit, names in makers:
        for step in guide.steps:
            if step.for_each == "size" and kit.size in sizes:
                continue  # another maker's of this size has been counted
            for demand in by_side(step, kit, materials, names, lang):
                demands.setdefault(demand.material, []).append(demand)
        sizes.add(kit.size)
    wetters = wetters or Wetters(len(makers))
    for demand in list(left_in_tools(guide, stock, wetters, demands, lang)):
        demands[demand.material].append(demand)
    kits = [kit for kit, _ in makers]
    by_material = {plan.material: plan for plan in plans}
    lines = []
    lengths = []
    for material_id, material in materials.items():
        wanted = demands.get(material_id, [])
        if material_id in by_material:
            line = _sheet_line(guide, kits, material, by_material[material_id], wanted, lang)
            pieces = [piece for kit in kits for piece in kit.pieces]
            others = sheet_alternatives(line, pieces, stock, lang)
            # With some of it at hand other packs would have to be compared afresh.
            at_hand = bool(on_hand.offcuts.get(material_id))
            lines.append(line if at_hand else with_alternatives(line, others))
        elif wanted:
            line = _line(material_id, material, wanted, lang, on_hand.amounts.get(material_id, 0.0))
            if material.kind is MaterialKind.LENGTH:
                plan = _plan_lengths(material, wanted, line, lang)
                lengths.append(plan)
                line = _with_packs(line, _length_packs(plan))
                others = length_alternatives(line, material.packs, _cuts(wanted), lang)
            else:
                others = pack_alternatives(line, material.packs, lang)
            lines.append(line if line.have else with_alternatives(line, others))
    cuts = tuple(cut for wanted in demands.values() for cut in _cuts(wanted))
    return MaterialsList(
        tuple(lines),
        cuts,
        tuple(_tool_lines(guide, stock)),
        sum(line.cost for line in lines),
        foam := sum(kit_weight(kit, materials) for kit in kits),
        tuple(lengths),
        foam + sum(weight_that_stays(materials[key], wanted) for key, wanted in demands.items()),
    )


def rated_materials(guide: Guide, stock: Stock) -> dict[str, Material]:
    """The stock's materials in their order, with the guide's own rates where it states some."""
    return {
        key: material.model_copy(update={"rate": guide.rates[key]})
        if key in guide.rates
        else material
        for key, material in stock.materials.items()
    }


def _sheet_line(  # noqa: PLR0917 - the same
    guide: Guide,
    kits: Sequence[Kit],
    material: Material,
    plan: CutPlan,
    wanted: list[Demand],
    lang: Words,
) -> MaterialLine:
    packs = []
    sold: set[str] = set()
    counts = Counter((sheet.name, sheet.height) for sheet in plan.sheets)
    for size in material.sheets:
        for (called, length), sheets in sorted(counts.items()):
            by = roll_step(size)
            if called != (roll_name(size.name, length) if by else size.name):
                continue
            sold.add(called)
            name = sheet_pack_name(called, size.pack, lang)
            price = roll_length(size, length).price if by else size.price or 0.0
            packs.append(PackCount(name, ceil(sheets / size.pack), size.pack, price))
    # Offcuts at hand lie in the plan as sheets of their own, and are not bought.
    need = float(sum(sheet.name in sold for sheet in plan.sheets))
    offcuts = sum(sheet.name not in sold for sheet in plan.sheets)
    basis = lang.say("cut plan, {share} of the sheets used", share=lang.percent(plan.used))
    if offcuts:
        basis += "; " + lang.many("{n} offcut at hand", "{n} offcuts at hand", offcuts)
    pieces = [p for kit in kits for p in kit.pieces if p.material == plan.material]
    parts = {piece.part for piece in pieces}
    steps = [step.id for step in guide.steps if parts & set(step.parts)]
    return _with_packs(
        MaterialLine(
            material=plan.material,
            name=material.name,
            kind=material.kind,
            unit="sheets",
            low=need,
            need=need,
            high=need,
            basis=basis,
            packs=(),
            left=0.0,
            cost=0.0,
            shop="",
            steps=tuple(dict.fromkeys([*steps, *(d.step for d in wanted)])),
            alternative=material.alternative or "",
            note=material.note or "",
            area=sum(piece_area(piece) * piece.copies for piece in pieces),
            priced=material.priced,
        ),
        tuple(packs),
    )


def _line(
    material_id: str, material: Material, wanted: list[Demand], lang: Words, have: float
) -> MaterialLine:
    unit = UNITS[material.kind]
    spare = 1 + material.spare
    low, likely, high = (
        sum(getattr(demand, which) for demand in wanted) * spare
        for which in ("low", "likely", "high")
    )
    if material.kind is MaterialKind.COUNT:
        low, likely, high = (float(ceil(value - 1e-9)) for value in (low, likely, high))
    basis = "; ".join(_terms(demand.basis for demand in wanted))
    if material.spare:
        basis += "; " + lang.say("{share} spare", share=lang.percent(material.spare))
    if have:
        said = (
            lang.number(have)
            if material.kind is MaterialKind.COUNT
            else pack_name(have, unit, lang)
        )
        basis += "; " + lang.say("{amount} at hand", amount=said)
    # For the high estimate: half a tube too much is cheaper than a second way to the shop.
    packs = choose_packs(high - have, material.packs, unit, lang)
    # Stated amounts and counts need no rate.
    rated = any(demand.rated for demand in wanted)
    return _with_packs(
        MaterialLine(
            material=material_id,
            name=material.name,
            kind=material.kind,
            unit=unit,
            low=low,
            need=likely,
            high=high,
            basis=basis,
            packs=(),
            left=0.0,
            cost=0.0,
            shop="",
            steps=tuple(dict.fromkeys(demand.step for demand in wanted)),
            alternative=material.alternative or "",
            note=" ".join(filter(None, (_values(wanted), material.note))),
            rate=_rate_words(material, lang) if rated else "",
            source=material.rate.source if material.rate and rated else "",
            have=have,
            priced=material.priced,
        ),
        packs,
    )


def _values(wanted: Sequence[Demand]) -> str:
    """What has to be asked for beside the name, each once."""
    return ", ".join(dict.fromkeys(one.value for one in wanted if one.value))


def _terms(found: Iterable[str]) -> list[str]:
    """Every term of a sum in words: equal ones together, with how often they are added."""
    return [
        term
        if times == 1
        else f"{times} × ({term})"
        if re.search("[+×÷]", term)
        else f"{times} × {term}"
        for term, times in Counter(found).items()
    ]


def _rate_words(material: Material, lang: Words) -> str:
    """'3 to 5 m² per litre, likely 4'."""
    rate = material.rate
    if rate is None:
        return ""
    figures = {
        "low": reach_words(rate.low, lang),
        "high": reach_words(rate.high, lang),
        "likely": reach_words(rate.likely, lang),
    }
    if material.kind is MaterialKind.LIQUID:
        return (
            lang.say("{low} to {high} m² per litre, likely {likely}", **figures)
            if rate.per == "area"
            else lang.say("{low} to {high} m per litre, likely {likely}", **figures)
        )
    return (
        lang.say("{low} to {high} m² each, likely {likely}", **figures)
        if rate.per == "area"
        else lang.say("{low} to {high} m each, likely {likely}", **figures)
    )


def _cuts(wanted: Sequence[Demand]) -> list[LengthCut]:
    return [cut for demand in wanted for cut in demand.cuts]


def _plan_lengths(
    material: Material, wanted: list[Demand], line: MaterialLine, lang: Words
) -> LengthPlan:
    """Packs for every single cut that a length at hand does not hold, and for the spare share on
    top; no strap is ever joined."""
    taken, cuts = take_lengths(_cuts(wanted), line.have, lang.say("at hand"))
    plan = plan_lengths(
        # Single cuts decide which packs hold them; the spare share only how much more is bought.
        line.material,
        material.packs,
        cuts,
        lang,
        at_least=max(0.0, line.high - line.have),
    )
    return plan if taken is None else replace(plan, packs=(taken, *plan.packs))


def _length_packs(plan: LengthPlan) -> tuple[PackCount, ...]:
    """The packs of a length plan that are bought, equal ones together, the longest first."""
    bought = [pack for pack in plan.packs if not pack.at_hand]
    counts = Counter((pack.amount, pack.name, pack.price) for pack in bought)
    return tuple(
        PackCount(name, count, amount, price)
        for (amount, name, price), count in sorted(counts.items(), reverse=True)
    )


def _with_packs(line: MaterialLine, packs: tuple[PackCount, ...]) -> MaterialLine:
    bought = sum(pack.count * pack.amount for pack in packs)
    cost = sum(pack.count * pack.price for pack in packs)
    return replace(line, packs=packs, left=bought + line.have - line.need, cost=cost)


def _tool_lines(guide: Guide, stock: Stock) -> list[ToolLine]:
    steps: dict[str, list[str]] = {}
    for step in guide.steps:
        for tool in step_tools(step, stock):
            steps.setdefault(tool, []).append(step.id)
    return [
        ToolLine(
            tool_id,
            tool.name,
            tool.protective,
            tuple(steps[tool_id]),
            tool.alternative or "",
            tool.note or "",
        )
        for tool_id, tool in stock.tools.items()
        if tool_id in steps
    ]
