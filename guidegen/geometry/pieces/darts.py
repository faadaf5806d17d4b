"""Seams of one size in → darts that are closed only after a seam that crosses their mouth."""

from collections.abc import Iterable, Iterator

from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.pieces.records import JoinedSeam, Piece
from guidegen.problems import Problem


def audit_darts(
    file: GuideFile, pieces: Iterable[Piece], seams: Iterable[JoinedSeam]
) -> list[Problem]:
    """A seam that crosses the mouth of a dart needs the dart closed: before, the edge has a gap.

    A dart is a seam that joins two neighbouring edges of one piece, which meet at its tip; the
    edges at their other ends run on across the mouth when it is closed. Common practice, no source.
    """
    joined = {name: n for n, step in enumerate(file.guide.steps) for name in step.seams}
    made = [seam for seam in seams if seam.id in joined]
    shapes = {piece.part: piece for piece in pieces if not piece.mirrored}
    problems: list[Problem] = []
    for dart in made:
        part = dart.first.part
        if dart.second.part != part or part not in shapes:
            continue
        for across in _beside(shapes[part], dart):
            for seam in _seams_along(made, part, across):
                if joined[seam.id] < joined[dart.id]:
                    problems.append(_problem(file, dart, seam, joined))
    return problems


def _beside(piece: Piece, dart: JoinedSeam) -> tuple[str, ...]:
    """Edges at the mouth of a dart; none where the two edges do not meet at a tip."""
    names = [edge.name for edge in piece.shape.edges]
    legs = [dart.first.edge, dart.second.edge]
    if len(names) < 3 or any(leg not in names for leg in legs):
        return ()
    first, second = sorted(names.index(leg) for leg in legs)
    if second - first == 1:
        return names[first - 1], names[(second + 1) % len(names)]
    if first == 0 and second == len(names) - 1:
        return names[1], names[-2]
    return ()


def _seams_along(seams: Iterable[JoinedSeam], part: str, edge: str) -> Iterator[JoinedSeam]:
    for seam in seams:
        if any((ref.part, ref.edge) == (part, edge) for ref in (seam.first, seam.second)):
            yield seam


def _problem(
    file: GuideFile, dart: JoinedSeam, seam: JoinedSeam, joined: dict[str, int]
) -> Problem:
    steps = file.guide.steps
    early, late = joined[seam.id], joined[dart.id]
    at = steps[early].seams.index(seam.id)
    return file.source.problem(
        "dart-open",
        ("steps", early, "seams", at),
        f'"{steps[early].title}" joins {seam.id} across the dart {dart.id}, which '
        f'"{steps[late].title}" closes only afterwards',
    )
