"""A body's measurements and a guide in → the size that fits best, and what is off about it."""

from collections.abc import Iterable, Mapping

from guidegen.buildfile.guide import AllowanceKind
from guidegen.buildfile.records import GuideFile
from guidegen.buildfile.sizes import evaluate, size_numbers
from guidegen.buildfile.stock import Stock
from guidegen.geometry.fit_records import Coverage, EdgeGrowth, Misfit, SizeAdvice, SizeShare
from guidegen.geometry.kit import make_kit
from guidegen.geometry.measures import run_length
from guidegen.geometry.records import Piece, Side

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


def cover_population(
    file: GuideFile, people: Iterable[Mapping[str, float]], reach: float = 1.0
) -> Coverage:
    """Which of `people` (mm by measurement) the sizes serve.

    A person is served by the size of least misfit when no measurement is farther off than
    `reach` size steps. Measurements that a person or the guide does not have are left out.
    """
    table = size_table(file)
    steps = size_steps(table)
    counts = dict.fromkeys(table, 0)
    missed = {"small": 0, "large": 0, "mixed": 0}
    total = 0
    for person in people:
        total += 1
        size, misfits = _best(person, table, steps)
        off = [misfit.steps for misfit in misfits if abs(misfit.steps) > reach + 1e-9]
        if size is not None and not off:
            counts[size] += 1
        elif off and max(off) < 0:
            missed["small"] += 1
        elif off and min(off) > 0:
            missed["large"] += 1
        else:
            missed["mixed"] += 1
    served = tuple(
        SizeShare(size, count, count / total if total else 0.0) for size, count in counts.items()
    )
    return Coverage(total, served, missed["small"], missed["large"], missed["mixed"])


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
