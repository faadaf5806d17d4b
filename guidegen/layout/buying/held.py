"""A step and a kit in → what its fastenings and straps take: posts, cuts, closures."""

from guidegen.buildfile.records.guide import Step, Use
from guidegen.buildfile.yaml.expressions import parse_expression
from guidegen.geometry.pieces.records import Kit


def held_uses(step: Step, kit: Kit) -> list[Use]:
    """What the fastenings and straps of a step take in this size: posts, cuts, closures."""
    uses = [
        Use(material=one.material, count=parse_expression(one.count))
        for one in kit.fastened
        if one.fastening in step.fastens
    ]
    for strap in kit.straps:
        if strap.id not in step.straps:
            continue
        uses += [
            Use(
                material=piece.material,
                length=parse_expression(round(piece.length, 1)),
                pieces=parse_expression(piece.count),
                note=piece.note,
            )
            for piece in strap.pieces
        ]
        uses += [
            Use(material=name, count=parse_expression(count)) for name, count in strap.hardware
        ]
    return uses
