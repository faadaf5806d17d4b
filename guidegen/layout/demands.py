"""A step's uses and the kit in → how much of each material they take, with the sum written out."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

from guidegen.buildfile.guide import Step, Use
from guidegen.buildfile.stock import Material, MaterialKind, Rate
from guidegen.geometry.measures import run_area, run_length
from guidegen.geometry.records import Kit, Piece
from guidegen.layout.records import LengthCut
from guidegen.words import ENGLISH, Words

MM2_PER_M2 = 1e6
FACES = 2
"""Contact cement goes on both faces of a joint. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Demand:
    """What one use takes, in the unit of its material."""

    material: str
    step: str
    low: float
    likely: float
    high: float
    basis: str
    cuts: tuple[LengthCut, ...] = ()


def step_demands(
    step: Step,
    kit: Kit,
    materials: Mapping[str, Material],
    names: Mapping[str, float],
    lang: Words = ENGLISH,
) -> list[Demand]:
    """Demands of all uses of a step, and of the sections that it joins. Quantities must have been
    checked."""
    sections = [
        Use(material=seam.glue, glue=(seam.id,)) for seam in kit.seams if seam.step == step.id
    ]
    return [
        _demand(step.id, use, kit, materials[use.material], (names, lang))
        for use in (*step.uses, *sections)
        if use.counted
    ]


def _demand(
    step: str, use: Use, kit: Kit, material: Material, said: tuple[Mapping[str, float], Words]
) -> Demand:
    names, lang = said
    if use.glue:
        what = lang.say("{count} faces of joints", count=FACES)
        return _coated(step, use, material, glued_area(kit, use.glue), (what, lang))
    if use.cover:
        what = lang.say("outer faces and edges")
        return _coated(step, use, material, covered_area(kit, use.cover), (what, lang))
    if use.length is not None:
        length = use.length.value(names)
        pieces = round(use.pieces.value(names)) if use.pieces is not None else 1
        cut = LengthCut(use.material, length, pieces, use.note or "")
        total = length * pieces
        basis = f"{pieces} × {length:.0f} mm"
        return Demand(use.material, step, total, total, total, basis, (cut,))
    quantity = use.count if use.count is not None else use.amount
    number = quantity.value(names) if quantity is not None else 0.0
    if material.kind is MaterialKind.COUNT:
        number = float(ceil(number - 1e-9))
        return Demand(
            use.material, step, number, number, number, lang.many("{n} piece", "{n} pieces", number)
        )
    return Demand(use.material, step, number, number, number, f"{number:.0f} ml")


def _coated(
    step: str, use: Use, material: Material, area: float, said: tuple[str, Words]
) -> Demand:
    """ml from mm²: area × coats ÷ coverage, and what is lost on the way."""
    rate, (what, lang) = material.rate, said
    if rate is None:
        # A counted or sheet material laid on an area: one per use, so that it is never forgotten.
        return Demand(use.material, step, 1, 1, 1, lang.many("{n} piece", "{n} pieces", 1))
    square_metres = area / MM2_PER_M2
    coats = f" × {lang.many('{n} coat', '{n} coats', use.coats)}" if use.coats > 1 else ""
    loss = f" + {lang.percent(rate.loss)}" if rate.loss else ""
    basis = lang.say(
        "{area} m² ({what}){coats} ÷ {rate} m² per litre{loss}",
        area=lang.number(square_metres, 3),
        what=what,
        coats=coats,
        rate=lang.number(rate.likely, 1),
        loss=loss,
    )
    return Demand(
        use.material,
        step,
        millilitres(square_metres, use.coats, rate.high, rate),
        millilitres(square_metres, use.coats, rate.likely, rate),
        millilitres(square_metres, use.coats, rate.low, rate),
        basis,
    )


def millilitres(square_metres: float, coats: int, coverage: float, rate: Rate) -> float:
    """ml for an area: m² × coats ÷ (m² per litre) × 1000 × (1 + loss)."""
    return square_metres * coats / coverage * 1000 * (1 + rate.loss)


def piece_area(piece: Piece) -> float:
    """mm² of one face of a piece, holes taken off."""
    holes = sum(abs(run_area(hole)) for hole in piece.shape.holes)
    return abs(run_area(piece.shape.ring())) - holes


def rim_length(piece: Piece) -> float:
    """mm of cut edge of a piece: outline and holes."""
    return run_length(piece.shape.ring()) + sum(run_length(hole) for hole in piece.shape.holes)


def made(piece: Piece) -> int:
    """Pieces that end in the finished kit: copies without spares."""
    return piece.copies - piece.spares


def glued_area(kit: Kit, joints: tuple[str, ...]) -> float:
    """mm² of adhesive: both faces of every named seam and of every glue layer of a stack."""
    area = 0.0
    for seam in kit.seams:
        if seam.id in joints:
            length = max(seam.first_length, seam.second_length)
            area += FACES * length * seam.thickness * seam.copies
    for stack in kit.stacks:
        if stack.id in joints:
            area += FACES * sum(layer.area for layer in stack.layers[1:]) * stack.copies
    return area


def covered_area(kit: Kit, parts: tuple[str, ...]) -> float:
    """mm² to coat: outer faces less what layers hide, and the cut edges."""
    total = 0.0
    for part in dict.fromkeys(parts):
        for piece in kit.built(part):
            total += made(piece) * (piece_area(piece) + rim_length(piece) * piece.thickness)
        hidden = _hidden(kit, part)
        total -= min(hidden, sum(made(p) * piece_area(p) for p in kit.built(part)))
    return total


def _hidden(kit: Kit, part: str) -> float:
    """mm² of a part's outer face that the next layer of a stack lies on."""
    return sum(
        above.area * stack.copies
        for stack in kit.stacks
        for below, above in zip(stack.layers, stack.layers[1:], strict=False)
        if below.part == part
    )


def kit_weight(kit: Kit, materials: Mapping[str, Material]) -> float:
    """grams of foam: area × thickness × density; materials without a density weigh nothing."""
    grams = 0.0
    for piece in kit.pieces:
        density = materials[piece.material].density or 0.0
        volume = piece_area(piece) * piece.thickness * made(piece)
        grams += volume * 1e-9 * density * 1000
    return grams
