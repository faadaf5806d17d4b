"""Command line in → calls of the pipeline, words and an exit status out. Decides nothing.

Imports of the pipeline stand inside the commands, so that --help and --version answer at once.
"""

import argparse
import sys
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, Protocol

from guidegen.app.commands.options import build_parser
from guidegen.errors import ContentError, GuidegenError, UsageError

if TYPE_CHECKING:
    from guidegen.progress import Reporter

__all__ = ["build_parser", "main", "run"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    options = build_parser().parse_args(arguments)
    try:
        return int(_COMMANDS[options.command](options))
    except ContentError as error:
        count = len(error.problems)
        print(error, file=sys.stderr)
        print(f"\n{count} problem{'s' if count != 1 else ''}; nothing was made", file=sys.stderr)
        return error.status
    except GuidegenError as error:
        print(f"guidegen: {error}", file=sys.stderr)
        return error.status
    except KeyboardInterrupt:
        print("\nguidegen: stopped; the old output is as it was", file=sys.stderr)
        return 130


def _begin(options: argparse.Namespace) -> int:
    from guidegen.app.commands.begin import begin

    print(begin(options.folder).summary())
    return 0


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
        from guidegen.progress import terminal_progress

        with terminal_progress(quiet=options.quiet) as progress:
            result = press(state.options, progress, state)
    for problem in result.problems:
        if problem.severity is not Severity.ADVICE:
            print(problem, file=sys.stderr)
    print(result.summary())
    return 0


def _proof(options: argparse.Namespace) -> int:
    from guidegen.app.commands.proof import explain_code, proof, report, verify_packs

    if options.explain is not None:
        print(explain_code(options.explain))
        return 0
    packs = tuple(Path(name) for name in options.guides if name.lower().endswith(".zip"))
    guides = tuple(name for name in options.guides if not name.lower().endswith(".zip"))
    if packs and guides:
        raise UsageError("verify archives and proof guides in two calls")
    findings = verify_packs(packs) if packs else proof(options.content, guides)
    print(report(findings, options.format, everything=options.all))
    return ContentError.status if findings.fails else 0


class _Made(Protocol):
    """What a command that makes files for given people ends with."""

    def summary(self) -> str:
        """The closing words."""


def _make(make: "Callable[[Reporter], _Made]", options: argparse.Namespace) -> int:
    """Run what makes files, with progress unless it is to be quiet, and print how it ended."""
    from guidegen.progress import terminal_progress

    with terminal_progress(quiet=options.quiet) as progress:
        result = make(progress)
    print(result.summary())
    return 0


def _fit(options: argparse.Namespace) -> int:
    from guidegen.app.commands.fit import FitOptions, fit

    chosen = FitOptions(
        content=options.content,
        themes=options.themes,
        out=options.out or Path(f"fit-{options.guide}"),
        guide=options.guide,
        body=options.body,
        measures=tuple(options.measure),
        sure=options.sure,
        nesting_seconds=options.nesting_time,
        have=options.have,
        language=options.language,
    )
    return _make(partial(fit, chosen), options)


def _class(options: argparse.Namespace) -> int:
    from guidegen.app.commands.workshop import ClassOptions, plan_class

    chosen = ClassOptions(
        content=options.content,
        themes=options.themes,
        out=options.out or Path(f"class-{options.guide}"),
        guide=options.guide,
        people=options.people,
        counts=tuple(options.count),
        hours=options.hours,
        paper=options.paper,
        have=options.have,
        sure=options.sure,
        nesting_seconds=options.nesting_time,
        language=options.language,
    )
    return _make(partial(plan_class, chosen), options)


def _show(options: argparse.Namespace) -> int:
    from guidegen.app.commands.show import ShowOptions, show

    try:
        show(
            ShowOptions(options.content, options.themes, tuple(options.guides), options.port),
            lambda words: print(words, file=sys.stderr, flush=True),
        )
    except KeyboardInterrupt:
        print("\nno longer shown", file=sys.stderr)
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
    print(result.summary())
    return 0


def _schema(options: argparse.Namespace) -> int:
    from guidegen.app.commands.press import write_schemas

    for path in write_schemas(options.to):
        print(path)
    return 0


_COMMANDS = {
    "begin": _begin,
    "press": _press,
    "proof": _proof,
    "fit": _fit,
    "class": _class,
    "sizes": _sizes,
    "schema": _schema,
    "show": _show,
}


def run() -> NoReturn:
    """Entry point of the guidegen command."""
    sys.exit(main())
