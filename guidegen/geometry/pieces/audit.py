"""Seams and pieces of one size in → problems that only geometry can find."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.buildfile.read.content import ONE_SIZE, GuideFile
from guidegen.geometry.drawing.svg_document import DrawingError
from guidegen.geometry.drawing.svg_picture import clean_picture
from guidegen.geometry.outline.areas import least_misfit
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.pieces.records import JoinedSeam, Piece
from guidegen.problems import Place, Problem
from guidegen.units import mm_text

FITS = 0.01
"""mm that a piece may be too large and still count as fitting."""


@dataclass(frozen=True, slots=True)
class SheetRoom:
    """The room that one sheet offers, its rim taken off."""

    name: str
    width: float
    height: float
    """mm."""


def audit_seams(file: GuideFile, size: str, seams: Iterable[JoinedSeam]) -> list[Problem]:
    """Seams whose edges differ by more than their tolerance and ease."""
    return [
        file.source.problem(
            "seam-length",
            ("seams", seam.id, "join"),
            _in_size(size) + _seam_words(seam),
            amount=abs(seam.mismatch),
        )
        for seam in seams
        if abs(seam.mismatch) > seam.tolerance
    ]


def audit_pictures(file: GuideFile) -> list[Problem]:
    """Drawn pictures that cannot be written anew: they are as free of scripts as templates."""
    problems: list[Problem] = []
    folder = file.source.file.rpartition("/")[0]
    for name, data in file.pictures.items():
        if not name.lower().endswith(".svg"):
            continue
        try:
            clean_picture(data, f"{folder}/{name}")
        except DrawingError as error:
            problems.extend(error.problems)
        except UnicodeDecodeError:
            message = "the picture is not UTF-8 text; save it with that encoding"
            place = Place(f"{folder}/{name}")
            problems.append(Problem("not-utf-8", place, "", message))
    return problems


def _seam_words(seam: JoinedSeam) -> str:
    first, second = seam.first, seam.second
    ease = f" with {mm_text(seam.ease, 1)} mm of ease" if seam.ease else ""
    return (
        f"{first.part}.{first.edge} is {seam.first_length:.1f} mm long and "
        f"{second.part}.{second.edge} {seam.second_length:.1f} mm: that is "
        f"{abs(seam.mismatch):.1f} mm apart{ease}, more than the tolerance of "
        f"{mm_text(seam.tolerance, 1)} mm"
    )


def _in_size(size: str) -> str:
    return "" if size == ONE_SIZE else f"in size {size}: "


def audit_room(
    file: GuideFile, size: str, piece: Piece, rooms: Iterable[SheetRoom], rotation: str
) -> list[Problem]:
    """A piece that fits on no sheet of its material, with the least that it lacks."""
    found = _least_misfit(piece, rooms, rotation)
    if found is None or found[0] <= FITS:
        return []
    misfit, room = found
    turned = {"any": "however it is turned", "quarter": "upright or lying"}
    message = (
        f"{_in_size(size)}larger than every sheet of {piece.material}: {misfit:.1f} mm too large "
        f"for {mm_text(room.width, 1)} × {mm_text(room.height, 1)} mm, "
        f"{turned.get(rotation, 'as it must lie')}"
    )
    more = "more splits" if file.guide.parts[piece.part].splits else "splits"
    cure = f"Give the part {more} where it may be cut, or add a larger sheet to stock.yaml"
    trail = ("parts", piece.part)
    return [file.source.problem("too-large", trail, message, cure=cure, amount=misfit)]


def fits_somewhere(piece: Piece, rooms: Iterable[SheetRoom], rotation: str) -> bool:
    """Whether a piece fits on a sheet; True where there is none to look at."""
    found = _least_misfit(piece, rooms, rotation)
    return found is None or found[0] <= FITS


def _least_misfit(
    piece: Piece, rooms: Iterable[SheetRoom], rotation: str
) -> tuple[float, SheetRoom] | None:
    """mm that a piece lacks, and on which sheet; the first on which it fits, else the nearest."""
    ring = flatten(piece.shape.ring())
    misfits: list[tuple[float, SheetRoom]] = []
    # The first sheet on which it fits ends the search: turning a piece through 180 angles costs
    # more than all else here.
    for room in rooms:
        misfits.append((_misfit(ring, room, rotation), room))
        if misfits[-1][0] <= FITS:
            return misfits[-1]
    return min(misfits, key=lambda pair: pair[0], default=None)


def _misfit(ring: list[tuple[float, float]], room: SheetRoom, rotation: str) -> float:
    """mm that a ring lacks at the best angle allowed; 0 or less where it fits."""
    # The two angles at which nearly every piece fits, before 180 are tried.
    upright = least_misfit(ring, room.width, room.height, (0.0, 90.0))[0]
    if rotation == "quarter" or (rotation == "any" and upright <= 0):
        return upright
    if rotation == "any":
        # Whole degrees, then fiftieths around the best one: half a turn is enough, since a
        # rectangle looks the same after it. On a piece 1 m long a degree is 17 mm, a fiftieth 0.3.
        _, angle = least_misfit(ring, room.width, room.height, range(180))
        fine = [angle + step / 50 for step in range(-50, 51)]
        return least_misfit(ring, room.width, room.height, [angle, *fine])[0]
    return least_misfit(ring, room.width, room.height, (0.0,))[0]


HORN = "horn-segment"
"""Name of the shape in the vocabulary."""


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
                # Equal steps are let pass: whoever joins both in one step sees the dart on the
                # bench.
                if joined[seam.id] < joined[dart.id]:
                    problems.append(_dart_problem(file, dart, seam, joined))
    return problems


def audit_rims(file: GuideFile, seams: Iterable[JoinedSeam]) -> list[Problem]:
    """A segment of a horn is closed before its rims are joined: an open rim is no ellipse, and the
    horn winds where two of them are pushed together. Common practice, no source."""
    joined = {name: n for n, step in enumerate(file.guide.steps) for name in step.seams}
    made = [seam for seam in seams if seam.id in joined]
    problems: list[Problem] = []
    for closing in made:
        part = closing.first.part
        horn = file.guide.parts[part].shape == HORN
        if not horn or {closing.first.edge, closing.second.edge} != {"side", "side-2"}:
            continue
        for rim in ("bottom", "top"):
            for seam in _seams_along(made, part, rim):
                if joined[seam.id] < joined[closing.id]:
                    early, late = (file.guide.steps[joined[one.id]] for one in (seam, closing))
                    at = early.seams.index(seam.id)
                    message = (
                        f'"{early.title}" joins {seam.id} at a rim of {part}, which '
                        f'"{late.title}" closes only afterwards'
                    )
                    trail = ("steps", joined[seam.id], "seams", at)
                    problems.append(file.source.problem("rim-open", trail, message))
    return problems


def _beside(piece: Piece, dart: JoinedSeam) -> tuple[str, ...]:
    """Edges at the mouth of a dart; none where the two edges do not meet at a tip."""
    names = [edge.name for edge in piece.shape.edges]
    legs = [dart.first.edge, dart.second.edge]
    # With two edges each would lie beside the other at both ends, and have no mouth.
    if len(names) < 3 or any(leg not in names for leg in legs):
        return ()
    first, second = sorted(names.index(leg) for leg in legs)
    if second - first == 1:
        return names[first - 1], names[(second + 1) % len(names)]
    # The ring begins between the two legs: they are neighbours all the same.
    if first == 0 and second == len(names) - 1:
        return names[1], names[-2]
    return ()


def _seams_along(seams: Iterable[JoinedSeam], part: str, edge: str) -> Iterator[JoinedSeam]:
    for seam in seams:
        if any((ref.part, ref.edge) == (part, edge) for ref in (seam.first, seam.second)):
            yield seam


def _dart_problem(
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
