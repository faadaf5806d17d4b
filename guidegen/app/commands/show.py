"""A content folder in → shown in a browser on this machine, pressed again on every change."""

import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from threading import Event, Lock

from guidegen.app.preview.builder import PreviewBuilder, load
from guidegen.app.preview.server import serving
from guidegen.app.preview.site import LiveSite
from guidegen.app.preview.watch import watching
from guidegen.app.workers.local import begin_worker, deaf_to_ctrl_c
from guidegen.errors import GuidegenError, UsageError
from guidegen.problems import Severity

PORT = 8000
"""First port that is tried. Our choice."""
PORTS = 20
"""How many are tried."""


@dataclass(frozen=True)
class ShowOptions:
    """What to show, and where."""

    content: Path
    themes: Path
    guides: tuple[str, ...] = ()
    """Ids of guides; empty for all."""
    port: int | None = None
    """None for the first free one from PORT on; 0 for any."""


class Workshop:
    """One process more, started when it is first needed, for documents that take long."""

    def __init__(self) -> None:
        self._executor: ProcessPoolExecutor | None = None
        self._lock = Lock()

    def __call__[**P, R](self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs) -> R:
        """The result of the job, from the other process."""
        return self.begin(job, *args, **kwargs).result()

    def begin[**P, R](self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs) -> Future[R]:
        """The same, to come."""
        with self._lock:
            if self._executor is None:
                self._executor = ProcessPoolExecutor(
                    1, mp_context=get_context("spawn"), initializer=begin_worker
                )
            executor = self._executor
        with deaf_to_ctrl_c():
            return executor.submit(job, *args, **kwargs)

    def close(self) -> None:
        """End without waiting for what is being made."""
        if self._executor is not None:
            self._executor.shutdown(wait=False, cancel_futures=True)


def show(options: ShowOptions, say: Callable[[str], None]) -> None:
    """Show the site until Ctrl-C. Raises UsageError for folders or guides that are not there."""
    if not options.content.is_dir():
        raise UsageError(f'there is no folder "{options.content}"')
    with showing(options, say) as (address, changed, press):
        say(f"showing {options.content} at {address} (Ctrl-C ends)")
        while True:
            changed.wait()
            changed.clear()
            press()


@contextmanager
def showing(
    options: ShowOptions, say: Callable[[str], None]
) -> Iterator[tuple[str, Event, Callable[[], None]]]:
    """Address, what is set on a change, and what presses again, while the block runs."""
    site, workshop = LiveSite(), Workshop()
    # The other process starts while this one reads.
    workshop.begin(load)
    builder = PreviewBuilder(
        options.content, options.themes, options.guides, run=workshop, beside=workshop.begin
    )
    changed = Event()
    changed.set()
    port, tries = (PORT, PORTS) if options.port is None else (options.port, 1)
    folders = tuple(folder for folder in (options.content, options.themes) if folder.is_dir())
    try:
        with serving(site, port, tries) as address, watching(folders, changed.set):
            yield address, changed, lambda: press_again(builder, site, say)
    finally:
        workshop.close()


def press_again(builder: PreviewBuilder, site: LiveSite, say: Callable[[str], None]) -> None:
    """Show the content as it is now, or tell why the last good version stays."""
    started = time.perf_counter()
    try:
        draft = builder.draft()
        site.show(draft)
    except GuidegenError as error:
        site.tell_faults(str(error))
        say(f"{error}\nthe last good version stays")
    except Exception as error:  # the preview outlives a defect, which shows itself again
        site.tell_faults(f"a defect of guidegen: {error!r}")
        say(f"a defect of guidegen: {error!r}")
    else:
        warnings = sum(problem.severity is Severity.WARNING for problem in draft.problems)
        told = f", {warnings} warning{'s' if warnings != 1 else ''}" if warnings else ""
        say(f"pressed in {time.perf_counter() - started:.2f} s{told}")
