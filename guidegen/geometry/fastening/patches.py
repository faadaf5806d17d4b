"""Patches that hold straps → a warning where two of them lie on one another on one part."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from guidegen.buildfile.records.fastening import PointKind
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.outline.areas import overlap_area
from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import PointRow, RowPoint
from guidegen.units import mm_text

TOUCH = 1.0
"""mm² that two patches may share: those that only touch share nothing but rounding. Our choice."""


@dataclass(frozen=True, slots=True)
class _Held:
    """A row of patches, and the first end of a strap that lies on it."""

    row: PointRow
    strap: str
    key: str
    """from or to."""


def audit_patches(holding: Holding) -> None:
    """Warn of two rows of patches of straps that lie on one another.

    On a half template both rows are mirrored alike, so its drawn half tells of the whole.
    """
    for first, second in combinations(_held(holding), 2):
        if first.row.part != second.row.part:
            continue
        shared = max(
            overlap_area(_ring(first.row, one), _ring(second.row, other))
            for one in first.row.spots
            for other in second.row.spots
        )
        if shared > TOUCH:
            part = first.row.part
            message = (
                f"a patch of {part}.{second.row.name} lies on one of {part}.{first.row.name}, "
                f"which straps.{first.strap}.{first.key} names: they share {mm_text(shared)} mm², "
                "expected none"
            )
            holding.refuse("patch-overlap", message, "straps", second.strap, second.key, "row")


def _held(holding: Holding) -> Iterator[_Held]:
    """Every row of patches that holds straps, once."""
    seen: set[tuple[str, str]] = set()
    for name, strap in holding.file.guide.straps.items():
        for key, end in (("from", strap.start), ("to", strap.end)):
            row = holding.row(end.row) if end is not None else None
            if row is None or row.kind is not PointKind.PATCH or not row.spots:
                continue
            # Two straps that name one row share its patches on purpose.
            if (row.part, row.name) not in seen:
                seen.add((row.part, row.name))
                yield _Held(row, name, key)


def _ring(row: PointRow, spot: RowPoint) -> list[Point]:
    """The corners of a patch: its diameter along the row, its length across."""
    (x, y), (dx, dy) = spot.at, spot.along
    half, reach = row.diameter / 2, row.length / 2
    return [
        (x + a * half * dx - b * reach * dy, y + a * half * dy + b * reach * dx)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]
