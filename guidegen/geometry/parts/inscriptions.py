"""Outlines of words and emblems in → where they stand on a part, in mm."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from guidegen.buildfile.records.constructions.inscriptions import (
    InscribedAs,
    Inscription,
    letters_key,
)
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble, paths_of
from guidegen.geometry.outline.areas import lies_within, stencil
from guidegen.geometry.outline.curves import distance, lines_through
from guidegen.geometry.outline.measures import bounds, flatten, segment_start
from guidegen.geometry.outline.parabolas import parabola
from guidegen.geometry.outline.records import (
    InnerLine,
    Line,
    LineKind,
    Point,
    Run,
    Segment,
    Shape,
)
from guidegen.geometry.outline.transforms import RigidMotion, transform_run
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.problems import did_you_mean, has_errors

TALLEST = 1000.0
"""mm. Our choice: a letter of a metre fills a chest."""
CLOSED = 1e-6
"""mm between the ends of a contour that closes."""


@dataclass(frozen=True, slots=True)
class Inscribed:
    """What is written or drawn on a piece, for readers."""

    words: str
    """Empty for an emblem."""
    height: float
    """mm of a capital, or of the emblem."""
    how: InscribedAs
    mirrored: bool
    bridges: int = 0
    """Bridges of a cut-out."""
    bridge: float = 0.0
    """mm of one."""


def inscribe(
    asker: PartAsker, shape: Shape, *, folded: bool, paired: bool
) -> tuple[Shape, tuple[Inscribed, ...]]:
    """A template with all that stands on it; problems are noted by the asker.

    `folded` and `paired` say that the template is flipped: its words would stand mirrored there.
    """
    done: list[Inscribed] = []
    for number, one in enumerate(asker.part.inscriptions):
        place = ("inscriptions", number)
        height = asker.between(one.height, 1, TALLEST, *place, "height")
        x, y = (asker.number(one.at[axis], *place, "at", axis) for axis in (0, 1))
        angle = asker.number(one.angle, *place, "angle")
        bridge = asker.between(one.bridge, 0.5, 100, *place, "bridge")
        if height is None or x is None or y is None or angle is None or bridge is None:
            continue
        if folded:
            message = "the template is a half: on its other side the words would stand mirrored"
            cure = "Draw the part whole, without on-fold"
            asker.refuse("letters-flipped", message, *place, cure=cure)
            continue
        if paired:
            message = "the right piece is cut from the flipped template, and bears it mirrored"
            asker.refuse("letters-mirrored", message, *place)
        contours = list(_contours(asker, number, one, height))
        if not contours:
            continue  # told where it stands, or nothing but blanks
        placed = _placed(contours, one, (x, y), angle)
        ring, windows = flatten(shape.ring()), [flatten(hole) for hole in shape.holes]
        if not all(lies_within(flatten(run), (), ring, windows) for run in placed):
            message = f"it stands out over the edge of {asker.part.label}, or over a window"
            asker.refuse("letters-off", message, *place, "at")
            continue
        shape, bridges = _drawn(shape, one, placed, bridge, upright=angle)
        told = Inscribed(one.text or "", height, one.how, one.is_mirrored, bridges, bridge)
        done.append(told)
    return shape, tuple(done)


def _drawn(
    shape: Shape, one: Inscription, runs: list[Run], bridge: float, *, upright: float
) -> tuple[Shape, int]:
    if one.how is InscribedAs.CUT_OUT:
        rings, bridges = stencil([flatten(run) for run in runs], bridge, upright)
        holes = tuple(lines_through(*reversed([*ring, ring[0]])) for ring in rings)
        return replace(shape, holes=(*shape.holes, *holes)), bridges
    kind = LineKind.ENGRAVE if one.how is InscribedAs.ENGRAVE else LineKind.LETTER
    lines = [InnerLine(kind, run, one.text or "" if n == 0 else "") for n, run in enumerate(runs)]
    return replace(shape, lines=(*shape.lines, *lines)), 0


def _placed(contours: list[Run], one: Inscription, at: Point, angle: float) -> list[Run]:
    left, low, right, high = bounds(tuple(contours))
    middle = RigidMotion(-(left + right) / 2, -(low + high) / 2)
    turned = RigidMotion(*at, angle, one.is_mirrored)
    return [transform_run(transform_run(run, middle), turned) for run in contours]


def _contours(asker: PartAsker, number: int, one: Inscription, height: float) -> Iterator[Run]:
    """Its closed outlines, true to size, wherever they lie."""
    if one.text is not None:
        outlines = asker.file.letters.get(letters_key(one.face, one.text), "")
        yield from read_outlines(outlines, height)
        return
    place = ("inscriptions", number, "drawing")
    name, _, group = (one.drawing or "").partition("#")
    drawings = asker.file.drawings
    if name not in drawings:
        asker.refuse("no-drawing", f'no drawing "{name}"{did_you_mean(name, drawings)}', *place)
        return
    drawing, problems = read_drawing(drawings[name], asker.file.drawing_files.get(name, name))
    asker.problems.extend(problems)
    if drawing is None:
        return
    if group and not paths_of(drawing, group):
        hint = did_you_mean(group, drawing.names)
        asker.refuse("no-piece", f'nothing visible is called "{group}" in {name}{hint}', *place)
        return
    piece, problems = assemble(drawing, group)
    asker.problems.extend(problems)
    if piece is None or has_errors(problems):
        return
    rings = (piece.ring(), *piece.holes)
    _, low, _, high = bounds((rings[0],))
    factor = height / (high - low)
    for ring in rings:
        points = [(x * factor, y * factor) for x, y in flatten(ring)]
        yield lines_through(*points)


def read_outlines(outlines: str, scale: float) -> Iterator[Run]:
    """Closed contours of a text of commands and numbers (see buildfile/read/letters.py), scaled."""
    words = iter(outlines.split())
    start: Point = (0.0, 0.0)
    here: Point = start
    run: list[Segment] = []

    def point() -> Point:
        return float(next(words)) * scale, float(next(words)) * scale

    for word in words:
        if word == "M":
            start = here = point()
            run = []
        elif word == "L":
            there = point()
            if distance(here, there) > CLOSED:
                run.append(Line(here, there))
            here = there
        elif word == "Q":
            control, there = point(), point()
            run.append(parabola(here, control, there))
            here = there
        elif run:
            if distance(here, start) > CLOSED:
                run.append(Line(here, segment_start(run[0])))
            yield tuple(run)
            run = []
