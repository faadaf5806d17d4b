"""What is seen of the finished thing in → one drawing of it, worn or standing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from guidegen.assembly.records import Seen, SeenLines
from guidegen.buildfile.read.content import ONE_SIZE
from guidegen.buildfile.records.guide import Guide
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.bodies.body import BODY
from guidegen.pictures.pen.canvas import INK, Canvas, Stroke
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.rounding import rounded_run
from guidegen.pictures.pen.tints import ACCENT, SOFT, STRONG, Tint, foam_tint
from guidegen.words import Words, msg

FRESH = Stroke(0.6, colour=ACCENT)


@dataclass(frozen=True, slots=True)
class SeenLinesWidths:
    """How wide the lines of a view are."""

    silhouette: Stroke
    outline: Stroke
    crease: Stroke
    marked: Stroke
    """Round what the picture is about."""


PAGE_LINES = SeenLinesWidths(Stroke(0.5), Stroke(0.3), Stroke(0.15), STRONG)
"""Of a view that has a place of its own."""
FINE_LINES = SeenLinesWidths(Stroke(0.3), Stroke(0.18), Stroke(0.1), FRESH)
"""Of a small view beside others."""
STRAP = Tint("fill-strap", "#98a1a5")
"""Belts: darker than any foam."""
LIMB = Stroke(0.25, colour=SOFT, cap="round")
TONE = 0.11
"""How much ink a tone of shade has. Our choice: three of them keep foam and lines apart in grey."""
PALE_TONE = 0.05
"""The same on the body, which stands back."""

TITLES: Mapping[str, str] = {
    "front": msg("From the front"),
    "three-quarter": msg("From the front and the left"),
    "back": msg("From the back"),
}


ANY_SIDE = msg("From where most of it is seen")


def view_title(view: str, lang: Words) -> str:
    """What a view is called."""
    return lang.say(TITLES.get(view, ANY_SIDE))


def draw_finished(seen: Seen, guide: Guide, kit: Kit, lang: Words) -> Drawing:
    """One view of the finished thing in one size."""
    materials = tuple(dict.fromkeys(piece.material for piece in kit.pieces))
    said = view_title(seen.view, lang)
    title = (
        said if kit.size == ONE_SIZE else lang.say("{view}, size {size}", view=said, size=kit.size)
    )
    names = {name: strap.name for name, strap in guide.straps.items()}
    names |= {name: harness.name for name, harness in guide.harnesses.items()}
    names |= {name: part.name for name, part in guide.parts.items()}
    shown = lang.listed([names[part] for part in seen.parts])
    description = (
        lang.say(
            "The finished thing as it is worn, drawn from its pieces. Seen are {parts}.",
            parts=shown,
        )
        if seen.figure
        else lang.say("The finished thing, drawn from its pieces. Seen are {parts}.", parts=shown)
    )
    canvas = Canvas(seen.width, seen.height, title, description, lang)
    paint_seen(canvas, seen, materials)
    return canvas.drawing()


def paint_seen(
    canvas: Canvas,
    seen: Seen,
    materials: tuple[str, ...],
    at: Point = (0.0, 0.0),
    lines: SeenLinesWidths = PAGE_LINES,
) -> None:
    """One view on a drawing, its lower left corner at `at`; `materials` are those of the kit."""
    with canvas.group(css="solid"):
        _paint(canvas, seen, materials, at, lines)


def _paint(
    canvas: Canvas,
    seen: Seen,
    materials: tuple[str, ...],
    at: Point,
    lines: SeenLinesWidths,
) -> None:
    def rings(lines: SeenLines) -> list[Run]:
        return _rings(lines, at)

    # From the back forward, each over what it hides: the body and its shade, foam and its shade,
    # then lines from the faintest to the strongest.
    canvas.path(rings(seen.figure), None, fill=BODY, css="body-outline", closed=True)
    for shade in seen.soft:
        canvas.path(rings(shade), None, fill=INK, css="shade", closed=True, opacity=PALE_TONE)
    for fill in seen.fills:
        tint = foam_tint(materials, fill.name) if fill.name in materials else STRAP
        if fill.paint:
            # A page can show it painted: its script finds the colour here.
            with canvas.group(data={"paint": fill.paint}):
                canvas.path(rings(fill.rings), None, fill=tint.fill, css=tint.css, closed=True)
        else:
            canvas.path(rings(fill.rings), None, fill=tint.fill, css=tint.css, closed=True)
    for shade in seen.shades:
        canvas.path(rings(shade), None, fill=INK, css="shade", closed=True, opacity=TONE)
    canvas.path(_lines(seen.limbs, at), LIMB, css="thin")
    canvas.path(_lines(seen.creases, at), lines.crease, css="ink")
    canvas.path(_lines(seen.outlines, at), lines.outline, css="ink")
    canvas.path(_lines(seen.silhouette, at), lines.silhouette, css="ink")
    canvas.path(_lines(seen.marked, at), lines.marked, css="accent")


COLUMNS = 4
"""Views in a row of the sheet of all sides."""


def draw_around(seen: Sequence[Seen], kit: Kit, lang: Words) -> Drawing:
    """All sides on one sheet, row by row from the front on to the thing's left.

    Each view is a group with the angle in degrees and its place on the sheet: a page shows them
    one after the other.
    """
    wide, high = (max(getattr(view, side) for view in seen) for side in ("width", "height"))
    rows = -(-len(seen) // COLUMNS)
    said = lang.say("From all sides")
    title = (
        said if kit.size == ONE_SIZE else lang.say("{view}, size {size}", view=said, size=kit.size)
    )
    words = lang.say(
        "The finished thing seen from {count} sides, a step to its left each time.", count=len(seen)
    )
    canvas = Canvas(COLUMNS * wide, rows * high, title, words, lang)
    materials = tuple(dict.fromkeys(piece.material for piece in kit.pieces))
    for number, view in enumerate(seen):
        x, row = (number % COLUMNS) * wide, number // COLUMNS
        box = " ".join(f"{one:g}" for one in (x, row * high, wide, high))
        turn = f"{number * 360 / len(seen):g}"
        with canvas.group(data={"turn": turn, "box": box}):
            paint_seen(canvas, view, materials, (x, (rows - 1 - row) * high))
    return canvas.drawing()


OFF = 0.07
"""mm that a point of a view may lie beside what it shows: less than its thinnest line is wide."""


def _rings(rings: SeenLines, at: Point) -> list[Run]:
    return [_run(ring, at, closed=True) for ring in rings if len(ring) > 2]


def _lines(lines: SeenLines, at: Point) -> list[Run]:
    """Lines; those that end where they begin have no corner there."""
    return [
        _run(line[:-1], at, closed=True) if line[0] == line[-1] else _run(line, at, closed=False)
        for line in lines
        if len(line) > 1
    ]


def _run(line: tuple[Point, ...], at: Point, *, closed: bool) -> Run:
    x, y = at
    return rounded_run([(a + x, b + y) for a, b in line], OFF, closed=closed)
