"""Folders in → a call for every change of a file in them.

The only module that imports watchfiles.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Thread

from watchfiles import watch

QUIET = 30
"""ms without another change before a change is told: editors write a file in several moves."""


@contextmanager
def watching(folders: tuple[Path, ...], tell: Callable[[], object]) -> Iterator[None]:
    """Call `tell` in a thread after each change in the folders, while the block runs."""
    stop = Event()

    def run() -> None:
        changes = watch(
            *folders,
            stop_event=stop,
            debounce=10 * QUIET,
            step=QUIET,
            rust_timeout=200,
            raise_interrupt=False,
        )
        for _ in changes:
            tell()

    thread = Thread(target=run, name="watching", daemon=True)
    thread.start()
    try:
        yield
    finally:
        stop.set()
        thread.join(timeout=5)
