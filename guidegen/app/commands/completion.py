"""The command line in → a script that completes it with the tab key.

The only module that imports shtab.
"""

import argparse
from collections.abc import Iterator
from pathlib import Path

import shtab

SHELLS = ("bash", "zsh", "tcsh")


def completion_script(parser: argparse.ArgumentParser, shell: str) -> str:
    """A completion script for one of SHELLS, to be read by the shell at its start."""
    for action in _actions(parser):
        if action.type is Path:
            files = action.metavar == "FILE" or "FILE" in str(action.metavar)
            action.complete = shtab.FILE if files else shtab.DIRECTORY  # type: ignore[attr-defined]
    return str(shtab.complete(parser, shell=shell))


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:  # argparse has no public way to ask
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for command in dict.fromkeys(action.choices.values()):
                yield from _actions(command)
