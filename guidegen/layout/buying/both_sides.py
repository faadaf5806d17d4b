"""Kits whose left and right are measured apart → what a step takes: half of each side's kit.

The kit of a side is made all of its measurements, both hands; half of what it takes is its own.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.materials import Material
from guidegen.geometry.pieces.records import Kit, Side
from guidegen.layout.buying.consumption import Demand, step_demands
from guidegen.layout.records import LengthCut
from guidegen.words import Words


def by_side(
    step: Step,
    kit: Kit,
    materials: Mapping[str, Material],
    names: Mapping[str, float],
    lang: Words,
) -> list[Demand]:
    """Demands of a step as `step_demands` has them, each hand by its own measurements where they
    differ."""
    whole = step_demands(step, kit, materials, names, lang)
    if kit.sides is None:
        return whole
    left, right = (
        step_demands(step, _with_singles(kit, own), materials, {**names, **own.names()}, lang)
        for own in kit.sides
    )
    if not [d.material for d in left] == [d.material for d in right] == [d.material for d in whole]:
        # One side alone has sections, or a joint of its own: the larger is enough for both.
        return whole
    return [
        _half_each(one, other, both, lang)
        for one, other, both in zip(left, right, whole, strict=True)
    ]


def _with_singles(kit: Kit, own: Kit) -> Kit:
    """The kit of a side, but for what belongs to no side: that is as in `kit`, of the larger."""
    pairs = {piece.part for piece in kit.pieces if piece.side is not Side.ANY}
    return replace(
        own,
        pieces=(
            *(piece for piece in own.pieces if piece.part in pairs),
            *(piece for piece in kit.pieces if piece.part not in pairs),
        ),
        wholes=(
            *(piece for piece in own.wholes if piece.part in pairs),
            *(piece for piece in kit.wholes if piece.part not in pairs),
        ),
        finished=(
            *(one for one in own.finished if one.part in pairs),
            *(one for one in kit.finished if one.part not in pairs),
        ),
        rows=(
            *(row for row in own.rows if row.part in pairs),
            *(row for row in kit.rows if row.part not in pairs),
        ),
        seams=(
            *(one for one in own.seams if pairs & {one.first.part, one.second.part}),
            *(one for one in kit.seams if not pairs & {one.first.part, one.second.part}),
        ),
        stacks=(
            *(one for one in own.stacks if pairs & {layer.part for layer in one.layers}),
            *(one for one in kit.stacks if not pairs & {layer.part for layer in one.layers}),
        ),
    )


def _half_each(left: Demand, right: Demand, whole: Demand, lang: Words) -> Demand:
    """Half of what both sides would take with two hands each."""
    if (left.likely, left.cuts) == (right.likely, right.cuts):
        return left
    cuts = _cuts(left.cuts, right.cuts)
    if cuts is None:
        return whole  # one cut for both hands: as long as the longer asks
    basis = left.basis
    if left.basis != right.basis:
        basis = lang.say(
            "half for two left hands, {left}; half for two right hands, {right}",
            left=left.basis,
            right=right.basis,
        )
    if cuts:
        basis = " + ".join(f"{cut.pieces} × {lang.number(cut.length, 0)} mm" for cut in cuts)
    return replace(
        whole,
        low=(left.low + right.low) / 2,
        likely=(left.likely + right.likely) / 2,
        high=(left.high + right.high) / 2,
        basis=basis,
        cuts=cuts,
    )


def _cuts(left: Sequence[LengthCut], right: Sequence[LengthCut]) -> tuple[LengthCut, ...] | None:
    """Half of the cuts of each side; None where they cannot be halved."""
    found: list[LengthCut] = []
    if len(left) != len(right):
        return None
    for one, other in zip(left, right, strict=True):
        if one == other:
            found.append(one)
        elif one.pieces == other.pieces and one.pieces % 2 == 0:
            found += [replace(cut, pieces=cut.pieces // 2) for cut in (one, other)]
        else:
            return None
    return tuple(found)
