"""The guide's seams and finished outlines in → joined seams with lengths, and marks by part."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import Seam
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import MatchMark
from guidegen.geometry.pieces.finished import Finished
from guidegen.geometry.pieces.pieces import PartCount
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam
from guidegen.geometry.pieces.seams import (
    MARK_CLOSEST,
    SeamEnd,
    joins_both_sides,
    marks_within,
    seam_marks,
)
from guidegen.problems import Problem, did_you_mean
from guidegen.units import SEAM_TOLERANCE


@dataclass
class Joining:
    """What joining the seams of one size brings."""

    seams: list[JoinedSeam] = field(default_factory=list)
    marks: dict[str, list[MatchMark]] = field(default_factory=dict)
    """By part, on its whole finished outline."""
    problems: list[Problem] = field(default_factory=list)


def join_seams(
    file: GuideFile,
    names: Mapping[str, float],
    finished: Mapping[str, Finished],
    counts: Mapping[str, PartCount],
    thickness: Mapping[str, float],
) -> Joining:
    """All seams whose parts could be made."""
    joining = Joining()
    for seam_id, seam in file.guide.seams.items():
        refs = _refs(file, seam_id, seam, finished, joining.problems)
        numbers = _numbers(file, seam_id, seam, names, joining.problems)
        if refs is None or numbers is None or not {ref.part for ref in refs} <= counts.keys():
            continue
        first, second = (
            SeamEnd(finished[ref.part], ref.edge, counts[ref.part].hands == 2) for ref in refs
        )
        joining.seams.append(
            JoinedSeam(
                id=seam_id,
                first=refs[0],
                second=refs[1],
                first_length=run_length(first.run),
                second_length=run_length(second.run),
                ease=numbers[0],
                tolerance=numbers[1],
                copies=_copies(counts, first, second),
                thickness=min(thickness[ref.part] for ref in refs),
            )
        )
        wanted = seam.marks
        if numbers[2] is not None:
            wanted = marks_within(run_length(first.run), numbers[2])
        for part, mark in seam_marks(seam_id, first, second, wanted):
            joining.marks.setdefault(part, []).append(mark)
    return joining


def _copies(counts: Mapping[str, PartCount], one: SeamEnd, two: SeamEnd) -> int:
    """How often the seam is made: each piece brings each of its edges once."""
    first, second = counts[one.outline.part].needed, counts[two.outline.part].needed
    if (one.outline.part, one.edge) == (two.outline.part, two.edge):
        return max(1, first // 2)
    if joins_both_sides(one, two):
        # The symmetrical piece brings the edge and its mirror image.
        first, second = first * (1 if one.pair else 2), second * (1 if two.pair else 2)
    return min(first, second)


def _numbers(
    file: GuideFile, seam_id: str, seam: Seam, names: Mapping[str, float], problems: list[Problem]
) -> tuple[float, float, float | None] | None:
    """Ease, tolerance, and the spacing of match marks where one is given; in mm."""
    ease = evaluate(file, ("seams", seam_id, "ease"), seam.ease, names, problems)
    tolerance: float | None = SEAM_TOLERANCE
    trail = ("seams", seam_id, "tolerance")
    if seam.tolerance is not None:
        tolerance = evaluate(file, trail, seam.tolerance, names, problems)
    if ease is None or tolerance is None:
        return None
    if tolerance < 0:
        message = f"expected 0 or more, found {tolerance:g}"
        problems.append(file.source.problem("out-of-range", trail, message))
        return None
    spacing: float | None = None
    if seam.mark_spacing is not None:
        trail = ("seams", seam_id, "mark-spacing")
        spacing = evaluate(file, trail, seam.mark_spacing, names, problems)
        if spacing is None:
            return None
        if spacing < MARK_CLOSEST:
            message = f"expected {MARK_CLOSEST:g} mm or more between match marks, found {spacing:g}"
            problems.append(file.source.problem("out-of-range", trail, message))
            return None
    return ease, tolerance, spacing


def _refs(
    file: GuideFile,
    seam_id: str,
    seam: Seam,
    finished: Mapping[str, Finished],
    problems: list[Problem],
) -> tuple[EdgeRef, EdgeRef] | None:
    """Both edges; None where a part failed (told already) or an edge is not there."""
    refs = []
    for number, text in enumerate(seam.join):
        trail = ("seams", seam_id, "join", number)
        part, _, edge = text.partition(".")
        if part not in file.guide.parts:
            hint = did_you_mean(part, file.guide.parts)
            message = f'no part "{part}"{hint}'
            problems.append(file.source.problem("unknown-name", trail, message))
        elif part in finished:
            names = [own.name for own in finished[part].whole.edges]
            if edge in names:
                refs.append(EdgeRef(part, edge))
            else:
                message = f'no edge "{edge}" on {part}{did_you_mean(edge, names)}'
                problems.append(file.source.problem("unknown-edge", trail, message))
    return (refs[0], refs[1]) if len(refs) == 2 else None
