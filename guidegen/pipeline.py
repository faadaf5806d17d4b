"""The whole flow, from a content folder to out/; the only caller of the stages."""

import os
import time
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Future, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, replace
from multiprocessing import get_context, parent_process
from multiprocessing.connection import wait
from pathlib import Path
from threading import Thread

from guidegen.buildfile.fingerprint import content_fingerprint, plans_fingerprint
from guidegen.buildfile.reader import read_what_holds
from guidegen.buildfile.records import Content, GuideFile
from guidegen.buildfile.schema import schema_texts
from guidegen.buildfile.site import choose_editions
from guidegen.buildfile.theme import read_theme
from guidegen.buildfile.translation_reader import read_translations
from guidegen.checks.code_records import Group
from guidegen.checks.codes import CODES
from guidegen.checks.run import run_checks
from guidegen.checks.suppression import settle
from guidegen.errors import ContentError, OutputError
from guidegen.geometry.kit import make_kit
from guidegen.geometry.records import Kit
from guidegen.jobs import (
    Downloads,
    Files,
    MadeSize,
    PlannedSize,
    gather_plan,
    make_guide_files,
    make_pages,
    make_size,
    plan_size,
)
from guidegen.layout.audit import audit_rooms
from guidegen.layout.records import GuidePlan
from guidegen.pictures.records import GuidePictures
from guidegen.pipeline_languages import all_languages, keep_translations
from guidegen.problems import Place, Problem, Severity
from guidegen.progress import Reporter
from guidegen.render.site import render_home
from guidegen.render.templates_engine import Theme
from guidegen.write.index import Counts, Index, digest, is_whole, load_index
from guidegen.write.plans import load_plans, plan_file, save_plans
from guidegen.write.staging import MARKER, Staging, staging


@dataclass(frozen=True)
class PressOptions:
    """What to press, and where to."""

    content: Path
    out: Path
    themes: Path
    guides: tuple[str, ...] = ()
    """Ids of guides; empty for all."""
    nesting_seconds: float = 4.0
    """Longest search for one cut plan that is not stored; 0 makes simple plans."""
    workers: int = 0
    """Processes; 0 for one per core."""
    editions: tuple[str, ...] = ()
    """Names of editions, or 'all', instead of those that site.yaml chooses."""
    afresh: bool = False
    """Make everything although nothing has changed."""


@dataclass(frozen=True)
class PressResult:
    """What a press made."""

    out: Path
    counts: Counts
    seconds: float
    problems: tuple[Problem, ...]
    """Warnings and advice."""
    unchanged: bool = False
    """True where the output was there already, made from the same."""

    def summary(self) -> str:
        """The closing words."""
        if self.unchanged:
            return (
                f"nothing has changed: {_count(self.counts.guides, 'guide')} in "
                f"{_count(self.counts.sizes, 'size')}, {_count(self.counts.files, 'file')} "
                f"as they were (--afresh makes them all the same)\nopen {self.out / 'index.html'}"
            )
        warnings = sum(p.severity is Severity.WARNING for p in self.problems)
        advice = len(self.problems) - warnings
        return (
            f"{_count(self.counts.guides, 'guide')} in {_count(self.counts.sizes, 'size')}: "
            f"{_count(self.counts.pdf_pages, 'PDF page')}, {_count(self.counts.files, 'file')}, "
            f"{self.counts.size / 1e6:.1f} MB, in {self.seconds:.1f} s\n"
            f"{_count(warnings, 'warning')}, {_count(advice, 'note')} "
            "(guidegen proof shows all)\n"
            f"open {self.out / 'index.html'}"
        )


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def press(options: PressOptions, progress: Reporter) -> PressResult:
    """Make everything in the output folder. Raises ContentError, OutputError, PressLocked."""
    started = time.monotonic()
    content, read = read_what_holds(options.content, options.guides)
    if content is None:
        raise ContentError(read)
    content = _with_editions(content, options.editions)
    content = read_translations(options.content, content, read)
    files = read_theme(options.themes, content.site.theme)
    theme = Theme(content.site.theme, files)
    inputs = _inputs(options, files)
    index = Index() if options.afresh else load_index(options.out)
    if index.inputs == _with_plans(inputs, options) and is_whole(options.out, index):
        return PressResult(options.out, index.counts, 0.0, (), unchanged=True)
    kits, problems = find_problems(content, read)
    _stop_on_errors(problems)
    with staging(options.out) as stage, _pool(options.workers) as pool:
        plans: list[GuidePlan] = []
        pages = 0
        for folder, said in all_languages(content, theme):
            own = make_kits(said, [*said.guides])[0] if folder else kits
            planned, found = _plan(options, said, own, pool, progress)
            problems = [*problems, *found]
            _stop_on_errors(problems)
            plans = plans or planned
            pages += _make(said, planned, theme, stage, folder, pool, progress)
        problems += keep_translations(options.content, content)
        sizes = sum(len(plan.sizes) for plan in plans)
        counts = Counts(len(plans), sizes, pages, len(stage.sums), stage.size)
        made = Index(_with_plans(inputs, options), dict(stage.sums), counts)
        stage.write(MARKER, made.text().encode())
    seconds = time.monotonic() - started
    return PressResult(options.out, counts, seconds, settle(content, problems).open)


def _inputs(options: PressOptions, theme: Mapping[str, bytes]) -> str:
    """Hash of what a press reads before it has planned."""
    mode = "search" if options.nesting_seconds > 0 else "simple"
    words = [f"{name} {digest(data)}" for name, data in sorted(theme.items())]
    editions = [f"edition {name}" for name in options.editions]
    return content_fingerprint(options.content, [*words, *options.guides, *editions, mode])


def _with_editions(content: Content, names: tuple[str, ...]) -> Content:
    """The content with other editions than its own, where names are given. Raises UsageError."""
    if not names:
        return content
    return replace(
        content, site=content.site.model_copy(update={"editions": choose_editions(names)})
    )


def _with_plans(inputs: str, options: PressOptions) -> str:
    """The same with the cut plans that are kept: another plan gives other documents."""
    return f"{inputs}-{plans_fingerprint(options.content)}"


def write_schemas(folder: Path) -> list[Path]:
    """Write the JSON Schema files of the build files. Raises OutputError."""
    paths = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in schema_texts().items():
            (folder / name).write_text(text, encoding="utf-8")
            paths.append(folder / name)
    except OSError as error:
        raise OutputError(f"cannot write in {folder}: {error.strerror}") from None
    return paths


NEEDED_FOR_PIECES = frozenset({Group.READING, Group.NAMES, Group.SIZES})
"""What must hold in a guide before its pieces are made; texts and steps need not."""

type Kits = dict[str, tuple[Kit, ...]]


type KitMaker = Callable[[Content, list[GuideFile]], tuple[Kits, list[Problem]]]


def make_kits(content: Content, files: list[GuideFile]) -> tuple[Kits, list[Problem]]:
    """Kits of every size of `files`, and what geometry finds wrong."""
    kits: Kits = {}
    problems: list[Problem] = []
    for file in files:
        made = [make_kit(file, content.stock, size) for size in file.size_names()]
        problems.extend(problem for _, found in made for problem in found)
        kits[file.id] = tuple(kit for kit, _ in made if kit is not None)
    return kits, problems


def find_problems(
    content: Content, read: list[Problem], make: KitMaker = make_kits
) -> tuple[Kits, list[Problem]]:
    """Kits by guide, and all that is wrong: what was `read`, then names, then geometry."""
    problems = [*read, *run_checks(content)]
    faults = [
        p.place.file
        for p in problems
        if p.severity is Severity.ERROR and CODES[p.code].group in NEEDED_FOR_PIECES
    ]
    # Geometry of a guide with wrong names, or without a drawing, would only repeat them.
    whole = [
        file
        for file in content.guides
        if not any(fault.startswith(file.folder_shown) for fault in faults)
    ]
    kits, found = make(content, whole)
    return kits, [*problems, *found, *_check_rooms(content, whole)]


def _check_rooms(content: Content, files: list[GuideFile]) -> list[Problem]:
    """What shares a room too soon on the time lines of guides without errors."""
    return [problem for file in files for problem in audit_rooms(file, content.stock)]


def _stop_on_errors(problems: list[Problem]) -> None:
    if any(problem.severity is Severity.ERROR for problem in problems):
        raise ContentError(problems)


def _plan(
    options: PressOptions,
    content: Content,
    kits: Kits,
    pool: "_Pool",
    progress: Reporter,
) -> tuple[list[GuidePlan], list[Problem]]:
    """Plans of every size; those found are kept beside the guide."""
    progress.stage("planning", sum(len(kits[file.id]) for file in content.guides))
    waiting: list[tuple[GuideFile, Kit, Path, str, Future[PlannedSize]]] = []
    for file in content.guides:
        for kit in kits[file.id]:
            path = plan_file(options.content / file.id, kit.size)
            stored = load_plans(path)
            future = pool.submit(plan_size, content, file, kit, stored, options.nesting_seconds)
            waiting.append((file, kit, path, stored, future))
    problems: list[Problem] = []
    planned: dict[str, list[PlannedSize]] = {}
    for file, kit, path, stored, future in waiting:
        result = future.result()
        progress.step(f"{file.id} {kit.size}")
        planned.setdefault(file.id, []).append(result)
        problems.extend(result.problems)
        if result.stored != stored:
            failure = save_plans(path, result.stored)
            if failure:
                place = Place(path.as_posix())
                problems.append(Problem("plan-kept", Severity.WARNING, place, "", failure))
    plans = [
        gather_plan(content.stock, file, kits[file.id], tuple(p.plan for p in planned[file.id]))
        for file in content.guides
    ]
    return plans, problems


def _make(  # noqa: PLR0917 - the flow needs them all
    content: Content,
    plans: list[GuidePlan],
    theme: Theme,
    stage: Staging,
    folder: str,
    pool: "_Pool",
    progress: Reporter,
) -> int:
    """Write every file of the site in one language into its folder; the number of PDF pages."""
    progress.stage("documents", sum(len(plan.sizes) for plan in plans))
    waiting: list[tuple[GuidePlan, list[Future[MadeSize]], Future[tuple[Files, Downloads]]]] = [
        (
            plan,
            [pool.submit(make_size, content, plan, n, theme) for n in range(len(plan.sizes))],
            pool.submit(make_guide_files, content, plan),
        )
        for plan in plans
    ]
    drawn: dict[str, GuidePictures] = {}
    pages = 0
    for plan, futures, shared in waiting:
        made: dict[str, MadeSize] = {}
        for size, future in zip(plan.sizes, futures, strict=True):
            made[size.size] = future.result()
            progress.step(f"{plan.file.id} {size.size}")
        files_for_all, downloads = shared.result()
        downloads = dict(downloads)
        for size_made in made.values():
            downloads.update(size_made.downloads)
        pages += sum(info.pages for info in downloads.values())
        pictures = {size: m.pictures for size, m in made.items()}
        drawn[plan.file.id], site = make_pages(content, plan, pictures, downloads, theme)
        for files in (*(m.files for m in made.values()), files_for_all, site):
            for name, data in files.items():
                stage.write(folder + name, data)
    for name, data in render_home(content, plans, drawn, theme).items():
        stage.write(folder + name, data)
    return pages


class _Pool:
    """Runs jobs in other processes, or at once where there is only one worker."""

    def __init__(self, executor: ProcessPoolExecutor | None) -> None:
        self._executor = executor

    def submit[**P, R](
        self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs
    ) -> "Future[R]":
        """A future of the job's result."""
        if self._executor is not None:
            return self._executor.submit(job, *args, **kwargs)
        future: Future[R] = Future()
        future.set_result(job(*args, **kwargs))
        return future


def end_with_parent() -> None:
    """In a worker: end when the press is killed; an idle worker would wait for work for ever."""
    parent = parent_process()
    if parent is not None:
        sentinel = parent.sentinel

        def watch() -> None:
            wait([sentinel])
            os._exit(1)

        Thread(target=watch, daemon=True).start()


@contextmanager
def _pool(workers: int) -> Iterator[_Pool]:
    """Workers that start afresh, so that no thread or lock of this process is copied."""
    count = workers or os.cpu_count() or 1
    if count == 1:
        yield _Pool(None)
        return
    executor = ProcessPoolExecutor(
        count, mp_context=get_context("spawn"), initializer=end_with_parent
    )
    try:
        yield _Pool(executor)
    finally:
        executor.shutdown(wait=False, cancel_futures=True)
