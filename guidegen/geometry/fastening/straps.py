"""Straps of a guide and one size → what to cut, what they bridge, how they hang and pull."""

from dataclasses import dataclass

from guidegen.buildfile.records.fastening import Strap, StrapEnd
from guidegen.buildfile.yaml.expressions import Expression
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.pieces.records import FittedStrap, StrapPiece
from guidegen.units import mm_text

SLIDES = 2.0
"""mm that a gap is wider than the strap that passes it. Common practice, no source."""
NEAR = 0.05
"""mm under which two lengths are the same."""


@dataclass(frozen=True)
class _Chain:
    """The numbers of one strap, in mm."""

    bridges: tuple[float, float]
    holds: tuple[float, float]
    short: float
    turned: float
    closest: float
    tail: float
    overlap: tuple[float, float]
    free: float | None
    takes: float
    """mm of the way that the closure takes up."""
    stretch: float
    """Share by which the material may be stretched."""


def fit_straps(holding: Holding) -> tuple[FittedStrap, ...]:
    """Every strap of the guide; those whose numbers do not hold are told and left out."""
    made = (_fit(holding, name, strap) for name, strap in holding.file.guide.straps.items())
    return tuple(strap for strap in made if strap is not None)


def _fit(holding: Holding, name: str, strap: Strap) -> FittedStrap | None:
    count = _count(holding, name, strap)
    chain = _chain(holding, name, strap)
    if count is None or chain is None:
        return None
    _check_widths(holding, name, strap)
    if strap.around is not None:
        return _hanger(holding, name, strap, chain, count)
    if strap.closure is not None:
        fitted = _buckled(name, strap, chain, count)
    else:
        fitted = _single(name, strap, chain, count)
    _check_reach(holding, name, fitted, chain)
    return fitted


def _count(holding: Holding, name: str, strap: Strap) -> int | None:
    """Straps: one for each point at which one is held; both ends must have as many."""
    counts: list[int] = []
    for key, end in (("from", strap.start), ("to", strap.end)):
        if end is None:
            continue
        row = holding.row(end.row)
        if row is None:
            return None  # told where it stands
        each = holding.number(end.points, "straps", name, key, "points")
        whole = row.count * holding.worn(row.part)
        if each is None or each < 1 or whole % each:
            message = f"{whole} points of {end.row} do not share out by {each or 0:g}"
            holding.refuse("strap-end", message, "straps", name, key, "points")
            return None
        counts.append(round(whole / each))
        held = holding.number(end.holds, "straps", name, key, "holds")
        if row.kind == "patch" and held is not None and held > row.length + NEAR:
            message = (
                f"{mm_text(held, 1)} mm of the strap are to lie on {end.row}, which has room for "
                f"{mm_text(row.length, 1)} mm"
            )
            holding.refuse("strap-end", message, "straps", name, key, "holds")
    if len(set(counts)) > 1:
        message = f"{strap.start.row} holds {counts[0]} straps, and its other end {counts[1]}"
        holding.refuse("strap-end", message, "straps", name, "to")
        return None
    return counts[0]


def _chain(holding: Holding, name: str, strap: Strap) -> _Chain | None:
    """All numbers of a strap; None, and problems, where one has no value."""

    def number(quantity: Expression, *steps: str | int) -> float | None:
        return holding.number(quantity, "straps", name, *steps)

    def held(end: StrapEnd | None, key: str) -> float | None:
        return 0.0 if end is None else number(end.holds, key, "holds")

    pairs = [
        tuple(number(one, key, at) for at, one in enumerate(pair)) if pair else (0.0, 0.0)
        for key, pair in (("bridges", strap.bridges), ("overlap", strap.overlap))
    ]
    holds = (held(strap.start, "from"), held(strap.end, "to"))
    plain = [number(getattr(strap, key), key) for key in ("short", "turned", "closest", "tail")]
    free = number(strap.free, "free") if strap.free is not None else None
    known = [*pairs[0], *pairs[1], *holds, *plain]
    sure = [value for value in known if value is not None]
    if len(sure) < len(known) or (strap.free is not None and free is None):
        return None
    low, high, least, most, start, end, short, turned, closest, tail = sure
    if low < 0 or high < low or most < least:
        message = f"expected the least first and the most second, found {low:g} and {high:g}"
        holding.refuse("strap-reach", message, "straps", name, "bridges")
        return None
    material = holding.stock.materials.get(strap.material)
    takes = next(holding.material_number(strap.closure or "", "takes"), 0.0)
    stretch = (material.stretch or 0.0) / 100 if material is not None else 0.0
    return _Chain(
        (low, high), (start, end), short, turned, closest, tail, (least, most), free, takes, stretch
    )


def _buckled(name: str, strap: Strap, chain: _Chain, count: int) -> FittedStrap:
    """Two pieces and a closure: the long one is as long as the loosest way needs."""
    away = chain.short + chain.takes
    free = max(chain.bridges[1] - away, chain.closest) + chain.tail
    pieces = (
        StrapPiece(strap.material, chain.holds[0] + free, count, strap.name),
        StrapPiece(strap.material, chain.holds[1] + chain.short + chain.turned, count, strap.name),
    )
    return FittedStrap(
        name,
        strap.name,
        count,
        pieces,
        _hardware(strap, count),
        free,
        least=away + chain.closest,
        most=away + free - chain.tail,
        asked=chain.bridges,
        slack=0.0,
        pull=0.0,
    )


def _single(name: str, strap: Strap, chain: _Chain, count: int) -> FittedStrap:
    """One piece: glued at both ends, or closed by what overlaps; elastic or not."""
    least, most = chain.overlap
    if strap.overlap is not None:
        # It must still overlap by the least where the way is longest, elastic pulled out or not.
        reach = chain.free if chain.free is not None else _reach(chain)
    else:
        reach = chain.free if chain.free is not None else chain.bridges[0]
    shortest, longest = reach - most, (reach - least) * (1 + chain.stretch)
    relaxed = reach - least
    pull = max(0.0, chain.bridges[1] / relaxed - 1) * 100 if chain.stretch and relaxed > 0 else 0.0
    pieces = [StrapPiece(strap.material, sum(chain.holds) + reach, count, strap.name)]
    if strap.tape is not None:
        pieces.append(StrapPiece(strap.tape, most, count, strap.name))
    return FittedStrap(
        name,
        strap.name,
        count,
        tuple(pieces),
        _hardware(strap, count),
        reach,
        least=shortest,
        most=longest,
        asked=chain.bridges,
        slack=max(0.0, shortest - chain.bridges[0]),
        pull=pull,
    )


def _reach(chain: _Chain) -> float:
    """mm of a strap that overlaps itself, without pull."""
    if chain.stretch:
        return chain.bridges[0] + chain.overlap[1]
    return chain.bridges[1] + chain.overlap[0]


def _hanger(holding: Holding, name: str, strap: Strap, chain: _Chain, count: int) -> FittedStrap:
    """A loop over a belt: down its front, under it, up its back, and closed on itself."""
    width = next(holding.material_number(strap.around or "", "width"), 0.0)
    thick = next(holding.material_number(strap.around or "", "thickness"), 0.0)
    thick += sum(holding.thickness(part) for part in strap.over)
    drop = chain.bridges[1]
    loop = 2 * (width + thick)
    length = chain.holds[0] + drop + loop + chain.overlap[0]
    pieces = [StrapPiece(strap.material, length, count, strap.name)]
    if strap.tape is not None:
        pieces.append(StrapPiece(strap.tape, chain.overlap[1], count, strap.name))
    return FittedStrap(
        name,
        strap.name,
        count,
        tuple(pieces),
        _hardware(strap, count),
        drop + loop,
        least=drop,
        most=drop,
        asked=chain.bridges,
        slack=0.0,
        pull=0.0,
    )


def _hardware(strap: Strap, count: int) -> tuple[tuple[str, int], ...]:
    return tuple((one, count) for one in (strap.closure, strap.slider) if one is not None)


def _check_widths(holding: Holding, name: str, strap: Strap) -> None:
    """A strap passes the gap and lies on its places in its whole width."""
    width = next(holding.material_number(strap.material, "width"), 0.0)
    if strap.gap is not None:
        gap = holding.number(strap.gap, "straps", name, "gap")
        if gap is not None and gap < width + SLIDES:
            message = (
                f"{strap.material} is {mm_text(width, 1)} mm wide, the gap {mm_text(gap, 1)} mm: "
                f"expected {mm_text(width + SLIDES, 1)} mm at least"
            )
            holding.refuse("strap-gap", message, "straps", name, "gap")
    for key, end in (("from", strap.start), ("to", strap.end)):
        row = holding.row(end.row) if end is not None else None
        if row is None or row.kind not in {"patch", "slot"}:
            continue
        room = row.diameter if row.kind == "patch" else row.length
        if room < width - NEAR:
            message = (
                f"{row.part}.{row.name} is {mm_text(room, 1)} mm wide and {strap.material} "
                f"{mm_text(width, 1)} mm"
            )
            holding.refuse("strap-gap", message, "straps", name, key, "row")


def _check_reach(holding: Holding, name: str, strap: FittedStrap, chain: _Chain) -> None:
    """What a strap bridges covers what it must bridge."""
    low, high = strap.asked
    if low < strap.least - NEAR:
        loose = "hangs loose by" if chain.stretch else "misses it by"
        message = (
            f"it must bridge {mm_text(low, 1)} mm and comes no closer than "
            f"{mm_text(strap.least, 1)} mm: it {loose} {mm_text(strap.least - low, 1)} mm"
        )
        holding.refuse("strap-reach", message, "straps", name, "bridges", 0)
    if high > strap.most + NEAR:
        message = f"it must bridge {mm_text(high, 1)} mm and reaches {mm_text(strap.most, 1)} mm"
        holding.refuse("strap-reach", message, "straps", name, "bridges", 1)
