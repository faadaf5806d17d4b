"""One finding about the content: where it is, what is wrong, what would cure it.

A leaf: every stage may make problems, nobody but the pipeline decides what to do about them.
"""

import difflib
import re
from collections.abc import Generator, Iterable
from dataclasses import dataclass, field
from unicodedata import category

from guidegen.findings.records import Severity
from guidegen.findings.registry import CODES

__all__ = [
    "Checked", "Place", "Problem", "Severity", "collect", "did_you_mean", "has_errors",
    "printable", "sort_problems",
]  # fmt: skip


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
        return ":".join([printable(self.file), *numbers])


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding. It cannot be made without a code, a place and a message."""

    code: str
    """Stable name of the check, such as 'unknown-name'; one of the registry in findings/."""
    place: Place
    path: str
    """Where in the build file, dotted: 'parts.cuff.material'; empty for a whole file."""
    message: str
    """What is wrong and what was expected, in one sentence without a full stop."""
    cure: str = ""
    """What to do about it; empty where the message says it already."""
    amount: float = field(default=0.0, compare=False)
    """How much is wrong, in the unit of its code: of several sizes the one with most is told."""

    @property
    def severity(self) -> Severity:
        """How much it weighs, by the registry: no call can forget or contradict it."""
        return CODES[self.code].severity

    @property
    def sort_key(self) -> tuple[Place, str, str, str]:
        """Order of a report: by file, line, column, then path and text."""
        return (self.place, self.path, self.code, self.message)

    def __str__(self) -> str:
        path = f"{printable(self.path)}: " if self.path else ""
        word = "" if self.severity is Severity.ERROR else f"{self.severity}: "
        lines = [f"{self.place}  {path}{word}{printable(self.message)}"]
        lines += [f"    {line}" for line in self.source_lines()]
        if self.cure:
            lines.append(f"    {printable(self.cure)}")
        return "\n".join(lines)

    def source_lines(self) -> list[str]:
        """The source line and a caret under the place; nothing where the line is unknown."""
        if not self.place.text:
            return []
        # Tabs keep their width so that the caret stands under the right letter.
        text, column = self.place.text[:160], self.place.column
        shown = printable(text, keep="\t")
        if not 0 < column <= len(text) + 1:
            return [shown]
        before = shown[: len(printable(text, keep="\t")) - len(printable(text[column - 1 :]))]
        before = "".join("\t" if letter == "\t" else " " for letter in before)
        return [shown, f"{before}^"]


type Checked[T] = Generator[Problem, None, T]
"""What yields its findings as it makes a T: `text = yield from read_file(path, shown)`."""


def collect[T](making: Checked[T]) -> tuple[T, list[Problem]]:
    """What is made, and all that was found wrong on the way."""
    problems: list[Problem] = []
    while True:
        try:
            problems.append(next(making))
        except StopIteration as end:
            made: T = end.value
            return made, problems


_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
"""Unicode's categories of what steers rather than shows: controls, formats (among them those of
direction and no width), halves of surrogate pairs, ends of lines and paragraphs."""

_COMMAND = re.compile(r"^\s*::|##(?=\[|vso\[)")
"""What robots that check contributions take for an order to them in anything that is printed:
GitHub's ::name::, also after blanks, and ##[name] anywhere; Azure's ##vso[name]. From memory."""


def printable(text: str, keep: str = "") -> str:
    """A text that a terminal or log only shows: what would steer it is escaped, as \\x1b.

    Letters in `keep` stay, such as tabs. What has been escaped stays as it is.
    """
    if "::" in text or "##" in text:
        text = _COMMAND.sub(lambda found: f"{found[0][:-1]}\\x{ord(found[0][-1]):02x}", text)
    if text.isprintable():
        return text
    return "".join(
        _escaped(letter) if category(letter) in _UNSEEN and letter not in keep else letter
        for letter in text
    )


def _escaped(letter: str) -> str:
    code = ord(letter)
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def has_errors(problems: Iterable[Problem]) -> bool:
    """Whether any of them stops a press."""
    return any(problem.severity is Severity.ERROR for problem in problems)


def sort_problems(problems: Iterable[Problem]) -> list[Problem]:
    """Problems in the order of a report, the same finding only once."""
    return sorted(set(problems), key=lambda problem: problem.sort_key)


_NUMBER = re.compile(r"[0-9]{1,18}")
_MOST_LISTED = 320
"""Letters of a list of valid names. Our choice: all shapes, or all keys of a step; four lines."""


def did_you_mean(name: str, valid: Iterable[str]) -> str:
    """A hint for the nearest valid name: '; did you mean "foam-10"?', or the choices, or ''."""
    choices = sorted(valid)
    nearest = _nearest(name, choices)
    if nearest:
        return f'; did you mean "{nearest}"?'
    listed = "; there are: " + ", ".join(choices)
    return listed if choices and len(listed) <= _MOST_LISTED else ""


def _nearest(name: str, choices: list[str]) -> str:
    """The choice most like a name; of those that differ in a number alone, the nearest number.

    Letters alone would take foam-2 for foam-12, which is another thing; foam-10 is next to it.
    """
    pattern = _NUMBER.split(name)
    numbered = [choice for choice in choices if _NUMBER.split(choice) == pattern]
    # A number more than half again as large is a slip of the keys: a44 means a4, not a5.
    near = [choice for choice in numbered if max(_distance(name, choice), default=1) <= 0.5]
    if near:
        return min(near, key=lambda choice: (_distance(name, choice), choice))
    close = difflib.get_close_matches(name, choices, n=1, cutoff=0.6)
    return close[0] if close else ""


def _distance(name: str, other: str) -> list[float]:
    """How far the numbers in two names lie apart, as shares of the larger one."""
    pairs = zip(_NUMBER.findall(name), _NUMBER.findall(other), strict=True)
    return [abs(float(a) - float(b)) / max(float(a), float(b), 1) for a, b in pairs]
