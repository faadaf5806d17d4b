"""Seam and kit in → the labels of the two pieces whose edges meet."""

from collections.abc import Iterator
from string import ascii_lowercase

from guidegen.geometry.outline.records import BevelledEdge, Edge
from guidegen.geometry.pieces.records import JoinedSeam, Kit, Piece
from guidegen.units import mm_text
from guidegen.words import SPACE, Words


def seam_labels(seam: JoinedSeam, kit: Kit) -> tuple[str, str]:
    """Labels of the pieces of a seam, of the left ones where they are pairs.

    Where an edge meets the same edge of its own part, and in a flipped seam between two pairs, the
    second is the right piece.
    """
    first, second = (
        [
            piece.label
            for piece in (kit.pieces_of(ref.part) if ref.section else kit.built(ref.part))
            if piece.section in {0, ref.section}
        ]
        for ref in (seam.first, seam.second)
    )
    # Of the second pair it is the right piece whose edge runs the way that a flipped seam asks.
    other_hand = seam.first == seam.second or (
        seam.flipped and seam.standing is None and len(first) == len(second) == 2
    )
    return first[0], second[-1] if other_hand else second[0]


def seam_letters(kit: Kit) -> dict[str, str]:
    """A short name for each seam, the same in the drawings of steps and on templates.

    a to z in the order of the guide, then aa, ab and so on.
    """
    count = len(ascii_lowercase)
    return {
        # Like columns of a spreadsheet: 26 seams have one letter, 676 more have two.
        seam.id: ascii_lowercase[number // count - 1] * (number >= count)
        + ascii_lowercase[number % count]
        for number, seam in enumerate(kit.seams)
    }


def seam_line(seam: JoinedSeam, kit: Kit, lang: Words) -> str:
    """'C1 side to C2 top, 120 mm'."""
    labels = seam_labels(seam, kit)
    words = seam_words(seam, labels, lang)
    line = f"{words}, {mm_text(seam.second_length)}{SPACE}mm"
    hands = [len(list(kit.built(ref.part))) for ref in (seam.first, seam.second)]
    if seam.flipped and seam.standing is None and hands != [2, 2]:
        line += ", " + lang.say("{label} turned over", label=labels[1])
    if seam.corners:
        one, two = (lang.say(corner.replace("-", " ")) for corner in seam.corners)
        line += ", " + lang.say("corner {first} on corner {second}", first=one, second=two)
    return line


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
    if seam.standing is not None:
        return lang.say("{first} onto {second}", first=first, second=second)
    return lang.say("{first} to {second}", first=first, second=second)


def bevel_words(bevel: BevelledEdge, lang: Words) -> str:
    """'bevel 45° inward'; of one that turns, at both its ends."""
    if bevel.angles:
        first, last = (
            f"{bevel_words(plain, lang)} ({edge_name(name.removesuffix('-2'), lang)})"
            for plain, name in bevel.at_ends()
        )
        return lang.say("{first}, turning to {second}", first=first, second=last)
    angle = lang.number(bevel.angle, 1)
    if bevel.direction == "inward":
        return lang.say("bevel {angle}° inward", angle=angle)
    return lang.say("bevel {angle}° outward", angle=angle)
