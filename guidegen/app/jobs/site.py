"""Plans in → all files of the site in each language, written in order while others are being made.

Guides are begun a few ahead, so that all workers are busy and memory holds only what is at work.
"""

from collections import deque
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from guidegen.app.jobs.guides import EarlierPress
from guidegen.app.jobs.laid import (
    FileMade,
    LaidFiles,
    LaidSize,
    lay_guide_files,
    lay_pages,
    lay_size,
)
from guidegen.app.jobs.press_state import State
from guidegen.app.jobs.versions import StoredVersion, listed_documents
from guidegen.app.workers.local import Pool, Result
from guidegen.buildfile.read.content import Content
from guidegen.layout.nesting.bounds import above_best
from guidegen.layout.records import GuidePlan
from guidegen.progress import Reporter
from guidegen.render.site.entries import GuideEntry, entry_file, read_entry
from guidegen.render.site.formerly import Move, free_moves, moved_documents, moved_sizes
from guidegen.render.site.home import render_home
from guidegen.render.site.versions import KeptVersion
from guidegen.render.text.links import DownloadInfo
from guidegen.render.text.templates_engine import Theme
from guidegen.write.begun import BegunPress
from guidegen.write.index import Unit
from guidegen.write.staging import Staging

type PageTask = Result[LaidFiles]


@dataclass(frozen=True)
class _Begun:
    """A guide whose documents are being made."""

    work: "SiteWork"
    plan: GuidePlan
    sizes: tuple[Result[LaidSize], ...]
    shared: Result[LaidFiles]


@dataclass(frozen=True)
class SiteWork:
    """What the site of one language is made of."""

    site: "SiteMaker"
    plans: list[GuidePlan]
    """Emptied as guides are begun: a thousand plans are more than memory should hold to the end."""
    unchanged: Collection[str]
    """Guides whose files are taken over."""

    def finish(self, made: Collection[str]) -> None:
        """Write what shows all guides: those that were made, and those taken over."""
        self.site.finish([*self.unchanged, *made])


def make_sites(works: Sequence[SiteWork], pool: Pool, progress: Reporter) -> None:
    """Write every file: of guides with plans what is new, of those unchanged what was there, of
    each site what shows both. Raises ContentError, OutputError.

    The largest guides are begun first, whatever their language: so small ones are left for the
    end, and no worker waits long for another.
    """
    for work in works:
        work.site.take_over(work.unchanged)
    waiting = [(work, plan) for work in works for plan in work.plans]
    progress.stage("documents", sum(len(plan.sizes) for _, plan in waiting))
    waiting.sort(key=lambda one: _extent(one[1]), reverse=True)
    waiting.reverse()  # taken from its end
    names = {work.site.folder: [plan.file.id for plan in work.plans] for work in works}
    left = {folder: len(made) for folder, made in names.items()}
    for work in works:
        work.plans.clear()
    ahead: deque[_Begun] = deque()
    finishing: deque[tuple[_Begun, PageTask]] = deque()

    def finish_one() -> None:
        """Write the documents of the oldest guide; its pages one guide later, once made."""
        if ahead:
            begun = ahead.popleft()
            finishing.append((begun, begun.work.site.finish_documents(begun)))
        if len(finishing) > 1 or not ahead:
            begun, pages = finishing.popleft()
            site = begun.work.site
            site.write_pages(pages.result())
            left[site.folder] -= 1
            if not left[site.folder]:
                begun.work.finish(names[site.folder])

    while waiting:
        work, plan = waiting.pop()
        ahead.append(_Begun(work, plan, *work.site.begin(plan)))
        # Beyond the oldest guide, which is waited for next, workers have enough to go on with.
        while sum(len(begun.sizes) for begun in list(ahead)[1:]) > 2 * pool.size:
            finish_one()
    while ahead or finishing:
        finish_one()
    for work in works:
        if not names[work.site.folder]:
            work.finish([])


def _extent(plan: GuidePlan) -> int:
    """About how long one size of a guide takes: its steps and pieces are what booklets show."""
    pieces = max((len(size.kit.pieces) for size in plan.sizes), default=0)
    return len(plan.file.guide.steps) + pieces


@dataclass(frozen=True)
class SiteMaker:
    """Where the site of one language goes, and who makes it."""

    content: Content
    theme: Theme
    folder: str
    """Path from out/, with a slash at its end; empty for the site's own language."""
    stage: Staging
    state: State
    pool: Pool
    progress: Reporter
    begun: BegunPress
    versions: Mapping[str, Sequence[StoredVersion]]
    """What is still there of older versions, by guide."""

    def take_over(self, unchanged: Collection[str]) -> None:
        """Take the files of guides over as they are. Raises OutputError."""
        for guide in unchanged:
            self.state.take_over(self.folder + guide, self.stage)

    def finish(self, guides: Iterable[str]) -> None:
        """Write the pages that show all `guides`, once those of each are there."""
        cache = self._earlier("").cache("")
        entries = [self._entry(guide) for guide in sorted(guides)]
        home = render_home(self.content, entries, self.theme, cache)
        self.write_pages(LaidFiles(home, cache.keys, {}))
        self._repeat_documents(move for _, moves in free_moves(entries) for move in moves)

    def _entry(self, guide: str) -> GuideEntry:
        """What the lists of the site say of a guide that is made or taken over."""
        path = self.folder + entry_file(guide)
        return read_entry((self.stage.folder / path).read_bytes())

    @cached_property
    def _loose(self) -> Path | None:
        """Where workers lay what they make; None where they hand it back."""
        return self.stage.loose() if self.pool.beside else None

    def begin(self, plan: GuidePlan) -> tuple[tuple[Result[LaidSize], ...], Result[LaidFiles]]:
        """Let workers make the documents of a guide: those of each size, and of all sizes."""
        earlier = self._earlier(plan.file.id)
        content = replace(self.content, guides=(plan.file,))
        sizes = tuple(
            self.pool.submit(
                lay_size, self._loose, content, plan, size.size, self.theme, earlier=earlier
            )
            for size in plan.sizes
        )
        return sizes, self.pool.submit(lay_guide_files, self._loose, content, plan, earlier)

    def finish_documents(self, begun: _Begun) -> PageTask:
        """Write the documents of a guide, and let a worker make its pages."""
        plan = begun.plan
        made: dict[str, LaidSize] = {}
        for size, result in zip(plan.sizes, begun.sizes, strict=True):
            made[size.size] = result.result()
            self.progress.step(f"{plan.file.id} {size.size}")
        shared = begun.shared.result()
        downloads: dict[str, DownloadInfo] = dict(shared.downloads)
        keys: dict[str, str] = {}
        several: tuple[LaidSize | LaidFiles, ...] = (*made.values(), shared)
        for files in several:
            downloads.update(files.downloads)
            keys.update(files.keys)
            self._write(files.files)
        self._repeat_documents(moved_sizes(plan.file))
        self._note(plan, downloads, keys)
        content = replace(self.content, guides=(plan.file,))
        return self.pool.submit(
            lay_pages,
            self._loose,
            content,
            plan,
            {size: one.shown for size, one in made.items()},
            downloads,
            self.theme,
            earlier=self._earlier(plan.file.id),
            versions=self._publish_versions(plan.file.id),
        )

    def _publish_versions(self, guide: str) -> tuple[KeptVersion, ...]:
        """Put the files of older versions below their guide, as they were published."""
        versions = self.versions.get(guide, ())
        for one in versions:
            start = f"{self.folder}{guide}/{one.kept.folder}/"
            for name, (source, sha) in one.files.items():
                self.stage.keep(start + name, source, sha)
        return tuple(one.kept for one in versions)

    def _repeat_documents(self, moves: Iterable[Move]) -> None:
        """Let documents stand at their former addresses too: they cannot lead on as pages do."""
        moves = [(self.folder + old, self.folder + new) for old, new in moves]
        for old, new in list(moved_documents(moves, self.stage.sums)):
            self.stage.repeat(old, new)

    def _earlier(self, guide: str) -> EarlierPress:
        """What the last press made for a guide; for the pages of none, all that it made."""
        finder = self.state.finder(self.folder + guide)
        return EarlierPress(self.folder, self.state.stamp, finder, self.begun)

    def _write(self, files: Mapping[str, FileMade]) -> None:
        for name, data in files.items():
            if isinstance(data, bytes):
                self.stage.write(self.folder + name, data)
            else:
                self.stage.place(self.folder + name, data)

    def write_pages(self, pages: LaidFiles) -> None:
        """Write pages, and note what they came from."""
        self._write(pages.files)
        self.state.note({self.folder + path: key for path, key in pages.keys.items()})

    def _note(
        self, plan: GuidePlan, downloads: Mapping[str, DownloadInfo], keys: Mapping[str, str]
    ) -> None:
        written = {self.folder + path: key for path, key in keys.items()}
        there = {path: key for path, key in written.items() if path in self.stage.sums}
        pages = sum(info.pages for info in downloads.values())
        gap = above_best(plan)
        guide = plan.file.guide
        unit = Unit(
            "",
            pages,
            len(plan.sizes),
            f"{plan.file.id}: {gap}" if gap else "",
            version="" if self.state.options.editions else guide.version,
            date=guide.date,
            documents=listed_documents(plan.file.id, downloads),
        )
        self.state.remember(self.folder + plan.file.id, unit, there)
