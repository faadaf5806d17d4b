"""The author's check: a content folder or finished packs in → findings, and words about them."""

from pathlib import Path

from guidegen.app.jobs.findings import Kits, find_problems
from guidegen.app.jobs.opening import open_content
from guidegen.app.jobs.size_findings import tell_once
from guidegen.app.workers.local import local_pool, usual_workers
from guidegen.assembly.placing.audit import audit_assembly
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.checks.report.report import FORMATS, report_words
from guidegen.checks.report.suppression import Findings, settle
from guidegen.errors import UsageError
from guidegen.problems import Place, Problem, sort_problems
from guidegen.render.lists.pack import verify_pack

MAX_PACK = 300_000_000
"""Bytes of a pack that is verified, which are held in memory. Our choice: thirty large kits."""


def proof(content_folder: Path, guides: tuple[str, ...] = ()) -> Findings:
    """Everything that is wrong or worth knowing about the content; makes nothing."""
    opened = open_content(content_folder, guides)
    if opened.content is None:
        return Findings(tuple(sort_problems(opened.problems)))
    kits, problems = find_problems(opened.content, opened.problems)
    found = tell_once(_assembled(opened.content, kits), opened.content.guides)
    return settle(opened.content, [*problems, *found])


def _assembled(content: Content, kits: Kits) -> list[Problem]:
    """What does not fit on a body, in every size."""
    jobs = [
        (file, content.stock, kit)
        for file in content.guides
        if len(kits.get(file.id, ())) == len(file.size_names())
        for kit in kits[file.id]
    ]
    # Draped parts take seconds for each size, all others a moment: no processes for those.
    heavy = sum(_is_draped(file) for file, _, _ in jobs)
    if heavy < FEW:
        return [problem for job in jobs for problem in audit_assembly(*job)]
    with local_pool(min(usual_workers(), heavy)) as pool:
        results = [pool.submit(audit_assembly, *job) for job in jobs]
        return [problem for result in results for problem in result.result()]


FEW = 3
"""Sizes with draped parts from which on processes share the work: each takes a second to start."""


def _is_draped(file: GuideFile) -> bool:
    parts = file.guide.parts.values()
    return any(part.worn is not None and part.shape == "drawing" for part in parts)


def verify_packs(paths: tuple[Path, ...]) -> Findings:
    """Whether every file of each pack agrees with its manifest. Raises UsageError for no file."""
    problems = [
        Problem("pack-fault", Place(path.as_posix()), "", fault)
        for path in paths
        for fault in verify_pack(_pack(path))
    ]
    return Findings(tuple(sort_problems(problems)))


def _pack(path: Path) -> bytes:
    try:
        if path.stat().st_size > MAX_PACK:
            raise UsageError(f"{path} is larger than {MAX_PACK / 1e6:g} MB")
        return path.read_bytes()
    except OSError as error:
        raise UsageError(f"{path} cannot be read: {error.strerror}") from None


def next_words(*, fails: bool) -> str:
    """What to type next; beside the report, which programs may read."""
    if fails:
        return "next: mend these; guidegen proof --explain CODE says why one matters"
    return "next: guidegen show, to see it in the browser; guidegen press, to make the site"


def report(findings: Findings, form: str, *, everything: bool = False) -> str:
    """Findings as words, json or annotations; `everything` lists suppressed ones in words too."""
    if form == "words":
        return report_words(findings, everything=everything)
    return FORMATS[form](findings)
