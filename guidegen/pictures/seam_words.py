"""Seam and kit in → the labels of the two pieces whose edges meet."""

from guidegen.geometry.records import JoinedSeam, Kit


def seam_labels(seam: JoinedSeam, kit: Kit) -> tuple[str, str]:
    """Labels of the pieces of a seam, of the left ones where they are pairs.

    Where an edge meets the same edge of its own part, the second is the right piece of a pair.
    """
    first = [piece.label for piece in kit.pieces_of(seam.first.part)]
    second = [piece.label for piece in kit.pieces_of(seam.second.part)]
    return first[0], second[-1] if seam.first == seam.second else second[0]
