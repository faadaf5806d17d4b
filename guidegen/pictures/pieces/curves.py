"""A bent layer stack in → its section round the bend, each layer with its way."""

from math import cos, degrees, radians, sin

from guidegen.geometry.outline.records import Arc, Point, Run
from guidegen.geometry.pieces.records import Kit, LayerStack
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.frames import polyline
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction, scale_words
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import CHAIN, FINE, NARROW, WIDE, part_tint
from guidegen.pictures.pieces.detail_parts import WIDTH
from guidegen.units import mm_text
from guidegen.words import SPACE, Words

SIDE = 6.0
"""mm kept free beside the arcs."""
ROOM = 56.0
"""mm; height of the arcs at most."""
LETTERS, LINE = 3.6, 5.0
"""mm; size of the words below, and from one line to the next."""
WIDEST = 150.0
"""degrees of the bend that are drawn at most: more would hide where layers end."""


def draw_curve(stack: LayerStack, kit: Kit, lang: Words) -> Drawing:
    """The layers on their bend, the body below, each with its way round it.

    Layers that are to end together end on the same ray: that is what makes outer ones longer.
    """
    first = stack.layers[0]
    middle = stack.radius + first.thickness / 2
    # The angle of the first layer, measured where foam keeps its length: in the middle of it.
    turn = min(degrees(first.way / middle), WIDEST)
    outer = stack.radius + sum(layer.thickness for layer in stack.layers)
    half = radians(turn / 2)
    # From the ends of the inner face up to the top of the outer one.
    wide, high = 2 * outer * sin(half), outer - stack.radius * cos(half)
    scale = reduction(wide, high, WIDTH - 2 * SIDE, ROOM)
    said = _said(stack, kit, lang)
    below = [line for words in said for line in wrap(words, WIDTH - 4, LETTERS)]
    foot = STRIP + LINE * len(below) + 6
    title = lang.say("{stack} on its bend", stack=stack.name)
    canvas = Canvas(
        WIDTH,
        foot + high * scale + 8,
        title,
        " ".join([*said, lang.say("Drawn {scale}.", scale=scale_words(scale, lang))]),
        lang,
    )
    centre = (WIDTH / 2, foot + high * scale - outer * scale)
    _draw_layers(canvas, stack, centre, turn, scale)
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - 5 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Bend"), title, scale)
    return canvas.drawing()


def _said(stack: LayerStack, kit: Kit, lang: Words) -> list[str]:
    """Radius, then each layer from the body outward."""
    inside = lang.say(
        "The first layer bends round {radius} mm, measured to its inner face.",
        radius=lang.number(stack.radius, 0),
    )
    words = [inside]
    for layer in stack.layers:
        names = {
            "label": " + ".join(piece.label for piece in kit.pieces_of(layer.part)),
            "way": f"{lang.number(layer.way, 1)}{SPACE}mm",
            "longer": f"{lang.number(layer.longer, 1)}{SPACE}mm",
        }
        words.append(
            lang.say("{label}: {way} round the bend, cut {longer} longer for it.", **names)
            # Less would read 0.0 mm longer.
            if layer.longer >= 0.05
            else lang.say("{label}: {way} round the bend.", **names)
        )
    return words


def _draw_layers(
    canvas: Canvas, stack: LayerStack, centre: Point, turn: float, scale: float
) -> None:
    """Rings of foam from the inner one outward, and the rays on which they end."""
    start = 90 - turn / 2
    inner = stack.radius * scale
    for at, layer in enumerate(stack.layers):
        outer = inner + layer.thickness * scale
        middle = (inner + outer) / 2
        # From its own way, not from the turn: a layer that was kept as drawn is seen to end short.
        own = min(degrees(layer.way * scale / middle), turn) if middle else turn
        ring = _sector(centre, (inner, outer), 90 - own / 2, own)
        tint = part_tint(at)
        canvas.path([ring], None, fill=tint.fill, css=tint.css, closed=True)
        canvas.path(hatch_lines((ring,), 45 if at % 2 else 135, 2.4), FINE, css="hatch")
        canvas.path([ring], WIDE, css="ink", closed=True)
        canvas.path([(Arc(centre, middle, 90 - own / 2, own),)], CHAIN, css="thin")
        inner = outer
    for angle in (start, start + turn):
        far = _at(centre, inner + 5, angle)
        # Not past the centre, where the rays would cross.
        near = _at(centre, max(stack.radius * scale - 5, 0.0), angle)
        canvas.line(near, far, NARROW, css="thin")
    top = (centre[0], centre[1] + inner + 1.6)
    words = f"{mm_text(turn, 0)}°"
    canvas.text(top, words, LETTERS, anchor="middle", weight=600, css="dimension")


def _sector(centre: Point, radii: tuple[float, float], start: float, turn: float) -> Run:
    inner, outer = radii
    there, back = Arc(centre, outer, start, turn), Arc(centre, inner, start + turn, -turn)
    ends = [_at(centre, outer, start + turn), _at(centre, inner, start + turn)]
    close = [_at(centre, inner, start), _at(centre, outer, start)]
    return (there, *polyline(ends), back, *polyline(close))


def _at(centre: Point, radius: float, angle: float) -> Point:
    return (
        centre[0] + radius * cos(radians(angle)),
        centre[1] + radius * sin(radians(angle)),
    )
