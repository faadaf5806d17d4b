"""Seams and layers that are sewn, and the stitch, in → mm of thread that they take."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.pieces.records import Kit

TAIL = 100.0
"""mm of thread that hang at each end of a row, to begin and to fasten off. Common practice, no
source."""


GATHERING_ROWS = 2
"""Rows of stitches that an edge is gathered with. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class SewnRun:
    """One line of stitches, before it is known how often it is sewn."""

    length: float
    """mm."""
    through: float
    """mm of cloth under the needle."""
    copies: int


@dataclass(frozen=True, slots=True)
class Stitching:
    """How a line is sewn."""

    stitch: float
    """mm from one stitch to the next."""
    rows: int
    strands: int
    """2 for a machine, whose upper and lower thread meet in the middle of the cloth; 1 by hand."""


def sewn_runs(kit: Kit, joints: tuple[str, ...]) -> Iterator[SewnRun]:
    """Lines of stitches of the named seams, and round the upper layers of the named stacks."""
    for seam in kit.seams:
        if seam.id in joints:
            length = max(seam.first_length, seam.second_length)
            yield SewnRun(length, 2 * seam.thickness, seam.copies)
            if seam.gathers:
                # Two rows of long stitches in one layer, which are drawn out again.
                yield SewnRun(seam.first_length, seam.thickness, seam.copies * GATHERING_ROWS)
    for stack in kit.stacks:
        if stack.id in joints:
            through = 0.0
            for number, layer in enumerate(stack.layers):
                piece = next(iter(kit.pieces_of(layer.part)), None)
                if piece is not None:
                    through += piece.thickness
                    if number > 0:
                        yield SewnRun(run_length(piece.shape.ring()), through, stack.copies)


def thread_length(run: SewnRun, sewn: Stitching) -> float:
    """mm of thread for all copies of a line.

    Each stitch takes its own length, and goes through the cloth once: the threads of a lockstitch
    go half way in and half way out, one thread by hand passes whole. So a strand of n = L / s
    stitches takes L + n·T (geometry), and its tails.
    """
    # A formula may come out at nothing in one size; proof tells a stitch that is stated so.
    stitches = run.length / max(sewn.stitch, 0.5)
    strand = run.length + stitches * run.through + 2 * TAIL
    return strand * sewn.strands * sewn.rows * run.copies
