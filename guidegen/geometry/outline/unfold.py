"""A half template and its fold edge in → the whole shape out.

Edges that touch the fold become one with their mirrored copy and keep their name; every other
edge gets a mirrored copy called `<name>-2`. Lines, holes, marks and far faces of bevels are
mirrored too; an open line that ends on the fold becomes one with its copy.
"""

from dataclasses import replace

from guidegen.geometry.outline.curves import distance, same_run, straight_ends
from guidegen.geometry.outline.measures import flatten, segment_end, segment_start
from guidegen.geometry.outline.records import (
    BevelledEdge,
    Edge,
    InnerLine,
    LineKind,
    MatchMark,
    Point,
    Run,
    Shape,
)
from guidegen.geometry.outline.transforms import (
    RigidMotion,
    mirror_across,
    reverse_run,
    transform_line,
    transform_mark,
    transform_ring,
    transform_run,
)

_TOUCH = 0.02
"""mm; ends nearer to the fold than this lie on it. Our choice: the flattening tolerance."""


class FoldError(ValueError):
    """The half cannot be unfolded; the message is for the author."""


def twin(edge: str) -> str:
    """Name of the mirrored copy of an edge."""
    return f"{edge}-2"


def fold_line(half: Shape, fold: str) -> tuple[Point, Point]:
    """Start and end of the fold edge. Raises FoldError where it is not one straight segment."""
    try:
        edge = half.edge(fold)
    except KeyError:
        names = ", ".join(edge.name for edge in half.edges)
        raise FoldError(f'no edge "{fold}" to fold at; there are: {names}') from None
    ends = straight_ends(edge.run)
    if ends is None:
        raise FoldError(f'the fold edge "{fold}" is not one straight line')
    return ends


def unfold(half: Shape, fold: str) -> Shape:
    """The whole shape of a half template. Raises FoldError."""
    start, end = fold_line(half, fold)
    if len(half.edges) < 2:
        raise FoldError("the half has no edge beside its fold")
    _check_side(half, start, end)
    mirror = mirror_across(start, end)
    lines = [line for line in half.lines if not _on_fold(line.run, start, end)]
    unfolded = tuple(both for line in lines for both in _unfold_line(line, mirror))
    return Shape(
        edges=unfold_edges(half.edges, fold, mirror),
        holes=half.holes + tuple(transform_ring(hole, mirror) for hole in half.holes),
        lines=(InnerLine(LineKind.CENTRE, half.edge(fold).run), *unfolded),
        marks=half.marks + tuple(_twin_mark(mark, mirror) for mark in half.marks),
        bevels=_unfold_bevels(half, fold, mirror),
    )


def _check_side(half: Shape, start: Point, end: Point) -> None:
    """Refuse a half that reaches over its own fold: the outline lies to the left of it."""
    length = distance(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    over = min(
        (y - start[1]) * ux - (x - start[0]) * uy
        for edge in half.edges
        for x, y in flatten(edge.run)
    )
    if over < -_TOUCH:
        raise FoldError(f"the half reaches {-over:.1f} mm over its fold")


def unfold_edges(edges: tuple[Edge, ...], fold: str, mirror: RigidMotion) -> tuple[Edge, ...]:
    """The ring of a half and of its mirrored copy, counter-clockwise, without the fold."""
    at = next(number for number, edge in enumerate(edges) if edge.name == fold)
    # From the edge after the fold, round to the one before it: f, e1, ..., en.
    half = edges[at + 1 :] + edges[:at]
    if len(half) == 1:
        only = half[0]
        return (Edge(only.name, only.run + transform_ring(only.run, mirror)),)
    first, last = half[0], half[-1]
    middle = half[1:-1]
    around = (
        Edge(first.name, transform_ring(first.run, mirror) + first.run),
        *middle,
        Edge(last.name, last.run + transform_ring(last.run, mirror)),
        *(Edge(twin(edge.name), transform_ring(edge.run, mirror)) for edge in reversed(middle)),
    )
    # The first edge of the half stays the first of the whole.
    names = [edge.name for edge in around]
    lead = edges[0].name if edges[0].name in names else names[0]
    turn = names.index(lead)
    return around[turn:] + around[:turn]


def _aside(point: Point, mirror: RigidMotion) -> float:
    """mm from a point to the fold: half of the way to its mirror image."""
    return distance(point, mirror.point(point)) / 2


def _on_fold(run: Run, start: Point, end: Point) -> bool:
    mirror = mirror_across(start, end)
    return all(_aside(point, mirror) <= _TOUCH for point in flatten(run))


def _closed(run: Run) -> bool:
    return distance(segment_start(run[0]), segment_end(run[-1])) <= _TOUCH


def _merged_run(run: Run, mirror: RigidMotion) -> Run | None:
    """A run that ends on the fold, as one with its mirrored copy; None where it does not."""
    if _closed(run):
        return None
    copy = reverse_run(transform_run(run, mirror))
    starts = _aside(segment_start(run[0]), mirror) <= _TOUCH
    ends = _aside(segment_end(run[-1]), mirror) <= _TOUCH
    if ends:
        return run + copy
    return copy + run if starts else None


def _unfold_line(line: InnerLine, mirror: RigidMotion) -> tuple[InnerLine, ...]:
    merged = _merged_run(line.run, mirror)
    if merged is not None:
        return (replace(line, run=merged),)
    copy = transform_line(line, mirror)
    return (line,) if same_run(line.run, copy.run) else (line, copy)


def _twin_mark(mark: MatchMark, mirror: RigidMotion) -> MatchMark:
    return replace(transform_mark(mark, mirror), edge=twin(mark.edge))


def _unfold_bevels(half: Shape, fold: str, mirror: RigidMotion) -> tuple[BevelledEdge, ...]:
    names = {edge.name for edge in unfold_edges(half.edges, fold, mirror)}
    bevels: list[BevelledEdge] = []
    for bevel in half.bevels:
        copy = transform_ring(bevel.far_face, mirror)
        if twin(bevel.edge) in names:
            bevels.append(bevel)
            bevels.append(replace(bevel, edge=twin(bevel.edge), far_face=copy).turned())
        else:
            merged = _merged_run(bevel.far_face, mirror) or bevel.far_face
            bevels.append(_over_fold(replace(bevel, far_face=merged), fold))
    return tuple(bevels)


def _over_fold(bevel: BevelledEdge, fold: str) -> BevelledEdge:
    """A bevel that turns, on both sides of the fold: from one end to the middle and back."""
    if not bevel.angles:
        return bevel
    if bevel.between[0] == fold:
        angles, end = (*bevel.angles[:0:-1], *bevel.angles), bevel.between[1]
    else:
        angles, end = (*bevel.angles, *bevel.angles[-2::-1]), bevel.between[0]
    return replace(bevel, angles=angles, between=(end, end))


def drawn_edge(whole_edge: str, half: Shape) -> tuple[str, bool]:
    """The edge of the half template that an edge of the whole comes from; True if mirrored."""
    names = {edge.name for edge in half.edges}
    if whole_edge in names:
        return whole_edge, False
    base = whole_edge.removesuffix("-2")
    return (base, True) if base != whole_edge and base in names else (whole_edge, False)
