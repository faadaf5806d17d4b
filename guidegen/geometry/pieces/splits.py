"""Pieces that fit on no sheet, and the lines where they may be split → sections that fit.

Only the lines that are needed are used, in the author's order. Sections of one piece are numbered
from left to right and upward; the seams between them carry match marks.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import cos, radians, sin

from guidegen.buildfile.records.guide import Split
from guidegen.geometry.grading.spread_cut import CutLine
from guidegen.geometry.outline.curves import inward_normal, point_at
from guidegen.geometry.outline.measures import bounds, run_length
from guidegen.geometry.outline.records import (
    InnerLine,
    LineKind,
    MatchMark,
    Measure,
    Run,
    Shape,
)
from guidegen.geometry.outline.transforms import (
    RigidMotion,
    mirror_shape,
    transform_shape,
)
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.pieces.grooves import mirror_grooves, move_groove
from guidegen.geometry.pieces.placements import clip_to_half
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam, Piece, Side
from guidegen.geometry.pieces.seams import mark_shares, tick_sequence
from guidegen.geometry.pieces.split_shape import SplitError, split_shape
from guidegen.units import SEAM_TOLERANCE


@dataclass(frozen=True, slots=True)
class SplitParts:
    """Sections in the place of a piece, and the seams that join them again."""

    pieces: tuple[Piece, ...]
    seams: tuple[JoinedSeam, ...]


def split_part(
    asker: PartAsker, pieces: tuple[Piece, ...], fits: Callable[[Piece], bool]
) -> SplitParts | None:
    """The sections of a part's pieces (one, or left and right); None where the part stays whole.

    It stays whole where it has no split lines, where it `fits`, or where even all lines together
    do not help: then the audit of rooms tells how much is missing. A line that cannot be followed
    is a problem of the asker.
    """
    splits = asker.part.splits
    if not pieces or not splits or fits(pieces[0]):
        return None
    # As few cuts as will do: each costs a seam. In the author's order, who knows where one shows
    # least.
    for count in range(1, len(splits) + 1):
        cut = _cut(asker, pieces[0], count)
        if cut is None:
            return None
        # One hand is asked for both: mirrored, a piece needs the same room.
        if all(fits(replace(pieces[0], shape=shape)) for shape in cut):
            return _dress(asker.part_id, pieces, cut, splits[:count])
    return None


def _cut(asker: PartAsker, piece: Piece, count: int) -> list[Shape] | None:
    """The first `count` lines followed; None, and a problem, where one cannot be."""
    shapes = [piece.shape]
    for number in range(count):
        line = _line(asker, number)
        if line is None:
            return None
        try:
            shapes, passed = _cut_all(shapes, line, number)
        except SplitError as error:
            asker.refuse("bad-split", f"the split line {error}", "splits", number)
            return None
        if not passed:
            asker.refuse("bad-split", "the split line misses the piece", "splits", number, "at")
            return None
    return sorted(shapes, key=_place)


def _cut_all(shapes: list[Shape], line: CutLine, number: int) -> tuple[list[Shape], bool]:
    name = _edge(number)
    found: list[Shape] = []
    for shape in shapes:
        halves = split_shape(shape, line, name)
        found += halves or (shape,)
    old = [edge.name for shape in shapes for edge in shape.edges if edge.name.startswith("split-")]
    new = [edge.name for shape in found for edge in shape.edges if edge.name.startswith("split-")]
    # A line adds one edge to each of its two sides; more mean that it met a section twice, or an
    # earlier line, and sections would no longer come in pairs with one seam.
    if len(new) - len(old) > 2:
        raise SplitError("crosses another one; expected lines that stay clear of each other")
    return found, len(found) > len(shapes)


def _line(asker: PartAsker, number: int) -> CutLine | None:
    split = asker.part.splits[number]
    at = asker.number(split.at, "splits", number, "at")
    angle = asker.number(split.angle, "splits", number, "angle")
    if at is None or angle is None:
        return None
    turn = radians(angle)
    # As grooves: `at` mm to the left of the line through the middle at the same angle.
    return CutLine((-sin(turn) * at, cos(turn) * at), (cos(turn), sin(turn)))


def _edge(number: int) -> str:
    """Name of the edges that the split at `number` makes."""
    return f"split-{number + 1}"


def _place(shape: Shape) -> tuple[float, float]:
    left, low, right, high = bounds((shape.ring(),))
    # Rounded, since sections one above the other have the same middle but for the last digits, and
    # numbers must not change with them.
    return round((left + right) / 2, 3), round((low + high) / 2, 3)


def _dress(
    part: str, pieces: tuple[Piece, ...], shapes: list[Shape], splits: Sequence[Split]
) -> SplitParts:
    """Pieces of all sections and hands, with the seams between them and their marks."""
    seams: list[JoinedSeam] = []
    first = pieces[0]
    made = sum(piece.copies - piece.spares for piece in pieces)
    for number, split in enumerate(splits):
        # Exactly two, see _cut_all.
        ends = [n for n, shape in enumerate(shapes) if _has(shape, _edge(number))]
        seam = f"{part}-{_edge(number)}"
        refs = [EdgeRef(part, _edge(number), section + 1) for section in ends]
        length = run_length(shapes[ends[0]].edge(_edge(number)).run)
        shapes = _marked(shapes, ends, number, seam)
        seams.append(
            JoinedSeam(
                id=seam,
                first=refs[0],
                second=refs[1],
                first_length=length,
                second_length=length,
                ease=0.0,
                tolerance=SEAM_TOLERANCE,
                copies=made,
                thickness=first.thickness,
                step=split.step,
                glue=split.glue,
            )
        )
    sections = tuple(section for piece in pieces for section in _sections(piece, first, shapes))
    return SplitParts(sections, tuple(seams))


def _has(shape: Shape, name: str) -> bool:
    return any(edge.name == name for edge in shape.edges)


def _marked(shapes: list[Shape], ends: list[int], number: int, seam: str) -> list[Shape]:
    """The shapes with match marks of equal distance from the same end on both new edges."""
    runs = [shapes[end].edge(_edge(number)).run for end in ends]
    shares = mark_shares(runs[0], runs[1], None, symmetrical=False)
    ticks = tick_sequence(len(shares))
    marked = list(shapes)
    # The new edges of both sections lie on one another and run opposite ways.
    for end, run, backward in zip(ends, runs, (False, True), strict=True):
        marks = []
        for share, tick in zip(shares, ticks, strict=True):
            along = 1 - share if backward else share
            point, direction = point_at(run, along * run_length(run))
            marks.append(MatchMark(_edge(number), seam, point, inward_normal(direction), tick))
        marked[end] = replace(marked[end], marks=(*marked[end].marks, *marks))
    return marked


def _sections(piece: Piece, drawn: Piece, shapes: list[Shape]) -> list[Piece]:
    """The sections of one hand; `drawn` is the hand that is not mirrored."""
    found = []
    for number, shape in enumerate(shapes, 1):
        left, low, right, high = bounds((shape.ring(),))
        moved = RigidMotion(-(left + right) / 2, -(low + high) / 2)
        template = transform_shape(shape, moved)
        grooves = tuple(
            move_groove(replace(groove, run=run, rims=_within(groove.rims, shape)), moved)
            for groove in drawn.grooves
            # Grooves are clipped on the unmirrored piece and mirrored afterwards with their
            # section.
            for run in _within((groove.run,), shape)
        )
        mirrored = piece.side is Side.RIGHT
        found.append(
            replace(
                piece,
                label=f"{piece.label}.{number}",
                name=f"{piece.name} {number}/{len(shapes)}",
                section=number,
                template=template,
                shape=mirror_shape(template) if mirrored else template,
                fold="",
                grooves=mirror_grooves(grooves) if mirrored else grooves,
                measures=(Measure("width", right - left), Measure("height", high - low)),
            )
        )
    return found


def _within(runs: tuple[Run, ...], shape: Shape) -> tuple[Run, ...]:
    """The stretches of lines of a whole piece that lie on one of its sections."""
    lines = (InnerLine(LineKind.GROOVE, run) for run in runs)
    return tuple(part.run for line in lines for part in clip_to_half(line, shape))
