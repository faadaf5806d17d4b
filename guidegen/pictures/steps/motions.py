"""A motion, and the pieces that it works on → its figure where it happens, never over a label.

Where follows from the geometry alone: a knife lies along an edge that is cut, a brush on what gets
glue, hot air on the fold that bends. At the head of the drawing the figure stands once more, large
and with words, since a small piece may leave no room beside its labels.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians, sin

from guidegen.buildfile.records.motions import Motion
from guidegen.geometry.outline.areas import widest_spot
from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    point_at_share,
    run_length,
)
from guidegen.geometry.outline.records import LineKind, Point, Run
from guidegen.geometry.pieces.records import Piece
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.dimensions import arrow
from guidegen.pictures.pen.frames import Extent, Frame
from guidegen.pictures.pen.lettering import text_width, wrap
from guidegen.pictures.pen.records import Circle, Drawing, Group, Item, Lettering
from guidegen.pictures.pen.tints import ACCENT
from guidegen.pictures.steps.actions import Action
from guidegen.pictures.steps.figures import FIGURES, ON_PIECES, draw_figure, extent
from guidegen.words import Words

BAND = 14.0
"""mm; height of the head of a drawing that says what is done."""
WIDE = 20.0
"""mm of it for the figure; the words stand at its right."""
LETTERS = 4.2
"""mm; size of those words."""
MOST = 4
"""Figures on the pieces of one drawing. Our choice: more hide what they show."""
LEAST = 10.0
"""mm; longer side of a piece on the drawing that can bear a figure: a smaller one would hide."""
SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
"""Where along an edge a figure may stand, in the order of trial: the middle shows best."""
BETWEEN = Stroke(0.35, dash=(2.0, 1.0), colour=ACCENT)
"""Line from an edge to the one that it is joined to."""

type WorkingPoint = tuple[Point, Point]
"""Where the working point of a figure lies, and the unit vector of its way; on the piece."""

_LINES: dict[Motion, tuple[LineKind, ...]] = {
    Motion.SCORE: (LineKind.FOLD, LineKind.ENGRAVE),
    Motion.GROOVE: (LineKind.GROOVE,),
    Motion.BEND: (LineKind.FOLD, LineKind.GROOVE),
    Motion.HEAT: (LineKind.FOLD, LineKind.GROOVE),
    Motion.STITCH: (LineKind.STITCH, LineKind.HEM, LineKind.PLACEMENT),
}
"""Lines on a face along which a motion goes."""

_EDGES = frozenset(
    {Motion.CUT, Motion.BEVEL, Motion.SAND, Motion.FILL, Motion.STITCH, Motion.MARK, Motion.SCORE,
     Motion.GROOVE}
)  # fmt: skip
"""Motions that go along an edge where no line says better."""
_POINTS = frozenset({Motion.PUNCH, Motion.RIVET})
"""Motions that go straight down at a hole."""


@dataclass(frozen=True, slots=True)
class Worked:
    """A piece on the drawing, with what the step does to it."""

    piece: Piece
    frame: Frame
    faces: tuple[Run, ...] = ()
    """Rings that get glue or a texture, on the piece."""
    edges: tuple[Run, ...] = ()
    """Edges that the step joins, on the piece."""


def draw_motion(action: Action, title: str, width: float, lang: Words) -> Drawing:
    """An action alone, `width` mm wide: for a step without pieces at hand."""
    canvas = Canvas(width, BAND, title, motion_words(action, lang), lang)
    draw_head(canvas, action, BAND, 0, width)
    return canvas.drawing()


def motion_words(action: Action, lang: Words) -> str:
    """What a drawing with an action says in words."""
    return lang.say("Action: {action}.", action=lang.say(action.said))


def draw_head(canvas: Canvas, action: Action, top: float, left: float, width: float) -> Extent:
    """The figure with its words in the band below `top` and from `left`, `width` wide; mm. Says
    where the figure is."""
    figure = FIGURES[action.motion]
    west, low, east, high = extent(figure, Frame())
    # Chosen: figures are drawn for their size on pieces; a fifth more and no larger, so that those
    # of different steps look alike.
    scale = min(1.2, (WIDE - 3) / (east - west), (BAND - 2) / (high - low))
    middle = (left + WIDE / 2, top - BAND / 2)
    frame = Frame(
        scale, middle[0] - (west + east) / 2 * scale, middle[1] - (low + high) / 2 * scale
    )
    said = canvas.lang.say(action.said)
    with canvas.group(css=f"motion motion-{action.motion}", title=said):
        draw_figure(canvas, figure, frame)
    lines = wrap(said, width - WIDE - 2, LETTERS, 600, most=2)
    base = middle[1] + (len(lines) - 1) * 2.6 - LETTERS * 0.35
    for number, line in enumerate(lines):
        at = (left + WIDE, base - number * 5.2)
        canvas.text(at, line, LETTERS, weight=600, css="label strong")
    return extent(figure, frame)


def draw_motions(canvas: Canvas, motion: Motion, worked: Sequence[Worked], head: Extent) -> int:
    """The figure on each piece where there is room for it beside that at the `head`; says on how
    many."""
    # Asked of the drawing itself: whatever wrote a word, no figure covers it.
    figure, taken = ON_PIECES[motion], [head, *label_boxes(canvas.drawing().items)]
    drawn = 0
    for one in worked if figure else ():
        left, low, right, high = bounds((one.frame.run(one.piece.shape.ring()),))
        if max(right - left, high - low) < LEAST:
            continue
        # The first place that is free wins; they come best first.
        for at, way in _spots(motion, one):
            frame = _upright(one.frame.point(at), one.frame.vector(way))
            box = extent(figure, frame)
            # Boxes of figures are taken as well, one after another.
            if drawn < MOST and _inside(box, canvas) and not any(_meet(box, o) for o in taken):
                with canvas.group(css=f"motion motion-{motion}"):
                    draw_figure(canvas, figure, frame)
                taken.append(box)
                drawn += 1
                break
    return drawn


def draw_joins(canvas: Canvas, pairs: Sequence[tuple[WorkingPoint, WorkingPoint]]) -> None:
    """Arrows from edge to edge; a spot is the middle of an edge and the way out of its piece.

    Where a label stands between two edges, each gets an arrow of its own that points across it.
    """
    taken = list(label_boxes(canvas.drawing().items))
    for (a, out_a), (b, out_b) in pairs:
        length = hypot(b[0] - a[0], b[1] - a[1])
        # mm; two arrowheads and a line between them that one still sees as one.
        if length > 12 and not any(_crosses(a, b, box) for box in taken):
            way = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
            canvas.line(a, b, BETWEEN, css="accent")
            arrow(canvas, a, (-way[0], -way[1]))
            arrow(canvas, b, way)
            continue
        for at, out in ((a, out_a), (b, out_b)):
            tail = (at[0] - out[0] * 6, at[1] - out[1] * 6)
            tip = (at[0] - out[0] * 0.5, at[1] - out[1] * 0.5)
            if not any(_crosses(tail, tip, box) for box in taken):
                canvas.line(tail, tip, Stroke(0.5, colour=ACCENT), css="accent")
                arrow(canvas, tip, out)


def label_boxes(items: tuple[Item, ...]) -> Iterator[Extent]:
    """The rooms of all words and of the rings around letters, on the drawing."""
    for item in items:
        match item:
            case Group():
                yield from label_boxes(item.items)
            case Circle(centre=(x, y), radius=radius) if "paper" in item.css.split():
                yield (x - radius, y - radius, x + radius, y + radius)
            case Lettering():
                yield _lettering_box(item)


def _lettering_box(text: Lettering) -> Extent:
    wide = text_width(text.words, text.size, text.weight)
    start = {"middle": -wide / 2, "end": -wide}.get(text.anchor, 0.0)
    turn = radians(text.angle)
    corners = [
        (x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn))
        for x in (start, start + wide)
        # Descenders reach a fifth below the base line, capitals three quarters above it.
        for y in (-0.2 * text.size, 0.75 * text.size)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    x, y = text.at
    return (x + min(xs), y + min(ys), x + max(xs), y + max(ys))


def _spots(motion: Motion, worked: Worked) -> Iterator[WorkingPoint]:
    """Where a figure may stand on a piece, the best place first."""
    shape = worked.piece.shape
    lines = [line.run for line in shape.lines if line.kind in _LINES.get(motion, ()) and line.run]
    bevelled = {bevel.edge for bevel in shape.bevels} if motion is Motion.BEVEL else set()
    edges = [edge.run for edge in shape.edges if edge.name in bevelled]
    if motion in _POINTS:
        for hole in shape.holes:
            middle, _ = widest_spot([flatten(hole, 0.5)], 1.0)
            yield middle, (1.0, 0.0)
    if motion in _EDGES and not lines:
        # What the step names before what the piece has: bevelled edges, then joined ones, then
        # all.
        lines = edges or list(worked.edges) or [edge.run for edge in shape.edges]
    # Long lines first: there the figure hides least of what it stands on.
    for share in SHARES:
        for run in sorted(lines, key=lambda run: -run_length(run))[:MOST]:
            yield point_at_share(run, share)
    rings = worked.faces or (shape.ring(), *shape.holes)
    at, _ = widest_spot([flatten(ring, 0.5) for ring in rings], 1.0)
    yield at, (1.0, 0.0)
    for x, y in ((-0.25, 0.0), (0.25, 0.0), (0.0, 0.25), (0.0, -0.25)):
        size = run_length(shape.ring()) / 4
        yield (at[0] + x * size, at[1] + y * size), (1.0, 0.0)


def _upright(at: Point, way: Point) -> Frame:
    """A figure at a point whose way is `way`; mirrored rather than upside down."""
    angle = degrees(atan2(way[1], way[0]))
    if abs(angle) <= 90:
        return Frame(1.0, *at, angle)
    # Mirrored first, a figure works to the left; half a turn more or less then gives the way it
    # had.
    return Frame(1.0, *at, (angle + 180) % 360 - 360 if angle > 0 else angle + 180, flipped=True)


def _inside(box: Extent, canvas: Canvas) -> bool:
    return box[0] >= 0 and box[1] >= 0 and box[2] <= canvas.width and box[3] <= canvas.height


def _meet(first: Extent, second: Extent) -> bool:
    return (
        first[0] < second[2]
        and second[0] < first[2]
        and first[1] < second[3]
        and second[1] < first[3]
    )


def _crosses(start: Point, end: Point, box: Extent) -> bool:
    """Whether a line meets a box, tried every half millimetre: exact enough for lettering.

    The ends themselves lie on edges, beside the rings of their letters.
    """
    count = max(2, int(hypot(end[0] - start[0], end[1] - start[1]) * 2))
    return any(
        box[0] < start[0] + (end[0] - start[0]) * n / count < box[2]
        and box[1] < start[1] + (end[1] - start[1]) * n / count < box[3]
        for n in range(count + 1)
    )
