"""Finished pieces of one size in → answers to what words and sums ask of them."""

from collections.abc import Callable, Iterable, Mapping
from math import asin, degrees, sqrt, tau

from guidegen.buildfile.living.holes import Ask, Living
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.outline.distances import distance_to_line
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Run
from guidegen.geometry.pieces.records import (
    CutStrip,
    Fastened,
    FinishedSize,
    FittedCircuit,
    FittedLinkage,
    FittedStrap,
    GrooveCut,
    JoinedSeam,
    Kit,
    PointRow,
)
from guidegen.problems import did_you_mean


def answer(kit: Kit, ask: Ask) -> float:
    """The number that `ask` wants. Raises ExpressionError where the kit has no such thing."""
    return _ANSWERS[ask.about](kit, *ask.names)


def living_value(kit: Kit, living: Living) -> float:
    """A living number in the size of `kit`, rounded. Raises ExpressionError."""
    return living.value(kit.names(), lambda ask: answer(kit, ask))


def living_sum(kit: Kit, living: Living, names: Mapping[str, float]) -> float:
    """The same, not rounded, with `names` for measurements and values. Raises ExpressionError."""
    # Questions become names of the sum: the arithmetic itself knows no kit, and stays a small
    # language of numbers.
    asked = {f"ask_{number}": answer(kit, ask) for number, ask in enumerate(living.asks)}
    return living.expression.value({**names, **asked})


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


def _line(kit: Kit, part: str, line: str) -> float:
    lines = dict(_finished(kit, part).lines)
    if line not in lines:
        raise _missing(f"line of {part}", line, lines)
    return lines[line]


def _seam(kit: Kit, seam: str) -> float:
    for one in kit.seams:
        if one.id == seam:
            return one.first_length
    raise _missing("seam", seam, [one.id for one in kit.seams])


def _thick(kit: Kit, part: str) -> float:
    _finished(kit, part)
    return next(piece.thickness for piece in kit.pieces_of(part))


def _pieces(kit: Kit, part: str) -> float:
    _finished(kit, part)
    return float(sum(piece.copies - piece.spares for piece in kit.built(part)))


def marks_of(kit: Kit, seam: JoinedSeam) -> float:
    """The number of match marks on each edge of a seam."""
    piece = next(kit.built(seam.first.part))
    marks = [mark for mark in piece.shape.marks if mark.seam == seam.id]
    own = {mark.edge for mark in marks}
    # A seam across the fold has its marks on the twin of the edge that the file names.
    name = seam.first.edge if seam.first.edge in own else next(iter(sorted(own)), "")
    return float(sum(mark.edge == name for mark in marks))


def _marks(kit: Kit, seam: str) -> float:
    for one in kit.seams:
        if one.id == seam:
            return marks_of(kit, one)
    raise _missing("seam", seam, [one.id for one in kit.seams])


def _row(kit: Kit, part: str, name: str) -> PointRow:
    rows = {row.name: row for row in kit.rows if row.part == part}
    if name not in rows:
        raise _missing(f"row of points of {part}", name, rows)
    return rows[name]


def run_of_edge(kit: Kit, part: str, edge: str) -> Run:
    """A finished edge where the part's rows of points lie. Raises ExpressionError without one."""
    one = _finished(kit, part)
    run = one.run(edge)
    if run is None:
        raise _missing(f"edge of {part}", edge, [own.name for own in one.outline])
    return run


def _inset(kit: Kit, part: str, row: str, edge: str) -> float:
    line = flatten(run_of_edge(kit, part, edge))
    return min(distance_to_line(line, spot.at) for spot in _row(kit, part, row).spots)


def _spares(kit: Kit, part: str) -> float:
    _finished(kit, part)
    return float(sum(piece.spares for piece in kit.built(part)))


def _bevel(kit: Kit, part: str, edge: str) -> float:
    _edge(kit, part, edge)
    piece = next(kit.built(part))
    angles = [bevel.angle for bevel in piece.template.bevels if bevel.edge == edge]
    return angles[0] if angles else 0.0


def _groove(kit: Kit, part: str) -> GrooveCut:
    _finished(kit, part)
    grooves = next(kit.built(part)).grooves
    if not grooves:
        raise ExpressionError(f"{part} has no groove")
    return grooves[0]


def _fastening(kit: Kit, name: str) -> list[Fastened]:
    found = [one for one in kit.fastened if one.fastening == name]
    if not found:
        raise _missing("fastening", name, {one.fastening for one in kit.fastened})
    return found


def _strap(kit: Kit, name: str) -> FittedStrap:
    for strap in kit.straps:
        if strap.id == name:
            return strap
    raise _missing("strap", name, [strap.id for strap in kit.straps])


def _strip(kit: Kit, name: str) -> CutStrip:
    for strip in kit.strips:
        if strip.id == name:
            return strip
    raise _missing("strip", name, [strip.id for strip in kit.strips])


def _linkage(kit: Kit, name: str) -> FittedLinkage:
    for one in kit.linkages:
        if one.id == name:
            return one
    raise _missing("linkage", name, [one.id for one in kit.linkages])


def _circuit(kit: Kit, name: str) -> FittedCircuit:
    for one in kit.circuits:
        if one.id == name:
            return one
    raise _missing("circuit", name, [one.id for one in kit.circuits])


def _between(kit: Kit, name: str) -> float:
    one = _linkage(kit, name)
    if not one.pieces:
        raise ExpressionError(f"{name} has no strap")
    return one.joints[0].between


def _short(kit: Kit, name: str) -> float:
    # A strap with a closure has its short end second; any other is one piece.
    pieces = _strap(kit, name).pieces
    return pieces[1 if len(pieces) > 1 else 0].length


def _round(kit: Kit, name: str) -> float:
    belt = _strap(kit, name).belt
    if belt is None or not belt.over:
        raise ExpressionError(f"{name} is no belt that lies over edges")
    return belt.outside


def _tube(kit: Kit, part: str) -> tuple[float, float]:
    """Lean in degrees and height in mm of a closed tube with rims top and bottom.

    Both rims close to circles whose radii differ by the sine of the lean times the slope; a gap or
    an overlap is equally wide all along and so leaves the difference as it is.
    """
    one = _finished(kit, part)
    edges = dict(one.edges)
    if not {"top", "bottom", "side"} <= edges.keys():
        raise ExpressionError(f"{part} is no tube: it has no edges top, bottom and side")
    inward = abs(edges["top"] - edges["bottom"]) * one.halves / tau / edges["side"]
    if inward > 1:
        raise ExpressionError(f"the rims of {part} differ by more than its side allows")
    return degrees(asin(inward)), edges["side"] * sqrt(1 - inward**2)


_ANSWERS: dict[str, Callable[..., float]] = {
    "edge": _edge,
    "line": _line,
    "seam": _seam,
    "width": lambda kit, part: _finished(kit, part).width,
    "height": lambda kit, part: _finished(kit, part).height,
    "thick": _thick,
    "pieces": _pieces,
    "lean": lambda kit, part: _tube(kit, part)[0],
    "rise": lambda kit, part: _tube(kit, part)[1],
    "marks": _marks,
    "points": lambda kit, part, name: float(_row(kit, part, name).count),
    "stack": lambda kit, name: max(one.stack for one in _fastening(kit, name)),
    "post": lambda kit, name: max(one.post for one in _fastening(kit, name)),
    "fastened": lambda kit, name: float(sum(one.count for one in _fastening(kit, name))),
    "cut": lambda kit, name: _strap(kit, name).pieces[0].length,
    "short": _short,
    "free": lambda kit, name: _strap(kit, name).free,
    "least": lambda kit, name: _strap(kit, name).least,
    "most": lambda kit, name: _strap(kit, name).most,
    "pull": lambda kit, name: _strap(kit, name).pull,
    "straps": lambda kit, name: float(_strap(kit, name).count),
    "round": _round,
    "strip": lambda kit, name: _strip(kit, name).length,
    "strips": lambda kit, name: float(sum(one.count for one in kit.strips if one.id == name)),
    "wide": lambda kit, name: _strip(kit, name).width,
    "opens": lambda kit, name: _linkage(kit, name).room[0],
    "closes": lambda kit, name: _linkage(kit, name).room[1],
    "between": _between,
    "ohms": lambda kit, name: _circuit(kit, name).ohms,
    "hours": lambda kit, name: _circuit(kit, name).hours,
    "inset": _inset,
    "hole": lambda kit, part, name: _row(kit, part, name).diameter,
    "spares": _spares,
    "bevel": _bevel,
    "fold": lambda kit, part: _groove(kit, part).fold,
    "depth": lambda kit, part: _groove(kit, part).depth,
    "mouth": lambda kit, part: _groove(kit, part).mouth,
    "holds": lambda kit, name: _strap(kit, name).holds[0],
    "pitch": lambda kit, part, name: _row(kit, part, name).pitch,
}
