"""Kits of all sizes → numbers that differ from size to size, by the words that ask for them."""

from collections.abc import Iterator, Mapping, Sequence

from guidegen.buildfile.records.guide import Step
from guidegen.geometry.fastening.answers import marks_of
from guidegen.geometry.pieces.records import Kit

type Series = Mapping[str, Sequence[float]]
"""What there is by the words that ask for it, with its number in every size."""

COUNTS = ("pieces", "points", "marks", "fastened", "straps", "strips")
"""Questions whose answers are counts."""


MOST_PARTS = 3
"""Parts of a step up to which its numbers may mean their rows of points. Our choice: words about
more parts speak of none of them, and a count that is alike is chance."""


def is_count(name: str) -> bool:
    """Whether a question asks how many there are."""
    return name.partition("(")[0] in COUNTS and "(" in name


def of_values(kits: Sequence[Kit]) -> Series:
    """Values of a guide; measurements are the reader's own."""
    return _different([dict(kit.values) for kit in kits])


def of_parts(kits: Sequence[Kit], parts: Sequence[str]) -> Series:
    """Sides, edges and counts of some parts, and what stands on them."""
    return _different([dict(_of_kit(kit, parts)) for kit in kits])


def of_step(kits: Sequence[Kit], step: Step) -> Series:
    """What a step joins, closes and cuts: marks, fasteners, straps, strips."""
    return _different([dict(_held(kit, step)) for kit in kits])


def _of_kit(kit: Kit, parts: Sequence[str]) -> Iterator[tuple[str, float]]:
    for one in kit.finished:
        if one.part in parts:
            for name, length in one.edges:
                yield f"edge({one.part}, {name})", length
            yield f"width({one.part})", one.width
            yield f"height({one.part})", one.height
            count = sum(piece.copies - piece.spares for piece in kit.built(one.part))
            yield f"pieces({one.part})", float(count)
    for row in kit.rows if len(parts) <= MOST_PARTS else ():
        if row.part in parts:
            yield f"points({row.part}, {row.name})", float(row.count)
            yield f"pitch({row.part}, {row.name})", row.pitch


def _held(kit: Kit, step: Step) -> Iterator[tuple[str, float]]:
    for seam in kit.seams:
        if seam.id in step.seams:
            yield f"marks({seam.id})", marks_of(kit, seam)
    for name in step.fastens:
        rows = [one for one in kit.fastened if one.fastening == name]
        if rows:
            yield f"fastened({name})", float(sum(one.count for one in rows))
            yield f"post({name})", max(one.post for one in rows)
    for strap in kit.straps:
        if strap.id in step.straps:
            yield f"straps({strap.id})", float(strap.count)
            yield f"cut({strap.id})", strap.pieces[0].length
            yield f"free({strap.id})", strap.free
            yield f"least({strap.id})", strap.least
            yield f"most({strap.id})", strap.most
    for strip in kit.strips:
        if strip.id in step.strips:
            yield f"strips({strip.id})", float(strip.count)
            yield f"strip({strip.id})", strip.length
            yield f"wide({strip.id})", strip.width


def _different(tables: Sequence[Mapping[str, float]]) -> Series:
    """What every size has, and not all of them alike."""
    return {
        name: series
        for name in tables[0]
        if len(series := [table[name] for table in tables if name in table]) == len(tables)
        # A thousandth of a mm: sizes that share a part differ by rounding alone.
        and len({round(value, 3) for value in series}) > 1
    }
