"""Parts and their outlines in → lines on faces, and what an edge that stands on one asks of both.

A fin, keel or crest stands with its edge on a line of another part. Its outer face looks to the
right of the line as one goes along it, and its edge starts where the line starts: so both run left
to right for who looks at the outer face. A flipped seam turns it about.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import radians, sin

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import FaceLine
from guidegen.geometry.outline.bevels import STEEPEST, EdgeBevel
from guidegen.geometry.outline.curves import distance, lines_through
from guidegen.geometry.outline.distances import farthest_apart
from guidegen.geometry.outline.measures import flatten, is_closed, segment_end, segment_start
from guidegen.geometry.outline.offsets import OffsetError, offset_run
from guidegen.geometry.outline.records import InnerLine, LineKind, Run
from guidegen.geometry.outline.transforms import mirror_across, reverse_run, transform_run
from guidegen.geometry.outline.unfold import drawn_edge, fold_line
from guidegen.geometry.parts.face_rings import ring_line, standing_angle
from guidegen.geometry.parts.finished import FaceWork, Finished, named_lines
from guidegen.geometry.pieces.grooves import line_on_foam
from guidegen.geometry.pieces.meeting_angles import meet, standing_bevel
from guidegen.geometry.pieces.records import JoinedSeam, MeetingAngle, Standing
from guidegen.problems import Checked, did_you_mean
from guidegen.units import mm_text

FLATTEST = 20.0
"""degrees at which an edge stands on a face at least. Our choice: flatter, its bevel is steeper
than a knife can be led, and a stack is what is meant."""

SAME = 0.1
"""mm; a line nearer than this to its mirror image lies on the fold."""


def line_names(file: GuideFile, finished: Finished) -> list[str]:
    """Lines of a part that an edge may stand on: of its entry, and those that a drawing names."""
    own = file.guide.parts[finished.part].lines
    return [*own, *(name for name, _ in named_lines(finished.template) if name not in own)]


def face_line(
    file: GuideFile, names: Mapping[str, float], finished: Finished, name: str
) -> Checked[Run | None]:
    """A line of a part by its name, on its whole outline; None, and problems, without one."""
    own = file.guide.parts[finished.part].lines.get(name)
    if own is None:
        return dict(named_lines(finished.template)).get(name)
    trail = ("parts", finished.part, "lines", name)
    if own.line is not None:
        ends = []
        for key, point in (("from", own.line.start), ("to", own.line.end)):
            x = yield from evaluate(file, (*trail, "line", key, 0), point[0], names)
            y = yield from evaluate(file, (*trail, "line", key, 1), point[1], names)
            if x is None or y is None:
                return None
            ends.append((x, y))
        if distance(*ends) < 1:
            message = "expected a line of at least 1 mm"
            yield file.source.problem("bad-line", (*trail, "line"), message)
            return None
        return lines_through(*ends)
    if own.groove is not None:
        return (yield from _groove_line(file, names, finished, name, own))
    if own.ring is not None:
        return (yield from ring_line(file, names, finished.part, name, own.ring))
    return (yield from _edge_line(file, names, finished, name, own))


def _edge_line(
    file: GuideFile, names: Mapping[str, float], finished: Finished, name: str, own: FaceLine
) -> Checked[Run | None]:
    trail = ("parts", finished.part, "lines", name)
    edges = {edge.name: edge.run for edge in finished.whole.edges}
    inset = yield from evaluate(file, (*trail, "inset"), own.inset, names)
    if own.along not in edges:
        message = f'no edge "{own.along}" on this part{did_you_mean(own.along or "", edges)}'
        yield file.source.problem("unknown-edge", (*trail, "along"), message)
        return None
    if inset is None:
        return None
    try:
        # Outlines run counter-clockwise, so inward is to the left: a negative width.
        return offset_run(edges[own.along], -inset, own.along)
    except OffsetError as error:
        yield file.source.problem("bad-line", (*trail, "inset"), str(error))
        return None


def _groove_line(
    file: GuideFile, names: Mapping[str, float], finished: Finished, name: str, own: FaceLine
) -> Checked[Run | None]:
    trail = ("parts", finished.part, "lines", name, "groove")
    grooves = file.guide.parts[finished.part].grooves
    number = (own.groove or 1) - 1
    if number >= len(grooves):
        message = f"expected a groove from 1 to {len(grooves)}, found {number + 1}"
        yield file.source.problem("bad-line", trail, message)
        return None
    at = yield from evaluate(file, trail, grooves[number].at, names)
    angle = yield from evaluate(file, trail, grooves[number].angle, names)
    if at is None or angle is None:
        return None
    # Of a groove that a window cuts in two, the first stretch.
    return next(iter(line_on_foam(finished.whole, at, angle)), None)


def stand(
    file: GuideFile,
    names: Mapping[str, float],
    seam_id: str,
    runs: tuple[Run, Run],
    foam: tuple[float, float],
) -> Checked[Standing | None]:
    """How the first edge of a seam stands on a line: `runs` are both, `foam` mm of what stands and
    of the face. The rim of a tube stands on a ring as its wall leans, all others upright, but
    where the seam says at which angle.

    None, and problems, where its numbers make no joint.
    """
    seam, trail = file.guide.seams[seam_id], ("seams", seam_id)
    edge, run = runs
    angle: float | None = standing_angle(edge) if is_closed(run) else 90.0
    if seam.angle is not None:
        angle = yield from evaluate(file, (*trail, "angle"), seam.angle, names)
    if angle is None:
        return None
    if not FLATTEST <= angle <= 180 - FLATTEST:
        message = f"expected {FLATTEST:g} to {180 - FLATTEST:g}, found {angle:g}"
        yield file.source.problem("out-of-range", (*trail, "angle"), message)
        return None
    width = foam[0] / sin(radians(angle))
    if seam.slot is None:
        return Standing(run, angle, width)
    return (yield from _slotted(file, names, seam_id, Standing(run, angle, width), foam))


def _slotted(
    file: GuideFile,
    names: Mapping[str, float],
    seam_id: str,
    standing: Standing,
    foam: tuple[float, float],
) -> Checked[Standing | None]:
    slot, trail = file.guide.seams[seam_id].slot, ("seams", seam_id, "slot")
    if slot is None:
        return standing
    fit = yield from evaluate(file, (*trail, "fit"), slot.fit, names)
    deep: float | None = foam[1]
    if slot.through is not None:
        deep = yield from evaluate(file, (*trail, "through"), slot.through, names)
    if fit is None or deep is None:
        return None
    if is_closed(standing.run):
        message = "a slot all round a ring would cut a disc out of the face: leave out slot"
        yield file.source.problem("bad-slot", trail, message)
        return None
    # A slot is cut square through the face: what leans in it would need slanted walls.
    if abs(standing.angle - 90) > 1:
        message = (
            f"a slot is for an edge that stands upright, this one stands at {standing.angle:g}°"
        )
        yield file.source.problem("bad-slot", trail, message)
        return None
    if standing.width + fit < 1 or not 0 < deep <= 100:
        message = f"expected a slot of 1 mm or more, and 0 to 100 mm of edge in it, found {deep:g}"
        yield file.source.problem("bad-slot", trail, message)
        return None
    return replace(standing, slot=standing.width + fit, deep=deep)


def meet_at(
    file: GuideFile, names: Mapping[str, float], seam_id: str, foam: tuple[float, float]
) -> Checked[MeetingAngle | None]:
    """The angle at which both edges of a seam meet, and their bevels; None where none is given."""
    seam, trail = file.guide.seams[seam_id], ("seams", seam_id)
    if seam.angle is None:
        # Lying flat with a choice of face: nothing is bevelled, and the step is told.
        return meet(180, *foam, seam.flush) if seam.flush not in {None, "both"} else None
    angle = yield from evaluate(file, (*trail, "angle"), seam.angle, names)
    if angle is None:
        return None
    if not 30 <= angle <= 330:
        message = f"expected 30 to 330, found {angle:g}"
        yield file.source.problem("out-of-range", (*trail, "angle"), message)
        return None
    found = meet(angle, *foam, seam.flush or "both")
    if max(map(abs, found.bevels)) > STEEPEST:
        worst = max(found.bevels, key=abs)
        message = (
            f"foam of {mm_text(foam[0], 1)} and {mm_text(foam[1], 1)} mm meets at {angle:g}° with "
            f"a bevel of {worst:.0f}°, steeper than the {STEEPEST:g}° that a knife can be led"
        )
        cure = "Say flush: inside, middle or outside, and a step is left on the other face"
        yield file.source.problem("bad-bevel", (*trail, "angle"), message, cure=cure)
        return None
    return found


def sides_of(finished: Finished, run: Run) -> int:
    """How often a line lies on one whole piece: twice on a part drawn to its fold, but for a line
    that is its own mirror image."""
    return 2 if twin_line(finished, run) else 1


def twin_line(finished: Finished, run: Run) -> Run:
    """The same line on the other half of a part drawn to its fold; empty where it has none."""
    if finished.half is None or _on_fold(finished, run):
        return ()
    return transform_run(run, mirror_across(*fold_line(finished.half, finished.fold)))


def _on_fold(finished: Finished, run: Run) -> bool:
    if finished.half is None:
        return True
    mirror = mirror_across(*fold_line(finished.half, finished.fold))
    return farthest_apart(flatten(run), flatten(transform_run(run, mirror))) < SAME


def footprint(standing: Standing) -> tuple[Run, ...]:
    """The closed outlines of the foot on the face, or of its slot, counter-clockwise: one, or both
    rims of a foot that goes all round."""
    half = (standing.slot or standing.width) / 2
    right, left = offset_run(standing.run, half), offset_run(standing.run, -half)
    if is_closed(standing.run):
        return right, left
    back = reverse_run(left)
    first, last = segment_start(right[0]), segment_end(right[-1])
    ends = segment_start(back[0]), segment_end(back[-1])
    return ((*right, *lines_through(last, ends[0]), *back, *lines_through(ends[1], first)),)


@dataclass(frozen=True, slots=True)
class _Work:
    """Grows for one part."""

    lines: list[InnerLine]
    slots: list[Run]
    tabs: dict[str, float]
    bevels: dict[str, EdgeBevel]


def work_faces(
    file: GuideFile, finished: Mapping[str, Finished], seams: list[JoinedSeam]
) -> Checked[dict[str, Finished]]:
    """The outlines with what their seams ask for: bevels of both edges, feet drawn on faces, slots,
    and the foam that goes into them."""
    work = {part: _Work([], [], {}, {}) for part in finished}
    for seam in seams:
        if seam.standing is not None:
            yield from _standing(file, finished, seam, seam.standing, work)
        elif seam.meeting is not None:
            for ref, angle in zip((seam.first, seam.second), seam.meeting.bevels, strict=True):
                _bevel(finished[ref.part], ref.edge, angle, work[ref.part])
    return {part: _with(one, work[part]) for part, one in finished.items()}


def _with(finished: Finished, work: _Work) -> Finished:
    if not (work.lines or work.slots or work.tabs or work.bevels):
        return finished
    faces = FaceWork(tuple(work.lines), tuple(work.slots), work.tabs)
    return replace(finished, bevels={**finished.bevels, **work.bevels}, faces=faces)


def _bevel(finished: Finished, edge: str, angle: float, work: _Work) -> None:
    if finished.half is not None:
        edge = drawn_edge(edge, finished.half)[0]
    # A hair of a degree is rounding, and no knife cuts it.
    if abs(angle) > 0.05:
        work.bevels[edge] = EdgeBevel(abs(angle), "inward" if angle > 0 else "outward")


def _standing(
    file: GuideFile,
    finished: Mapping[str, Finished],
    seam: JoinedSeam,
    standing: Standing,
    work: Mapping[str, _Work],
) -> Checked[None]:
    above, below = finished[seam.first.part], finished[seam.second.part]
    _bevel(above, seam.first.edge, standing_bevel(standing.angle), work[above.part])
    try:
        rings = list(footprint(standing))
    except OffsetError as error:
        yield file.source.problem("bad-line", ("seams", seam.id, "join", 1), str(error))
        return
    label = file.guide.parts[above.part].label
    ring = rings[0]
    if standing.twin and below.half is not None:
        mirror = mirror_across(*fold_line(below.half, below.fold))
        rings += [transform_run(one, mirror) for one in rings]
    if not standing.slot:
        work[below.part].lines.extend(InnerLine(LineKind.PLACEMENT, one, label) for one in rings)
        return
    if below.half is not None and not standing.twin:
        message = "a slot on the fold cannot be cut in half a template: leave out on-fold"
        yield file.source.problem("bad-slot", ("seams", seam.id, "slot"), message)
        return
    # Holes run clockwise. On a half template unfolding brings the mirrored one.
    work[below.part].slots.append(reverse_run(ring))
    edge = seam.first.edge
    if above.half is not None:
        edge = drawn_edge(edge, above.half)[0]
    work[above.part].tabs[edge] = standing.deep
