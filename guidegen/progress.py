"""What is being made, while it is made: one line on a terminal, plain lines in a log.

The only module that imports rich.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Protocol

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn


class Reporter(Protocol):
    """Told by the pipeline what happens."""

    def stage(self, name: str, total: int) -> None:
        """A new stage begins, with `total` things to make."""

    def step(self, what: str) -> None:
        """The stage makes one more thing."""


class Silent:
    """Says nothing."""

    def stage(self, name: str, total: int) -> None:
        """Say nothing."""

    def step(self, what: str) -> None:
        """Say nothing."""


class _Bars:
    """A bar for each stage."""

    def __init__(self, progress: Progress) -> None:
        self._progress = progress
        self._task: int | None = None

    def stage(self, name: str, total: int) -> None:
        """Begin a bar."""
        self._task = self._progress.add_task(name, total=total, what="")

    def step(self, what: str) -> None:
        """Move the bar on and show what is made."""
        if self._task is not None:
            self._progress.update(self._task, advance=1, what=what)  # type: ignore[arg-type]


class _Lines:
    """One plain line for each stage, for logs."""

    def stage(self, name: str, total: int) -> None:
        """Print what begins."""
        print(f"{name}: {total}", file=sys.stderr, flush=True)

    def step(self, what: str) -> None:
        """Say nothing: a log wants few lines."""


@contextmanager
def terminal_progress(*, quiet: bool) -> Iterator[Reporter]:
    """A reporter for this terminal, on standard error."""
    console = Console(stderr=True)
    if quiet:
        yield Silent()
    elif not console.is_terminal:
        yield _Lines()
    else:
        columns = (
            TextColumn("{task.description:<12}"),
            BarColumn(bar_width=24),
            MofNCompleteColumn(),
            TimeElapsedColumn(),
            TextColumn("{task.fields[what]}"),
        )
        with Progress(*columns, console=console) as progress:
            yield _Bars(progress)
