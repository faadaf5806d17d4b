"""Pieces of one size in → an entry for each kind: drawn once, with the sizes of its pieces."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from guidegen.render.views.pieces import PieceView

OWN_LINES = frozenset({"drawing", "lining"})
"""Shapes that lengths alone do not tell: each has an outline of its own."""


@dataclass(frozen=True, slots=True)
class KindView:
    """Pieces of one computed shape that differ in their lengths alone; mostly a single one."""

    pieces: tuple[PieceView, ...]
    """The first is drawn and stands for all in what they have in common."""

    @property
    def first(self) -> PieceView:
        """The piece that is drawn."""
        return self.pieces[0]


def kind_views(pieces: Iterable[PieceView], shapes: Mapping[str, str]) -> tuple[KindView, ...]:
    """The entries in the order of their first pieces; `shapes` are those of the parts, by id."""
    kinds: dict[object, list[PieceView]] = {}
    for piece in pieces:
        kinds.setdefault(_kind(piece, shapes.get(piece.id)), []).append(piece)
    return tuple(KindView(tuple(kind)) for kind in kinds.values())


def _kind(piece: PieceView, shape: str | None) -> object:
    """What pieces of one entry have in common: all but names, lengths, template pages."""
    # Sections of a part, which have ids of their own, are cut from one outline: each is shown.
    if shape is None or shape in OWN_LINES or piece.details:
        return piece.id
    measured = tuple((one.name, "" if one.inches else one.mm) for one in piece.measures)
    edges = tuple(edge.name for edge in piece.edges)
    same = (piece.material, piece.thickness, piece.count, piece.on_fold, piece.note, piece.steps)
    return shape, *same, piece.features, measured, edges, piece.drawing is None
