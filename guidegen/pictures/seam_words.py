"""Seam and kit in → the labels of the two pieces whose edges meet."""

from collections.abc import Iterator

from guidegen.geometry.records import BevelledEdge, Edge, JoinedSeam, Kit, Piece
from guidegen.words import Words


def seam_labels(seam: JoinedSeam, kit: Kit) -> tuple[str, str]:
    """Labels of the pieces of a seam, of the left ones where they are pairs.

    Where an edge meets the same edge of its own part, the second is the right piece of a pair.
    """
    first, second = (
        [
            piece.label
            for piece in (kit.pieces_of(ref.part) if ref.section else kit.built(ref.part))
            if piece.section in {0, ref.section}
        ]
        for ref in (seam.first, seam.second)
    )
    return first[0], second[-1] if seam.first == seam.second else second[0]


def edge_name(edge: str, lang: Words) -> str:
    """An edge as readers call it: those of computed shapes in their language."""
    return lang.say(edge.replace("-", " "))


def named_edges(piece: Piece) -> Iterator[tuple[str, Edge]]:
    """The edges that are cut, with names; both halves of a part on the fold share theirs."""
    for edge in piece.shape.edges:
        if edge.name != piece.fold:
            yield edge.name.removesuffix("-2"), edge


def seam_words(seam: JoinedSeam, labels: tuple[str, str], lang: Words) -> str:
    """'C1 side to C2 top'."""
    first, second = (
        f"{label} {edge_name(ref.edge, lang)}"
        for label, ref in zip(labels, (seam.first, seam.second), strict=True)
    )
    return lang.say("{first} to {second}", first=first, second=second)


def bevel_words(bevel: BevelledEdge, lang: Words) -> str:
    """'bevel 45° inward'."""
    angle = lang.number(bevel.angle, 1)
    if bevel.direction == "inward":
        return lang.say("bevel {angle}° inward", angle=angle)
    return lang.say("bevel {angle}° outward", angle=angle)
