"""Kits of a class in → the template files that its people trace from, and how many of each."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from guidegen.app.measured.template_pages import sheet_head, template_pdf
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.frame import printer_margins
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.layout.times.class_records import Person, table_of
from guidegen.render.classes.names import own_name

SPARE_FOR = 6
"""People to one spare print of their size: a sheet gets wet, or is cut wrong. Our choice."""


@dataclass(frozen=True, slots=True)
class KitOfSome:
    """People who trace the same templates."""

    kit: Kit
    people: tuple[int, ...]
    """Their numbers, from 0."""
    own: bool
    """Whether it was made to the measurements of the one who builds it."""

    @property
    def spare(self) -> int:
        """How many to print beyond one for each."""
        return 0 if self.own else ceil(len(self.people) / SPARE_FOR)

    @property
    def copies(self) -> int:
        """How many to print."""
        return len(self.people) + self.spare


def kits_of_some(kits: Sequence[Kit], people: Sequence[Person]) -> tuple[KitOfSome, ...]:
    """People by the templates that they trace, in the order of their first."""
    found: dict[int, list[int]] = {}
    for number, kit in enumerate(kits):
        found.setdefault(id(kit), []).append(number)
    return tuple(
        KitOfSome(kits[numbers[0]], tuple(numbers), not people[numbers[0]].size)
        for numbers in found.values()
    )


def template_name(some: KitOfSome, people: Sequence[Person], paper: str) -> str:
    """'templates-M-a4.pdf', or 'templates-04-kim-a4.pdf' for what is one person's own."""
    first = some.people[0]
    whose = own_name(first, people[first].name) if some.own else some.kit.size
    return f"templates-{whose}-{paper}.pdf"


def class_templates(
    content: Content, file: GuideFile, some: KitOfSome, people: Sequence[Person], paper: str
) -> bytes:
    """True-scale pages; what is one person's own bears the name, the number and the table."""
    head = sheet_head(content, file)
    if some.own:
        number = some.people[0]
        title = content.words.say(
            "{guide}: {number}, {name}, table {table}",
            guide=file.guide.title,
            number=number + 1,
            name=people[number].name,
            table=table_of(number),
        )
        head = replace(head, title=title)
    templates = lay_out_templates(some.kit, paper, margins=printer_margins(content.site, paper))
    return template_pdf(content, file, templates, some.kit, head)
