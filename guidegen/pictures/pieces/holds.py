"""Fasteners and straps of a kit in → the section of a stack at its post; a strap as a chain."""

from guidegen.geometry.pieces.records import Fastened, FittedStrap, Kit
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import dimension
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import shorten, text_width, wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import magnification, reduction
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, NARROW, PAPER, STRONG, WIDE, part_tint
from guidegen.pictures.pieces.detail_parts import WIDTH
from guidegen.pictures.pieces.loops import draw_belt, draw_hanger, draw_lacing
from guidegen.pictures.pieces.strap_words import chain_words
from guidegen.words import SPACE, Words

ROOM = 34.0
"""mm; height of a drawn stack at most."""
LEFT, SLAB = 16.0, 34.0
"""mm; from the left to the layers, and their width."""
HEAD = 2.4
"""mm; height of a drawn head."""
LETTERS, LINE = 3.6, 5.0
"""mm; size of the words, and from one line to the next."""
END = 10.0
"""mm at both sides of a strap, for foam that it only meets, with the label of its part."""
FOAM = 9.0
"""mm; height of the foam that a strap lies on: not to scale, only its length is."""


def draw_fastening(one: Fastened, lang: Words) -> Drawing:
    """What a post goes through, layer by layer, the body below."""
    washers = [(lang.say("washer"), one.washer)] * one.washers
    # One washer under each head as far as there are two.
    layers = [*washers[: one.washers // 2], *one.layers, *washers[one.washers // 2 :]]
    scale = magnification(one.stack, ROOM)
    # Thin layers need a line of words each, so that names stand beside what they name.
    heights = [max(thick * scale, LINE) for _, thick in layers]
    said = lang.say(
        "Its layers are {stack} mm thick together; a post of {post} mm holds {least} to {most} mm.",
        stack=lang.number(one.stack, 1),
        post=lang.number(one.post, 1),
        least=lang.number(one.grip[0], 1),
        most=lang.number(one.grip[1], 1),
    )
    below = wrap(said, WIDTH - 4, LETTERS)
    foot = STRIP + LINE * len(below) + HEAD + 3
    listed = "; ".join(f"{words} {lang.number(thick, 1)}{SPACE}mm" for words, thick in layers)
    canvas = Canvas(
        WIDTH,
        foot + sum(heights) + HEAD + 3,
        lang.say("Post of {name}", name=one.name),
        f"{listed}. {said}",
        lang,
    )
    level = foot
    for number, ((words, thick), high) in enumerate(zip(layers, heights, strict=True)):
        _draw_layer(canvas, number, level, high)
        text = (
            f"{shorten(words, WIDTH - LEFT - SLAB - 20, LETTERS)} {lang.number(thick, 1)}{SPACE}mm"
        )
        base = level + high / 2 - 1.3
        canvas.text((LEFT + SLAB + 6, base), text, LETTERS, css="label")
        canvas.line(
            (LEFT + SLAB + 1, base + 1.3), (LEFT + SLAB + 5, base + 1.3), NARROW, css="thin"
        )
        level += high
    # At most twice as wide, chosen: at the scale of thin layers the post would cover them all.
    _draw_post(canvas, one.hole * min(scale, 2.0), foot, level)
    dimension(canvas, (LEFT, foot), (LEFT, level), 7, one.stack, digits=1)
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - HEAD - 2 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Post"), one.name, None)
    return canvas.drawing()


def _draw_layer(canvas: Canvas, number: int, level: float, high: float) -> None:
    tint = part_tint(number)
    corners = [
        (LEFT, level),
        (LEFT + SLAB, level),
        (LEFT + SLAB, level + high),
        (LEFT, level + high),
    ]
    ring = polygon(corners)
    canvas.path([ring], None, fill=tint.fill, css=tint.css, closed=True)
    canvas.path(hatch_lines((ring,), 45 if number % 2 else 135, 2.4), FINE, css="hatch")
    canvas.path([ring], WIDE, css="ink", closed=True)


def _draw_post(canvas: Canvas, wide: float, low: float, high: float) -> None:
    """The post through all layers, its head below and its cap above."""
    middle = LEFT + SLAB / 2
    canvas.rectangle(middle - wide / 2, low, wide, high - low, WIDE, fill=PAPER, css="paper")
    for level in (low - HEAD, high):
        canvas.rectangle(middle - wide, level, 2 * wide, HEAD, WIDE, fill=PAPER, css="paper")


def draw_strap(strap: FittedStrap, kit: Kit, lang: Words) -> Drawing:
    """A strap as it lies: round a belt, round the body, through holes, or from place to place."""
    if strap.loop is not None:
        return draw_hanger(strap, strap.loop, kit, lang)
    if strap.belt is not None:
        return draw_belt(strap, strap.belt, kit, lang)
    if strap.lacing is not None:
        return draw_lacing(strap, strap.lacing, kit, lang)
    return _draw_chain(strap, kit, lang)


def _draw_chain(strap: FittedStrap, kit: Kit, lang: Words) -> Drawing:
    """A strap at its loosest, to scale: what is held, the way over the foam, what lies between."""
    bridged = strap.asked[1]
    whole = strap.holds[0] + bridged + strap.holds[1]
    scale = reduction(max(whole, 1.0), 1, WIDTH - 2 * END, FOAM)
    said = chain_words(strap, lang)
    below = [line for words in said for line in wrap(words, WIDTH - 4, LETTERS)]
    foot = STRIP + LINE * len(below) + 24
    title = lang.say("{strap} as a chain", strap=strap.name)
    canvas = Canvas(WIDTH, foot + FOAM + 22, title, " ".join(said), lang)
    start = (WIDTH - whole * scale) / 2
    first, last = start + strap.holds[0] * scale, start + (strap.holds[0] + bridged) * scale
    end = start + whole * scale
    _draw_ends(canvas, strap, kit, (start, first, last, end), foot, scale=scale)
    top = foot + FOAM + 1.2
    canvas.line((start, top), (end, top), STRONG, css="glue")
    if strap.overlap[1] and not strap.ends[1]:
        # Its free end comes back to its part and lies on itself.
        shift = strap.overlap[1] * scale
        canvas.line((last - shift, top + 1.4), (last, top + 1.4), STRONG, css="glue")
        dimension(canvas, (last - shift, top + 2), (last, top + 2), 6, strap.overlap[1])
    if strap.closure[1]:
        # The closure sits at the end of the short piece, which is held at the right.
        far = last - strap.closure[0] * scale
        wide = strap.closure[1] * scale
        canvas.rectangle(far - wide, top - 2, wide, 4, WIDE, fill=PAPER, css="paper")
        dimension(canvas, (far - wide, top + 2), (far, top + 2), 6, strap.closure[1])
    for low, high, length in ((start, first, strap.holds[0]), (last, end, strap.holds[1])):
        if length:
            dimension(canvas, (low, foot), (high, foot), -7, length)
    dimension(canvas, (first, foot), (last, foot), -16, bridged)
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - 23 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Strap"), title, scale)
    return canvas.drawing()


def _draw_ends(
    canvas: Canvas,
    strap: FittedStrap,
    kit: Kit,
    places: tuple[float, float, float, float],
    foot: float,
    *,
    scale: float,
) -> None:
    """The foam that holds both ends, each as far as its edge, with the label of its part."""
    start, first, last, end = places
    # A strap that comes back is held at both ends by one part.
    back = strap.ends[1] or strap.ends[0]
    for part, near, far in (
        (strap.ends[0], start - 3, first + strap.ways[0] * scale),
        (back, last - strap.ways[1] * scale, end + 3),
    ):
        label = next((kit_piece.label for kit_piece in kit.built(part)), "")
        # Of an end that nothing lies on only so much is drawn as holds its label.
        room = text_width(label, LETTERS, 600) + 2
        begins = near < first
        low = min(near, max(1.0, far - room)) if begins else near
        high = far if begins else max(far, min(WIDTH - 1, near + room))
        ring = polygon([(low, foot), (high, foot), (high, foot + FOAM), (low, foot + FOAM)])
        tint = part_tint(0 if begins else 1)
        canvas.path([ring], None, fill=tint.fill, css=tint.css, closed=True)
        canvas.path([ring], WIDE, css="ink", closed=True)
        at = ((low + high) / 2, foot + FOAM / 2 - 1.3)
        if high - low > room - 1:
            canvas.text(at, label, LETTERS, anchor="middle", weight=600, css="label")
