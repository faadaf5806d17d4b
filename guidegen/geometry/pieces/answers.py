"""Finished pieces of one size in → answers to what words and sums ask of them."""

from collections.abc import Callable, Iterable, Mapping

from guidegen.buildfile.living.holes import Ask, Living
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.pieces.finished import Finished
from guidegen.geometry.pieces.records import FinishedSize, Kit
from guidegen.problems import did_you_mean


def finished_sizes(finished: Mapping[str, Finished]) -> tuple[FinishedSize, ...]:
    """Measures of all parts, in their order."""
    sizes = []
    for part, one in finished.items():
        left, low, right, high = bounds((one.whole.ring(),))
        edges = tuple((edge.name, run_length(edge.run)) for edge in one.template.edges)
        sizes.append(FinishedSize(part, right - left, high - low, edges))
    return tuple(sizes)


def answer(kit: Kit, ask: Ask) -> float:
    """The number that `ask` wants. Raises ExpressionError where the kit has no such thing."""
    return _ANSWERS[ask.about](kit, *ask.names)


def living_value(kit: Kit, living: Living) -> float:
    """A living number in the size of `kit`, rounded. Raises ExpressionError."""
    return living.value(kit.names(), lambda ask: answer(kit, ask))


def _missing(what: str, name: str, known: Iterable[str]) -> ExpressionError:
    return ExpressionError(f'no {what} "{name}"{did_you_mean(name, known)}')


def _finished(kit: Kit, part: str) -> FinishedSize:
    for one in kit.finished:
        if one.part == part:
            return one
    raise _missing("part", part, [one.part for one in kit.finished])


def _edge(kit: Kit, part: str, edge: str) -> float:
    edges = dict(_finished(kit, part).edges)
    if edge not in edges:
        raise _missing(f"edge of {part}", edge, edges)
    return edges[edge]


def _thick(kit: Kit, part: str) -> float:
    _finished(kit, part)
    return next(piece.thickness for piece in kit.pieces_of(part))


def _pieces(kit: Kit, part: str) -> float:
    _finished(kit, part)
    return float(sum(piece.copies - piece.spares for piece in kit.built(part)))


def _marks(kit: Kit, seam: str) -> float:
    for one in kit.seams:
        if one.id == seam:
            edge = one.first
            piece = next(kit.built(edge.part))
            marks = [mark for mark in piece.shape.marks if mark.seam == seam]
            own = {mark.edge for mark in marks}
            name = edge.edge if edge.edge in own else next(iter(sorted(own)), "")
            return float(sum(mark.edge == name for mark in marks))
    raise _missing("seam", seam, [one.id for one in kit.seams])


_ANSWERS: dict[str, Callable[..., float]] = {
    "edge": _edge,
    "width": lambda kit, part: _finished(kit, part).width,
    "height": lambda kit, part: _finished(kit, part).height,
    "thick": _thick,
    "pieces": _pieces,
    "marks": _marks,
}
