"""Pleats of a piece, and casings, in → how the cloth lies, seen from its edge, and words."""

from guidegen.geometry.outline.records import Point
from guidegen.geometry.parts.sewing import PLEATS
from guidegen.geometry.pieces.records import FittedCasing, Piece, TakenIn
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import dimension
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import NARROW, STRONG, WIDE, part_tint
from guidegen.pictures.pieces.detail_parts import WIDTH
from guidegen.pictures.pieces.seam_words import edge_name
from guidegen.words import SPACE, Words

LETTERS, LINE = 3.6, 5.0
"""mm; size of the words, and from one line to the next."""
GAP = 3.0
"""mm between layers of cloth as drawn: they are thinner than any line."""


def draw_pleats(piece: Piece, taken: TakenIn, lang: Words) -> Drawing:
    """One pleat as it lies, seen from its edge: on top is outside; the cloth goes through in one
    line."""
    title = f"{piece.label} {piece.name}, {edge_name(taken.edge, lang)}"
    said = pleat_words(taken, lang)
    below = wrap(said, WIDTH - 4, LETTERS)
    foot = STRIP + LINE * len(below) + 14
    depth = taken.depth
    way, span = _way(taken.kind, depth)
    scale = reduction(span, 1, WIDTH - 12, 1)
    canvas = Canvas(WIDTH, foot + 3 * GAP + 8, title, said, lang)
    left = (WIDTH - span * scale) / 2

    def at(point: Point) -> Point:
        return (left + point[0] * scale, foot + point[1] * GAP)

    canvas.path([polyline([at(point) for point in way])], STRONG, css="glue")
    start, end = _shown(taken.kind, depth)
    dimension(canvas, at((start, 0.0)), at((end, 0.0)), -7, end - start)
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - 12 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Pleat"), title, scale)
    return canvas.drawing()


def _way(kind: str, depth: float) -> tuple[list[Point], float]:
    """The cloth of one pleat from left to right, x in mm, y in layers; and how wide it lies."""
    d = depth
    if kind == "knife":
        return [(0, 2), (2 * d, 2), (2 * d, 1), (d, 1), (d, 0), (3 * d, 0)], 3 * d
    if kind == "box":
        return [
            (0, 0), (2 * d, 0), (2 * d, 1), (d, 1), (d, 2),
            (3 * d, 2), (3 * d, 1), (2 * d + d * 0.04, 1), (2 * d + d * 0.04, 0), (4 * d, 0),
        ], 4 * d  # fmt: skip
    return [
        (0, 2), (2 * d - d * 0.02, 2), (2 * d - d * 0.02, 1), (d, 1), (d, 0),
        (3 * d, 0), (3 * d, 1), (2 * d + d * 0.02, 1), (2 * d + d * 0.02, 2), (4 * d, 2),
    ], 4 * d  # fmt: skip


def _shown(kind: str, depth: float) -> tuple[float, float]:
    """Where the depth of the drawn pleat is measured."""
    return (2 * depth, 3 * depth) if kind == "inverted" else (depth, 2 * depth)


def pleat_words(taken: TakenIn, lang: Words) -> str:
    """What pleats or a dart of an edge take, in a sentence."""
    if taken.kind == "dart":
        return lang.say(
            "Dart at {edge}: {width} mm wide, legs of {length} mm",
            edge=edge_name(taken.edge, lang),
            width=lang.number(taken.taken, 1),
            length=lang.number(taken.depth, 1),
        )
    return lang.say(
        "{count} {kind} at {edge}, {depth} mm deep: {taken} mm of cloth in all",
        count=taken.count,
        kind=lang.say(PLEATS[taken.kind]),
        edge=edge_name(taken.edge, lang),
        depth=lang.number(taken.depth, 1),
        taken=lang.number(taken.taken, 1),
    )


def draw_casing(one: FittedCasing, lang: Words) -> Drawing:
    """A casing cut across: the fold on top, elastic or cord inside, stitches, the turn below."""
    said = _casing_words(one, lang)
    below = [line for words in said for line in wrap(words, WIDTH - 4, LETTERS)]
    foot = STRIP + LINE * len(below) + 6
    high = one.width + one.turn
    scale = min(reduction(1, high, 1, 44), 1.0) if high > 44 else 1.0
    canvas = Canvas(WIDTH, foot + (high + 12) * scale + 10, one.name, " ".join(said), lang)
    middle, top = WIDTH / 2, foot + (high + 8) * scale
    stitches, raw = top - one.width * scale, top - (one.width + min(one.turn, 6.0)) * scale
    wide = 5.0
    # From below up the outside, over the fold, down inside, and turned under.
    cloth = [
        (middle + wide, foot), (middle + wide, top), (middle - wide, top), (middle - wide, raw),
        (middle - wide + 2.4, raw), (middle - wide + 2.4, stitches + 1.5),
    ]  # fmt: skip
    canvas.path([polyline(cloth)], STRONG, css="glue")
    goods = one.goods * scale
    low = stitches + (one.width * scale - goods) / 2
    ring = polygon([
        (middle - 1.2, low), (middle + 1.4, low), (middle + 1.4, low + goods),
        (middle - 1.2, low + goods),
    ])  # fmt: skip
    tint = part_tint(3)
    canvas.path([ring], WIDE, fill=tint.fill, css=f"ink {tint.css}", closed=True)
    canvas.line((middle - wide - 3, stitches), (middle + wide + 3, stitches), NARROW, css="thin")
    dimension(canvas, (middle + wide, stitches), (middle + wide, top), -10, one.width, digits=1)
    dimension(canvas, (middle - wide, low), (middle - wide, low + goods), 10, one.goods, digits=1)
    for number, line in enumerate(below, 1):
        canvas.text((2, foot - 4 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Casing"), one.name, scale)
    return canvas.drawing()


def _casing_words(one: FittedCasing, lang: Words) -> list[str]:
    (cut,) = one.pieces
    words = [
        lang.say(
            "Fold along the hem line, turn {turn} mm under, sew {width} mm below the fold and "
            "leave a gap to thread through.",
            turn=lang.number(one.turn, 0),
            width=lang.number(one.width, 0),
        ),
        lang.say(
            "Cut {count} of {length} mm, {ends} mm of them for the ends.",
            count=one.count,
            length=lang.number(cut.length, 0),
            ends=lang.number(one.ends, 0),
        ),
    ]
    if one.gathers > 1.01:
        words.append(
            lang.say(
                "{edges}{space}mm of cloth lie in {length}{space}mm: {ratio} to one.",
                edges=lang.number(one.edges, 0),
                length=lang.number(one.length * one.count, 0),
                ratio=lang.number(one.gathers, 1),
                space=SPACE,
            )
        )
    return words
