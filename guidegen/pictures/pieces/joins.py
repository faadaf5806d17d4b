"""Kit in → which parts join to which out: seams and layers as lines between labelled boxes."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from guidegen.geometry.outline.measures import segment_point
from guidegen.geometry.outline.records import Cubic, Point
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pen.canvas import INK, Canvas, Stroke
from guidegen.pictures.pen.frames import polyline
from guidegen.pictures.pen.label_room import LabelBox
from guidegen.pictures.pen.lettering import CAP_HEIGHT, shorten, text_width, wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import NARROW, PAPER, SOFT, foam_tint
from guidegen.pictures.pieces.graph_layout import NameGroup, group_names
from guidegen.pictures.pieces.rows import group_caption
from guidegen.units import mm_text
from guidegen.words import SPACE, Words

WIDTH = 160.0
"""mm."""
BOX, HIGH = 35.0, 11.0
"""mm; size of a box."""
OWN = 4.6
"""mm by which a box grows downward for seams between its own edges."""
MOST_HEIGHT = 190.0
"""mm of one drawing; what fits the booklet's smaller papers without being made smaller."""
ROW = 14.0
"""mm from one box to the one below."""
COLUMNS = 3
"""Columns in a group; more would leave no room for words on the lines."""
SPACING = (WIDTH - BOX - 4) / (COLUMNS - 1)
"""mm from one column to the next."""
LETTERS = 3.4
"""mm; least size of words: 7 pt in a booklet of half sheets."""
ALONG = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
"""Where on a line its words may stand, best first: shares of its way. Our choice."""
LAYER = Stroke(0.9)
"""One part glued on another is a thick line that ends in a dot on the upper one."""


@dataclass(frozen=True, slots=True)
class _Join:
    """Two parts and how they join."""

    first: str
    second: str
    words: str
    layer: bool


@dataclass(frozen=True, slots=True)
class _Part:
    """What stands in one drawing: groups of joined parts, and parts that join to no other."""

    groups: tuple[NameGroup, ...]
    grown: frozenset[str]
    """Parts with seams between their own edges, for which their boxes grow."""
    alone: tuple[str, ...] = ()

    @property
    def foot(self) -> float:
        """mm below the groups: title, key, rows of parts that join to no other."""
        lines = (len(self.alone) + 3) // 4
        return STRIP + 9 + OWN + (lines * (HIGH + OWN + 2) + 6 if lines else 0)

    @property
    def height(self) -> float:
        """mm."""
        return self.foot + _place(self.groups, self.grown)[1] + 4

    @property
    def names(self) -> set[str]:
        """All its parts."""
        return {name for group in self.groups for column in group.columns for name in column} | {
            *self.alone
        }


def draw_joins(kit: Kit, prefix: str, lang: Words) -> tuple[Drawing, ...]:
    """The parts of a kit as boxes, joined by seams (double lines) and layers (thick lines).

    A seam between two edges of one part stands in its box; parts that join to no other stand in
    rows below. A kit of many parts has several drawings, so that each prints as large as it is
    drawn. None for a kit without joins.
    """
    parts = list(dict.fromkeys(piece.part for piece in kit.pieces))
    joins = _joins(kit)
    if not joins:
        return ()
    # A seam of a part with itself is no line between boxes; it stands in its box.
    between = [join for join in joins if join.first != join.second]
    groups = group_names(parts, [(join.first, join.second) for join in between], COLUMNS)
    drawn = [group for group in groups if len(group.columns) > 1]
    alone = [group.columns[0][0] for group in groups if len(group.columns) == 1]
    alone.sort(key=parts.index)
    grown = frozenset(join.first for join in joins if join.first == join.second)
    shared = _share_out(drawn, alone, grown)
    return tuple(
        _draw_part(
            kit,
            part,
            # Joined parts are in one group, so the first of a join tells where both are.
            [join for join in joins if join.first in part.names],
            f"{prefix}-joins" + (f"-{number}" if number > 1 else ""),
            f" ({number}/{len(shared)})" if len(shared) > 1 else "",
            lang,
        )
        for number, part in enumerate(shared, 1)
    )


def _share_out(
    groups: Sequence[NameGroup], alone: Sequence[str], grown: frozenset[str]
) -> list[_Part]:
    """Groups in their order, as many in a drawing as its height allows."""
    shared = [_Part((), grown)]
    for group in groups:
        more = _Part((*shared[-1].groups, group), grown)
        # A group that alone is too high stays whole: lines must not end at a page's rim.
        if more.height > MOST_HEIGHT and shared[-1].groups:
            more = _Part((group,), grown)
            shared.append(more)
        shared[-1] = more
    last = _Part(shared[-1].groups, grown, tuple(alone))
    # Parts that join to no other go on a drawing of their own rather than push groups apart.
    if last.height > MOST_HEIGHT and last.groups:
        return [*shared, _Part((), grown, tuple(alone))]
    return [*shared[:-1], last]


def _draw_part(  # noqa: PLR0917 - a drawing, its name and its place among others
    kit: Kit, part: _Part, joins: list[_Join], name: str, place: str, lang: Words
) -> Drawing:
    spots, used = _place(part.groups, part.grown)
    foot, alone = part.foot, list(part.alone)
    canvas = Canvas(
        WIDTH,
        foot + used + 4,
        lang.say("Which parts join") + place,
        _describe(kit, joins, alone, lang),
        lang,
    )
    at = {name: (x, foot + y) for name, (x, y) in spots.items()}
    with canvas.group(css="joins", id=name):
        # Lines first: boxes cover their ends.
        _draw_lines(canvas, [join for join in joins if join.first != join.second], at)
        for box, point in at.items():
            _draw_box(canvas, kit, box, point, joins)
    _draw_alone(canvas, kit, alone, foot - OWN - 6, joins)
    _draw_key(canvas, STRIP + 1.5)
    count = lang.say("{joins} between {parts} parts", joins=len(joins), parts=len(part.names))
    title_strip(canvas, lang.say("Joins") + place, count, None)
    return canvas.drawing()


def _joins(kit: Kit) -> list[_Join]:
    """Seams first, then the layers of stacks, each with its words."""
    joins = []
    for seam in kit.seams:
        words = f"{mm_text(seam.second_length)}{SPACE}mm"
        if seam.copies > 1:
            words = f"{seam.copies} × {words}"
        joins.append(_Join(seam.first.part, seam.second.part, words, layer=False))
    for stack in kit.stacks:
        for under, upper in pairwise(stack.layers):
            words = f"{stack.copies} ×" if stack.copies > 1 else ""
            joins.append(_Join(under.part, upper.part, words, layer=True))
    return joins


def _place(groups: Sequence[NameGroup], grown: frozenset[str]) -> tuple[dict[str, Point], float]:
    """Lower left corners of all boxes as they stand before they grow downward, and the height that
    they take; first group on top."""
    spots: dict[str, Point] = {}
    if not groups:
        return {}, 0.0
    names = (name for group in groups for column in group.columns for name in column)
    rows = {name: ROW + (OWN if name in grown else 0.0) for name in names}
    level = 0.0
    # From the foot up, so that the first and largest group stands on top.
    for group in reversed(groups):
        heights = [sum(rows[name] for name in column) for column in group.columns]
        tallest = max(heights)
        for number, column in enumerate(group.columns):
            # Short columns stand in the middle of the tallest: lines stay nearly level.
            foot = level + (tallest - heights[number]) / 2
            for name in reversed(column):
                foot += rows[name]
                spots[name] = (2 + number * SPACING, foot - ROW)
        level += tallest + 2
    return spots, level - (ROW - HIGH) - 2


def _draw_box(canvas: Canvas, kit: Kit, part: str, corner: Point, joins: list[_Join]) -> None:
    pieces = list(kit.built(part))
    materials = tuple(dict.fromkeys(piece.material for piece in kit.pieces))
    tint = foam_tint(materials, pieces[0].material)
    x, y = corner
    own = [join.words for join in joins if join.first == join.second == part]
    grow = OWN if own else 0.0
    canvas.rectangle(
        x, y - grow, BOX, HIGH + grow, Stroke(0.35), fill=tint.fill, css=f"{tint.css} ink"
    )
    words = group_caption(pieces)
    room = BOX - 3
    names = wrap(pieces[0].name, room, LETTERS, most=2)
    # mm above the foot of the box: for a name of two lines the label moves up within it.
    high, *levels = (6.2, 2.0) if len(names) == 1 else (7.3, 4.1, 0.9)
    canvas.text((x + 2, y + high), shorten(words, room, 4, 600), 4, weight=600, css="label strong")
    for level, name in zip(levels, names, strict=True):
        canvas.text((x + 2, y + level), name, LETTERS, css="label")
    if own:
        words = canvas.lang.say("edge to edge: {list}", list=", ".join(own))
        canvas.text((x + 2, y - 2.4), shorten(words, room, LETTERS), LETTERS, css="label")


def _draw_lines(canvas: Canvas, joins: list[_Join], at: dict[str, Point]) -> None:
    """All joins; several between the same two parts lie beside one another."""
    counts: dict[frozenset[str], int] = {}
    labels: list[tuple[str, Cubic]] = []
    for join in joins:
        pair = frozenset((join.first, join.second))
        number = counts.get(pair, 0)
        counts[pair] = number + 1
        curve = _route(at[join.first], at[join.second], number)
        run = (curve,)
        if join.layer:
            canvas.path([run], LAYER, css="glue")
            canvas.circle(curve.end, 1.1, None, fill=INK, css="arrow")
        else:
            canvas.path([run], Stroke(1.3), css="ink")
            canvas.path([run], Stroke(0.8, colour=PAPER), css="paper-line")
        if join.words:
            labels.append((join.words, curve))
    # Words last, over all lines: none runs through them.
    taken = [LabelBox((x + BOX / 2, y + HIGH / 2), BOX, HIGH) for x, y in at.values()]
    for words, curve in labels:
        box = _clear_place(words, curve, taken)
        taken.append(box)
        (x, y), width = box.centre, box.width
        canvas.rectangle(x - width / 2, y - 1.8, width, 3.6, None, fill=PAPER, css="paper")
        drop = LETTERS * CAP_HEIGHT / 2
        canvas.text((x, y - drop), words, LETTERS, anchor="middle", css="label")


def _clear_place(words: str, curve: Cubic, taken: Sequence[LabelBox]) -> LabelBox:
    """Room for words on a line: the first place that is clear of boxes and other words, else where
    least of them is covered."""
    width = text_width(words, LETTERS) + 1.2
    places = [LabelBox(segment_point(curve, share), width, 3.6) for share in ALONG]
    return min(places, key=lambda place: sum(_common(place, other) for other in taken))


def _common(one: LabelBox, other: LabelBox) -> float:
    """mm² that two boxes share."""
    (x, y), (x2, y2) = one.centre, other.centre
    across = (one.width + other.width) / 2 - abs(x - x2)
    up = (one.height + other.height) / 2 - abs(y - y2)
    return min(across, one.width) * min(up, one.height) if across > 0 and up > 0 else 0.0


def _route(first: Point, second: Point, number: int) -> Cubic:
    """A curve between two boxes."""
    # 3 mm from one to the next: level, two above, a fourth below. Chosen: of more joins between
    # the same two parts some lie over one another.
    shift = (number % 3) * 3.0 - (3.0 if number > 2 else 0.0)
    (x0, y0), (x1, y1) = first, second
    if abs(x0 - x1) < 1:
        # Beside the boxes: at the right where there is room, else at the left.
        right = x0 + BOX + 20 < WIDTH
        bend = (14.0 + 4 * number) * (1 if right else -1)
        edge = BOX if right else 0.0
        start, end = (x0 + edge, y0 + HIGH / 2), (x1 + edge, y1 + HIGH / 2)
        return Cubic(start, (start[0] + bend, start[1]), (end[0] + bend, end[1]), end)
    way = 1.0 if x1 > x0 else -1.0
    start = (x0 + (BOX if way > 0 else 0), y0 + HIGH / 2 + shift)
    end = (x1 + (0 if way > 0 else BOX), y1 + HIGH / 2 + shift)
    # Handles half way across: curves leave and reach boxes level.
    pull = abs(end[0] - start[0]) * 0.5 * way
    return Cubic(start, (start[0] + pull, start[1]), (end[0] - pull, end[1]), end)


def _draw_alone(canvas: Canvas, kit: Kit, parts: list[str], top: float, joins: list[_Join]) -> None:
    """Parts that join to no other, four in a row below."""
    if not parts:
        return
    words = canvas.lang.say("no seam or layer with another part")
    canvas.text((2, top), words, LETTERS, colour=SOFT, css="label soft")
    step = (WIDTH - 4 - BOX) / 3
    for number, part in enumerate(parts):
        row, column = divmod(number, 4)
        corner = (2 + column * step, top - 3 - HIGH - row * (HIGH + OWN + 2))
        _draw_box(canvas, kit, part, corner, joins)


def _draw_key(canvas: Canvas, y: float) -> None:
    run = polyline([(2, y + 1.2), (14, y + 1.2)])
    canvas.path([run], Stroke(1.3), css="ink")
    canvas.path([run], Stroke(0.8, colour=PAPER), css="paper-line")
    canvas.text((17, y), canvas.lang.say("seam, with its length"), 3.4, css="label")
    canvas.path([polyline([(58, y + 1.2), (70, y + 1.2)])], LAYER, css="glue")
    canvas.circle((70, y + 1.2), 1.1, None, fill=INK, css="arrow")
    words = canvas.lang.say("glued on: the dot is on the upper layer")
    canvas.text((73, y), words, 3.4, css="label")
    canvas.line((0, y + 6), (WIDTH, y + 6), NARROW, css="thin")


def _describe(kit: Kit, joins: list[_Join], alone: list[str], lang: Words) -> str:
    names = {piece.part: f"{piece.label} {piece.name}" for piece in reversed(kit.pieces)}
    listed = "; ".join(
        lang.say("{upper} is glued on {lower}", upper=names[join.second], lower=names[join.first])
        if join.layer
        else lang.say(
            "{first} is joined to {second}, {length}",
            first=names[join.first],
            second=names[join.second],
            length=join.words,
        )
        for join in joins
    )
    if not alone:
        return f"{listed}."
    others = ", ".join(names[part] for part in alone)
    return f"{listed}. {lang.say('No seam or layer with another part: {list}.', list=others)}"
