"""Figures of a folded booklet in → the leaf that tells how to print and fold it, as HTML."""

from dataclasses import dataclass

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan
from guidegen.render.booklets.booklet import STYLES, Form, sheet_view
from guidegen.render.booklets.imposition import Imposed, fill_pages
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.scene import size_title

NOTE_SIDES = 2
"""Pages of the note: a leaf of its own, so that outsides stay on fronts. It proves the printer."""


@dataclass(frozen=True, slots=True)
class NoteView:
    """What the note says in figures."""

    pages: int
    full: int
    """Pages with the blank ones at the end."""
    sheets: int
    last: int
    """Last page of the file, the note counted."""
    creep: str
    """mm by which the innermost sheet stands out; empty for a single sheet."""


def note_html(
    content: Content, plan: GuidePlan, size: str, *, paper: str, imposed: Imposed, theme: Theme
) -> str:
    """The note for a booklet that is folded from sheets of `paper`: two pages, lying."""
    return Engine(theme, content.words).render(
        "fold-note.html.j2",
        sheet=sheet_view(
            theme, (paper,), Form(lying=True), (*STYLES, "fold-note.css"), words=content.words
        ),
        language=content.language,
        guide=plan.file.guide,
        size=size_title(size, content.words),
        note=NoteView(
            pages=imposed.pages,
            full=fill_pages(imposed.pages),
            sheets=imposed.sheets,
            last=NOTE_SIDES + len(imposed.sides),
            creep=content.words.number(imposed.creep, 1) if imposed.creep else "",
        ),
    )
