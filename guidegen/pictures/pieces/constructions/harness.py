"""A harness in → its straps laid out flat, each with marks of its places, and their names."""

from guidegen.geometry.pieces.records import CutHarnessStrap, FittedHarness
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import CHAIN, WIDE, part_tint
from guidegen.pictures.pieces.detail_parts import WIDTH
from guidegen.words import SPACE, Words

LETTERS, LINE = 3.6, 5.0
"""mm; size of the words, and from one line to the next."""
ROW, BAND = 21.0, 4.0
"""mm; from one strap to the next, and how wide a strap is drawn."""
CLOSE = 9.0
"""mm on the drawing between two numbers that are told beside one another; nearer ones take turns in
height."""


def draw_harness(one: FittedHarness, lang: Words) -> Drawing:
    """Straps to scale along their length, below one another; marks are told from the cut end."""
    scale = reduction(max(strap.length for strap in one.straps), 1, WIDTH - 10, 1)
    said = _words(one, lang)
    below = [line for words in said for line in wrap(words, WIDTH - 4, LETTERS)]
    foot = STRIP + LINE * len(below) + 3
    high = foot + ROW * len(one.straps) + 2
    title = lang.say("Straps of {harness}, laid out flat", harness=one.name)
    canvas = Canvas(WIDTH, high, title, " ".join(said), lang)
    level = high - ROW + 4
    for number, strap in enumerate(one.straps):
        _draw_strap(canvas, one, strap, level - number * ROW, scale)
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - 1 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Harness"), one.name, scale)
    return canvas.drawing()


def _words(one: FittedHarness, lang: Words) -> list[str]:
    listed = "; ".join(f"{letter} {name}" for _, letter, name in one.places)
    words = [lang.say("Places: {list}.", list=listed)]
    for strap in one.straps:
        words.append(
            lang.say(
                "{strap}: cut {count} of {length} mm; mark {marks} from the end.",
                strap=strap.name,
                count=strap.count,
                length=lang.number(strap.length, 0),
                marks=lang.listed(
                    f"{mark.letter} {lang.number(mark.at, 0)}{SPACE}mm" for mark in strap.marks
                ),
            )
        )
    crossings = [letter for place, letter, _ in one.places if place in one.crossings]
    if crossings:
        words.append(
            lang.say(
                "At {letters} sew straps on one another, mark on mark, once it is tried on.",
                letters=lang.listed(crossings),
            )
        )
    return words


def _draw_strap(
    canvas: Canvas, harness: FittedHarness, strap: CutHarnessStrap, level: float, scale: float
) -> None:
    left, lang = 5.0, canvas.lang
    tint = part_tint(0)
    long = strap.length * scale
    canvas.rectangle(left, level, long, BAND, WIDE, fill=tint.fill, css=f"ink {tint.css}")
    many = f"{strap.count}{SPACE}× " if strap.count > 1 else ""
    length = f"{lang.number(strap.length, 0)}{SPACE}mm"
    canvas.text((left, level + BAND + 6.4), f"{many}{strap.name}, {length}", LETTERS,
                weight=600, css="label strong")  # fmt: skip
    last, low = -CLOSE, False
    for mark in strap.marks:
        x = left + mark.at * scale
        canvas.line((x, level - 1), (x, level + BAND + 1), CHAIN, css="thin")
        canvas.text((x, level + BAND + 1.6), mark.letter, LETTERS, anchor="middle", weight=600,
                    css="label")  # fmt: skip
        low = x - last < CLOSE and not low
        base = level - (8.2 if low else 4.4)
        anchor = "end" if x > WIDTH - 8 else "start" if x < 8 else "middle"
        canvas.text((x, base), lang.number(mark.at, 0), LETTERS, anchor=anchor, css="label")
        last = x
