"""The title strip at the foot of a template page: the data of a title block after ISO 7200.

ISO 7200:2004 asks for legal owner, identification number, date of issue, sheet number, title,
approval person, creator and document type (read in a secondary text).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import TemplatePage, TemplateSet
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import LEAST, shorten, text_width
from guidegen.pictures.pen.linestyles import FINE
from guidegen.pictures.pen.tints import SOFT
from guidegen.words import Words, msg

LABEL = 2.5
"""mm; letter size of the names of fields."""

PRINT_WORDS = msg("Print at 100 %, not “fit to page”. Measure both check squares before you cut.")


@dataclass(frozen=True, slots=True)
class SheetHead:
    """What every template page says about its guide."""

    title: str
    """Of the guide."""
    version: str
    date: str
    """Of issue, as the author writes it."""
    owner: str
    """Legal owner."""
    author: str
    """Who drew it."""
    approver: str
    licence: str
    address: str
    """Where the guide is found on the web; empty where it is not."""
    lang: Words


@dataclass(frozen=True, slots=True)
class StripField:
    """One field of the strip."""

    name: str
    value: str
    weight: int = 400
    size: float = 3.6
    """mm; letter size of the value."""
    share: float = 0.0
    """Part of the width that is left over that goes to this field."""

    @property
    def width(self) -> float:
        """mm that it needs."""
        return max(text_width(self.name, LABEL), text_width(self.value, self.size, self.weight)) + 3

    @property
    def beside(self) -> float:
        """mm from the left of its name to a value that begins beside it."""
        return text_width(self.name, LABEL) + 1.4

    @property
    def folded_width(self) -> float:
        """mm that it needs where its value has two lines, the first beside its name."""
        words = self.value.split(" ")
        return 3 + min(
            max(
                self.beside + text_width(" ".join(words[:at]), LEAST, self.weight),
                text_width(" ".join(words[at:]), LEAST, self.weight),
            )
            for at in range(len(words) + 1)
        )

    def lines(self, width: float) -> tuple[str, str]:
        """Its value in two lines, the first beside its name, in `width` mm; cut off at the end."""
        words = self.value.split(" ")
        # As many words as there is room for: what is left for the second line is then shortest.
        first = max(
            at
            for at in range(len(words) + 1)
            if not at or self.beside + text_width(" ".join(words[:at]), LEAST, self.weight) <= width
        )
        rest = shorten(" ".join(words[first:]), width, LEAST, self.weight)
        return " ".join(words[:first]), rest


def strip_fields(
    page: TemplatePage, templates: TemplateSet, head: SheetHead, kit: Kit, names: str
) -> tuple[list[StripField], list[StripField]]:
    """The two rows of fields: what this page is, and whose it is."""
    # Sheets are numbered from 1 in their order.
    sheet = templates.sheets[page.sheet - 1]
    several = sum(one.sheet == page.sheet for one in templates.pages) > 1
    lang = head.lang
    grid = (
        lang.say(
            "Sheet: row {row} of {rows}, column {column} of {columns}",
            row=page.row + 1,
            rows=sheet.rows,
            column=page.column + 1,
            columns=sheet.columns,
        )
        if several
        else lang.say("Sheet, whole")
    )
    upper = [
        StripField(lang.say("Title"), head.title, 600, 4.4),
        StripField(lang.say("Size"), kit.size, 700, 4.4),
        StripField(lang.say("On this page"), names, share=1.0),
        StripField(grid, f"{page.sheet}", 700, 4.4),
        StripField(lang.say("Page"), page_count(page.number, len(templates.pages), lang), 700, 4.4),
    ]
    return upper, lower_fields(head, kit, lang.say("Template sheet"))


def page_count(number: int, count: int, lang: Words) -> str:
    """'3 of 12'."""
    return lang.say("{number} of {count}", number=number, count=count)


def lower_fields(head: SheetHead, kit: Kit, kind: str) -> list[StripField]:
    """Whose page it is, and of which version."""
    lang = head.lang
    return [
        StripField(lang.say("Owner"), head.owner, share=1.0),
        StripField(lang.say("Creator"), head.author, share=1.0),
        StripField(lang.say("Approved"), head.approver, share=1.0),
        StripField(lang.say("Document type"), kind),
        StripField(lang.say("Identification"), f"{kit.guide}-{kit.size}"),
        StripField(lang.say("Date"), head.date),
        StripField(lang.say("Version"), head.version, 600),
    ]


def draw_strip(
    canvas: Canvas,
    corner: Point,
    width: float,
    rows: Sequence[Sequence[StripField]],
    *,
    deep: bool = False,
    squares: bool = True,
) -> None:
    """Draw the strip's rows from a lower left corner, `width` mm wide, and how to print above.

    A deep strip is narrow: each field gets a row of its own. Without `squares` the page has no
    check squares, and asks for none to be measured.
    """
    left, low = corner
    # Two rows of 6.5 mm and the words above them fill the strip of a page, 17 mm; twelve rows of
    # 4.1 mm fit a deep one, 56 mm (both in layout/paper/frame.py).
    height = 6.5
    if deep:
        rows = [[field] for row in rows for field in row]
        height = 4.1
    top = low + height * len(rows)
    for number, row in enumerate(rows):
        _draw_row(canvas, (left, top - height * (number + 1)), (width, height), row, deep=deep)
    for number in range(len(rows) + 1):
        y = low + height * number
        canvas.line((left, y), (left + width, y), FINE)
    lang = canvas.lang
    # A deep strip is too narrow for both sentences; its squares ask to be measured themselves.
    plain = deep or not squares
    words = lang.say("Print at 100 %, not “fit to page”.") if plain else lang.say(PRINT_WORDS)
    canvas.text((left + 0.8, top + 1.0), words, 3.8, weight=700)


LEAST_FIELD = 14.0
"""mm that a field keeps that is shortened: a few letters. Our choice."""


@dataclass(frozen=True, slots=True)
class FieldRoom:
    """What a field gets of its row."""

    width: float
    """mm."""
    folded: bool = False
    """Whether its value has two lines, the first beside its name."""


def field_rooms(row: Sequence[StripField], width: float) -> list[FieldRoom]:
    """The room of each field of a row: what is left over goes to their shares. Where there is too
    little, the longest values get two lines, and only then the longest are cut off: ISO 7200 wants
    owner, creator and approver on every sheet, so a long one leaves its room to the others.
    """
    widths = [field.width for field in row]
    folded: set[int] = set()
    for at in sorted(range(len(row)), key=lambda one: -widths[one]):
        if row[at].share and sum(widths) > width and row[at].folded_width < widths[at]:
            widths[at] = row[at].folded_width
            folded.add(at)
    spare = width - sum(widths)
    if spare < 0:
        widths = _levelled(row, widths, width)
    elif shares := sum(field.share for field in row):
        widths = [w + spare * one.share / shares for one, w in zip(row, widths, strict=True)]
    return [FieldRoom(wide, at in folded) for at, wide in enumerate(widths)]


def _levelled(row: Sequence[StripField], widths: Sequence[float], width: float) -> list[float]:
    """Widths in mm where those that may be cut off have one greatest width; shorter ones stay."""
    open_ends = sorted(wide for field, wide in zip(row, widths, strict=True) if field.share)
    room = width - sum(wide for field, wide in zip(row, widths, strict=True) if not field.share)
    level = LEAST_FIELD
    for at, wide in enumerate(open_ends):
        level = max(LEAST_FIELD, room / (len(open_ends) - at))
        # From here on all are at least as wide, so what is left is shared out evenly.
        if wide > level:
            break
        room -= wide
    return [
        min(wide, level) if field.share else wide for field, wide in zip(row, widths, strict=True)
    ]


def _draw_row(
    canvas: Canvas, corner: Point, size: Point, row: Sequence[StripField], *, deep: bool
) -> None:
    (left, low), (width, height) = corner, size
    x = left
    rooms = field_rooms(row, width)
    for number, (field, room) in enumerate(zip(row, rooms, strict=True)):
        # The last field ends with the strip, whatever rounding left over.
        wide = room.width if number < len(row) - 1 else left + width - x
        if number:
            canvas.line((x, low), (x, low + height), FINE)
        if deep:
            canvas.text((x + 0.8, low + 1.1), field.name, LABEL, colour=SOFT)
            # Values stand below one another; a name that is longer moves its own to the right.
            beside = max(22.0, 0.8 + text_width(field.name, LABEL) + 1.6)
            value = shorten(field.value, wide - beside - 2, 3.4, field.weight)
            canvas.text((x + beside, low + 1.1), value, 3.4, weight=field.weight)
        elif room.folded:
            _draw_folded(canvas, (x + 0.8, low), wide - 1.4, field)
        else:
            canvas.text((x + 0.8, low + height - 2.0), field.name, LABEL, colour=SOFT)
            value = shorten(field.value, wide - 1.4, field.size, field.weight)
            canvas.text((x + 0.8, low + 0.8), value, field.size, weight=field.weight)
        x += wide


def _draw_folded(canvas: Canvas, corner: Point, width: float, field: StripField) -> None:
    """A field with a value of two lines: 2.9 mm from one to the next, so none touches another."""
    x, low = corner
    first, second = field.lines(width)
    canvas.text((x, low + 3.75), field.name, LABEL, colour=SOFT)
    for at, y, words in ((x + field.beside, 3.75, first), (x, 0.85, second)):
        if words:
            canvas.text((at, low + y), words, LEAST, weight=field.weight)
