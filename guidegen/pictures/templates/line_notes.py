"""A planned sheet → words beside the lines of its templates, each once, on a page with room."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from guidegen.geometry.outline.records import LineKind
from guidegen.pictures.templates.labels import DrawnTemplate
from guidegen.pictures.templates.line_outside import TemplateField, place_beside, place_numbered
from guidegen.pictures.templates.line_words import LineWords, line_words, place_line_words
from guidegen.pictures.templates.lines import frame_of
from guidegen.pictures.templates.notes import KeyNote
from guidegen.pictures.templates.page_plan import PagePlan, SheetPlan, add_notes, spots_of
from guidegen.pictures.templates.words import label_text


def label_lines(plan: SheetPlan, key: str) -> None:
    """Words beside the lines of a template, each once, on the first page with room for them."""
    spots = spots_of(plan, key)
    if spots:
        lines = line_words(spots[0][1].drawn.piece, plan.lang, plan.letters)
        _note_lines(plan, spots, lines)


def label_shared_lines(plan: SheetPlan, key: str) -> None:
    """Words beside the lines of the last of nested sizes, where they are true of every size."""
    spots = spots_of(plan, key)
    if not spots:
        return
    told = [
        [words.block for words in line_words(each[0].piece, plan.lang) if words.must]
        for each in spots[0][1].sizes
        if each
    ]
    lines = [words for words in line_words(spots[0][1].drawn.piece, plan.lang) if words.must]
    # Words compare whole: a depth or an angle that differs between sizes would be wrong on all but
    # one outline, so it is left to the sheets of single sizes.
    lines = [words for words in lines if all(words.block in blocks for blocks in told)]
    _note_lines(plan, spots, lines)


def _note_lines(
    plan: SheetPlan, spots: Sequence[tuple[PagePlan, DrawnTemplate]], lines: Iterable[LineWords]
) -> None:
    number = 0
    for words in lines:
        notes = _line_notes(spots, words, number + 1)
        # Numbers are spent only on words that stand away from their line with one.
        number += len(notes) > 1
        if words.must and not notes:
            code = label_text(spots[0][1].drawn.serves)
            plan.untold.append((code, words.block.lines[0].text))


def _line_notes(
    spots: Sequence[tuple[PagePlan, DrawnTemplate]], words: LineWords, number: int
) -> Sequence[KeyNote]:
    """Words of one line, placed on a page: inside, else beside, else a number with its words."""
    places = [
        (one, placed, frame_of(placed.drawn, -one.page.x, -one.page.y)) for one, placed in spots
    ]
    for one, placed, frame in places:
        note = place_line_words(one.room, placed.area, frame, words)
        if note:
            lines = placed.drawn.piece.template.lines
            hatched = any(line.kind is LineKind.TEXTURE for line in lines)
            # Inside on any page before outside on any: words beside a template end with its paper.
            return add_notes(one, [replace(note, backed=hatched)])
    if not words.must:
        return ()
    where = [
        (one, TemplateField(one.room, placed.area, placed.rings, frame))
        for one, placed, frame in places
    ]
    for one, spot in where:
        note = place_beside(spot, words)
        if note:
            return add_notes(one, [note])
    code = label_text(spots[0][1].drawn.serves)
    for one, spot in where:
        notes = place_numbered(spot, words, number, code)
        if notes:
            return add_notes(one, notes)
    return ()
