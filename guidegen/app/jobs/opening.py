"""A content folder in → the guides that a command asked for, read, with theme and language.

The one way in. What is read are the files that all guides share and those of the guides asked
for: a fault in a neighbour stops no command that does not need it.
"""

from collections.abc import Callable, Collection
from dataclasses import dataclass
from pathlib import Path

from guidegen.app.jobs.languages import in_language
from guidegen.app.measured.bodies import stop_on_errors
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.reader import read_guides, read_shared
from guidegen.buildfile.read.theme import own_theme, read_theme
from guidegen.buildfile.read.translation_reader import read_translations
from guidegen.buildfile.records.site import Site
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError
from guidegen.layout.times.audit import audit_rooms
from guidegen.problems import Checked, Problem, collect
from guidegen.render.text.templates_engine import Theme

type Skip = Callable[[Site, Collection[str]], frozenset[str]]
"""Of the guides that were asked for, by name, those that need not be read."""


@dataclass(frozen=True)
class OpenContent:
    """What was read of a content folder, and all that is wrong in what was read."""

    content: Content | None
    """None where site.yaml or stock.yaml does not hold."""
    problems: list[Problem]
    skipped: frozenset[str] = frozenset()
    """Guides that belong to it and were not read."""

    def whole(self) -> Content:
        """The content. Raises ContentError where there is none."""
        if self.content is None:
            raise ContentError(self.problems)
        return self.content


@dataclass(frozen=True)
class OpenGuide:
    """One guide without errors in what needs no pieces."""

    content: Content
    """With this guide alone, in the language that was asked for."""
    file: GuideFile
    theme: Theme


def open_content(
    folder: Path,
    guides: Collection[str] = (),
    *,
    languages: Collection[str] | None = None,
    skip: Skip = lambda site, names: frozenset(),
) -> OpenContent:
    """The guides of these names, all for none, with their translations into `languages`.

    None stands for all languages of the site. Raises UsageError for a folder or a guide that is
    not there; what is wrong in a file is told in the result.
    """
    (content, skipped), problems = collect(_read(folder, guides, languages, skip))
    return OpenContent(content, problems, skipped)


def _read(
    folder: Path, guides: Collection[str], languages: Collection[str] | None, skip: Skip
) -> Checked[tuple[Content | None, frozenset[str]]]:
    """What of a folder is read, and the guides that are skipped."""
    shared = yield from read_shared(folder, guides)
    skipped = frozenset[str]() if shared.site is None else skip(shared.site, shared.names)
    names = [name for name in shared.names if name not in skipped]
    content = yield from read_guides(folder, shared, names)
    if content is not None:
        content = yield from read_translations(folder, content, skipped, languages)
    return content, skipped


def open_guide(folder: Path, guide: str, themes: Path, language: str = "") -> OpenGuide:
    """One guide that holds, in a language of the site; in the site's own for an empty one.

    Raises UsageError for a folder, guide, theme or language that is not there; ContentError for
    errors in what was read, in its names, steps and cautions, and in its time line.
    """
    opened = open_content(folder, (guide,), languages=(language,))
    content = opened.whole()
    stop_on_errors(opened.problems)
    theme = open_theme(themes, content.site, folder)
    stop_on_errors(run_checks(content))
    stop_on_errors(audit_rooms(content.guides[0], content.stock))
    content = in_language(content, theme, language)
    return OpenGuide(content, content.guides[0], theme)


def open_theme(themes: Path, site: Site, content: Path) -> Theme:
    """The theme that a site names, under what its own folder changes. Raises UsageError."""
    return Theme(site.theme, read_theme(themes, site.theme, own_theme(content)))
