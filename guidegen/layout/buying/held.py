"""A step and a kit in → what holds its parts takes: posts, cuts of straps and strips, closures."""

from guidegen.buildfile.records.guide import Step, Use
from guidegen.buildfile.yaml.expressions import parse_expression
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.buying.shelves import Shelf, shelve
from guidegen.words import SPACE, Words


def held_uses(step: Step, kit: Kit, lang: Words) -> list[Use]:
    """What fastenings, straps and strips of a step take in this size: posts, cuts, closures."""
    uses = [
        Use(material=one.material, count=parse_expression(one.count))
        for one in kit.fastened
        if one.fastening in step.fastens
    ]
    held = [strap for strap in kit.straps if strap.id in step.straps]
    moving = [one for one in kit.linkages if one.id in step.linkages]
    cuts = [strap.pieces for strap in held] + [one.pieces for one in moving]
    cuts += [one.pieces for one in kit.casings if one.id in step.casings]
    harnesses = [one for one in kit.harnesses if one.id in step.harnesses]
    cuts += [one.pieces for one in harnesses]
    for pieces in cuts:
        uses += [
            Use(
                material=piece.material,
                # To a tenth of a mm: what is cut is what is told, and the sums of both lists
                # agree.
                length=parse_expression(round(piece.length, 1)),
                pieces=parse_expression(piece.count),
                note=piece.note,
            )
            for piece in pieces
        ]
    uses += [
        Use(material=name, count=parse_expression(count))
        for hardware in [one.hardware for one in held] + [one.hardware for one in harnesses]
        for name, count in hardware
    ]
    strips = [strip for strip in kit.strips if strip.id in step.strips]
    for material in dict.fromkeys(strip.material for strip in strips):
        uses += [
            Use(
                material=material,
                length=parse_expression(round(shelf.length, 1)),
                pieces=parse_expression(shelf.count),
                note=_side_by_side(shelf, lang),
            )
            for shelf in shelve([strip for strip in strips if strip.material == material])
        ]
    return uses


def _side_by_side(shelf: Shelf, lang: Words) -> str:
    """What a length is slit into, in words; one strip of the full width has its name alone."""
    (first, count), *others = shelf.strips
    if count == 1 and not others and abs(first.width - first.roll) < 0.1:
        return first.name
    said = []
    for strip, number in shelf.strips:
        size = f"{lang.number(strip.width, 1)}{SPACE}mm"
        if strip.length < shelf.length - 0.1:
            size = f"{lang.number(strip.length, 0)}{SPACE}×{SPACE}{size}"
        said.append(
            lang.say("{n} × {name}, {size} wide", n=number, name=strip.name, size=size)
            if number > 1
            else lang.say("{name}, {size} wide", name=strip.name, size=size)
        )
    return "; ".join(said)
