"""What stands on the pages of a template sheet besides lines: plan.py fills it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from guidegen.layout.records import TemplatePage, TemplateSheet
from guidegen.pictures.pen.label_fields import LabelField
from guidegen.pictures.templates.checks import CheckLine
from guidegen.pictures.templates.joints import Joint
from guidegen.pictures.templates.labels import DrawnTemplate
from guidegen.pictures.templates.notes import KeyNote
from guidegen.words import Words as Language


@dataclass
class PagePlan:
    """What stands on a page besides lines."""

    page: TemplatePage
    room: LabelField
    placed: list[DrawnTemplate] = field(default_factory=list)
    notes: list[KeyNote] = field(default_factory=list)
    size_notes: dict[int, list[KeyNote]] = field(default_factory=dict)
    """Words that belong to one of several nested sizes, by its place among them."""


@dataclass
class SheetPlan:
    """A sheet with its joints and pages."""

    sheets: tuple[TemplateSheet, ...]
    """One, or the same sheet at each of several nested sizes."""
    joints: list[Joint]
    checks: list[CheckLine]
    pages: list[PagePlan]
    lang: Language
    letters: Mapping[str, str] = field(default_factory=dict)
    """Short names of seams, by id."""
    untold: list[tuple[str, str]] = field(default_factory=list)
    """Words for which no page has room, each with the code of its template: the key tells them."""


def spots_of(plan: SheetPlan, key: str) -> list[tuple[PagePlan, DrawnTemplate]]:
    """The pages that show the template with a key."""
    return [
        (one, placed)
        for one in plan.pages
        for placed in one.placed
        if placed.drawn.piece.key == key
    ]


def add_notes(one: PagePlan, notes: Sequence[KeyNote]) -> Sequence[KeyNote]:
    """Put words on a page; gives them back."""
    for note in notes:
        add_note(one, note)
    return notes


def add_note(one: PagePlan, note: KeyNote) -> None:
    """Put words on a page: what comes later keeps off them."""
    one.notes.append(note)
    one.room.reserve_ring(note.ring())
    if note.leader:
        one.room.add_lines([list(note.leader)])
