"""A body's measurements and a guide in → the size that fits best, and what is off about it."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from guidegen.buildfile.derive.sizes import evaluate, size_numbers
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import AllowanceKind
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.fit.records import (
    Coverage,
    EdgeGrowth,
    MeasurementGap,
    Served,
    SizeAdvice,
    SizeReach,
    SizeShare,
    Verdict,
)
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Piece, Side
from guidegen.problems import collect

LONE_STEP = 0.05
"""Share of a measurement that stands for a size step where sizes do not show one. Our choice:
girths of neighbouring sizes differ by about this much."""


TAPE = 2.0
"""mm to which a tape is read; a body is no larger than a size where it is by less. Our choice:
1/16 in and a little."""

ROOMY = 2.0
"""Size steps by which a body may be smaller in a leading measurement, for each step that it may be
off in others: straps and overlaps take in what is too wide, nothing lets out what is too narrow.
The range that a size serves is as wide as that of other measurements, which reach both ways."""


def size_table(file: GuideFile) -> dict[str, dict[str, float]]:
    """Measurements in mm by size, as far as they can be worked out."""
    return {name: size_numbers(file, name)[0].measurements for name in file.guide.sizes}


def size_steps(table: Mapping[str, Mapping[str, float]]) -> dict[str, float]:
    """What each measurement changes from one size to the next, on average, in mm."""
    rows = list(table.values())
    steps: dict[str, float] = {}
    for name in dict.fromkeys(name for row in rows for name in row):
        values = [row[name] for row in rows if name in row]
        step = (max(values) - min(values)) / max(1, len(values) - 1)
        # A measurement that is alike in all sizes has no step, and would divide by nothing.
        steps[name] = step or LONE_STEP * max(values)
    return steps


def misfits_of(
    body: Mapping[str, float], size: Mapping[str, float], steps: Mapping[str, float]
) -> tuple[MeasurementGap, ...]:
    """Every measurement that both have, the farthest off first."""
    found = [
        MeasurementGap(n, body[n], size[n], steps[n]) for n in size if n in body and n in steps
    ]
    return tuple(sorted(found, key=lambda misfit: (-abs(misfit.steps), misfit.measurement)))


def misfit_score(misfits: Iterable[MeasurementGap]) -> float:
    """Root of the mean square of misfits in size steps; 0 without any.

    Size steps, not mm: otherwise the chest would always outvote the wrist.
    """
    squares = [misfit.steps**2 for misfit in misfits]
    return (sum(squares) / len(squares)) ** 0.5 if squares else 0.0


def leading(file: GuideFile) -> frozenset[str]:
    """The measurements that the guide's author chooses sizes by; empty where none is marked."""
    return frozenset(name for name, m in file.guide.measurements.items() if m.leads)


def too_small(misfits: Iterable[MeasurementGap], leads: frozenset[str]) -> tuple[str, ...]:
    """Leading measurements in which a size is smaller than the body, so that it does not close."""
    return tuple(m.measurement for m in misfits if m.measurement in leads and m.difference > TAPE)


def rank_sizes(
    table: Mapping[str, Mapping[str, float]], leads: frozenset[str], body: Mapping[str, float]
) -> list[tuple[str, float, tuple[MeasurementGap, ...]]]:
    """Every size with its score and its misfits, the one that serves the body best first.

    Leading measurements are lower limits: sizes that are large enough in all of them come first,
    then those that lack least. Among these, the least misfit counts, of the leading ones alone
    where the body has any, so that many wrists cannot outvote a chest. Of two alike the larger
    one, since foam can be cut off.
    """
    steps = size_steps(table)
    found: list[tuple[tuple[float, float, int], str, float, tuple[MeasurementGap, ...]]] = []
    for number, (size, row) in enumerate(table.items()):
        misfits = misfits_of(body, row, steps)
        if not misfits:
            continue
        lead = tuple(misfit for misfit in misfits if misfit.measurement in leads)
        # Lacking comes before misfit: a size that is roomy everywhere can be worn, one that is a
        # step too narrow in one girth cannot be closed.
        lacks = max((m.steps for m in lead if m.difference > TAPE), default=0.0)
        score = misfit_score(lead or misfits)
        # Rounded, so that the last digits of a root do not choose between two sizes that serve
        # alike; -number makes the later, larger size win then.
        found.append(((round(lacks, 9), round(score, 9), -number), size, score, misfits))
    return [(size, score, misfits) for _, size, score, misfits in sorted(found, key=_order)]


def _order(
    ranked: tuple[tuple[float, float, int], str, float, tuple[MeasurementGap, ...]],
) -> tuple[float, float, int]:
    return ranked[0]


def advise_size(
    file: GuideFile, body: Mapping[str, float], stock: Stock | None = None
) -> SizeAdvice | None:
    """The size that serves a body (mm by measurement) best: see rank_sizes.

    With a `stock`, also which edges would have to grow and whether their trim allowance is
    enough. None where the guide has no sizes, or none of their measurements is given.
    """
    leads = leading(file)
    ranked = rank_sizes(size_table(file), leads, body)
    if not ranked:
        return None
    size, score, misfits = ranked[0]
    growths = edge_growths(file, stock, size, body) if stock is not None else ()
    ranking = tuple((name, points) for name, points, _ in ranked)
    return SizeAdvice(size, score, misfits, ranking, growths, too_small(misfits, leads))


def edge_growths(
    file: GuideFile, stock: Stock, size: str, body: Mapping[str, float]
) -> tuple[EdgeGrowth, ...]:
    """Edges that are longer by more than 1 mm when they are made for the body itself.

    An edge can grow into the trim allowances at its two ends. Empty where either kit fails.
    """
    given, _ = make_kit(file, stock, size)
    own, _ = make_kit(file, stock, size, body)
    if given is None or own is None:
        return ()
    names = {**size_numbers(file, size)[0].names(), **given.names()}
    own_pieces = {piece.key: piece for piece in own.pieces}
    found = [
        growth
        for piece in given.pieces
        # The right one grows as the left does.
        if piece.side is not Side.RIGHT and piece.key in own_pieces
        for growth in _growths(piece, own_pieces[piece.key], trim_widths(file, piece.part, names))
    ]
    return tuple(sorted(found, key=lambda g: (g.covered, g.room - g.growth, g.part, g.edge)))


def trim_widths(file: GuideFile, part: str, names: Mapping[str, float]) -> dict[str, float]:
    """mm of trim allowance by edge of the template."""
    widths: dict[str, float] = {}
    for edge, allowance in file.guide.parts[part].allowances.items():
        if allowance.kind is AllowanceKind.TRIM:
            trail = ("parts", part, "allowances", edge, "width")
            widths[edge] = collect(evaluate(file, trail, allowance.width, names))[0] or 0.0
    return widths


def _growths(given: Piece, own: Piece, trims: Mapping[str, float]) -> list[EdgeGrowth]:
    """What grows from one piece to the other; allowances are in both, so they cancel out."""
    names = [edge.name for edge in given.shape.edges]
    # Split differently, or another number of scallops: edges of one name are not the same then.
    if len(names) < 2 or names != [edge.name for edge in own.shape.edges]:
        return []
    growths = []
    for number, name in enumerate(names):
        growth = run_length(own.shape.edge(name).run) - run_length(given.shape.edge(name).run)
        ends = (names[number - 1], names[(number + 1) % len(names)])
        # On a part cut on the fold, the mirrored edge has the allowance of the drawn one.
        room = sum(trims.get(end, trims.get(end.removesuffix("-2"), 0.0)) for end in ends)
        # mm; a knife wanders as much.
        if growth > 1:
            growths.append(EdgeGrowth(given.part, name, growth, room))
    return growths


def serve_people(
    file: GuideFile, people: Iterable[Mapping[str, float]], reach: float = 1.0
) -> list[Served]:
    """Which size serves each of `people` (mm by measurement), or why none does.

    A person is served by the size that is advised when no measurement is farther off than `reach`
    size steps. Where the guide marks leading measurements, those alone decide: the size is large
    enough in each, and roomier by no more than ROOMY times `reach`. Measurements that a person or
    the guide does not have are left out.
    """
    table, leads = size_table(file), leading(file)
    served = []
    for person in people:
        ranked = rank_sizes(table, leads, person)
        size, _, misfits = ranked[0] if ranked else (None, 0.0, ())
        served.append(_serve(size, misfits, leads, reach))
    return served


def _serve(
    size: str | None, misfits: tuple[MeasurementGap, ...], leads: frozenset[str], reach: float
) -> Served:
    lead = [misfit for misfit in misfits if misfit.measurement in leads]
    short = too_small(lead, leads)
    # A body exactly as many steps off as allowed is served, whatever rounding makes of it.
    roomy = ROOMY * reach + 1e-9
    far = [m for m in lead if m.measurement in short or m.steps < -roomy]
    if not lead:
        far = [misfit for misfit in misfits if abs(misfit.steps) > reach + 1e-9]
    off = tuple(misfit.measurement for misfit in far)
    if size is not None and not far:
        return Served(size, Verdict.SERVED, off)
    if far and all(misfit.steps < 0 for misfit in far):
        return Served(size, Verdict.SMALLER, off)
    if far and all(misfit.steps > 0 for misfit in far):
        return Served(size, Verdict.LARGER, off)
    return Served(size, Verdict.MIXED, off)


def count_served(sizes: Sequence[str], people: Sequence[Served]) -> Coverage:
    """People by size, in the order of `sizes`, and by the reason why none serves them."""
    verdicts = Counter(person.verdict for person in people)
    counts = Counter(person.size for person in people if person.verdict is Verdict.SERVED)
    total = len(people)
    return Coverage(
        total,
        tuple(SizeShare(s, counts[s], counts[s] / total if total else 0.0) for s in sizes),
        verdicts[Verdict.SMALLER],
        verdicts[Verdict.LARGER],
        verdicts[Verdict.MIXED],
    )


def most_missed(people: Iterable[Served], measurements: Sequence[str]) -> list[str]:
    """`measurements` by the number of people who are too far off in them, most first."""
    counts = Counter(name for person in people for name in person.off)
    return sorted(measurements, key=lambda name: -counts[name])


def reach_boxes(file: GuideFile, first: str, second: str, reach: float = 1.0) -> list[SizeReach]:
    """What each size serves in two measurements: up to `reach` size steps off either way, in a
    leading one only downward, by ROOMY times as much."""
    table, leads = size_table(file), leading(file)
    steps = size_steps(table)

    def ends(name: str, value: float) -> tuple[float, float]:
        step = reach * steps[name]
        if name in leads:
            return value - ROOMY * step, value + TAPE
        return value - step, value + step

    boxes = []
    for size, row in table.items():
        if first in row and second in row:
            (a0, a1), (b0, b1) = ends(first, row[first]), ends(second, row[second])
            boxes.append(SizeReach(size, (a0, b0), (a1, b1)))
    return boxes
