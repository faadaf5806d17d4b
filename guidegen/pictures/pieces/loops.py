"""Hangers, belts and laces of a kit in → each as it lies: round a belt, the body, through holes."""

from collections.abc import Sequence
from itertools import pairwise

from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import BeltRound, FittedStrap, Kit, Lacing, Loop
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import dimension
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, PAPER, STRONG, WIDE, part_tint
from guidegen.pictures.pieces.detail_parts import WIDTH
from guidegen.pictures.pieces.seam_words import edge_name
from guidegen.pictures.pieces.strap_words import cut_words, span_words
from guidegen.words import Words

LETTERS, LINE = 3.6, 5.0
"""mm; size of the words, and from one line to the next."""
ROOM = 60.0
"""mm; height of a drawn hanger or lace at most."""
FOAM = 9.0
"""mm; thickness of foam that is not drawn to scale."""
OFF = 1.6
"""mm between a strap and what it goes round, and between its two layers."""


def draw_hanger(strap: FittedStrap, loop: Loop, kit: Kit, lang: Words) -> Drawing:
    """From the side: held on its part, up to the belt, round it, and closed on itself.

    Heights are to scale; what is thin is drawn thicker.
    """
    held, drop, over = strap.holds[0], strap.asked[1], strap.overlap[0]
    # Heights alone are to scale: with 1 mm across, the width never decides.
    scale = reduction(1.0, held + drop + loop.width, WIDTH, ROOM)
    round_belt = lang.say(
        "It goes round {width} × {thick} mm; its ends overlap by {overlap} mm.",
        width=lang.number(loop.width, 1),
        thick=lang.number(loop.thickness, 1),
        overlap=lang.number(over, 1),
    )
    canvas, foot = _begin(strap, [round_belt, cut_words(strap, lang)], ROOM, lang)
    middle, place = WIDTH / 2, foot + held * scale
    belt, top = place + drop * scale, place + (drop + loop.width) * scale
    edge = place + strap.ways[0] * scale
    _block(canvas, (middle - FOAM, foot - 3), (middle, edge), _label(kit, strap.ends[0]), 0)
    _block(canvas, (middle - 6, belt), (middle - OFF, top), "", 1)
    back, front = middle - 6 - OFF, middle + OFF
    way = [(middle, foot), (middle, top + OFF), (back, top + OFF), (back, belt - OFF),
           (front, belt - OFF), (front, belt - OFF + over * scale)]  # fmt: skip
    canvas.path([polyline(way)], STRONG, css="glue")
    for low, high, length in ((foot, place, held), (place, belt, drop)):
        if length:
            dimension(canvas, (middle - FOAM, low), (middle - FOAM, high), 8, length)
    dimension(canvas, (middle - FOAM, belt), (middle - FOAM, top), 8, loop.width)
    if over:
        end = belt - OFF + over * scale
        dimension(canvas, (front, belt - OFF), (front, end), -8, over)
    return _end(canvas, strap, lang.say("Hanger"), scale)


def draw_belt(strap: FittedStrap, belt: BeltRound, kit: Kit, lang: Words) -> Drawing:
    """Laid out flat as at its loosest: the fold, its buckle, what lies under plates, the tail."""
    whole = belt.turned + strap.free + belt.tail
    scale = reduction(whole + belt.takes, 1, WIDTH - 24, FOAM)
    said = [
        lang.say("It must close round {span}.", span=span_words(*strap.asked, lang)),
        lang.say("It closes round {span}.", span=span_words(strap.least, strap.most, lang)),
        *_worn_over(belt, kit, lang),
        cut_words(strap, lang),
    ]
    canvas, foot = _begin(strap, said, 22, lang, room=20)
    start = (WIDTH - (whole + belt.takes) * scale) / 2
    takes = belt.takes * scale
    first = start + belt.turned * scale
    buckle = first + takes
    free = buckle + strap.free * scale
    tail = free + belt.tail * scale
    # How much is rigid is known, not where it lies: the middle of the free length stands for all.
    rigid = (buckle + free - belt.rigid * scale) / 2
    if belt.rigid:
        _block(canvas, (rigid, foot), (rigid + belt.rigid * scale, foot + FOAM), "", 0)
        dimension(canvas, (rigid, foot + FOAM), (rigid + belt.rigid * scale, foot + FOAM), 6,
                  belt.rigid)  # fmt: skip
    for low, high in ((start, first), (buckle, tail)):
        canvas.line((low, foot - OFF), (high, foot - OFF), STRONG, css="glue")
    for low in (first, free):
        canvas.rectangle(low, foot - 2 * OFF, takes, 2 * OFF, WIDE, fill=PAPER, css="paper")
    spans = ((start, first, belt.turned), (buckle, free, strap.free), (free, tail, belt.tail))
    for low, high, length in spans:
        if length:
            dimension(canvas, (low, foot - 2 * OFF), (high, foot - 2 * OFF), -8, length)
    return _end(canvas, strap, lang.say("Belt"), scale)


def draw_lacing(strap: FittedStrap, lacing: Lacing, kit: Kit, lang: Words) -> Drawing:
    """Both rows of holes and the cord crosswise through them, at its closest opening."""
    wide, long = strap.asked[0], (lacing.pairs - 1) * lacing.pitch
    # Openings that close and a single pair of holes have no extent; 1 mm keeps the scale finite.
    scale = reduction(max(wide, 1.0), max(long, 1.0), WIDTH - 60, ROOM - 12)
    said = [
        lang.say("Its openings are {span}.", span=span_words(*strap.asked, lang)),
        lang.say("{length} mm of each end are left to tie.", length=lang.number(lacing.ends, 0)),
        cut_words(strap, lang),
    ]
    canvas, foot = _begin(strap, said, long * scale + 14, lang)
    left, right = WIDTH / 2 - wide * scale / 2, WIDTH / 2 + wide * scale / 2
    levels = [foot + number * lacing.pitch * scale for number in range(lacing.pairs)]
    _block(canvas, (left - 14, foot - 5), (left + 5, levels[-1] + 5), _label(kit, strap.home), 0)
    _block(canvas, (right - 5, foot - 5), (right + 14, levels[-1] + 5), "", 0)
    cord = [polyline([(left, levels[0]), (right, levels[0])])]
    for low, high in pairwise(levels):
        cord += [polyline([(left, low), (right, high)]), polyline([(right, low), (left, high)])]
    canvas.path(cord, STRONG, css="glue")
    for level in levels:
        for x in (left, right):
            canvas.circle((x, level), 1.2, WIDE, fill=PAPER, css="paper")
    if wide:
        dimension(canvas, (left, levels[-1] + 5), (right, levels[-1] + 5), 5, wide)
    if lacing.pairs > 1:
        dimension(canvas, (right + 14, levels[0]), (right + 14, levels[1]), -6, lacing.pitch)
    return _end(canvas, strap, lang.say("Lace"), scale)


def _worn_over(belt: BeltRound, kit: Kit, lang: Words) -> list[str]:
    """What a belt lies over, in a sentence; none where that is not said."""
    if not belt.over:
        return []
    listed = ", ".join(f"{_label(kit, one.part)} {edge_name(one.edge, lang)}" for one in belt.over)
    length = lang.number(belt.outside, 0)
    return [
        lang.say("It is worn over {edges}: {length} mm round there.", edges=listed, length=length)
    ]


def _begin(
    strap: FittedStrap, said: Sequence[str], high: float, lang: Words, room: float = 6.0
) -> tuple[Canvas, float]:
    """A canvas with the sentences below, and the level from which one draws upward."""
    below = [line for words in said for line in wrap(words, WIDTH - 4, LETTERS)]
    foot = STRIP + LINE * len(below) + room
    canvas = Canvas(WIDTH, foot + high + 10, strap.name, " ".join(said), lang)
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - room + 1 - LINE * number), line, LETTERS, css="label")
    return canvas, foot


def _end(canvas: Canvas, strap: FittedStrap, kind: str, scale: float) -> Drawing:
    title_strip(canvas, kind, strap.name, scale)
    return canvas.drawing()


def _label(kit: Kit, part: str) -> str:
    return next((piece.label for piece in kit.built(part)), "")


def _block(canvas: Canvas, low: Point, high: Point, label: str, number: int) -> None:
    """A rectangle of foam or webbing that is cut through, with a label in its middle."""
    (x0, y0), (x1, y1) = low, high
    ring = polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
    tint = part_tint(number)
    canvas.path([ring], None, fill=tint.fill, css=tint.css, closed=True)
    if not label:
        canvas.path(hatch_lines((ring,), 135 if number else 45, 2.4), FINE, css="hatch")
    canvas.path([ring], WIDE, css="ink", closed=True)
    if label:
        at = ((x0 + x1) / 2, (y0 + y1) / 2 - 1.3)
        canvas.text(at, label, LETTERS, anchor="middle", weight=600, css="label")
