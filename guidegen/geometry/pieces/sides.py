"""Kits made of left and of right measurements in → one kit whose pairs have a template each.

A pair is cut with one template, flipped for the right. Where both sides are measured and differ,
each hand of a pair is made of its own side; what belongs to no side, of the larger of both.
"""

from collections.abc import Iterator
from dataclasses import replace

from guidegen.geometry.pieces.records import Kit, Piece, Side


def merge_sides(kit: Kit, left: Kit, right: Kit) -> Kit:
    """`kit`, made of the larger measurements, with the left pieces of one and the right of the
    other, where these differ."""
    return replace(
        kit,
        pieces=tuple(_hands(kit.pieces, left.pieces, right.pieces)),
        wholes=tuple(_hands(kit.wholes, left.wholes, right.wholes)),
        sides=(left, right),
    )


def _hands(
    pieces: tuple[Piece, ...], left: tuple[Piece, ...], right: tuple[Piece, ...]
) -> Iterator[Piece]:
    # By part and not piece by piece: a part may fall into more sections on one side.
    for part in dict.fromkeys(piece.part for piece in pieces):
        own = [piece for piece in pieces if piece.part == part]
        lefts = [piece for piece in left if piece.part == part and piece.side is Side.LEFT]
        rights = [piece for piece in right if piece.part == part and piece.side is Side.RIGHT]
        if [one.template for one in lefts] == [one.template for one in rights]:
            yield from own
            continue
        yield from (replace(piece, own=True) for piece in (*lefts, *rights))
