"""Blocks of the key pages: how to print, how to join, line types, the table of templates."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from guidegen.geometry.outline.records import Arc, Line, LineKind, Point, Run
from guidegen.geometry.pieces.records import Piece
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.dimensions import arrow
from guidegen.pictures.pen.frames import polyline
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.linestyles import (
    CHECK,
    CREASE,
    CUT,
    FAR_FACE,
    FINE,
    HATCH,
    INNER,
    MARK,
    NEAR_FACE,
    TRIM,
    LineStyle,
)
from guidegen.pictures.templates.key.flow import paragraph
from guidegen.words import Words, msg

CHECK_WORDS = msg(
    "Measure the check line over all pages. It must have the length written beside it."
)


def print_words(lang: Words) -> Iterator[str]:
    """How to print, in steps."""
    yield lang.say(
        "Print these pages at 100 % (“actual size”). Turn “fit to page” and “shrink” off."
    )
    yield lang.say(
        "Measure one of the two squares on every page, both ways: 50 mm with a metric ruler, "
        "2 in with an inch ruler. Is a side off by more than half a millimetre (1/64 in)? "
        "Do not use that page. Print it again."
    )
    yield lang.say("Keep these pages with the booklet of the same version.")


def join_words(lang: Words, *, butt: bool = False) -> Iterator[str]:
    """How to join pages, in steps: overlapping, or `butt`, edge to edge."""
    yield lang.say(
        "A sheet of several pages has rows A, B, C … from the top and columns 1, 2, 3 … from "
        "the left. Lay the pages out as on the page map."
    )
    if butt:
        yield lang.say(
            "Cut every page along the dashed lines where it meets another. Lay the edges together "
            "so that the half figures make whole ones: each figure fits its own joint only, and "
            "names the page that it belongs to. Tape the joint."
        )
        yield lang.say(CHECK_WORDS)
        return
    yield lang.say(
        "Leave the page at the upper left whole. Cut the other pages along the dashed line at "
        "their left and upper edge, where it says so."
    )
    yield lang.say(
        "Lay a cut page on its neighbour so that the half figures make whole ones. Each figure "
        "fits its own joint only, and names the page that it belongs to. Tape or glue."
    )
    yield lang.say(CHECK_WORDS)


def trace_words(lang: Words) -> Iterator[str]:
    """How to use a template."""
    yield lang.say(
        "“As drawn”: lay the template on the material with its words up, and trace. “Flipped”: "
        "turn it over, words down, and trace. Copy every tick and line, and write the code on the "
        "piece."
    )
    yield lang.say(
        "The words are on the outer face: what you see is what the finished piece shows. "
        "Cut with a sharp blade, away from your hands. Read the cautions in the booklet first."
    )


def draw_join_picture(canvas: Canvas, corner: Point, width: float, *, butt: bool = False) -> None:
    """Two pages about to be joined; `corner` is the lower left, 30 mm high."""
    x, y = corner
    page, tall, lap = width * 0.38, 30.0, 0.0 if butt else 6.0
    # One outline over both pages, in mm from the match line and from the foot.
    # The same outline on both pages, each showing its part: so that one sees what has to meet.
    outline = [(-page * 0.6, 4), (-page * 0.45, 24), (page * 0.55, 27), (page * 0.4, 5)]
    for second in (False, True):
        left = x + (width - page if second else 0)
        # The match line lies in by the overlap on both pages: with one laid on the other, both
        # lines are one.
        match = left + (lap if second else page - lap)
        canvas.rectangle(left, y, page, tall, FINE)
        canvas.line((match, y), (match, y + tall), TRIM.stroke)
        with canvas.clipped(left, y, page, tall, f"join-{int(second)}"):
            points = [(match + px, y + py) for px, py in outline]
            canvas.path([polyline(points)], CUT.stroke)
        mine, other = ("2", "1") if second else ("1", "2")
        sign = 1.0 if second else -1.0
        _half(canvas, (match, y + 11), sign)
        canvas.text((match + sign * 3, y + 16.2), other, 3.2, anchor="middle", weight=700)
        canvas.text((match + sign * page * 0.3, y + 8), mine, 6, anchor="middle", weight=700)
    middle, lang = x + width / 2, canvas.lang
    upper = lang.say("2 meets") if butt else lang.say("2 goes")
    lower = "1" if butt else lang.say("on 1")
    canvas.text((middle, y + tall / 2 + 1.4), upper, 3.4, anchor="middle")
    canvas.text((middle, y + tall / 2 - 6), lower, 3.4, anchor="middle")
    low = y + tall / 2 - 1
    canvas.line((middle - 4, low), (middle + 4, low), CHECK)
    arrow(canvas, (middle - 4, low), (-1.0, 0.0))


def _half(canvas: Canvas, centre: Point, sign: float) -> None:
    """Half of a circle in a circle, open toward its match line."""
    for radius in (4.0, 2.0):
        canvas.path(
            [(Arc(centre, radius, 90 if sign < 0 else -90, 180),)], Stroke(0.35), css="register"
        )


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """One line type in the key."""

    style: LineStyle
    sample: str = "line"
    """line, ticks, texture or bevel."""


def key_entries(pieces: Sequence[Piece], *, joints: bool) -> Iterator[KeyEntry]:
    """The line types that these templates use."""
    shapes = [piece.template for piece in pieces]
    kinds = {line.kind for shape in shapes for line in shape.lines}
    yield KeyEntry(CUT)
    if any(piece.fold for piece in pieces):
        yield KeyEntry(CREASE)
    # In the order of the kinds, not of the pieces: keys of all guides list lines alike.
    for kind in LineKind:
        # A fold is drawn like a centre line and has its own entry above.
        if kind in kinds and not (kind is LineKind.CENTRE and any(p.fold for p in pieces)):
            yield KeyEntry(INNER[kind], "texture" if kind is LineKind.TEXTURE else "line")
    bevels = {bevel.direction for shape in shapes for bevel in shape.bevels}
    if "inward" in bevels:
        yield KeyEntry(FAR_FACE, "bevel")
    if bevels - {"inward"}:
        yield KeyEntry(NEAR_FACE, "bevel")
    if any(shape.marks for shape in shapes):
        yield KeyEntry(MARK, "ticks")
    # Paper is trimmed only where pages are joined.
    if joints:
        yield KeyEntry(TRIM)


def draw_key_entry(canvas: Canvas, corner: Point, width: float, entry: KeyEntry) -> float:
    """A sample and its meaning, from the upper left corner; returns y below, in mm."""
    x, y = corner
    wide = 24.0
    middle = y - 4.2
    style = entry.style
    match entry.sample:
        case "ticks":
            canvas.line((x, middle - 2), (x + wide, middle - 2), CUT.stroke)
            for shift in (-2.0, 0.0, 2.0):
                at = x + wide / 2 + shift
                canvas.line((at, middle - 2), (at, middle + 3), style.stroke)
        case "texture":
            box: Run = (
                Line((x, middle - 3), (x + wide, middle - 3)),
                Line((x + wide, middle - 3), (x + wide, middle + 3)),
                Line((x + wide, middle + 3), (x, middle + 3)),
                Line((x, middle + 3), (x, middle - 3)),
            )
            canvas.path(hatch_lines((box,), 45, 3.0), HATCH)
            canvas.path([box], style.stroke)
        case "bevel":
            canvas.line((x, middle + 2), (x + wide, middle + 2), CUT.stroke)
            canvas.line((x, middle - 1), (x + wide, middle - 1), style.stroke)
        case _:
            canvas.line((x, middle), (x + wide, middle), style.stroke)
    text_x = x + wide + 3
    # The meaning begins at the sample's top; a row is at least as high as its sample.
    below = paragraph(
        canvas, (text_x, y), width - wide - 3, canvas.lang.say(style.meaning), size=3.6
    )
    return min(below, y - 8.4) - 1.2
