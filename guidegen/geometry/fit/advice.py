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
    Misfit,
    Served,
    SizeAdvice,
    SizeReach,
    SizeShare,
    Verdict,
)
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Piece, Side

LONE_STEP = 0.05
"""Share of a measurement that stands for a size step where sizes do not show one. Our choice:
girths of neighbouring sizes differ by about this much."""


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
        steps[name] = step or LONE_STEP * max(values)
    return steps


def misfits_of(
    body: Mapping[str, float], size: Mapping[str, float], steps: Mapping[str, float]
) -> tuple[Misfit, ...]:
    """Every measurement that both have, the farthest off first."""
    found = [Misfit(n, body[n], size[n], steps[n]) for n in size if n in body and n in steps]
    return tuple(sorted(found, key=lambda misfit: (-abs(misfit.steps), misfit.measurement)))


def misfit_score(misfits: Iterable[Misfit]) -> float:
    """Root of the mean square of misfits in size steps; 0 without any.

    Size steps, not mm: otherwise the chest would always outvote the wrist.
    """
    squares = [misfit.steps**2 for misfit in misfits]
    return (sum(squares) / len(squares)) ** 0.5 if squares else 0.0


def advise_size(
    file: GuideFile, body: Mapping[str, float], stock: Stock | None = None
) -> SizeAdvice | None:
    """The size with the least misfit; of two alike, the larger one, since foam can be cut off.

    With a `stock`, also which edges would have to grow and whether their trim allowance is
    enough. None where the guide has no sizes, or none of their measurements is given.
    """
    table = size_table(file)
    steps = size_steps(table)
    scored = [(name, misfits_of(body, row, steps)) for name, row in table.items()]
    scored = [(name, misfits) for name, misfits in scored if misfits]
    if not scored:
        return None
    order = {name: number for number, name in enumerate(table)}
    ranking = sorted(
        ((name, misfit_score(misfits)) for name, misfits in scored),
        key=lambda pair: (round(pair[1], 9), -order[pair[0]]),
    )
    size, score = ranking[0]
    growths = edge_growths(file, stock, size, body) if stock is not None else ()
    return SizeAdvice(size, score, dict(scored)[size], tuple(ranking), growths)


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
    names = size_numbers(file, size)[0].names()
    own_pieces = {piece.key: piece for piece in own.pieces}
    found = [
        growth
        for piece in given.pieces
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
            widths[edge] = evaluate(file, trail, allowance.width, names, []) or 0.0
    return widths


def _growths(given: Piece, own: Piece, trims: Mapping[str, float]) -> list[EdgeGrowth]:
    """What grows from one piece to the other; allowances are in both, so they cancel out."""
    names = [edge.name for edge in given.shape.edges]
    if len(names) < 2 or names != [edge.name for edge in own.shape.edges]:
        return []
    growths = []
    for number, name in enumerate(names):
        growth = run_length(own.shape.edge(name).run) - run_length(given.shape.edge(name).run)
        ends = (names[number - 1], names[(number + 1) % len(names)])
        # On a part cut on the fold, the mirrored edge has the allowance of the drawn one.
        room = sum(trims.get(end, trims.get(end.removesuffix("-2"), 0.0)) for end in ends)
        if growth > 1:
            growths.append(EdgeGrowth(given.part, name, growth, room))
    return growths


def serve_people(
    file: GuideFile, people: Iterable[Mapping[str, float]], reach: float = 1.0
) -> list[Served]:
    """Which size serves each of `people` (mm by measurement), or why none does.

    A person is served by the size of least misfit when no measurement is farther off than
    `reach` size steps. Measurements that a person or the guide does not have are left out.
    """
    table = size_table(file)
    steps = size_steps(table)
    return [_serve(*_best(person, table, steps), reach) for person in people]


def _serve(size: str | None, misfits: tuple[Misfit, ...], reach: float) -> Served:
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
    """What each size serves in two measurements: up to `reach` size steps off either way."""
    table = size_table(file)
    steps = size_steps(table)
    a, b = reach * steps[first], reach * steps[second]
    return [
        SizeReach(size, (row[first] - a, row[second] - b), (row[first] + a, row[second] + b))
        for size, row in table.items()
        if first in row and second in row
    ]


def _best(
    person: Mapping[str, float],
    table: Mapping[str, Mapping[str, float]],
    steps: Mapping[str, float],
) -> tuple[str | None, tuple[Misfit, ...]]:
    """The size of least misfit; None where person and sizes have no measurement in common."""
    best: tuple[str | None, tuple[Misfit, ...]] = (None, ())
    least = float("inf")
    for size, row in table.items():
        misfits = misfits_of(person, row, steps)
        score = misfit_score(misfits)
        if misfits and score <= least + 1e-9:
            best, least = (size, misfits), score
    return best
