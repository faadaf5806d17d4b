"""The exceptions that guidegen raises on purpose, with the exit status each one ends in.

    GuidegenError                 1
    ├── ContentError              2   the content has errors; carries the problems
    ├── UsageError                2   the command line asks for something that is not there
    ├── OutputError               1   out/ could not be written; the old one is untouched
    ├── PressLocked               3   another press is at work in the same folder
    ├── SolverError               1   the nesting solver failed (caught: a simpler plan is made)
    └── MissingLibrary            4   a system library is not installed

Anything else that reaches the command line is a defect of guidegen and ends in status 70.
"""

from collections.abc import Sequence

from guidegen.problems import Problem, sort_problems


class GuidegenError(Exception):
    """Base of all; the message is for the author, without a traceback."""

    status = 1


class ContentError(GuidegenError):
    """The content cannot be used as it is."""

    status = 2

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = sort_problems(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[type["ContentError"], tuple[list[Problem]]]:
        """Made again from its problems where one process hands it to another."""
        return ContentError, (self.problems,)


class UsageError(GuidegenError):
    """An option or argument names something that does not exist."""

    status = 2


class OutputError(GuidegenError):
    """The output could not be written; what was there before still is."""


class PressLocked(GuidegenError):
    """Another press holds the lock of this output folder."""

    status = 3


class SolverError(GuidegenError):
    """The nesting solver crashed, hung or gave an answer that does not hold."""


class MissingLibrary(GuidegenError):
    """A library that comes with the system, not with Python, is not there."""

    status = 4
