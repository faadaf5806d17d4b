"""The whole flow, from a content folder to out/; the only caller of the stages."""

import time
from collections.abc import Collection, Sequence
from contextlib import AbstractContextManager
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from guidegen.app.jobs.findings import Kits, find_problems, make_kits
from guidegen.app.jobs.guides import (
    PlannedSize,
    gather_plan,
    plan_size,
)
from guidegen.app.jobs.languages import all_languages, keep_translations
from guidegen.app.jobs.lost import lost_addresses
from guidegen.app.jobs.opening import open_content, open_theme
from guidegen.app.jobs.press_state import PressOptions, PressResult, State, read_state, unpacked
from guidegen.app.jobs.site import SiteMaker, SiteWork, make_sites
from guidegen.app.jobs.size_findings import tell_once
from guidegen.app.jobs.versions import (
    StoredVersion,
    keep_last_versions,
    stored_versions,
    unkept_versions,
)
from guidegen.app.measured.offer import bundle_for, lacking_files, site_files
from guidegen.app.workers.local import Pool, Result, local_pool
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.fingerprint import theme_fingerprint
from guidegen.buildfile.read.reader import shown_path
from guidegen.buildfile.records.site import Site as SiteRecord
from guidegen.buildfile.records.site import choose_editions
from guidegen.checks.report.suppression import settle
from guidegen.errors import ContentError
from guidegen.findings.registry import PROOF_ALONE
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import GuidePlan
from guidegen.problems import Place, Problem, collect, has_errors, sort_problems
from guidegen.progress import Reporter
from guidegen.render.text.templates_engine import Theme
from guidegen.write.begun import begun_press
from guidegen.write.file_stats import note_seen
from guidegen.write.index import save_index
from guidegen.write.marker import recorded_files
from guidegen.write.plans import load_plans, plan_file, save_plans
from guidegen.write.search_index import add_search_index
from guidegen.write.staging import MARKER, Staging, staging
from guidegen.write.strangers import left_by_older

__all__ = ["PressOptions", "PressResult", "press"]


def press(options: PressOptions, progress: Reporter, state: State | None = None) -> PressResult:
    """Make everything in the output folder. Raises ContentError, OutputError, PressLocked.

    `state` is what the last press left, where it has been read already.
    """
    started = time.monotonic()
    state = state or read_state(options)
    if there := state.unchanged():
        return there
    # Read under the lock: what is taken over must be the output that was looked at.
    with staging(options.out) as stage, begun_press(options.out, afresh=options.afresh) as begun:
        read = _read(options, state)
        content, bundle, unfetched = bundle_for(read.content)
        read = replace(read, content=content)
        kits, problems = find_problems(content, [*read.problems, *unfetched])
        _stop_on_errors(problems)
        keeping = read.content.site.keep_versions
        if keeping and not options.guides:  # a press of few is for looking
            problems += keep_last_versions(
                options.content, options.out, read.content, read.unchanged
            )
        with _pool(options) as pool:
            works: list[SiteWork] = []
            for folder, said in all_languages(read.content, read.theme):
                own = make_kits(said, [*said.guides])[0] if folder else kits
                plans, found = _plan(options, said, own, pool, progress)
                problems = [*problems, *found]
                _stop_on_errors(problems)
                versions, found = _versions(options, said, folder) if keeping else ({}, [])
                problems += found
                there_already = [g for g in read.unchanged if folder + g in state.last.units]
                site = SiteMaker(
                    said, read.theme, folder, stage, state, pool, progress, begun, versions
                )
                works.append(SiteWork(site, plans, there_already))
                del own, plans  # not held longer than what is still to be made
            del kits
            make_sites(works, pool, progress)
        if bundle is not None:
            for path, data in site_files(bundle).items():
                stage.write(path, data)
        if failure := add_search_index(stage):
            place = Place(stage.folder.name)
            problems.append(Problem("search-index", place, "", failure))
        problems += [
            Problem("left-beside", Place(folder.as_posix()), "", "left by a press that was killed")
            for folder in left_by_older(options.out)
        ]
        problems += keep_translations(options.content, read.content)
        problems += _lost(options, state, read, stage)
        found_open = _with_known(read, state, settle(read.content, problems, PROOF_ALONE).open)
        counts = state.counts(stage)
        index = state.index(counts, stage.sums)
        stage.write(MARKER, index.marker().encode())
        save_index(options.out, index)
        note_seen(stage.folder, options.out, stage.sums, index.inputs, asdict(counts))
    return PressResult(
        options.out,
        counts,
        time.monotonic() - started,
        found_open,
        made=tuple(sorted(state.made)),
        kept=state.kept,
        gaps=tuple(gap for _, unit in sorted(state.own_units()) if (gap := unit.gap)),
    )


@dataclass(frozen=True)
class _Read:
    """What a press has read."""

    content: Content
    """Without the guides that are unchanged."""
    theme: Theme
    unchanged: frozenset[str]
    """Guides to take over as they are."""
    problems: list[Problem]


def _read(options: PressOptions, state: State) -> _Read:
    """Everything that has changed, and what guides share. Raises ContentError, UsageError."""
    themes: list[Theme] = []

    def unchanged(site: SiteRecord, names: Collection[str]) -> frozenset[str]:
        themes.append(open_theme(options.themes, site, options.content))
        state.theme = theme_fingerprint(themes[0].files)
        state.lacking = lacking_files(site)
        return state.unchanged_guides(names)

    opened = open_content(options.content, options.guides, skip=unchanged)
    content = _with_editions(opened.whole(), options.editions)
    return _Read(content, themes[0], opened.skipped, opened.problems)


def _versions(
    options: PressOptions, content: Content, folder: str
) -> tuple[dict[str, list[StoredVersion]], list[Problem]]:
    """What is still there of older versions in one language, by guide."""
    versions: dict[str, list[StoredVersion]] = {}
    problems: list[Problem] = []
    for file in content.guides:
        versions[file.id], found = collect(stored_versions(options.content, folder, file))
        problems += found
        if not folder:  # the log of changes is the same in all languages
            problems += unkept_versions(file, versions[file.id])
    return versions, problems


def _with_known(read: _Read, state: State, problems: Sequence[Problem]) -> tuple[Problem, ...]:
    """What was found, with what the last press found in guides that are as they were.

    What was found now is remembered for the next.
    """
    for file in read.content.guides:
        own = [p for p in problems if p.place.file.startswith(file.folder_shown)]
        state.remember_problems(file.id, own, file.folder_shown)
    known = [
        unpacked(fields, f"{shown_path(state.options.content)}/{guide}/")
        for guide in sorted(read.unchanged)
        for fields in state.units[guide].problems
    ]
    return tuple(sort_problems([*problems, *known]))


def _lost(options: PressOptions, state: State, read: _Read, stage: Staging) -> list[Problem]:
    """Addresses that the last press published and this one does not; a press of few guides is
    for looking, and tells nothing.
    """
    if options.guides:
        return []
    before = state.last.files or recorded_files(options.out) or ()
    guides = {file.id: file.source.file for file in read.content.guides}
    shown = shown_path(options.content)
    return [*lost_addresses((options.out, stage.folder), before, stage.sums, guides, shown)]


def _pool(options: PressOptions) -> AbstractContextManager[Pool]:
    """This machine's processes, or a cluster's."""
    if not options.cluster:
        return local_pool(options.workers)
    from guidegen.app.workers.cluster import cluster_pool  # noqa: PLC0415 - its library is an extra

    return cluster_pool(options.cluster)


def _with_editions(content: Content, names: tuple[str, ...]) -> Content:
    """The content with other editions than its own, where names are given. Raises UsageError."""
    if not names:
        return content
    return replace(
        content, site=content.site.model_copy(update={"editions": choose_editions(names)})
    )


def _stop_on_errors(problems: list[Problem]) -> None:
    if has_errors(problems):
        raise ContentError(problems)


def _plan(
    options: PressOptions,
    content: Content,
    kits: Kits,
    pool: Pool,
    progress: Reporter,
) -> tuple[list[GuidePlan], list[Problem]]:
    """Plans of every size; those found are kept beside the guide."""
    progress.stage("planning", sum(len(kits[file.id]) for file in content.guides))
    waiting: list[tuple[GuideFile, Kit, Path, str, Result[PlannedSize]]] = []
    for file in content.guides:
        for kit in kits[file.id]:
            path = plan_file(options.content / file.id, kit.size)
            stored = load_plans(path)
            own = replace(content, guides=(file,))
            seconds, again = options.search or options.nesting_seconds, options.search > 0
            # Template sheets are laid out with the documents, where those must be made.
            future = pool.submit(
                plan_size, own, file, kit, stored, seconds, templates=False, again=again
            )
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
                problems.append(Problem("plan-kept", place, "", failure))
    plans = [
        gather_plan(content, file, tuple(p.plan for p in planned[file.id]))
        for file in content.guides
    ]
    return plans, tell_once(problems, content.guides)
