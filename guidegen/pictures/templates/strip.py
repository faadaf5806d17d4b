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
from guidegen.pictures.pen.lettering import shorten, text_width
from guidegen.pictures.pen.linestyles import FINE
from guidegen.pictures.pen.tints import SOFT
from guidegen.words import Words, msg

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
    keeps: bool = False
    """Whether other fields are shortened before it."""

    @property
    def width(self) -> float:
        """mm that it needs."""
        return max(text_width(self.name, 2.5), text_width(self.value, self.size, self.weight)) + 3


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
        StripField(lang.say("Owner"), head.owner, share=1.0, keeps=True),
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


def field_widths(row: Sequence[StripField], width: float) -> list[float]:
    """mm of each field of a row: what is left over goes to their shares. Where there is too little,
    the legal owner, whom ISO 7200 wants on every sheet, is shortened last.
    """
    widths = [field.width for field in row]
    spare = width - sum(widths)
    if spare >= 0:
        shares = sum(field.share for field in row)
        return [
            wide + (spare * field.share / shares if shares else 0)
            for field, wide in zip(row, widths, strict=True)
        ]
    for keeps in (False, True):
        room = [
            max(wide - LEAST_FIELD, 0) if field.share and field.keeps is keeps else 0
            for field, wide in zip(row, widths, strict=True)
        ]
        if whole := sum(room):
            taken = min(-spare, whole)
            widths = [w - taken * own / whole for w, own in zip(widths, room, strict=True)]
            spare += taken
    return widths


def _draw_row(
    canvas: Canvas, corner: Point, size: Point, row: Sequence[StripField], *, deep: bool
) -> None:
    (left, low), (width, height) = corner, size
    x = left
    widths = field_widths(row, width)
    # The last field ends with the strip, whatever rounding left over.
    widths[-1] = width - sum(widths[:-1])
    for number, (field, wide) in enumerate(zip(row, widths, strict=True)):
        if number:
            canvas.line((x, low), (x, low + height), FINE)
        if deep:
            canvas.text((x + 0.8, low + 1.1), field.name, 2.5, colour=SOFT)
            # Values stand below one another; a name that is longer moves its own to the right.
            beside = max(22.0, 0.8 + text_width(field.name, 2.5) + 1.6)
            value = shorten(field.value, wide - beside - 2, 3.4, field.weight)
            canvas.text((x + beside, low + 1.1), value, 3.4, weight=field.weight)
        else:
            canvas.text((x + 0.8, low + height - 2.0), field.name, 2.5, colour=SOFT)
            value = shorten(field.value, wide - 1.4, field.size, field.weight)
            canvas.text((x + 0.8, low + 0.8), value, field.size, weight=field.weight)
        x += wide
