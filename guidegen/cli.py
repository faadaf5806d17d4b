"""Command line in → calls of the pipeline, words and an exit status out. Decides nothing.

Imports of the pipeline stand inside the commands, so that --help and --version answer at once.
"""

import argparse
import os
import signal
import sys
import threading
import traceback
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, Protocol, TextIO

from guidegen.app.commands.options import build_parser, says_nothing
from guidegen.app.commands.people.typed import for_class, for_people
from guidegen.app.workers.memory import clear_rarely
from guidegen.errors import ContentError, GuidegenError, UsageError
from guidegen.problems import printable

if TYPE_CHECKING:
    from guidegen.progress import Reporter

__all__ = ["build_parser", "main", "run"]

DEFECT = 70
"""Exit status of a defect, as sysexits.h has it (EX_SOFTWARE)."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    parser = build_parser()
    if says_nothing(arguments):
        parser.print_help()
        return UsageError.status
    options = parser.parse_args(arguments)
    try:
        with _ended_like_ctrl_c():
            _find_folders(options)
            return int(_COMMANDS[options.command](options))
    except ContentError as error:
        count = len(error.problems)
        _say(error, sys.stderr)
        _say(f"\n{count} problem{'s' if count != 1 else ''}; nothing was made", sys.stderr)
        return error.status
    except GuidegenError as error:
        _say(f"guidegen: {error}", sys.stderr)
        return error.status
    except KeyboardInterrupt as stop:
        _say("\nguidegen: stopped; the old output is as it was", sys.stderr)
        for note in getattr(stop, "__notes__", ()):
            _say(note, sys.stderr)
        return stop.status if isinstance(stop, _Ended) else 130


def _find_folders(options: argparse.Namespace) -> None:
    """Put the site that one stands in, or has named, where commands look for it."""
    from guidegen.app.commands.site_folder import find_site, out_folder, theme_folder

    given = vars(options)
    needless = given.get("to") is not None or given.get("explain") is not None
    archives = options.command == "proof" and options.guides
    if archives and all(name.lower().endswith(".zip") for name in options.guides):
        needless = True
    if "content" not in given or needless:
        return
    options.content = find_site(options.content)
    if "themes" in given:
        options.themes = theme_folder(options.content, options.themes)
    if options.command == "press":
        options.out = options.out or out_folder(options.content)


class _Ended(KeyboardInterrupt):
    """The system, or whoever started this, wants it to end."""

    status = 128 + 15
    """As shells tell of a program that SIGTERM ended."""


@contextmanager
def _ended_like_ctrl_c() -> Iterator[None]:
    """SIGTERM is taken like Ctrl-C: what is half made is put away, workers end.

    Only in the main thread can a signal be taken; elsewhere it is left to whoever is there.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def end(*_: object) -> None:
        signal.signal(signal.SIGTERM, signal.SIG_IGN)  # a second one must not stop the clearing up
        raise _Ended

    before = signal.signal(signal.SIGTERM, end)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _say(words: object, stream: TextIO | None = None) -> None:
    """Print for people: names and values of strangers are in it, and must not steer a terminal."""
    lines = (printable(line, keep="\t") for line in str(words).split("\n"))
    print("\n".join(lines), file=stream or sys.stdout, flush=True)


def _begin(options: argparse.Namespace) -> int:
    from guidegen.app.commands.begin import begin

    _say(begin(options.folder, options.craft).summary())
    return 0


def _bench(options: argparse.Namespace) -> int:
    from guidegen.app.commands.bench.calls import CALLS

    _say(CALLS[options.command](options))
    return 0


def _flatten(options: argparse.Namespace) -> int:
    from guidegen.app.commands.bench.calls import flatten

    return _make(partial(flatten, options), options)


def _press(options: argparse.Namespace) -> int:
    from guidegen.app.jobs.press_state import PressOptions, read_state
    from guidegen.problems import Severity

    state = read_state(
        PressOptions(
            content=options.content,
            out=options.out,
            themes=options.themes,
            guides=tuple(options.guides),
            nesting_seconds=options.nesting_time,
            search=options.search,
            afresh=options.afresh,
            editions=tuple(options.editions),
            workers=options.workers,
            cluster=options.cluster,
        )
    )
    result = state.unchanged()
    if result is None:
        # Loaded where there is something to make: libraries for it take most of a second.
        from guidegen.app.commands.press import press

        with _progress(options) as progress:
            result = press(state.options, progress, state)
    if options.format == "json":
        from guidegen.app.commands.results import press_json

        print(press_json(result))
        return 0
    for problem in result.problems:
        if problem.severity is not Severity.ADVICE:
            _say(problem, sys.stderr)
    _say(result.summary())
    return 0


def _proof(options: argparse.Namespace) -> int:
    if options.explain is not None:
        from guidegen.app.commands.explain import explain_code

        _say(explain_code(options.explain))
        return 0
    from guidegen.app.commands.proof import next_words, proof, report, verify_packs

    if options.published is not None:
        from guidegen.app.commands.published import proof_published
        from guidegen.app.commands.site_folder import out_folder

        found = proof_published(options.published, options.out or out_folder(options.content))
        print(report(found, options.format, everything=options.all))
        return ContentError.status if found.fails else 0
    packs = tuple(Path(name) for name in options.guides if name.lower().endswith(".zip"))
    guides = tuple(name for name in options.guides if not name.lower().endswith(".zip"))
    if packs and guides:
        raise UsageError("verify archives and proof guides in two calls")
    findings = verify_packs(packs) if packs else proof(options.content, guides)
    # Made printable line by line: those for GitHub begin with an order that is meant.
    print(report(findings, options.format, everything=options.all))
    if options.pictures is not None and not packs:
        from guidegen.app.commands.finding_pictures import picture_findings

        where = (options.content, guides, options.pictures)
        for path in picture_findings(*where, findings, everything=options.all):
            _say(f"picture {path}", sys.stderr)
    if options.format == "words" and not packs:
        _say(next_words(fails=findings.fails), sys.stderr)
    return ContentError.status if findings.fails else 0


@contextmanager
def _progress(options: argparse.Namespace) -> "Iterator[Reporter]":
    """Progress as the options ask for it."""
    from guidegen.progress import terminal_progress

    how = {"quiet": options.quiet, "verbose": options.verbose, "log": options.log}
    with terminal_progress(**how) as progress:
        yield progress


class _Made(Protocol):
    """What a command that makes files for given people ends with."""

    def summary(self) -> str:
        """The closing words."""


def _make(make: "Callable[[Reporter], _Made]", options: argparse.Namespace) -> int:
    """Run what makes files, with progress unless it is to be quiet, and print how it ended."""
    with _progress(options) as progress:
        result = make(progress)
    _say(result.summary())
    return 0


def _fit(options: argparse.Namespace) -> int:
    from guidegen.app.commands.fit import FitOptions, fit

    chosen = FitOptions(
        body=options.body,
        measures=tuple(options.measure),
        **for_people(options, "fit", sure=options.sure),
    )
    return _make(partial(fit, chosen), options)


def _class(options: argparse.Namespace) -> int:
    from guidegen.app.commands.workshop import ClassOptions, plan_class

    return _make(partial(plan_class, ClassOptions(**for_class(options))), options)


def _show(options: argparse.Namespace) -> int:
    from guidegen.app.commands.show import ShowOptions, show

    try:
        show(
            ShowOptions(options.content, options.themes, tuple(options.guides), options.port),
            lambda words: _say(words, sys.stderr),
        )
    except KeyboardInterrupt:
        _say("\nno longer shown", sys.stderr)
    return 0


def _sizes(options: argparse.Namespace) -> int:
    from guidegen.app.commands.sizes import SizesOptions, show_sizes

    result = show_sizes(
        SizesOptions(
            content=options.content,
            themes=options.themes,
            guide=options.guide,
            out=options.out or Path(f"sizes-{options.guide}"),
            population=options.population,
            columns=tuple(options.column),
            unit=options.unit,
        )
    )
    if options.format == "json":
        from guidegen.app.commands.results import sizes_json

        print(sizes_json(result))
    else:
        _say(result.summary())
    return 0


def _theme(options: argparse.Namespace) -> int:
    from guidegen.app.commands.theme import begin_looks, read_looks

    looks = read_looks(options.content, options.themes)
    if options.begin:
        _say(begin_looks(looks))
    elif options.words is not None:
        _say(looks.find_words(options.words))
    else:
        _say(looks.summary())
    return 0


def _handbook(options: argparse.Namespace) -> int:
    from guidegen.app.commands.handbook import show_handbook, write_handbook

    if options.out is not None:
        _say(write_handbook(options.out, options.chapter))
        return 0
    try:
        # A browser is opened where a person sits; a program that asks gets the address alone.
        show_handbook(
            options.chapter,
            options.port,
            lambda words: _say(words, sys.stderr),
            open_it=sys.stdout.isatty(),
        )
    except KeyboardInterrupt:
        _say("\nno longer shown", sys.stderr)
    return 0


def _completion(options: argparse.Namespace) -> int:
    from guidegen.app.commands.completion import completion_script

    print(completion_script(build_parser(), options.shell))
    return 0


def _licences(options: argparse.Namespace) -> int:
    from guidegen.app.commands.licences import licences_words

    _say(licences_words(options.content))
    return 0


def _schema(options: argparse.Namespace) -> int:
    from guidegen.app.commands.schema import write_for

    written = write_for(options.content, options.to)
    for path in written.paths:
        _say(path)
    for hint in written.hints:
        _say(hint, sys.stderr)
    return 0


_COMMANDS = {
    "begin": _begin,
    "flatten": _flatten,
    "redraw": _bench,
    "press": _press,
    "proof": _proof,
    "fit": _fit,
    "class": _class,
    "sizes": _sizes,
    "schema": _schema,
    "licences": _licences,
    "trace": _bench,
    "theme": _theme,
    "handbook": _handbook,
    "completion": _completion,
    "show": _show,
    "worksheet": _bench,
}


def run() -> NoReturn:
    """Entry point of the guidegen command."""
    clear_rarely()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            # What a terminal's own letters lack is shown by its number.
            stream.reconfigure(errors="backslashreplace")
    try:
        status = main()
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read along has enough (`guidegen proof | head`). What is left goes nowhere, so
        # that Python does not complain of it while it ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = 128 + 13  # as shells tell of SIGPIPE
    except Exception as error:  # whatever it is: its author is told in words, and what to do
        status = DEFECT
        _tell_defect(error)
    sys.exit(status)


def _tell_defect(error: Exception) -> None:
    """Say that guidegen is wrong and not its author's files; with --verbose, all that is known."""
    frames = traceback.extract_tb(error.__traceback__)
    if "--verbose" in sys.argv:
        _say("".join(traceback.format_exception(error)).rstrip(), sys.stderr)
    ours = [one for one in frames if "guidegen" in Path(one.filename).parts] or frames[-1:]
    at = f", {Path(ours[-1].filename).name} line {ours[-1].lineno}" if ours else ""
    _say(
        f"guidegen: a defect of guidegen, not of your files: {type(error).__name__}: {error}{at}\n"
        "The old output is as it was. Please tell its makers what you typed; --verbose shows more",
        sys.stderr,
    )
