"""Words for readers, and the line of the build file on which something in them stands."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.meanings import Wording
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.walk import wordings
from guidegen.buildfile.translate.translation import Translation
from guidegen.buildfile.yaml.tree import Source, Trail, trail_text
from guidegen.problems import Place, Problem


@dataclass(frozen=True)
class PlacedText:
    """One text in words, with its place."""

    trail: Trail
    text: str
    wording: Wording
    source: Source
    """Of the build file."""
    file: Source | None = None
    """The Markdown file that holds the text, where it has one of its own."""

    def problem(self, code: str, line: int, message: str) -> Problem:
        """A problem `line` lines below the start of the text."""
        path = trail_text(self.source.written(self.trail))
        return Problem(code, self._place(line), path, message)

    def _place(self, line: int) -> Place:
        if self.file is not None:
            # The text that was read has lost the empty lines at its start.
            empty = next((n for n, row in enumerate(self.file.lines) if row.strip()), 0)
            return self.file.at(1 + empty + line, 1)
        place = self.source.place(self.trail)
        block = place.text[place.column - 1 :].startswith("|") if place.column else False
        if not block:
            return place
        row = self.source.at(place.line + 1 + line, 1).text
        return self.source.at(place.line + 1 + line, len(row) - len(row.lstrip()) + 1)


def guide_texts(file: GuideFile) -> Iterator[PlacedText]:
    """All texts of a guide, in the order of its keys, then those of its translations."""
    for leaf, wording in wordings(file.guide):
        long_text = file.text_files.get(str(leaf.trail[0])) if wording.from_file else None
        yield PlacedText(leaf.trail, leaf.text, wording, file.source, long_text)
    yield from _translated(file.guide, file.translations.values())


def shared_texts(content: Content) -> Iterator[PlacedText]:
    """All texts of site.yaml and stock.yaml, then those of their translations."""
    for record, source in (
        (content.site, content.site_source),
        (content.stock, content.stock_source),
    ):
        for leaf, wording in wordings(record, expanded=True):
            yield PlacedText(leaf.trail, leaf.text, wording, source)
    for site, stock in content.shared_translations.values():
        yield from _translated(content.site, [site])
        yield from _translated(content.stock, [stock])


def _translated(
    original: Guide | Site | Stock, translations: Iterable[Translation]
) -> Iterator[PlacedText]:
    """Texts of translations at their places; they mean what their originals mean."""
    meant = {leaf.lasting: wording for leaf, wording in wordings(original)}
    for made in translations:
        for trail, text in made.texts.items():
            yield PlacedText(trail, text, meant[trail], made.source)
