"""A drawn piece and one size's numbers in → the piece graded for that size.

In this order: spread lines, one after another as the build file lists them; grade rules of
corners; plain scaling. A size with a drawing of its own is not graded.
"""

from dataclasses import dataclass, replace

from guidegen.buildfile.records.guide import Scale, Spread
from guidegen.geometry.drawing.curves import enlarge_segment, map_segment
from guidegen.geometry.drawing.records import DrawnPiece, SpreadLine
from guidegen.geometry.drawing.roles import plain_name
from guidegen.geometry.grading.convex import keep_convex
from guidegen.geometry.grading.drawn_part import DrawnPart
from guidegen.geometry.grading.edges import span_stretches
from guidegen.geometry.grading.rules import move_corners
from guidegen.geometry.grading.spread import flare_at, left_stays, spread_piece
from guidegen.geometry.grading.spread_cut import SpreadError
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.records import Edge, Point, Run, Shape
from guidegen.problems import did_you_mean
from guidegen.units import mm_text

MOST = 2_000.0
"""mm; the most that a spread line opens or a corner moves. Our choice: longer than any limb."""


@dataclass(frozen=True, slots=True)
class Graded:
    """A piece in one size."""

    piece: DrawnPiece
    rough: DrawnPiece
    """The same before its dents were smoothed."""


def grade_piece(job: DrawnPart, piece: DrawnPiece) -> Graded | None:
    """The piece in one size; None, and problems, where it cannot be graded."""
    if job.size in job.part.drawing_per_size:
        return Graded(piece, piece)
    graded = piece
    flares: dict[int, float] = {}
    # One after another, each on what the lines before have left: lines move along with the piece,
    # so their order in the file is part of the drawing.
    for index, rule in enumerate(job.part.spread):
        graded = _spread(job, index, rule, (piece, graded), flares)
    graded = _move(job, graded)
    if job.part.scale is not None:
        graded = _scale(job, job.part.scale, graded)
    if job.fails:
        return None
    # After all lines and rules: a dent of one may be filled by the next.
    smooth = keep_convex(piece, graded, flares)
    return Graded(smooth, graded) if graded is piece or _sound(job, smooth) else None


def _spread(
    job: DrawnPart,
    index: int,
    rule: Spread,
    pieces: tuple[DrawnPiece, DrawnPiece],
    flares: dict[int, float],
) -> DrawnPiece:
    """One spread line carried out, on a piece as drawn and as it is after the lines before.

    `flares` gathers by how many degrees opened hinges turn stretches inward.
    """
    drawn, piece = pieces
    opens = job.value(("spread", index, "opens"), rule.opens)
    wanted = plain_name(rule.line).removeprefix("spread-")
    line, base = _line_called(piece, wanted), _line_called(drawn, wanted)
    if line is None or base is None:
        hint = did_you_mean(wanted, [spread.name for spread in drawn.spreads])
        message = f'no spread line "{rule.line}" in the drawing{hint}'
        cure = f'draw a straight line of class "spread" with the id "spread-{wanted}"'
        job.note("unknown-spread", ("spread", index, "line"), message, cure)
        return piece
    if opens is None:
        return piece
    try:
        if abs(opens) > MOST:
            raise SpreadError(f"opens by {mm_text(opens)} mm, which cannot be meant")
        # Judged on the piece as drawn, not as it is by now: otherwise the side that stays could
        # change from size to size, and pieces would jump.
        stays_left = left_stays(drawn, base, _fold_stretches(job, drawn))
        opened = spread_piece(piece, line, opens, rule.hinge, stays_left)
        flare = flare_at(piece, line, opens, rule.hinge)
        if flare is not None:
            flares[flare[0]] = flares.get(flare[0], 0.0) + flare[1]
        return opened
    except SpreadError as error:
        message = f'the spread line "{rule.line}" {error} (size {job.size})'
        cure = "the line has to run across the piece, past the outline at both ends"
        job.note("spread", ("spread", index), message, cure)
    return piece


def _line_called(piece: DrawnPiece, name: str) -> SpreadLine | None:
    return next((spread for spread in piece.spreads if spread.name == name), None)


def _fold_stretches(job: DrawnPart, piece: DrawnPiece) -> frozenset[int]:
    """Numbers of the stretches of the edge on the fold."""
    span = job.part.edges.get(job.part.on_fold or "")
    if span is None or not {span.start, span.end} <= set(piece.corners):
        return frozenset()
    start, length = span_stretches(piece, span)
    return frozenset((start + offset) % len(piece.corners) for offset in range(length))


def _move(job: DrawnPart, piece: DrawnPiece) -> DrawnPiece:
    """Grade rules carried out."""
    moves: dict[str, Point] = {}
    for corner, rule in job.part.grade.items():
        steps = ("grade", corner)
        if corner not in piece.corners:
            hint = did_you_mean(corner, piece.corners)
            job.note(
                "unknown-corner", steps, f'no corner "{corner}" in the drawing{hint}', key=True
            )
            continue
        dx, dy = job.value((*steps, "dx"), rule.dx), job.value((*steps, "dy"), rule.dy)
        if dx is None or dy is None:
            continue
        if max(abs(dx), abs(dy)) > MOST:
            most = mm_text(max(dx, dy, key=abs))
            job.note("grade", steps, f"moves by {most} mm, which cannot be meant (size {job.size})")
        elif dx or dy:
            moves[corner] = (dx, dy)
    return move_corners(piece, moves) if moves else piece


def _scale(job: DrawnPart, scale: Scale, piece: DrawnPiece) -> DrawnPiece:
    """Plain scaling carried out, with the warning that it deserves."""
    job.note(
        "plain-scaling",
        ("scale",),
        "is graded by plain scaling: holes, notches and the room for the foam's thickness grow "
        "along, although they should not",
        "draw spread lines, or move corners by grade rules",
        key=True,
    )
    x, y = job.value(("scale", "x"), scale.x), job.value(("scale", "y"), scale.y)
    if x is None or y is None or (x, y) == (1.0, 1.0):
        return piece
    if not (0.05 <= x <= 20 and 0.05 <= y <= 20):
        message = f"scales by {x:g} and {y:g}; expected between 0.05 and 20 (size {job.size})"
        job.note("scale", ("scale",), message)
        return piece
    return scale_piece(piece, x, y)


def scale_piece(piece: DrawnPiece, x: float, y: float) -> DrawnPiece:
    """The piece enlarged by factors across and upright, about the page's lower left corner."""

    def at(point: Point) -> Point:
        return (point[0] * x, point[1] * y)

    def scaled(run: Run) -> Run:
        # Enlarged evenly arcs stay arcs.
        if x == y:
            return tuple(enlarge_segment(segment, x) for segment in run)
        return tuple(new for segment in run for new in map_segment(segment, at, straight=True))

    return replace(
        piece,
        stretches=tuple(map(scaled, piece.stretches)),
        holes=tuple(map(scaled, piece.holes)),
        lines=tuple(replace(line, run=scaled(line.run)) for line in piece.lines),
        spreads=tuple(replace(s, start=at(s.start), end=at(s.end)) for s in piece.spreads),
    )


def _sound(job: DrawnPart, graded: DrawnPiece) -> bool:
    """False, and a problem, where a line of the graded piece now crosses another."""
    # Once more after grading: what is sound as drawn may cross itself in a size that nobody drew.
    fault = fault_of(Shape((Edge("outline", graded.ring()),), graded.holes))
    if fault is None:
        return True
    message, at = fault
    where = ""
    if at is not None:
        where = f" near x {mm_text(at[0], 1)} mm, y {mm_text(at[1], 1)} mm from the lower left"
    key = "spread" if job.part.spread else "grade" if job.part.grade else "scale"
    job.note(
        "grading-crossing",
        (key,),
        f"in size {job.size} {message} after grading{where}",
        "check how far it opens or moves in that size; the size table may have a slip",
        key=True,
    )
    return False
