"""What is being made, while it is made: one line on a terminal, plain lines in a log.

The only module that imports rich.
"""

import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, TextIO

from guidegen.errors import UsageError
from guidegen.problems import printable

if TYPE_CHECKING:
    from rich.progress import Progress


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

    def __init__(self, progress: "Progress") -> None:
        self._progress = progress
        self._task: int | None = None

    def stage(self, name: str, total: int) -> None:
        """Begin a bar."""
        self._task = self._progress.add_task(name, total=total, what="")

    def step(self, what: str) -> None:
        """Move the bar on and show what is made."""
        if self._task is not None:
            self._progress.update(self._task, advance=1, what=what)  # type: ignore[arg-type]


@dataclass(frozen=True)
class _Lines:
    """A plain line for each stage, and for each thing where all are wanted."""

    each: bool = False

    def stage(self, name: str, total: int) -> None:
        """Print what begins."""
        print(f"{name}: {total}", file=sys.stderr, flush=True)

    def step(self, what: str) -> None:
        """Print what is made, if all are wanted: a log wants few lines."""
        if self.each:
            print(f"  {printable(what)}", file=sys.stderr, flush=True)


@dataclass(frozen=True)
class _Log:
    """A line with its time for everything, in a file."""

    file: TextIO

    def stage(self, name: str, total: int) -> None:
        """Note what begins."""
        self._note(f"{name}: {total}")

    def step(self, what: str) -> None:
        """Note what is made."""
        self._note(f"  {printable(what)}")

    def _note(self, words: str) -> None:
        now = datetime.now().astimezone().isoformat(timespec="seconds")
        print(now, words, file=self.file, flush=True)


@dataclass(frozen=True)
class _Several:
    """Each of several is told."""

    reporters: tuple[Reporter, ...]

    def stage(self, name: str, total: int) -> None:
        """Tell all what begins."""
        for one in self.reporters:
            one.stage(name, total)

    def step(self, what: str) -> None:
        """Tell all what is made."""
        for one in self.reporters:
            one.step(what)


@contextmanager
def terminal_progress(
    *, quiet: bool, verbose: bool = False, log: Path | None = None
) -> Iterator[Reporter]:
    """A reporter for this terminal, on standard error, and for a log file where one is named.

    Raises UsageError where that file cannot be written.
    """
    with ExitStack() as stack:
        reporter = stack.enter_context(_terminal(quiet=quiet, verbose=verbose))
        if log is not None:
            try:
                file = stack.enter_context(log.open("a", encoding="utf-8"))
            except OSError as error:
                raise UsageError(f"{log} cannot be written: {error.strerror}") from None
            reporter = _Several((reporter, _Log(file)))
        yield reporter


@contextmanager
def _terminal(*, quiet: bool, verbose: bool) -> Iterator[Reporter]:
    if quiet:
        yield Silent()
    elif verbose or not sys.stderr.isatty():
        yield _Lines(verbose)
    else:
        with _bars() as bars:
            yield bars


@contextmanager
def _bars() -> Iterator[Reporter]:
    """Bars on a terminal that can draw them, else lines."""
    from rich.console import Console  # noqa: PLC0415 - large: most processes do without it
    from rich.progress import (  # noqa: PLC0415 - the same
        BarColumn,
        MofNCompleteColumn,
        Progress,
        TextColumn,
        TimeElapsedColumn,
        TimeRemainingColumn,
    )

    console = Console(stderr=True)
    if not console.is_terminal:
        yield _Lines()
    else:
        columns = (
            TextColumn("{task.description:<12}"),
            BarColumn(bar_width=24),
            MofNCompleteColumn(),
            TimeElapsedColumn(),
            TextColumn("still"),
            TimeRemainingColumn(),
            TextColumn("{task.fields[what]}"),
        )
        with Progress(*columns, console=console) as progress:
            yield _Bars(progress)
