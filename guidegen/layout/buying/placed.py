"""What sits on points, belongs to a circuit or is laid as a bead, and a kit → how much of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from guidegen.buildfile.records.constructions.things import Bead
from guidegen.geometry.pieces.records import Kit


@dataclass(frozen=True, slots=True)
class BeadVolume:
    """A bead at one size."""

    length: float
    """mm on all pieces that are worn."""
    section: float
    """mm² across it."""

    @property
    def volume(self) -> float:
        """ml: mm³ / 1000."""
        return self.length * self.section / 1000


def things_at(kit: Kit, rows: tuple[str, ...]) -> int:
    """Things on all points of some rows, each part.row, on all pieces that are worn."""
    return sum(
        row.count * _worn(kit, row.part)
        for row in kit.rows
        if f"{row.part}.{row.name}" in rows and not row.source
    )


def in_circuit(kit: Kit, circuit: str, material: str) -> int:
    """How many of a material the circuits of one kind take."""
    return sum(one.count(material) for one in kit.circuits if one.id == circuit)


def bead_volume(kit: Kit, bead: Bead, names: Mapping[str, float]) -> BeadVolume:
    """Length and section of a bead. Its quantities must have been checked."""
    width = bead.width.value(names)
    height = bead.height.value(names) if bead.height is not None else None
    match bead.section:
        case "round":
            section = pi * width**2 / 4
        case "half-round":
            # Half an ellipse; half a circle where nothing says how high it is.
            section = pi * width * (width / 2 if height is None else height) / 4
        case "corner":
            section = width * (width if height is None else height) / 2
    edges = sum(_edge_length(kit, ref) for ref in bead.edges)
    seams = sum(
        max(seam.first_length, seam.second_length) * seam.copies
        for seam in kit.seams
        if seam.id in bead.seams
    )
    return BeadVolume(edges + seams, section)


def _edge_length(kit: Kit, ref: str) -> float:
    """mm of an edge on all pieces that are worn; of a half template on both of its sides."""
    part, _, edge = ref.partition(".")
    one = next((one for one in kit.finished if one.part == part), None)
    if one is None:
        return 0.0
    # Whether the edge crosses the fold or the whole has it twice: it is twice what the half has.
    return dict(one.edges).get(edge, 0.0) * one.halves * _worn(kit, part)


def _worn(kit: Kit, part: str) -> int:
    return sum(piece.copies - piece.spares for piece in kit.built(part))
