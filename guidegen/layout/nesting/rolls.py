"""Pieces and a roll of given width → the lengths off it that a plan may be laid on (mm).

The solver knows sheets alone. A roll is therefore offered as sheets of all lengths that could be
the shortest one: no shorter than the pieces' area asks, no longer than rows need.
"""

from collections.abc import Sequence
from math import ceil

from guidegen.buildfile.records.materials import Material, SheetSize
from guidegen.layout.nesting.pieces import (
    Cutting,
    NestPiece,
    SheetType,
    roll_length,
    roll_step,
    sheet_types,
    swollen_piece_area,
)
from guidegen.layout.nesting.rows import find_misfits, plan_rows
from guidegen.layout.records import Placed

LENGTHS = 24
"""Lengths off one roll that a plan chooses from. Our choice: the solver takes twice as long with
twice as many."""
_SLACK = 1e-6
"""Of a step by which a sum of floats may seem to need one more."""


def offered_sheets(
    material: Material, pieces: Sequence[NestPiece], cutting: Cutting
) -> tuple[SheetType, ...]:
    """The sheets of a material as sold, and off each roll the lengths that pieces may need."""
    offered: list[SheetType] = []
    for size, kind in zip(material.sheets, sheet_types(material), strict=True):
        offered += lengths_off(size, kind, pieces, cutting) or [kind]
    return tuple(offered)


def lengths_off(
    size: SheetSize, longest: SheetType, pieces: Sequence[NestPiece], cutting: Cutting
) -> list[SheetType]:
    """Multiples of a roll's step, from what the area needs to what rows need; none off a sheet."""
    step = roll_step(size)
    most = int(longest.height / step + _SLACK) if step > 0 else 0
    if most < 1:
        return []
    misfits = {misfit.piece.key for misfit in find_misfits(pieces, (longest,), cutting)}
    pieces = [piece for piece in pieces if piece.key not in misfits]
    if not pieces:
        return []
    need = sum(swollen_piece_area(piece, cutting.spacing) * piece.copies for piece in pieces)
    # The room of a sheet, swollen by half the spacing (bounds.swollen_room), solved for its length.
    across = longest.width - 2 * cutting.rim + cutting.spacing
    bound = need / across + 2 * cutting.rim - cutting.spacing if across > 0 else longest.height
    least = min(max(1, ceil(bound / step - _SLACK)), most)
    rows = plan_rows(pieces, (longest,), cutting)
    last = most
    if rows is not None and len(rows) == 1:
        end = _top(rows[0].placed, pieces) + cutting.rim
        last = min(max(least, ceil(end / step - _SLACK)), most)
    every = max(1, ceil((last - least + 1) / LENGTHS))
    # From the last backward: whatever is left out, the length that rows need is there.
    numbers = list(range(last, least - 1, -every))[::-1]
    return [roll_length(size, step * number) for number in numbers]


def _top(placed: Sequence[Placed], pieces: Sequence[NestPiece]) -> float:
    """mm from the beginning of a sheet to the end of the farthest piece."""
    known = {piece.key: piece for piece in pieces}
    return max(one.y + known[one.piece].box(one.angle, flipped=one.flipped)[3] for one in placed)
