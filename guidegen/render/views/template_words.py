"""Template pages in → what each of them shows, in words for those who cannot see the drawing."""

from collections.abc import Iterator

from guidegen.geometry.outline.measures import bounds
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet
from guidegen.units import mm_text
from guidegen.words import Words


def page_words(templates: TemplateSet, words: Words) -> Iterator[str]:
    """For each page: its place, then the templates on it with their sizes and all their pages."""
    for page in templates.pages:
        sheet = templates.sheets[page.sheet - 1]
        place = words.say(
            "Template page {page} of {pages}, on sheet {sheet}, row {row}, column {column}.",
            page=page.number,
            pages=len(templates.pages),
            sheet=page.sheet,
            row=page.row + 1,
            column=page.column + 1,
        )
        shown = "; ".join(
            _template(drawn, templates, page, words)
            for drawn in sheet.drawn
            if drawn.piece.key in page.pieces
        )
        templates_said = words.say("Templates in true size: {list}.", list=shown) if shown else ""
        squares = words.say("Check squares of 50 mm and 2 in.")
        yield " ".join(part for part in (place, templates_said, squares) if part)


def _template(drawn: Drawn, templates: TemplateSet, page: TemplatePage, words: Words) -> str:
    """'A1 Bracer, 270 mm by 182 mm, also on page 2'."""
    piece = drawn.piece
    left, low, right, high = bounds((piece.shape.ring(),))
    codes = ", ".join(one.label for one in drawn.serves)
    said = words.say(
        "{code} {piece}, {width} mm by {height} mm",
        code=codes,
        piece=piece.name,
        width=mm_text(right - left),
        height=mm_text(high - low),
    )
    others = [
        str(one.number)
        for one in templates.pages
        if one.sheet == page.sheet and piece.key in one.pieces and one is not page
    ]
    if not others:
        return said
    pages = ", ".join(others)
    more = (
        words.say("also on page {pages}", pages=pages)
        if len(others) == 1
        else words.say("also on pages {pages}", pages=pages)
    )
    return f"{said}, {more}"
