"""The guide's seams and finished outlines in → joined seams with lengths, and marks by part."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import copysign, hypot

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import Seam
from guidegen.buildfile.records.vocabulary import DRAWING, SHAPES
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import MatchMark
from guidegen.geometry.outline.unfold import drawn_edge
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.pieces.faces import (
    face_line,
    line_names,
    meet_at,
    sides_of,
    stand,
    twin_line,
)
from guidegen.geometry.pieces.pieces import PartCount
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam
from guidegen.geometry.pieces.seams import (
    MARK_CLOSEST,
    SeamEnd,
    joins_both_sides,
    marks_within,
    seam_marks,
)
from guidegen.problems import Checked, Problem, did_you_mean
from guidegen.units import SEAM_TOLERANCE


@dataclass
class Joining:
    """What joining the seams of one size brings."""

    seams: list[JoinedSeam] = field(default_factory=list)
    marks: dict[str, list[MatchMark]] = field(default_factory=dict)
    """By part, on its whole finished outline."""


@dataclass(frozen=True, slots=True)
class _Numbers:
    """The quantities of a seam, in mm."""

    ease: float
    tolerance: float
    spacing: float | None
    """Between match marks, where it is given."""
    gathers: float
    """How many times longer the first edge is; 0 where it is not gathered."""


MOST_GATHERED = 5.0
"""Ratio. Our choice: thin cloth for a frill is gathered three to one."""
GATHERED_TOLERANCE = 5.0
"""mm by which a gathered edge may differ: it is drawn up to fit. Common practice, no source."""


def join_seams(
    file: GuideFile,
    names: Mapping[str, float],
    finished: Mapping[str, Finished],
    counts: Mapping[str, PartCount],
    thickness: Mapping[str, float],
) -> Checked[Joining]:
    """All seams whose parts could be made."""
    joining = Joining()
    for seam_id, seam in file.guide.seams.items():
        # Both are asked before either is looked at, so that one run tells all slips of a seam.
        refs = yield from _refs(file, seam_id, seam, finished)
        numbers = yield from _numbers(file, seam_id, seam, names)
        if refs is None or numbers is None or not {ref.part for ref in refs} <= counts.keys():
            continue
        ends = yield from _ends(file, names, refs, finished, counts)
        if ends is None:
            continue
        foam = thickness[refs[0].part], thickness[refs[1].part]
        joined = yield from _joined(file, names, seam_id, refs, ends, numbers, counts, foam)
        if joined is None:
            continue
        joining.seams.append(joined)
        wanted = seam.marks
        if numbers.spacing is not None:
            # A spacing beats a count: it holds in every size, where a count says less on a longer
            # edge.
            wanted = marks_within(joined.first_length, numbers.spacing)
        for part, mark in seam_marks(seam_id, *ends, wanted, flipped=joined.flipped):
            joining.marks.setdefault(part, []).append(mark)
    return joining


def _ends(
    file: GuideFile,
    names: Mapping[str, float],
    refs: tuple[EdgeRef, EdgeRef],
    finished: Mapping[str, Finished],
    counts: Mapping[str, PartCount],
) -> Checked[tuple[SeamEnd, SeamEnd] | None]:
    """Both ends of a seam; None, and problems, where the second is a line that fails."""
    # Lengths and marks are those of finished outlines: allowances lie beyond the seam.
    one, two = (SeamEnd(finished[ref.part], ref.edge, counts[ref.part].hands == 2) for ref in refs)
    if two.is_edge:
        return one, two
    line = yield from face_line(file, names, two.outline, two.edge)
    if line is None:
        return None
    return one, replace(two, line=line, sides=sides_of(two.outline, line))


def _joined(  # noqa: PLR0917 - one seam with all that is known of it
    file: GuideFile,
    names: Mapping[str, float],
    seam_id: str,
    refs: tuple[EdgeRef, EdgeRef],
    ends: tuple[SeamEnd, SeamEnd],
    numbers: _Numbers,
    counts: Mapping[str, PartCount],
    foam: tuple[float, float],
) -> Checked[JoinedSeam | None]:
    """A seam at this size; None, and problems, where it is none."""
    seam = file.guide.seams[seam_id]
    one, two = ends
    joined = JoinedSeam(
        id=seam_id,
        first=refs[0],
        second=refs[1],
        first_length=one.length,
        second_length=two.length,
        ease=numbers.ease + max(0.0, numbers.gathers - 1) * two.length,
        tolerance=numbers.tolerance,
        gathers=numbers.gathers,
        copies=_copies(counts, one, two),
        # The thinner foam bears the glue: no more of the other edge can be wetted.
        thickness=min(foam),
        corners=seam.corners,
    )
    if two.line is not None:
        standing = yield from stand(file, names, seam_id, (one.run, two.line), foam)
        if standing is None:
            return None
        # An edge and the line that it stands on run the same way (see faces.py).
        same = not seam.flipped
        standing = replace(standing, twin=twin_line(two.outline, two.line))
        return replace(joined, flipped=same, standing=standing, thickness=standing.width)
    yield from _for_faces_only(file, seam_id, seam)
    flipped = yield from _flipped(file, seam_id, seam, ends)
    meeting = yield from meet_at(file, names, seam_id, foam)
    return replace(joined, flipped=flipped, meeting=meeting)


def _for_faces_only(file: GuideFile, seam_id: str, seam: Seam) -> Iterator[Problem]:
    if seam.slot is not None:
        message = "a slot is cut through a face: the second of join has to be a line of a part"
        yield file.source.problem("bad-slot", ("seams", seam_id, "slot"), message)


def _flipped(
    file: GuideFile, seam_id: str, seam: Seam, ends: tuple[SeamEnd, SeamEnd]
) -> Checked[bool]:
    """Whether both edges run the same way: said, or by the corners that meet."""
    trail = ("seams", seam_id)
    one, two = ends
    if (one.outline.part, one.edge) == (two.outline.part, two.edge):
        if seam.flipped or seam.corners:
            message = "an edge that is joined to itself is not flipped: left meets right as it is"
            key = "flipped" if seam.flipped else "corners"
            yield file.source.problem("seam-corners", (*trail, key), message)
        return False
    if seam.corners is not None:
        return (yield from _by_corners(file, trail, seam, ends))
    if seam.flipped is None:
        yield from _upside_down(file, trail, ends)
    return bool(seam.flipped)


def _by_corners(
    file: GuideFile, trail: tuple[str, str], seam: Seam, ends: tuple[SeamEnd, SeamEnd]
) -> Checked[bool]:
    """Whether both edges run the same way if the corners that the author names meet."""
    corners = seam.corners or ("", "")
    at_start = [_starts_at(file, end, name) for end, name in zip(ends, corners, strict=True)]
    for number, (end, found) in enumerate(zip(ends, at_start, strict=True)):
        if found is None:
            known = sorted({name for names in _corners(file, end) for name in names})
            hint = did_you_mean(corners[number], known)
            message = (
                f'{end.outline.part}.{end.edge} has no corner "{corners[number]}"{hint}; '
                f"there are {', '.join(known)}"
            )
            yield file.source.problem("unknown-name", (*trail, "corners", number), message)
    if None in at_start:
        return bool(seam.flipped)
    # Edges of two outlines, both counter-clockwise, run opposite ways where they are pushed
    # together: the start of one meets the end of the other. Two starts that meet say that one
    # piece is turned over.
    wanted = at_start[0] is at_start[1]
    if seam.flipped is not None and seam.flipped is not wanted:
        message = f"{corners[0]} and {corners[1]} meet where flipped is {str(wanted).lower()}"
        yield file.source.problem("seam-corners", (*trail, "corners"), message)
    return wanted


def _corners(file: GuideFile, end: SeamEnd) -> tuple[set[str], set[str]]:
    """Names of the corners at the start and at the end of an edge: those of its drawing, and the
    edges beside it."""
    edges = [edge.name for edge in end.outline.whole.edges]
    number = edges.index(end.edge)
    # A corner is known by the edge on its far side too: shapes that are computed have no named
    # corners, but everybody can say "where top and side meet".
    starts, ends = {edges[number - 1]}, {edges[(number + 1) % len(edges)]}
    spans = file.guide.parts[end.outline.part].edges
    drawn, mirrored = end.edge, False
    if drawn not in spans and end.outline.half is not None:
        drawn, mirrored = drawn_edge(end.edge, end.outline.half)
    span = spans.get(drawn)
    if span is not None:
        # The mirrored copy of an edge is run through the other way round.
        starts.add(span.end if mirrored else span.start)
        ends.add(span.start if mirrored else span.end)
    return starts, ends


def _starts_at(file: GuideFile, end: SeamEnd, corner: str) -> bool | None:
    """Whether an edge starts at a corner (else it ends there); None where it is none of both."""
    starts, ends = _corners(file, end)
    # In neither, or in both, as on a part of two edges: nothing to go by.
    if (corner in starts) is (corner in ends):
        return None
    return corner in starts


STEEP = 0.8
"""Share of an edge's chord that goes up or down where top and low are told apart: about 53 degrees
from level. Our choice."""


def _rise(end: SeamEnd) -> float:
    """1 where an edge runs upward, -1 downward, 0 where it lies."""
    (x0, y0), (x1, y1) = segment_start(end.run[0]), segment_end(end.run[-1])
    chord = hypot(x1 - x0, y1 - y0)
    return copysign(1, y1 - y0) if chord and abs(y1 - y0) >= STEEP * chord else 0.0


def _upside_down(
    file: GuideFile, trail: tuple[str, str], ends: tuple[SeamEnd, SeamEnd]
) -> Iterator[Problem]:
    """A warning where the upper end of one edge would meet the lower end of the other.

    Only between parts that stand upright in the finished thing: drawn ones and wraps; plates and
    strips may be turned as one likes.
    """
    parts = [file.guide.parts[end.outline.part] for end in ends]
    upright = all(
        part.shape == DRAWING or (part.shape in SHAPES and SHAPES[part.shape].curved)
        for part in parts
    )
    rises = [_rise(end) for end in ends]
    # Edges that are pushed together run opposite ways (see seams.py), so one must rise and one
    # fall if both tops are to meet.
    if upright and rises[0] and rises[0] == rises[1]:
        one, two = (f"{end.outline.part}.{end.edge}" for end in ends)
        way = "upward" if rises[0] > 0 else "downward"
        message = (
            f"both edges run {way} as drawn, so that the top of {one} meets the lower end of {two}"
        )
        yield file.source.problem("seam-upside-down", (*trail, "join"), message)


def _copies(counts: Mapping[str, PartCount], one: SeamEnd, two: SeamEnd) -> int:
    """How often the seam is made: each piece brings each of its edges once, and each of its
    lines."""
    first, second = counts[one.outline.part].needed, counts[two.outline.part].needed
    if two.line is not None:
        return min(first, second * two.sides)
    if (one.outline.part, one.edge) == (two.outline.part, two.edge):
        # Two pieces make one seam with the same edge of each; a single one is rolled up on itself.
        return max(1, first // 2)
    if joins_both_sides(one, two):
        # The symmetrical piece brings the edge and its mirror image.
        first, second = first * (1 if one.pair else 2), second * (1 if two.pair else 2)
    # Where counts differ the rest stay open: spares, or parts that are joined elsewhere.
    return min(first, second)


def _numbers(
    file: GuideFile, seam_id: str, seam: Seam, names: Mapping[str, float]
) -> Checked[_Numbers | None]:
    """The numbers of a seam; None, and problems, where one has no value."""
    ease = yield from evaluate(file, ("seams", seam_id, "ease"), seam.ease, names)
    tolerance: float | None = SEAM_TOLERANCE
    gathers = 0.0
    trail = ("seams", seam_id, "tolerance")
    if seam.tolerance is not None:
        tolerance = yield from evaluate(file, trail, seam.tolerance, names)
    if seam.gathers is not None:
        ratio = yield from evaluate(file, ("seams", seam_id, "gathers"), seam.gathers, names)
        if ratio is not None and not 1 < ratio <= MOST_GATHERED:
            message = f"expected more than 1 and at most {MOST_GATHERED:g}, found {ratio:g}"
            yield file.source.problem("out-of-range", ("seams", seam_id, "gathers"), message)
            ratio = None
        if ratio is None:
            return None
        # The ease is what the ratio takes of the second edge; that is known once both are.
        gathers = ratio
        tolerance = GATHERED_TOLERANCE if seam.tolerance is None else tolerance
    if ease is None or tolerance is None:
        return None
    if tolerance < 0:
        message = f"expected 0 or more, found {tolerance:g}"
        yield file.source.problem("out-of-range", trail, message)
        return None
    spacing: float | None = None
    if seam.mark_spacing is not None:
        trail = ("seams", seam_id, "mark-spacing")
        spacing = yield from evaluate(file, trail, seam.mark_spacing, names)
        if spacing is None:
            return None
        # The bound also bounds memory: an edge of 20 m with a mark each 0.001 mm would have
        # millions.
        if spacing < MARK_CLOSEST:
            message = f"expected {MARK_CLOSEST:g} mm or more between match marks, found {spacing:g}"
            yield file.source.problem("out-of-range", trail, message)
            return None
    return _Numbers(ease, tolerance, spacing, gathers)


def _refs(
    file: GuideFile, seam_id: str, seam: Seam, finished: Mapping[str, Finished]
) -> Checked[tuple[EdgeRef, EdgeRef] | None]:
    """Both edges; None where a part failed (told already) or an edge is not there."""
    refs = []
    for number, text in enumerate(seam.join):
        trail = ("seams", seam_id, "join", number)
        part, _, edge = text.partition(".")
        if part not in file.guide.parts:
            hint = did_you_mean(part, file.guide.parts)
            message = f'no part "{part}"{hint}'
            yield file.source.problem("unknown-name", trail, message)
        elif part in finished:
            names = [own.name for own in finished[part].whole.edges]
            # An edge may stand on a line; what stands is always the first.
            lines = line_names(file, finished[part]) if number else []
            if edge in names or edge in lines:
                refs.append(EdgeRef(part, edge))
            else:
                word = "edge or line" if lines else "edge"
                message = f'no {word} "{edge}" on {part}{did_you_mean(edge, [*names, *lines])}'
                yield file.source.problem("unknown-edge", trail, message)
    return (refs[0], refs[1]) if len(refs) == 2 else None
