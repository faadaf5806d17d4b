"""One finding about the content: where it is, what is wrong, what would cure it.

A leaf: every stage may make problems, nobody but the pipeline decides what to do about them.
"""

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much a problem weighs. Only an error stops a press."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A point in a file, as editors count it."""

    file: str
    """Path as the author would type it, with forward slashes."""
    line: int = 0
    """From 1; 0 when the problem concerns the whole file."""
    column: int = 0
    """From 1; 0 when the problem concerns the whole line."""
    text: str = ""
    """The source line itself, without its line end; empty when unknown."""

    def __str__(self) -> str:
        numbers = [str(n) for n in (self.line, self.column) if n]
        return ":".join([self.file, *numbers])


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding. It cannot be made without a code, a place and a message."""

    code: str
    """Stable name of the check, such as 'unknown-name'."""
    severity: Severity
    place: Place
    path: str
    """Where in the build file, dotted: 'parts.cuff.material'; empty for a whole file."""
    message: str
    """What is wrong and what was expected, in one sentence without a full stop."""
    cure: str = ""
    """What to do about it; empty where the message says it already."""

    @property
    def sort_key(self) -> tuple[Place, str, str, str]:
        """Order of a report: by file, line, column, then path and text."""
        return (self.place, self.path, self.code, self.message)

    def __str__(self) -> str:
        head = f"{self.place}  {self.path}: " if self.path else f"{self.place}  "
        word = "" if self.severity is Severity.ERROR else f"{self.severity}: "
        lines = [f"{head}{word}{self.message}"]
        lines += [f"    {line}" for line in self.source_lines()]
        if self.cure:
            lines.append(f"    {self.cure}")
        return "\n".join(lines)

    def source_lines(self) -> list[str]:
        """The source line and a caret under the place; nothing where the line is unknown."""
        if not self.place.text:
            return []
        # Tabs keep their width so that the caret stands under the right letter.
        shown = self.place.text[:160]
        before = "".join("\t" if c == "\t" else " " for c in shown[: self.place.column - 1])
        caret = 0 < self.place.column <= len(shown) + 1
        return [shown, f"{before}^"] if caret else [shown]


def sort_problems(problems: Iterable[Problem]) -> list[Problem]:
    """Problems in the order of a report, the same finding only once."""
    return sorted(set(problems), key=lambda problem: problem.sort_key)


def did_you_mean(name: str, valid: Iterable[str]) -> str:
    """A hint for the nearest valid name: '; did you mean "foam-10"?', or the choices, or ''."""
    choices = sorted(valid)
    close = difflib.get_close_matches(name, choices, n=1, cutoff=0.6)
    if close:
        return f'; did you mean "{close[0]}"?'
    if 0 < len(choices) <= 8:
        return "; there are: " + ", ".join(choices)
    return ""
