"""A plain word of YAML → the value that it stands for.

By the core schema of YAML 1.2 (https://yaml.org/spec/1.2.2/, 10.3), so `no`, `1:30` and
`2026-11-25` stay the words that the author wrote; numbers in octal and hexadecimal, infinite ones
and none (.inf, .nan) are no values of a build file.
"""

import re
from typing import Self

_INTEGER = re.compile(r"[-+]?[0-9]{1,18}")
_FLOAT = re.compile(r"[-+]?(\.[0-9]{1,18}|[0-9]{1,18}(\.[0-9]{0,18})?)([eE][-+]?[0-9]{1,3})?")
_WORDS: dict[str, bool | None] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True,
    "false": False, "False": False, "FALSE": False,
}  # fmt: skip


class WrittenInt(int):
    """An integer that remembers its digits: a version 010 is not 10."""

    written: str

    def __new__(cls, text: str) -> Self:
        """Read digits."""
        number = super().__new__(cls, text)
        number.written = text
        return number


class WrittenFloat(float):
    """A number that remembers its digits: a version 1.10 is not 1.1."""

    written: str

    def __new__(cls, text: str) -> Self:
        """Read digits."""
        number = super().__new__(cls, text)
        number.written = text
        return number


def plain_value(text: str) -> bool | int | float | str | None:
    """What a word without quotes stands for."""
    if text in _WORDS:
        return _WORDS[text]
    if _INTEGER.fullmatch(text):
        return WrittenInt(text)
    if _FLOAT.fullmatch(text):
        return WrittenFloat(text)
    return str(text)
