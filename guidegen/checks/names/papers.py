"""The papers of site.yaml are known ones."""

from collections.abc import Iterator

from guidegen.buildfile.read.content import Content
from guidegen.problems import Problem, did_you_mean
from guidegen.units import PAPERS, ROLLS


def check_papers(content: Content) -> Iterator[Problem]:
    """Booklets and templates on sheets; templates also on large sheets and rolls."""
    for key, names, known in (
        ("papers", content.site.papers, list(PAPERS)),
        ("template-papers", content.site.template_papers, [*PAPERS, *ROLLS]),
    ):
        for index, name in enumerate(names):
            if name not in known:
                message = f'no paper "{name}"{did_you_mean(name, known)}'
                yield content.site_source.problem("unknown-name", (key, index), message)
            elif name in names[:index]:
                message = f'"{name}" stands twice'
                yield content.site_source.problem("double-name", (key, index), message)
    for name in content.site.printer_margins:
        if name not in PAPERS and name not in ROLLS:
            message = f'no paper "{name}"{did_you_mean(name, [*PAPERS, *ROLLS])}'
            yield content.site_source.problem("unknown-name", ("printer-margins", name), message)
    if not content.site.papers:
        yield content.site_source.problem("missing-key", ("papers",), "expected one paper or more")
