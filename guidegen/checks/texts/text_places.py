"""Texts for readers, and the line of the build file on which something in them stands."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.translate.translation import Translation
from guidegen.buildfile.yaml.tree import Source, Trail, trail_text
from guidegen.problems import Place, Problem, Severity


@dataclass(frozen=True)
class Words:
    """One CommonMark text."""

    trail: Trail
    text: str
    source: Source
    """Of the build file."""
    file: Source | None = None
    """The Markdown file that holds the text, where it has one of its own."""

    def problem(
        self, code: str, line: int, message: str, severity: Severity = Severity.ERROR
    ) -> Problem:
        """A problem `line` lines below the start of the text."""
        place, path = self._place(line), trail_text(self.source.written(self.trail))
        return Problem(code, severity, place, path, message)

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


def guide_words(file: GuideFile) -> Iterator[Words]:
    """All texts of a guide, in the order of its keys."""
    guide, source = file.guide, file.source
    for key, text in (
        ("licence-words", guide.licence_words),
        ("overview", guide.overview),
        ("wearing", guide.wearing),
        ("care", guide.care),
    ):
        if text:
            yield Words((key,), text, source, file.text_files.get(key))
    for name, measurement in guide.measurements.items():
        yield Words(("measurements", name, "take"), measurement.take, source)
    for number, step in enumerate(guide.steps):
        at: Trail = ("steps", number)
        yield Words((*at, "text"), step.text, source)
        if step.check:
            yield Words((*at, "check"), step.check, source)
        for index, trouble in enumerate(step.trouble):
            yield Words((*at, "trouble", index, "sign"), trouble.sign, source)
            yield Words((*at, "trouble", index, "cure"), trouble.cure, source)
    for number, question in enumerate(guide.questions):
        yield Words(("questions", number, "answer"), question.answer, source)


def translated_words(translations: Iterable[Translation]) -> Iterator[Words]:
    """All texts of translations, at their places."""
    for made in translations:
        for trail, text in made.texts.items():
            yield Words(trail, text, made.source)


def shared_words(content: Content) -> Iterator[Words]:
    """All texts of site.yaml and stock.yaml."""
    stock, source = content.stock, content.stock_source
    if content.site.about:
        yield Words(("about",), content.site.about, content.site_source)
    for name, process in stock.processes.items():
        yield Words(("processes", name, "how"), process.how, source)
    for name, material in stock.materials.items():
        if material.note:
            yield Words(("materials", name, "note"), material.note, source)
    for name, tool in stock.tools.items():
        if tool.note:
            yield Words(("tools", name, "note"), tool.note, source)
    for name, term in stock.terms.items():
        yield Words(("terms", name, "meaning"), term.meaning, source)
