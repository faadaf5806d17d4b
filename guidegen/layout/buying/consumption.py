"""A step's uses and the kit in → how much of each material they take, with the sum written out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from guidegen.buildfile.records.guide import Step, Use
from guidegen.buildfile.records.materials import Material, MaterialKind, Rate
from guidegen.geometry.outline.measures import run_area, run_length
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.buying.held import held_uses
from guidegen.layout.buying.placed import bead_volume, in_circuit, things_at
from guidegen.layout.buying.thread import Stitching, sewn_runs, thread_length
from guidegen.layout.records import LengthCut
from guidegen.quantities import ohm_words
from guidegen.words import SPACE, Words

MM2_PER_M2 = 1e6
MM_PER_M = 1e3
ML_PER_LITRE = 1e3
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
    rated: bool = False
    """True where it was worked out with the material's rate."""
    value: str = ""
    """What has to be asked for in the shop beside the name: the ohms of a resistor."""
    thrown_away: bool = False
    """True for what stays in a tool, and on no costume."""


def step_demands(
    step: Step,
    kit: Kit,
    materials: Mapping[str, Material],
    names: Mapping[str, float],
    lang: Words,
) -> list[Demand]:
    """Demands of all uses of a step, and of the sections that it joins. Quantities must have been
    checked."""
    sections = [
        Use(material=seam.glue, glue=(seam.id,)) for seam in kit.seams if seam.step == step.id
    ]
    return [
        _demand(step.id, use, kit, materials[use.material], (names, lang))
        # Sections exist in some sizes only, so their glue cannot stand in the build file.
        for use in (*step.uses, *sections, *held_uses(step, kit, lang))
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
    if use.sew:
        return _sewn(step, use, kit, said)
    if use.along:
        if material.kind is MaterialKind.LENGTH:
            return _cut_from_length(step, use, material, _runs(kit, use.along), lang)
        what = lang.say("along joints")
        return _run(step, use, material, joint_length(kit, use.along), (what, lang))
    if use.cut:
        return _run(step, use, material, cut_length(kit, use.cut), (lang.say("cut edges"), lang))
    if use.length is not None:
        length = use.length.value(names)
        pieces = round(use.pieces.value(names)) if use.pieces is not None else 1
        return _cut_from_length(step, use, material, [(length, pieces)], lang)
    if use.bead is not None:
        return _bead(step, use, kit, material, said)
    if use.at or use.circuit is not None:
        return _placed(step, use, kit, lang)
    quantity = use.count if use.count is not None else use.amount
    number = quantity.value(names) if quantity is not None else 0.0
    if material.kind is MaterialKind.COUNT:
        # Nobody buys a third of a buckle; the hair less forgives arithmetic that ends at
        # 4.0000001.
        number = float(ceil(number - 1e-9))
        return Demand(
            use.material, step, number, number, number, lang.many("{n} piece", "{n} pieces", number)
        )
    return Demand(use.material, step, number, number, number, f"{number:.0f} ml")


def _placed(step: str, use: Use, kit: Kit, lang: Words) -> Demand:
    """Pieces that sit on points or belong to a circuit."""
    count = things_at(kit, use.at) if use.at else in_circuit(kit, use.circuit or "", use.material)
    basis = lang.many("{n} piece", "{n} pieces", count)
    made = next((one for one in kit.circuits if one.id == use.circuit), None)
    value = ""
    if made is not None and made.resistor == use.material:
        value = ohm_words(made.ohms, lang)
        basis += f" ({value})"
    number = float(count)
    return Demand(use.material, step, number, number, number, basis, value=value)


def _bead(
    step: str, use: Use, kit: Kit, material: Material, said: tuple[Mapping[str, float], Words]
) -> Demand:
    """ml of a bead: length × section, and what is lost; its weight beside, where that is known."""
    names, lang = said
    if use.bead is None:
        raise ValueError("expected a bead")
    bead = bead_volume(kit, use.bead, names)
    loss = 1 + (material.rate.loss if material.rate else 0.0)
    amount = bead.volume * loss
    basis = lang.say(
        "bead of {length} m × {section} mm²",
        length=lang.number(bead.length / MM_PER_M, 2),
        section=lang.number(bead.section, 0),
    )
    if material.rate is not None:
        basis += _loss(material.rate, lang)
    if material.density is not None:
        # kg/m³ are g per litre.
        grams = lang.number(amount * material.density / ML_PER_LITRE, 0)
        basis += f" = {grams}{SPACE}g"
    return Demand(use.material, step, amount, amount, amount, basis)


def _sewn(step: str, use: Use, kit: Kit, said: tuple[Mapping[str, float], Words]) -> Demand:
    """mm of thread: the stitches of all rows, and what hangs at their ends."""
    names, lang = said
    sewn = Stitching(use.stitch.value(names), use.rows, use.strands)
    runs = tuple(sewn_runs(kit, use.sew))
    thread = sum(thread_length(run, sewn) for run in runs)
    line = sum(run.length * run.copies for run in runs) * use.rows
    basis = lang.say(
        "{length} m of stitches of {stitch} mm",
        length=lang.number(line / MM_PER_M, 1),
        stitch=lang.number(sewn.stitch, 1),
    )
    return Demand(use.material, step, thread, thread, thread, basis)


def _cut_from_length(
    step: str, use: Use, material: Material, runs: Sequence[tuple[float, int]], lang: Words
) -> Demand:
    """Cuts from webbing, tape or hook-and-loop, each with the allowance for its ends (mm)."""
    allowance = material.allowance.value({})
    cuts = tuple(
        # The allowance belongs to each cut: every strap is folded or melted at its own ends.
        LengthCut(use.material, length + allowance, pieces, use.note or "")
        for length, pieces in runs
    )
    total = sum(cut.length * cut.pieces for cut in cuts)
    basis = " + ".join(f"{cut.pieces} × {cut.length:.0f}{SPACE}mm" for cut in cuts)
    if allowance:
        basis += lang.say(" (with {length} mm for ends)", length=lang.number(allowance))
    return Demand(use.material, step, total, total, total, basis, cuts)


def _run(step: str, use: Use, material: Material, length: float, said: tuple[str, Words]) -> Demand:
    """ml or pieces from mm: length × coats ÷ what a litre or a piece does, and what is lost."""
    rate, (what, lang) = material.rate, said
    if rate is None:
        return Demand(use.material, step, 1, 1, 1, lang.many("{n} piece", "{n} pieces", 1))
    metres = length / MM_PER_M
    liquid = material.kind is MaterialKind.LIQUID
    figures = {
        "length": lang.number(metres, 1),
        "what": what,
        "coats": _coats(use, lang),
        "rate": reach_words(rate.likely, lang),
        "loss": _loss(rate, lang),
    }
    basis = (
        lang.say("{length} m ({what}){coats} ÷ {rate} m per litre{loss}", **figures)
        if liquid
        else lang.say("{length} m ({what}){coats} ÷ {rate} m each{loss}", **figures)
    )
    return _rated(step, use, material, metres, basis)


def _rated(step: str, use: Use, material: Material, measure: float, basis: str) -> Demand:
    """ml of a liquid, pieces of a counted thing, for m² or m at the material's rate."""
    rate = material.rate
    if rate is None:
        raise ValueError("expected a material with a rate")
    unit = ML_PER_LITRE if material.kind is MaterialKind.LIQUID else 1.0
    low, likely, high = (
        consumption(measure, use.coats, reach, rate) * unit
        # A litre that goes far means little is used: the high reach gives the low demand.
        for reach in (rate.high, rate.likely, rate.low)
    )
    return Demand(use.material, step, low, likely, high, basis, rated=True)


def reach_words(reach: float, lang: Words) -> str:
    """How far a litre or a piece goes, in m² or m: a sheet of abrasive does not do "0 m²"."""
    return lang.number(reach, 1 if reach >= 1 else 3)


def _coats(use: Use, lang: Words) -> str:
    return f" × {lang.many('{n} coat', '{n} coats', use.coats)}" if use.coats > 1 else ""


def _loss(rate: Rate, lang: Words) -> str:
    return f" + {lang.percent(rate.loss)}" if rate.loss else ""


def _coated(
    step: str, use: Use, material: Material, area: float, said: tuple[str, Words]
) -> Demand:
    """ml or pieces from mm²: area × coats ÷ coverage, and what is lost on the way."""
    rate, (what, lang) = material.rate, said
    if rate is None:
        # A counted or sheet material laid on an area: one per use, so that it is never forgotten.
        return Demand(use.material, step, 1, 1, 1, lang.many("{n} piece", "{n} pieces", 1))
    square_metres = area / MM2_PER_M2
    figures = {
        "area": lang.number(square_metres, 3),
        "what": what,
        "coats": _coats(use, lang),
        "rate": reach_words(rate.likely, lang),
        "loss": _loss(rate, lang),
    }
    basis = (
        lang.say("{area} m² ({what}){coats} ÷ {rate} m² per litre{loss}", **figures)
        if material.kind is MaterialKind.LIQUID
        else lang.say("{area} m² ({what}){coats} ÷ {rate} m² each{loss}", **figures)
    )
    return _rated(step, use, material, square_metres, basis)


def consumption(measure: float, coats: int, reach: float, rate: Rate) -> float:
    """Litres or pieces: m² or m × coats ÷ what one of them does × (1 + loss)."""
    return measure * coats / reach * (1 + rate.loss)


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
            # The longer of both: with ease, glue goes along the edge that is taken in.
            length = max(seam.first_length, seam.second_length)
            area += FACES * length * seam.thickness * seam.copies
    for stack in kit.stacks:
        if stack.id in joints:
            # Each layer but the first is glued to what lies below, on its own area: the smaller of
            # both.
            area += FACES * sum(layer.area for layer in stack.layers[1:]) * stack.copies
    return area


def _runs(kit: Kit, joints: tuple[str, ...]) -> list[tuple[float, int]]:
    """Length in mm and count of every run along the joints: seams, rims of upper layers."""
    runs = [
        (max(seam.first_length, seam.second_length), seam.copies)
        for seam in kit.seams
        if seam.id in joints
    ]
    for stack in kit.stacks:
        if stack.id in joints:
            for layer in stack.layers[1:]:
                piece = next(iter(kit.pieces_of(layer.part)), None)
                if piece is not None:
                    runs.append((run_length(piece.shape.ring()), stack.copies))
    return runs


def joint_length(kit: Kit, joints: tuple[str, ...]) -> float:
    """mm of every named seam, and around every upper layer of a named stack."""
    return sum(length * copies for length, copies in _runs(kit, joints))


def cut_length(kit: Kit, parts: tuple[str, ...]) -> float:
    """mm of knife cut for the parts: outlines and holes of all copies, spares included."""
    pieces = [piece for part in dict.fromkeys(parts) for piece in kit.pieces_of(part)]
    return sum(rim_length(piece) * piece.copies for piece in pieces)


def covered_area(kit: Kit, parts: tuple[str, ...]) -> float:
    """mm² to coat in the finished assembly: outer faces less what layers hide, and cut edges less
    what seams hide."""
    total = 0.0
    for part in dict.fromkeys(parts):
        pieces = list(kit.built(part))
        faces = sum(made(piece) * piece_area(piece) for piece in pieces)
        edges = sum(made(piece) * rim_length(piece) * piece.thickness for piece in pieces)
        # Never below nothing: layers may stand out over the part that they hide, and edges be
        # joined twice.
        total += max(0.0, faces - _hidden(kit, part)) + max(0.0, edges - _joined(kit, part))
    return total


def _joined(kit: Kit, part: str) -> float:
    """mm² of a part's cut edges that lie on another edge in seams.

    Of a thicker edge what stands over the thinner one stays bare. Where sections of one piece are
    joined, the whole piece has no edge.
    """
    return sum(
        length * seam.thickness * seam.copies
        for seam in kit.seams
        for edge, length in (
            (seam.first, seam.first_length),
            (seam.second, seam.second_length),
        )
        if edge.part == part and not seam.step
    )


def _hidden(kit: Kit, part: str) -> float:
    """mm² of a part's outer face that the next layer of a stack lies on."""
    return sum(
        above.area * stack.copies
        for stack in kit.stacks
        for below, above in zip(stack.layers, stack.layers[1:], strict=False)
        if below.part == part
    )


def weight_that_stays(material: Material, demands: Sequence[Demand]) -> float:
    """grams of a material in the finished thing; what is lost on the way and spares left out.

    Materials that do not say what stays weigh nothing.
    """
    if material.stays is None:
        return 0.0
    per = material.stays / (MM_PER_M if material.kind is MaterialKind.LENGTH else 1.0)
    # What is lost on brush and mat was added to the demand, and stays on no costume.
    lost = 1 + (material.rate.loss if material.rate else 0.0)
    kept = sum(demand.likely for demand in demands if not demand.thrown_away)
    return kept / lost * per


def kit_weight(kit: Kit, materials: Mapping[str, Material]) -> float:
    """grams of foam: area × thickness × density; materials without a density weigh nothing."""
    grams = 0.0
    for piece in kit.pieces:
        density = materials[piece.material].density or 0.0
        volume = piece_area(piece) * piece.thickness * made(piece)
        grams += volume * 1e-9 * density * 1000
    return grams
