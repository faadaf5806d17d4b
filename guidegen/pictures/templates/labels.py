"""Templates on the pages of a sheet in → where each label stands out.

A label stands inside its template, clear of every line, as large as there is room for; on a
template that runs over several pages it is whole on the best of them, and short on the others.
Where it does not fit inside, it stands beside the template with a leader to the cut line.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from math import hypot

from guidegen.geometry.outline.measures import nearest_share
from guidegen.geometry.outline.records import LineKind, Point
from guidegen.layout.records import Drawn
from guidegen.pictures.pen.label_fields import LabelField, middle_of
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.templates.line_words import is_clear
from guidegen.pictures.templates.notes import LEAST, KeyNote, NoteBlock, WordLine, block_of
from guidegen.pictures.templates.symbols import HandSymbol, hand_symbol
from guidegen.pictures.templates.words import cut_words, foam_words, half_words, label_text
from guidegen.words import Words as Language

SIZES = (6.0, 5.0, 4.2, LEAST)
"""mm; letter sizes that are tried, the largest first."""

WIDTHS = (90.0, 62.0, 44.0, 32.0)
"""mm; widths to which a full label is broken, tried one after the other."""

REACH = 70.0
"""mm around a template in which a label outside is looked for."""


@dataclass(frozen=True, slots=True)
class DrawnTemplate:
    """One template (or array of it) on one page."""

    drawn: Drawn
    count: int
    """How often it is drawn side by side."""
    area: Sequence[int]
    """Its cells on this page, without what a neighbouring page covers."""
    rings: Sequence[Sequence[Point]]
    """Its outlines on the window, flattened."""
    sizes: Sequence[Sequence[Drawn]] = ()
    """What each of several nested sizes draws; empty for one size."""

    @property
    def symbol(self) -> HandSymbol | None:
        """The picture of which way round it is cut; None where sizes differ."""
        # Nested sizes may differ: a pair in one, a single piece in another. Then no picture is
        # true of all.
        each = {hand_symbol(one[0].piece, one[0].serves) for one in self.sizes if one} or {
            hand_symbol(self.drawn.piece, self.drawn.serves)
        }
        return next(iter(each)) if len(each) == 1 else None

    def cut(self, lang: Language) -> str:
        """How many to cut; where sizes differ, the table says it."""
        each = [one[0] for one in self.sizes if one] or [self.drawn]
        words = {cut_words(drawn.serves, lang, flipped=drawn.flipped): None for drawn in each}
        return next(iter(words)) if len(words) == 1 else lang.say("how many to cut: see the table")


def label_blocks(
    placed: DrawnTemplate, materials: Mapping[str, str], foot: str, lang: Language
) -> Iterator[tuple[int, NoteBlock]]:
    """Blocks to try, the best first, each with a rank: 0 says everything."""
    drawn, count, cut = placed.drawn, placed.count, placed.cut(lang)
    piece = drawn.piece
    code = label_text(drawn.serves)
    foam = foam_words(piece, materials, lang)
    half = half_words(piece, lang)
    array = (
        lang.say("{count} templates, to trace several at once", count=count) if count > 1 else ""
    )
    side = lang.say("mirrored: right side") if drawn.flipped else ""
    # Largest letters first, and for each the widest lines: a label in two long lines is read
    # faster than in five short ones.
    for size, wide in product(SIZES, WIDTHS):
        # Chosen: about one step of lettering heights (a factor of the root of 2) below the name,
        # so that rank is seen at a glance.
        small = max(LEAST, size * 0.72)
        strong = (code, size * 1.8, 700), (piece.name, size, 600), (side, size, 600)
        plain = ((words, small, 400) for words in (half, foam, array, foot))
        block = block_of(
            *(
                WordLine(line, letters, weight)
                for words, letters, weight in (*strong, (cut, size, 600), *plain)
                for line in wrap(words, wide, letters, weight, most=3)
            ),
            symbol=placed.symbol,
        )
        # A word longer than the width stays whole, and the block is tried at a wider one instead.
        if block.words_width <= wide + 0.1:
            yield 0, block
    for size in SIZES[1:]:
        yield (
            1,
            block_of(
                WordLine(f"{code}  {piece.name}", size, 600),
                WordLine(side, LEAST),
                WordLine(f"{cut} · {foam}", LEAST),
                WordLine(half, LEAST),
                WordLine(array, LEAST),
                WordLine(foot, LEAST),
                symbol=placed.symbol,
            ),
        )
    yield (
        2,
        block_of(
            WordLine(f"{code}  {piece.name}", LEAST, 600),
            WordLine(cut, LEAST),
            symbol=placed.symbol,
        ),
    )
    yield 2, block_of(WordLine(f"{code}  {piece.name} · {cut} · {foam}", LEAST, 600))
    yield 3, block_of(WordLine(code, LEAST, 700), WordLine(cut, LEAST))
    yield 3, block_of(WordLine(code, LEAST, 700))


def outside_blocks(
    placed: DrawnTemplate, materials: Mapping[str, str], lang: Language
) -> Iterator[tuple[int, NoteBlock]]:
    """Blocks to try beside a template, the best first."""
    drawn, count, cut = placed.drawn, placed.count, placed.cut(lang)
    code, name = label_text(drawn.serves), drawn.piece.name
    foam = foam_words(drawn.piece, materials, lang)
    array = lang.say("drawn {count} times, to trace at once", count=count) if count > 1 else ""
    for size in (4.2, LEAST):
        yield (
            1,
            block_of(
                WordLine(f"{code}  {name}", size, 600),
                WordLine(f"{cut} · {foam}", LEAST),
                WordLine(array, LEAST),
                symbol=placed.symbol,
            ),
        )
    yield (
        2,
        block_of(
            WordLine(f"{code}  {name}", LEAST, 600), WordLine(cut, LEAST), symbol=placed.symbol
        ),
    )
    yield 3, block_of(WordLine(code, LEAST, 700))


def short_block(drawn: Drawn, size: float) -> NoteBlock:
    """Which template this is, for pages that show only a part."""
    return block_of(WordLine(f"{label_text(drawn.serves)}  {drawn.piece.name}", size, 600))


def place_inside(
    field: LabelField, placed: DrawnTemplate, blocks: Iterator[tuple[int, NoteBlock]]
) -> tuple[int, KeyNote] | None:
    """The first block that has room inside the template, level or upright."""
    room, near = field.inside(placed.area), middle_of(placed.area)
    # An array of tiny templates has no room in any of them.
    if room is None or near is None or placed.count > 1:
        return None
    for rank, block in blocks:
        for angle in (0.0, 90.0):
            width, height = block.width + 1.2, block.height + 1.2
            if angle:
                width, height = height, width
            # Near the middle of what this page shows of the template, not of all of it.
            centre = room.nearest(width, height, near)
            if centre:
                # White behind the words where a texture's hatch runs under them.
                lines = placed.drawn.piece.template.lines
                hatched = any(line.kind is LineKind.TEXTURE for line in lines)
                return rank, KeyNote(block, centre, angle, backed=hatched)
    return None


def place_outside(
    field: LabelField, placed: DrawnTemplate, blocks: Iterator[tuple[int, NoteBlock]]
) -> tuple[int, KeyNote] | None:
    """The first block that has room beside the template, with a leader to its outline."""
    points = [point for ring in placed.rings for point in ring]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    region = (left - REACH, low - REACH, right - left + 2 * REACH, high - low + 2 * REACH)
    room = field.outside(region)
    if room is None:
        return None
    middle, height = (left + right) / 2, (low + high) / 2
    free = field.off_templates()
    for rank, block in blocks:
        beside, above = block.width / 2 + 1, block.height / 2 + 1
        wishes = (
            # Below the template is where the packing keeps room for it.
            (middle, low - block.height / 2),
            (right + beside, height),
            (left - beside, height),
            (middle, high + above),
        )
        crossing: KeyNote | None = None
        for near in wishes:
            centre = room.nearest(block.width + 2, block.height + 2, near)
            if centre is None:
                break
            note = KeyNote(block, centre, leader=_leader(centre, block, placed.rings))
            # A leader over another template seems to come from it, and would be cut with it.
            if note.leader is None or is_clear(field, free, *note.leader):
                return rank, note
            crossing = crossing or note
        if crossing:
            return rank, crossing
    return None


def _leader(
    centre: Point, block: NoteBlock, rings: Sequence[Sequence[Point]]
) -> tuple[Point, Point] | None:
    """From the rim of the words to the nearest point of an outline; None where they touch."""
    # Leaders end before the air that keeps lines off words, or they would seem to touch them.
    half_width, half_height = block.width / 2 + 0.8, block.height / 2 + 0.8

    def rim(point: Point) -> Point:
        return (
            min(max(point[0], centre[0] - half_width), centre[0] + half_width),
            min(max(point[1], centre[1] - half_height), centre[1] + half_height),
        )

    best: tuple[float, Point, Point] | None = None
    for ring in rings:
        for start, end in pairwise(ring):
            tip = _nearest_on(start, end, centre)
            # Once more from the rim: the nearest point to it, not to the centre.
            tip = _nearest_on(start, end, rim(tip))
            away = hypot(tip[0] - rim(tip)[0], tip[1] - rim(tip)[1])
            if best is None or away < best[0]:
                best = (away, rim(tip), tip)
    # mm; a leader as short as its arrowhead says nothing that the place does not.
    if best is None or best[0] < 1.5:
        return None
    return best[1], best[2]


def _nearest_on(start: Point, end: Point, point: Point) -> Point:
    _, share = nearest_share(start, end, point)
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
