"""Straps of a guide and one size → what to cut, what they bridge, how they hang and pull."""

from dataclasses import replace

from guidegen.buildfile.records.fastening import Strap, StrapEnd
from guidegen.buildfile.yaml.expressions import Expression
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.fastening.chains import NEAR, Chain, belt, buckled, hanger, lace, single
from guidegen.geometry.fastening.places import strap_home
from guidegen.geometry.fastening.rounds import worn_over
from guidegen.geometry.fastening.ways import reach
from guidegen.geometry.fastening.widths import too_narrow
from guidegen.geometry.pieces.records import FittedStrap
from guidegen.units import mm_text

SLIDES = 2.0
"""mm that a gap is wider than the strap that passes it. Common practice, no source."""


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
    fitted = _made(holding, name, strap, chain, count)
    # A hanger has no reach to check: its loop closes round the belt at any height.
    if strap.around is None:
        _check_reach(holding, name, fitted, chain, _place(strap))
    return replace(
        worn_over(holding, name, strap, fitted),
        holds=chain.holds,
        ways=chain.ways,
        closure=(chain.short, chain.takes) if strap.closure is not None else (0.0, 0.0),
        ends=(_part(strap.start), _part(strap.end)),
        overlap=chain.overlap,
        home=strap_home(holding.file.guide, strap),
    )


def _made(holding: Holding, name: str, strap: Strap, chain: Chain, count: int) -> FittedStrap:
    """What is cut for a strap, by its kind."""
    if strap.around is not None:
        return hanger(holding, name, strap, chain, count)
    if strap.girth is not None:
        return belt(holding, name, strap, chain)
    if strap.laced is not None:
        return lace(holding, name, strap, chain, count)
    if strap.closure is not None:
        return buckled(name, strap, chain, count)
    return single(name, strap, chain, count)


def _part(end: StrapEnd | None) -> str:
    """The part that holds an end; empty for none."""
    return end.row.partition(".")[0] if end is not None else ""


def _place(strap: Strap) -> tuple[str, ...]:
    """The key of what a strap bridges."""
    if strap.way is not None:
        return ("way", "apart")
    return ("bridges",) if strap.bridges is not None else ("girth",)


def _count(holding: Holding, name: str, strap: Strap) -> int | None:
    """Straps: one for each point at which one is held; both ends must have as many."""
    counts: list[int] = []
    if strap.start is None:
        return 1
    for key, end in (("from", strap.start), ("to", strap.end)):
        if end is None:
            continue
        row = holding.row(end.row)
        if row is None:
            return None  # told where it stands
        if strap.laced is not None:
            # One cord goes through all holes of a piece.
            return holding.worn(row.part)
        each = holding.number(end.points, "straps", name, key, "points")
        whole = row.count * holding.worn(row.part)
        # Two rivets to a strap need an even number of holes, or one strap would hang by one.
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


def _chain(holding: Holding, name: str, strap: Strap) -> Chain | None:
    """All numbers of a strap; None, and problems, where one has no value."""

    def number(quantity: Expression, *steps: str | int) -> float | None:
        return holding.number(quantity, "straps", name, *steps)

    def held(end: StrapEnd | None, key: str) -> float | None:
        return 0.0 if end is None else number(end.holds, key, "holds")

    bridges = reach(holding, name, strap)
    overlap = [number(one, "overlap", at) for at, one in enumerate(strap.overlap or ())]
    holds = (held(strap.start, "from"), held(strap.end, "to"))
    plain = [number(getattr(strap, key), key) for key in ("short", "turned", "closest", "tail")]
    free = number(strap.free, "free") if strap.free is not None else None
    # All are asked before any is looked at, so that every slip of a strap is told at once.
    known = [*(overlap or (0.0, 0.0)), *holds, *plain]
    sure = [value for value in known if value is not None]
    if bridges is None or len(sure) < len(known) or (strap.free is not None and free is None):
        return None
    low, high = bridges.least, bridges.most
    least, most, start, end, short, turned, closest, tail = sure
    if low < 0 or high < low or most < least:
        message = f"expected the least first and the most second, found {low:g} and {high:g}"
        holding.refuse("strap-reach", message, "straps", name, *_place(strap))
        return None
    material = holding.stock.materials.get(strap.material)
    takes = next(holding.material_number(strap.closure or "", "takes"), 0.0)
    stretch = (material.stretch or 0.0) / 100 if material is not None else 0.0
    return Chain(
        (low, high),
        (start, end),
        short,
        turned,
        closest,
        tail,
        (least, most),
        free,
        takes,
        stretch,
        (bridges.from_place, bridges.to_place),
    )


def _check_widths(holding: Holding, name: str, strap: Strap) -> None:
    """A strap passes the gap and lies on its places in its whole width."""
    if strap.gap is not None:
        width = next(holding.material_number(strap.material, "width"), 0.0)
        gap = holding.number(strap.gap, "straps", name, "gap")
        if gap is not None and gap < width + SLIDES:
            message = (
                f"{strap.material} is {mm_text(width, 1)} mm wide, the gap {mm_text(gap, 1)} mm: "
                f"expected {mm_text(width + SLIDES, 1)} mm at least"
            )
            holding.refuse("strap-gap", message, "straps", name, "gap")
    for key, end in (("from", strap.start), ("to", strap.end)):
        if end is not None and (fault := too_narrow(holding, end.row, strap.material)):
            holding.refuse("strap-gap", fault, "straps", name, key, "row")


def _check_reach(
    holding: Holding, name: str, strap: FittedStrap, chain: Chain, place: tuple[str, ...]
) -> None:
    """What a strap bridges covers what it must bridge."""
    # Both ends of the range: too long is as wrong as too short, it hangs loose.
    low, high = strap.asked
    if low < strap.least - NEAR:
        loose = "hangs loose by" if chain.stretch else "misses it by"
        message = (
            f"it must bridge {mm_text(low, 1)} mm and comes no closer than "
            f"{mm_text(strap.least, 1)} mm: it {loose} {mm_text(strap.least - low, 1)} mm"
        )
        holding.refuse("strap-reach", message, "straps", name, *place, 0)
    if high > strap.most + NEAR:
        message = f"it must bridge {mm_text(high, 1)} mm and reaches {mm_text(strap.most, 1)} mm"
        holding.refuse("strap-reach", message, "straps", name, *place, 1)
