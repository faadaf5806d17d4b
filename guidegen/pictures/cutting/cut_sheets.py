"""Cut plan in → one drawing for each foam sheet out, to scale, with everything named."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.areas import widest_spot
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.records import CutPlan, CutSheet, Placed
from guidegen.pictures.cutting.notes import Ground, draw_note, place_note
from guidegen.pictures.cutting.offcuts import largest_offcut
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.dimensions import dimension, leader, scale_bar
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.hatches import fill_tint
from guidegen.pictures.pen.label_places import Rings, inside
from guidegen.pictures.pen.label_room import LabelBox, MapRoom
from guidegen.pictures.pen.labels import write_label
from guidegen.pictures.pen.lettering import CAP_HEIGHT, LEAST, text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction, scale_words
from guidegen.pictures.pen.spread import spread_levels
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import CHAIN, PAPER, SOFT, WIDE, Tint, part_tint
from guidegen.pictures.pieces.interlocks import draw_interlock, interlocks
from guidegen.units import mm_text
from guidegen.words import Words

WIDTH = 160.0
"""mm; every cut-sheet drawing is this wide."""
LEFT, RIGHT, TOP, FOOT = 13.0, 16.0, 3.0, 21.0
"""mm kept around the sheet: dimensions, leaders, scale bar."""
MOST_HEIGHT = 80.0
"""mm; room for the sheet itself: two drawings stand on a page of a booklet, as large as drawn."""
BESIDE_DIMENSION, ABOVE_DIMENSION = 5.4, 3.2
"""mm left of the sheet and below it that are free: its sides are told beyond."""
LABEL_SIZES = (5.0, 4.2, 3.5, LEAST)
"""mm; a label takes the largest in which it fits."""


@dataclass(frozen=True, slots=True)
class _Copy:
    """One piece as it lies on the drawing."""

    piece: Piece
    rings: tuple[Run, ...]
    flat: Rings
    """The rings as points, outline first."""


def draw_cut_sheets(
    plan: CutPlan,
    kit: Kit,
    prefix: str,
    names: Mapping[str, str],
    lang: Words,
    *,
    stock: Stock | None = None,
) -> tuple[Drawing, ...]:
    """One SVG for each sheet of `plan`, in order.

    `prefix` keeps ids unique in a document; `names` gives materials' names by id; `stock` tells
    which sheets have interlocking rims.
    """
    name = names.get(plan.material, plan.material)
    teeth = interlocks(stock, plan.material)
    return tuple(
        _draw_sheet(plan, number, kit, name, f"{prefix}-{plan.material}-{number}", lang, teeth)
        for number in range(1, len(plan.sheets) + 1)
    )


def _draw_sheet(  # noqa: PLR0917 - a sheet, its words and its id
    plan: CutPlan,
    number: int,
    kit: Kit,
    material: str,
    id: str,
    lang: Words,
    teeth: Mapping[str, float],
) -> Drawing:
    sheet = _lying(plan.sheets[number - 1])
    scale = _scale(sheet)
    height = sheet.height * scale + TOP + FOOT
    share = sheet.used / (sheet.width * sheet.height)
    count = lang.say("sheet {number} of {count}", number=number, count=len(plan.sheets))
    canvas = Canvas(
        WIDTH,
        height,
        lang.say("Cut plan, {material}, {sheet}", material=material, sheet=count),
        _describe(sheet, kit, f"{material}, {count}", lang),
        lang,
    )
    origin = (LEFT, FOOT)
    pieces = {piece.key: piece for piece in kit.pieces}
    tints = _tints(kit)
    rim = draw_interlock(
        canvas,
        origin,
        (sheet.width * scale, sheet.height * scale),
        teeth.get(sheet.name, 0) * scale,
    )
    canvas.rectangle(
        *origin, sheet.width * scale, sheet.height * scale, None, fill=PAPER, css="paper"
    )
    with canvas.group(css="sheet", id=id):
        offcut = _draw_offcut(canvas, sheet, pieces, scale)
        copies = [_copy(pieces[placed.piece], placed, scale) for placed in sheet.placed]
        # All foam before any label: a neighbour must not paint over one.
        for copy in copies:
            _draw_copy(canvas, copy, tints[copy.piece.part])
        bare = [copy for copy in copies if not _label(canvas, copy, copies, tints)]
        _draw_notes(canvas, bare, copies, sheet, scale, rim, offcut)
    canvas.rectangle(*origin, sheet.width * scale, sheet.height * scale, WIDE, css="ink")
    _draw_sizes(canvas, sheet, scale, toothed=rim > 0)
    used = lang.say("{material}, {share} used", material=material, share=lang.percent(share))
    title_strip(canvas, count, used, scale)
    return canvas.drawing()


def _scale(sheet: CutSheet) -> float:
    return reduction(sheet.width, sheet.height, WIDTH - LEFT - RIGHT, MOST_HEIGHT)


def _lying(sheet: CutSheet) -> CutSheet:
    """A sheet that is longer than wide turned a quarter to the left, where it is drawn larger so:
    what comes off a roll would else be too small to be labelled."""
    if sheet.height <= sheet.width:
        return sheet
    turned = tuple(
        replace(placed, x=sheet.height - placed.y, y=placed.x, angle=placed.angle + 90)
        for placed in sheet.placed
    )
    lying = replace(sheet, width=sheet.height, height=sheet.width, placed=turned)
    return lying if _scale(lying) > _scale(sheet) else sheet


def _tints(kit: Kit) -> dict[str, Tint]:
    """A tint for each part, the same on every sheet of the kit."""
    parts = dict.fromkeys(piece.part for piece in kit.pieces)
    return {part: part_tint(number) for number, part in enumerate(parts)}


def _copy(piece: Piece, placed: Placed, scale: float) -> _Copy:
    frame = Frame(
        scale, LEFT + placed.x * scale, FOOT + placed.y * scale, placed.angle, placed.flipped
    )
    rings = frame.runs((piece.shape.ring(), *piece.shape.holes))
    return _Copy(piece, rings, [flatten(ring, 0.1) for ring in rings])


def _draw_copy(canvas: Canvas, copy: _Copy, tint: Tint) -> None:
    piece = copy.piece
    with canvas.group(css=f"piece piece-{piece.key}", title=f"{piece.label}, {piece.name}"):
        fill_tint(canvas, copy.rings, tint)
        canvas.path(copy.rings, Stroke(0.35), css="ink", closed=True)


def _label(canvas: Canvas, copy: _Copy, copies: list[_Copy], tints: Mapping[str, Tint]) -> bool:
    """Write a label on the foam, or into an empty hole; whether there is room for it."""
    tint = tints[copy.piece.part]
    # A plate under the label only where there is a hatch.
    ground = tint if tint.spacing else None
    label = copy.piece.label
    if write_label(canvas, label, copy.flat, LABEL_SIZES, ground=ground):
        return True
    for hole in copy.flat[1:]:
        # A hole may hold another piece of the plan: one point of it tells, as pieces do not cross.
        empty = not any(inside([hole], other.flat[0][0]) for other in copies if other is not copy)
        if empty and write_label(canvas, label, [hole], LABEL_SIZES):
            return True
    return False


def _draw_notes(  # noqa: PLR0917 - what lies on the drawing
    canvas: Canvas,
    unlabelled: list[_Copy],
    copies: list[_Copy],
    sheet: CutSheet,
    scale: float,
    rim: float,
    offcut: "_OffcutPlace | None",
) -> None:
    """One leader for each label that found no room: to a place beside its foam, where it crosses
    no other piece; only where there is none, over the others to the margin.
    """
    width, height = sheet.width * scale, sheet.height * scale
    edges = [_rectangle(LEFT, FOOT, width, height)]
    if rim:
        edges.append(_rectangle(LEFT - rim, FOOT - rim, width + 2 * rim, height + 2 * rim))
    if offcut:
        edges.append(offcut.frame)
    left, right = LEFT - BESIDE_DIMENSION, canvas.width
    low, high = FOOT - ABOVE_DIMENSION, canvas.height
    centre = ((left + right) / 2, (low + high) / 2)
    room = MapRoom(LabelBox(centre, right - left, high - low))
    if offcut and offcut.words:
        room.taken.append(offcut.words)
    ground = Ground([copy.flat for copy in copies], edges)
    labels: dict[str, list[Rings]] = {}
    for copy in unlabelled:
        labels.setdefault(copy.piece.label, []).append(copy.flat)
    homeless: list[tuple[str, Point]] = []
    for label, rings in sorted(labels.items(), key=lambda item: (len(item[1]), item[0])):
        note = place_note(label, rings, ground, room)
        if note is None:
            homeless += [(label, widest_spot(one, 0.2)[0]) for one in rings]
        else:
            room.add(note.box, note.leader)
            draw_note(canvas, note)
    _draw_leaders(canvas, homeless, sheet, scale, rim)


def _rectangle(x: float, y: float, width: float, height: float) -> list[Point]:
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)]


def _draw_leaders(
    canvas: Canvas, notes: list[tuple[str, Point]], sheet: CutSheet, scale: float, rim: float
) -> None:
    """One leader for each label that found no room, from its rightmost piece to the margin."""
    counts = Counter(label for label, _ in notes)
    targets = {
        # The rightmost of all with one label: its leader is the shortest to the margin.
        label: max((point for other, point in notes if other == label))
        for label in sorted(counts)
    }
    edge = LEFT + sheet.width * scale + rim
    order = sorted(targets.items(), key=lambda item: (item[1][1], item[0]))
    levels = spread_levels([tip[1] for _, tip in order], 4.5)
    # Levels spread about their tips may reach below the sheet, where the dimensions stand.
    lift = max(0.0, FOOT + 1.5 - levels[0]) if levels else 0.0
    for (label, tip), level in zip(order, levels, strict=True):
        at = leader(canvas, tip, (edge + 1.5, level + lift), length=1.5)
        words = label if counts[label] == 1 else f"{label} × {counts[label]}"
        canvas.text(
            (at[0] - 0.4, at[1] - LEAST * CAP_HEIGHT / 2), words, LEAST, weight=600, css="label"
        )


@dataclass(frozen=True, slots=True)
class _OffcutPlace:
    """The rectangle that stays free."""

    frame: list[Point]
    words: LabelBox | None
    """Where its size is written; None where it has no room."""


def _draw_offcut(
    canvas: Canvas, sheet: CutSheet, pieces: Mapping[str, Piece], scale: float
) -> _OffcutPlace | None:
    """Show the largest level rectangle that stays free, where it is worth keeping."""
    rings = [
        flatten(Frame(1, p.x, p.y, p.angle, p.flipped).run(pieces[p.piece].shape.ring()), 0.2)
        for p in sheet.placed
    ]
    # In mm of foam, not of the drawing: what is worth keeping depends on no scale.
    found = largest_offcut(rings, sheet.width, sheet.height)
    if found is None:
        return None
    x, y, width, height = found
    left, low = LEFT + x * scale, FOOT + y * scale
    canvas.rectangle(left, low, width * scale, height * scale, CHAIN, css="thin offcut")
    words = canvas.lang.say(
        "offcut {width} × {height}", width=mm_text(width), height=mm_text(height)
    )
    frame, long = _rectangle(left, low, width * scale, height * scale), text_width(words, LEAST) + 1
    level = long <= width * scale
    # Neither way fits: the frame alone still shows what is left.
    if not level and long > height * scale:
        return _OffcutPlace(frame, None)
    centre = (left + width * scale / 2, low + height * scale / 2)
    drop = LEAST * CAP_HEIGHT / 2
    at = (centre[0], centre[1] - drop) if level else (centre[0] + drop, centre[1])
    canvas.text(
        at, words, LEAST, anchor="middle", angle=0 if level else 90, colour=SOFT, css="label soft"
    )
    sides = (long, LEAST) if level else (LEAST, long)
    return _OffcutPlace(frame, LabelBox(centre, *sides))


def _draw_sizes(canvas: Canvas, sheet: CutSheet, scale: float, *, toothed: bool) -> None:
    """Width, height, and the bar for scale."""
    right, top = LEFT + sheet.width * scale, FOOT + sheet.height * scale
    lang = canvas.lang
    dimension(canvas, (LEFT, FOOT), (right, FOOT), -6, sheet.width)
    dimension(canvas, (LEFT, FOOT), (LEFT, top), 6, sheet.height)
    scale_bar(canvas, LEFT + 1, STRIP + 0.6, scale)
    words = (
        lang.say("{sheet}: usable area within its teeth; dimensions in mm", sheet=sheet.name)
        if toothed
        else lang.say("{sheet}: usable area; dimensions in mm", sheet=sheet.name)
    )
    # A narrow sheet ends before its bar and these words do.
    bar = LEFT + 1 + 100 * scale + text_width("100 mm", LEAST) / 2 + 2
    end = max(right, bar + text_width(words, LEAST))
    canvas.text((end, STRIP + 0.8), words, LEAST, anchor="end", colour=SOFT, css="label soft")


def _describe(sheet: CutSheet, kit: Kit, title: str, lang: Words) -> str:
    """The text alternative: how large, what lies on it, how much is used."""
    pieces = {piece.key: piece for piece in kit.pieces}
    counts = Counter(pieces[placed.piece].label for placed in sheet.placed)
    names = {piece.label: piece.name for piece in kit.pieces}
    listed = ", ".join(
        f"{label} {names[label]}" + (f" {_times(count, lang)}" if count > 1 else "")
        for label, count in counts.items()
    )
    scale = scale_words(_scale(sheet), lang)
    return lang.say(
        "{title}: {width} by {height} mm usable, {share} used, drawn {scale}. Holds {list}.",
        title=title,
        width=mm_text(sheet.width),
        height=mm_text(sheet.height),
        share=lang.percent(sheet.used / (sheet.width * sheet.height)),
        scale=scale,
        list=listed or lang.say("nothing"),
    )


def _times(count: int, lang: Words) -> str:
    return lang.many("{n} time", "{n} times", count)
