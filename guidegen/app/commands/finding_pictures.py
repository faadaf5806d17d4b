"""Findings about the finished thing in → a picture of each: the thing, with the part marked."""

import re
from collections.abc import Iterator
from pathlib import Path

from guidegen.app.jobs.opening import open_content
from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.views.joining import best_side
from guidegen.assembly.views.seen import see
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.checks.report.suppression import Findings
from guidegen.errors import OutputError
from guidegen.findings.assembly import ASSEMBLY
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.pictures.bodies.finished import draw_finished
from guidegen.problems import Problem
from guidegen.render.text.svg import svg_file

PLACED = frozenset(code.code for code in ASSEMBLY) - {"not-placed"}
"""Findings of which a picture shows where they are."""


def picture_findings(
    folder: Path, guides: tuple[str, ...], to: Path, findings: Findings, *, everything: bool
) -> tuple[Path, ...]:
    """Write a picture of each finding about where parts lie into `to`, and give their files.

    `everything` draws those that are kept silent as well. Nothing is drawn of content with errors,
    whose pieces may be wrong. Raises OutputError where files cannot be written.
    """
    if findings.fails:
        return ()
    found = [*findings.open, *(one.problem for one in findings.silent if everything)]
    content = open_content(folder, guides).whole()
    drawn = {
        name: text
        for file in content.guides
        for problem in found
        if problem.code in PLACED and problem.place.file.startswith(file.folder_shown)
        for name, text in _pictures(content, file, problem)
    }
    if not drawn:
        return ()
    try:
        to.mkdir(parents=True, exist_ok=True)
        for name, text in drawn.items():
            (to / name).write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise OutputError(f"{to} cannot be written: {error.strerror}") from None
    return tuple(to / name for name in drawn)


def _pictures(content: Content, file: GuideFile, problem: Problem) -> Iterator[tuple[str, str]]:
    """The picture of a finding, by its file name: in the size that its message names first."""
    sizes = file.size_names()
    told = re.search(r"\bsizes? ([A-Za-z0-9-]+)", problem.message)
    size = told[1] if told and told[1] in sizes else sizes[len(sizes) // 2]
    kit, _ = make_whole_kit(file, content.stock, size, words=content.words)
    if kit is None:
        return
    assembly = make_assembly(file.guide, kit, content.stock)
    kind, _, name = problem.path.partition(".")
    name = name.partition(".")[0]
    parts = {name}
    if kind == "seams":
        parts = {
            ref.part for seam in kit.seams if seam.id == name for ref in (seam.first, seam.second)
        }
    marked = frozenset(sheet.key for sheet in assembly.sheets if sheet.part in parts)
    seen = see(assembly, best_side(assembly, marked), marked=marked)
    if seen is not None and marked:
        text = svg_file(draw_finished(seen, file.guide, kit, content.words))
        yield f"{file.id}-{size}-{problem.code}-{name}.svg", text
