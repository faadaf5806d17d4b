"""V-groove in → its section before and after folding out."""

from math import cos, radians, sin

from guidegen.geometry.outline.records import Arc, Point
from guidegen.geometry.pieces.records import GrooveCut
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import angle_dimension, dimension
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import magnification, scale_words
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, NARROW, WIDE
from guidegen.pictures.pieces.detail_parts import FOAM, WIDTH, draw_break, turned, write_face
from guidegen.words import Words

ROOM = 24.0
"""mm; foam is magnified to at most this thickness."""
HALF = 20.0
"""mm; foam drawn at each side of the groove."""
LEG, REACH = 17.0, 22.0
"""mm; length of a folded leg, and how far it may reach sideways, thickness included."""
BEFORE, AFTER = 34.0, 88.5
"""mm; x of the groove before and after folding."""


def draw_groove(cut: GrooveCut, thickness: float, title: str, lang: Words) -> Drawing:
    """The groove as cut on the back, and the same foam folded: its walls meet.

    `title` names the piece. The front is up.
    """
    scale = _scale(cut, thickness)
    t, depth = thickness * scale, cut.depth * scale
    mouth = cut.mouth * scale
    base = STRIP + 20
    fall = sin(radians(cut.fold / 2)) * LEG
    height = max(t + 16, fall + t + 14)
    canvas = Canvas(
        WIDTH,
        base + height,
        lang.say("V-groove of {title}", title=title),
        lang.say(
            "Groove {depth} mm deep in foam of {thick} mm, mouth {mouth} mm, walls {angle}° apart, "
            "{floor} mm floor; folded, the foam turns {angle}°. Drawn {scale}, front up.",
            depth=lang.number(cut.depth, 1),
            thick=lang.number(thickness, 1),
            mouth=lang.number(cut.mouth, 1),
            angle=lang.number(cut.fold, 1),
            floor=lang.number(cut.floor, 1),
            scale=scale_words(scale, lang),
        ),
        lang,
    )
    # Flat foam stands in the middle beside legs that fall far, else on one line with them.
    low = base + (height - 14 - t) / 2 if fall > 2 else base
    _draw_before(canvas, cut, (BEFORE, low), (t, depth, mouth))
    _dimension_before(canvas, cut, thickness, (BEFORE, low), (t, depth, mouth))
    apex = (AFTER, base + fall + depth)
    _draw_after(canvas, cut, apex, (t, depth, mouth))
    write_face(canvas, (BEFORE, low + t + 3), lang.say("front"))
    write_face(canvas, (BEFORE, low - 12.4), lang.say("back, body side"))
    for x, name in ((BEFORE, lang.within("state", "cut")), (AFTER, lang.say("folded"))):
        canvas.text((x, STRIP + 3), name, 4, anchor="middle", weight=600, css="label strong")
    title_strip(canvas, lang.say("V-groove"), title, scale)
    return canvas.drawing()


def _scale(cut: GrooveCut, thickness: float) -> float:
    """The largest magnification at which the mouth and the folded legs find room."""
    half = radians(cut.fold / 2)
    # How thick a leg may be that reaches sideways by its length and its thickness; 0.05 keeps flat
    # folds from dividing by nothing.
    folded = (REACH - LEG * cos(half)) / max(sin(half), 0.05)
    return min(
        magnification(thickness, min(ROOM, folded)),
        # 6 mm of foam stay at each side of the mouth, or one would not see that it is a groove.
        magnification(max(cut.mouth, 0.1), 2 * HALF - 12),
    )


def _draw_before(
    canvas: Canvas, cut: GrooveCut, foot: Point, sizes: tuple[float, float, float]
) -> None:
    t, depth, mouth = sizes
    x, y = foot
    corners = [
        (x - HALF, y),
        (x - mouth / 2, y),
        (x, y + depth),
        (x + mouth / 2, y),
        (x + HALF, y),
        (x + HALF, y + t),
        (x - HALF, y + t),
    ]
    ring = polygon(corners)
    canvas.path([ring], None, fill=FOAM.fill, css=FOAM.css, closed=True)
    canvas.path(hatch_lines((ring,), 45, 2.4), FINE, css="hatch")
    canvas.path([polyline(corners[:5]), polyline(corners[5:])], WIDE, css="ink")
    draw_break(canvas, corners[4], corners[5])
    draw_break(canvas, corners[6], corners[0])


def _dimension_before(
    canvas: Canvas,
    cut: GrooveCut,
    thickness: float,
    foot: Point,
    sizes: tuple[float, float, float],
) -> None:
    t, depth, mouth = sizes
    x, y = foot
    dimension(canvas, (x - HALF, y), (x - HALF, y + t), 7, thickness, digits=1)
    dimension(canvas, (x - mouth / 2, y), (x + mouth / 2, y), -8, cut.mouth, digits=1)
    right = x + HALF
    _level(canvas, (x, y + depth), right + 5)
    dimension(canvas, (right, y), (right, y + depth), -7, cut.depth, digits=1)
    dimension(canvas, (right, y + depth), (right, y + t), -7, cut.floor, digits=1)
    half = cut.fold / 2
    # Inside the groove: a larger arc would run out of its mouth.
    radius = min(depth * 0.75, 15)
    angle_dimension(
        canvas,
        (x, y + depth),
        radius,
        (-90 - half, -90 + half),
        f"{canvas.lang.number(cut.fold, 1)}°",
        ground=FOAM,
    )


def _level(canvas: Canvas, start: Point, x: float) -> None:
    canvas.line((start[0] + 1, start[1]), (x, start[1]), NARROW, css="thin")


def _draw_after(
    canvas: Canvas, cut: GrooveCut, apex: Point, sizes: tuple[float, float, float]
) -> None:
    """Each half turned by half the fold about the groove's tip; the floor bends around it."""
    t, depth, mouth = sizes
    half = cut.fold / 2
    x, y = apex
    for side in (-1, 1):
        flat = [
            (x, y),
            (x + side * mouth / 2, y - depth),
            (x + side * LEG, y - depth),
            (x + side * LEG, y - depth + t),
            (x, y - depth + t),
        ]
        # About the tip, since the floor bends there: each half takes half of the fold.
        leg = turned(flat, apex, -side * half)
        # Of the mirrored half the corners run the other way round.
        ring = polygon(leg if side > 0 else leg[::-1])
        canvas.path([ring], None, fill=FOAM.fill, css=FOAM.css, closed=True)
        # The hatch turns with its half: it is the same foam as before folding, not another part.
        canvas.path(hatch_lines((ring,), 45 - side * half, 2.4), FINE, css="hatch")
        canvas.path([polyline(leg[:3]), polyline(leg[3:])], WIDE, css="ink")
        draw_break(canvas, leg[2], leg[3])
    floor = t - depth
    if floor > 0:
        arc = Arc(apex, floor, 90 - half, cut.fold)
        start = (x + floor * sin(radians(half)), y + floor * cos(radians(half)))
        end = (x - floor * sin(radians(half)), start[1])
        wedge = (arc, *polyline([end, apex, start]))
        canvas.path([wedge], None, fill=FOAM.fill, css=FOAM.css, closed=True)
        canvas.path([(arc,)], WIDE, css="ink")
    # Where both walls have met.
    inner = (x, y - depth / cos(radians(half)))
    span = (180 + half, 360 - half)
    angle_dimension(canvas, inner, 9, span, f"{canvas.lang.number(180 - cut.fold, 1)}°")
