"""Length plan in → a bar for each pack out, to scale: what is cut from it, in order, and the rest.

A long rest is drawn shortened, with the break lines of ISO 128-2.
"""

from collections import Counter
from collections.abc import Sequence
from itertools import groupby, pairwise

from guidegen.geometry.outline.records import Line
from guidegen.layout.records import CutLength, LengthPiece, LengthPlan
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import CAP_HEIGHT, LEAST, shorten, text_width, wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction, scale_words
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, NARROW, PAPER, SOFT, WIDE, part_tint
from guidegen.units import mm_text
from guidegen.words import SPACE, Words

WIDTH = 160.0
"""mm; as wide as a cut-sheet drawing."""
SIDE = 2.0
"""mm kept free beside the bars."""
BAR = 7.0
"""mm; height of a bar."""
HEAD, LINE, GAP = 5.5, 4.4, 3.5
"""mm; words above a bar, each line of words below it, and air between two packs."""
NUMBER = 3.6
"""mm; letter size of lengths in a bar."""
LEVEL = BAR / 2 - NUMBER * CAP_HEIGHT / 2
"""mm from the foot of a bar to the base line of its numbers, which stand in its middle."""
REST = 0.4
"""What is drawn of a rest that is longer than all that is cut, as a share of that. Our choice."""


def draw_cut_lengths(plan: LengthPlan, material: str, lang: Words) -> Drawing | None:
    """All packs of `plan`, those that are cut alike once; None without packs.

    `material` is its name for readers.
    """
    # Packs with the same cuts are drawn once with their number.
    alike = Counter((p.name, p.amount, p.pieces, p.left, p.at_hand) for p in plan.packs)
    packs = [
        (CutLength(name, amount, 0.0, pieces, left, at_hand), count)
        for (name, amount, pieces, left, at_hand), count in alike.items()
    ]
    if not packs:
        return None
    longest = max(_drawn(pack) for pack, _ in packs)
    scale = reduction(longest, 1, WIDTH - 2 * SIDE, BAR)
    words = [_words(pack, count, lang) for pack, count in packs]
    below = [wrap(cuts, WIDTH - 2 * SIDE, LEAST) for _, cuts in words]
    heights = [HEAD + BAR + 1 + LINE * len(lines) + GAP for lines in below]
    title = lang.say("Lengths to cut, {material}", material=material)
    told = " ".join(f"{head}: {cuts}." for head, cuts in words)
    drawn = lang.say("Drawn {scale}.", scale=scale_words(scale, lang))
    canvas = Canvas(WIDTH, STRIP + sum(heights), title, f"{told} {drawn}", lang)
    top = canvas.height - STRIP
    strong = shorten(material, WIDTH / 2, 4, 600)
    title_strip(canvas, strong, lang.say("cut from the left; in mm"), scale, top)
    for (pack, _), (head, _), lines, height in zip(packs, words, below, heights, strict=True):
        name = shorten(head, WIDTH - 2 * SIDE, NUMBER, 600)
        canvas.text((SIDE, top - 4), name, NUMBER, weight=600, css="label strong")
        _draw_bar(canvas, pack, top - HEAD - BAR, scale)
        for number, line in enumerate(lines, 1):
            level = top - HEAD - BAR - LINE * number + 0.4
            canvas.text((SIDE, level), line, LEAST, css="label")
        top -= height
    return canvas.drawing()


def _used(pack: CutLength) -> float:
    """mm that are cut off, with what the cuts themselves take."""
    return pack.amount - pack.left


def _drawn(pack: CutLength) -> float:
    """mm of the pack that are drawn: all that is cut, and of a long rest its beginning."""
    used = _used(pack)
    if pack.left <= used:
        return pack.amount
    # A long rest is cut short, or what is cut from a roll of 50 m would be a hair at its left.
    return used + min(pack.left, max(REST * used, pack.amount * 0.05))


def _is_broken(pack: CutLength) -> bool:
    """Whether less of the rest is drawn than there is."""
    # A millimetre: rests that are drawn whole differ by no more than rounding.
    return pack.left > _drawn(pack) - _used(pack) + 1


def _words(pack: CutLength, count: int, lang: Words) -> tuple[str, str]:
    """The words above a bar, and those below it: what is cut in which order, and what is left."""
    cuts = []
    for (length, note), group in groupby(pack.pieces, key=lambda piece: (piece.length, piece.note)):
        several = len(list(group))
        times = f"{several} × " if several > 1 else ""
        cuts.append(f"{times}{_mm(length, lang)}{SPACE}mm" + (f" {note}" if note else ""))
    if pack.left >= 1:
        cuts.append(lang.say("left over {length} mm", length=_mm(pack.left, lang)))
    return f"{count} × {pack.name}", "; ".join(cuts)


def _mm(length: float, lang: Words) -> str:
    return lang.number(length, _digits(length))


def _digits(length: float) -> int:
    """Decimals of a length of so many mm: tenths of short ones matter."""
    return 0 if length >= 100 else 1


def _draw_bar(canvas: Canvas, pack: CutLength, low: float, scale: float) -> None:
    """Pieces from the left, then the rest, hatched."""
    groups = groupby(pack.pieces, key=lambda piece: (piece.length, piece.note))
    for number, (_, group) in enumerate(groups):
        _draw_pieces(canvas, list(group), number, low, scale)
    start, end = SIDE + _used(pack) * scale, SIDE + _drawn(pack) * scale
    # Chosen: a rest thinner than the outlines around it would not be seen.
    if end - start > 0.3:
        _draw_rest(canvas, pack, (start, end), low)
    canvas.rectangle(SIDE, low, end - SIDE, BAR, WIDE, css="ink")
    if _is_broken(pack):
        _draw_break(canvas, (start + end) / 2, low)


def _draw_pieces(
    canvas: Canvas, pieces: Sequence[LengthPiece], number: int, low: float, scale: float
) -> None:
    """Equal neighbours: each with its length, or where that is too wide their number and it."""
    # Two tints in turn part neighbours; they stand for nothing.
    tint = part_tint(0 if number % 2 == 0 else 1)
    length = pieces[0].length
    words = _mm(length, canvas.lang)
    # Equal neighbours: all with numbers or none, and then one for the group.
    fits = text_width(words, NUMBER, 600) + 0.8 <= length * scale
    for piece in pieces:
        x = SIDE + piece.start * scale
        canvas.rectangle(x, low, length * scale, BAR, Stroke(0.35), fill=tint.fill, css=tint.css)
        if fits:
            at = (x + length * scale / 2, low + LEVEL)
            canvas.length(at, length, NUMBER, digits=_digits(length))
    if not fits and len(pieces) > 1:
        first, last = pieces[0].start, pieces[-1].start + length
        words = f"{len(pieces)} × {words}"
        room = (last - first) * scale
        if (wide := text_width(words, NUMBER, 600) + 1.2) <= room:
            middle = SIDE + (first + last) / 2 * scale
            canvas.rectangle(
                middle - wide / 2, low + 1.5, wide, BAR - 3, None, fill=tint.fill, css=tint.css
            )
            at = (middle, low + LEVEL)
            canvas.text(at, words, NUMBER, anchor="middle", weight=600, css="dimension")


def _draw_rest(canvas: Canvas, pack: CutLength, span: tuple[float, float], low: float) -> None:
    """The hatched rest with its length, where there is room for it."""
    start, end = span
    ring = polygon([(start, low), (end, low), (end, low + BAR), (start, low + BAR)])
    canvas.path([ring], None, fill=PAPER, css="paper", closed=True)
    canvas.path(hatch_lines((ring,), 45, 2.0), FINE, css="hatch")
    words = mm_text(pack.left, 0)
    wide = text_width(words, LEAST) + 1.6
    broken = _is_broken(pack)
    # Beside the break lines, which stand in the middle.
    room = (end - start) / 2 - 2 if broken else end - start - 0.6
    if wide > room:
        return
    middle = start + (end - start) / 4 if broken else (start + end) / 2
    canvas.rectangle(middle - wide / 2, low + 1.4, wide, BAR - 2.8, None, fill=PAPER, css="paper")
    level = low + BAR / 2 - LEAST * CAP_HEIGHT / 2
    canvas.length((middle, level), pack.left, LEAST, weight=400, colour=SOFT)


def _draw_break(canvas: Canvas, x: float, low: float) -> None:
    """Two zigzag lines with nothing between: more is there than is drawn."""
    under, over = low - 0.8, low + BAR + 0.8
    way = [(x - 1.4, under), (x - 0.4, low + 2.8), (x - 1.6, low + 4.2), (x - 0.6, over)]
    other = [(px + 2.0, py) for px, py in way]
    canvas.path([polygon([*way, *reversed(other)])], None, fill=PAPER, css="paper", closed=True)
    for points in (way, other):
        run = tuple(Line(a, b) for a, b in pairwise(points))
        canvas.path([run], NARROW, css="thin")
