"""A light circuit in → its diagram with standard symbols, values beside them, and words.

Symbols after IEC 60617 (from memory): primary cell, make contact, resistor as a rectangle,
light-emitting diode with two arrows; wires that join have a dot.
"""

from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import FittedCircuit
from guidegen.pictures.pen.canvas import INK, Canvas
from guidegen.pictures.pen.dimensions import arrow
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import NARROW, PAPER, WIDE
from guidegen.pictures.pieces.detail_parts import WIDTH
from guidegen.quantities import ohm_words
from guidegen.words import SPACE, Words

LETTERS, LINE = 3.6, 5.0
"""mm; size of the words, and from one line to the next."""
LEFT, FIRST, APART = 16.0, 48.0, 26.0
"""mm; where the cells stand, the first branch, and from one branch to the next."""
SHOWN = 3
"""Branches that are drawn; of more the last stands for all others."""
STEP = 13.0
"""mm of height for each symbol of a branch."""


def draw_circuit(one: FittedCircuit, lang: Words) -> Drawing:
    """The cells at the left, the switch above, branches at the right; the positive rail on top."""
    said = _words(one, lang)
    below = [line for words in said for line in wrap(words, WIDTH - 4, LETTERS)]
    foot = STRIP + LINE * len(below) + 8
    high = STEP * (1 + one.in_series) + 6
    title = lang.say("Circuit of {name}", name=one.name)
    canvas = Canvas(WIDTH, foot + high + 14, title, " ".join(said), lang)
    top = foot + high
    branches = min(one.branches, SHOWN)
    last = FIRST + APART * (branches - 1)
    _draw_cells(canvas, one, foot, top, lang)
    _draw_switch(canvas, (LEFT, top), (FIRST, top), closed=not one.switch, lang=lang)
    canvas.line((FIRST, top), (last, top), WIDE, css="ink")
    canvas.line((LEFT, foot), (last, foot), WIDE, css="ink")
    for number in range(branches):
        x = FIRST + APART * number
        _draw_branch(canvas, one, x, foot, top, lang=lang)
        # A dot only where three wires meet: at the corners of the last branch two do.
        for level in (foot, top) if number < branches - 1 else ():
            canvas.circle((x, level), 0.9, None, fill=INK, css="arrow")
    if one.branches > SHOWN:
        more = lang.many("and {n} more", "and {n} more", one.branches - SHOWN)
        canvas.text((WIDTH - 1, top + 2.2), more, LETTERS, anchor="end", css="label")
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - 7 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Circuit"), one.name, None)
    return canvas.drawing()


def _words(one: FittedCircuit, lang: Words) -> list[str]:
    """What it takes and gives, and what a reader must not do with it."""
    ohms = ohm_words(one.ohms, lang)
    return [
        lang.say(
            "Resistor: ({volts} V − {lights} × {light} V) ÷ {asked} mA = {exact} Ω; take {ohms}, "
            "the next value of the E24 series.",
            volts=lang.number(one.volts, 2),
            lights=one.in_series,
            light=lang.number(one.light_volts, 2),
            asked=lang.number(one.asked, 1),
            exact=lang.number(one.exact, 0),
            ohms=ohms,
        ),
        lang.say(
            "Each branch takes {current} mA, all {total} mA; each resistor turns {power} mW into "
            "heat.",
            current=lang.number(one.current, 1),
            total=lang.number(one.total, 1),
            power=lang.number(one.power, 0),
        ),
        lang.say(
            "Fresh cells of {capacity} mAh last about {hours} h, less in the cold.",
            capacity=lang.number(one.capacity, 0),
            hours=lang.number(one.hours, 0),
        ),
        lang.say(
            "The longer leg of a light is its plus. Cells and plus must not touch anything else: a "
            "short circuit burns. What the data sheets of cell and light say comes first."
        ),
    ]


def _draw_cells(canvas: Canvas, one: FittedCircuit, foot: float, top: float, lang: Words) -> None:
    """Cells in a row: the long thin plate is the positive one, on top."""
    shown = min(one.cells, SHOWN)
    middle, gap = (foot + top) / 2, 5.0
    level = middle - gap * (shown - 1) / 2
    ends = (level - 1.0, level + gap * (shown - 1) + 1.0)
    canvas.line((LEFT, foot), (LEFT, ends[0]), WIDE, css="ink")
    canvas.line((LEFT, ends[1]), (LEFT, top), WIDE, css="ink")
    for number in range(shown):
        y = level + gap * number
        canvas.rectangle((LEFT - 2.2), y - 1.5, 4.4, 1.0, WIDE, fill=INK, css="arrow")
        canvas.line((LEFT - 4.5, y + 1.0), (LEFT + 4.5, y + 1.0), WIDE, css="ink")
        if number < shown - 1:
            canvas.line((LEFT, y + 1.0), (LEFT, y + gap - 1.0), NARROW, css="thin")
    canvas.text((LEFT - 7, ends[1]), "+", LETTERS, anchor="middle", weight=600, css="label strong")
    said = f"{one.cells}{SPACE}× " if one.cells > 1 else ""
    volts = lang.number(one.volts / one.cells, 2)
    canvas.text((LEFT + 6, middle - 1.3), f"{said}{volts}{SPACE}V", LETTERS, css="label")


def _draw_switch(canvas: Canvas, start: Point, end: Point, *, closed: bool, lang: Words) -> None:
    """A make contact between two places of the upper rail, or a plain wire."""
    if closed:
        canvas.line(start, end, WIDE, css="ink")
        return
    left = start[0] + (end[0] - start[0]) * 0.4
    right = left + 8
    canvas.line(start, (left, start[1]), WIDE, css="ink")
    canvas.line((right, end[1]), end, WIDE, css="ink")
    # Drawn open, as a diagram shows it: at rest.
    canvas.line((right, end[1]), (left, start[1] + 3.6), WIDE, css="ink")
    words = lang.say("switch")
    canvas.text(((left + right) / 2, start[1] + 5.4), words, LETTERS, anchor="middle", css="label")


def _draw_branch(
    canvas: Canvas, one: FittedCircuit, x: float, foot: float, top: float, *, lang: Words
) -> None:
    """A resistor above its lights, from the upper rail to the lower one."""
    y = top - 3
    canvas.line((x, top), (x, y), WIDE, css="ink")
    canvas.rectangle(x - 1.6, y - 8, 3.2, 8, WIDE, fill=PAPER, css="paper")
    canvas.text((x + 3, y - 5.3), ohm_words(one.ohms, lang), LETTERS, css="label")
    y -= 8
    for _ in range(one.in_series):
        canvas.line((x, y), (x, y - 3), WIDE, css="ink")
        _draw_light(canvas, (x, y - 3))
        y -= STEP - 5
    canvas.line((x, y), (x, foot), WIDE, css="ink")


def _draw_light(canvas: Canvas, at: Point) -> None:
    """A diode that points down, its bar below, and two arrows that leave it."""
    x, y = at
    ring = polygon([(x - 2.4, y), (x, y - 4.2), (x + 2.4, y)])
    canvas.path([ring], WIDE, fill=PAPER, css="paper", closed=True)
    canvas.line((x - 2.4, y - 4.2), (x + 2.4, y - 4.2), WIDE, css="ink")
    canvas.line((x, y), (x, y - 5), WIDE, css="ink")
    for shift in (0.0, -2.0):
        start, end = (x + 3, y - 1 + shift), (x + 6.4, y + 1.4 + shift)
        canvas.line(start, end, NARROW, css="thin")
        arrow(canvas, end, (0.817, 0.577))
