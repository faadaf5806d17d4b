"""Content of a PDF page as bytes in → operators with their operands out.

ISO 32000-1:2008, 7.2 and 7.3 for what words look like, 8.9.7 for pictures inside content.
"""

import re
from collections.abc import Iterator
from math import isfinite

MAX_OPERATORS = 200_000
"""Of one page. Our choice: twenty for each segment that a drawing may have."""
MAX_OPERANDS = 64
"""Kept for one operator, the last ones. Our choice: six are the most that lines take."""

type Operand = float | str | tuple[float, ...] | None
"""A number, a name with its slash, an array of numbers; None for what lines never take."""
type Operation = tuple[str, list[Operand]]

_TOKEN = re.compile(
    rb"""(?P<space>[\x00\t\n\x0c\r ]+|%[^\r\n]*)
    |(?P<number>[+-]?(?:\d+\.?\d*|\.\d+)(?=[\x00\t\n\x0c\r ()<>\[\]{}/%+-]|$))
    |(?P<name>/[^\x00\t\n\x0c\r ()<>\[\]{}/%]*)
    |(?P<hex><[0-9A-Fa-f\x00\t\n\x0c\r ]*>)
    |(?P<mark><<|>>|\[|\])
    |(?P<text>\()
    |(?P<word>[^\x00\t\n\x0c\r ()<>\[\]{}/%]+)""",
    re.VERBOSE,
)
_IN_TEXT = re.compile(rb"[^()\\]+|\\.|[()]", re.DOTALL)
_PICTURE_END = re.compile(rb"[\x00\t\n\x0c\r ]EI(?=[\x00\t\n\x0c\r ]|$)")


class OperatorError(Exception):
    """Content that cannot be read; the message is a sentence about it."""


def operations(data: bytes) -> Iterator[Operation]:
    """The operators of a page in their order. Raises OperatorError."""
    operands: list[Operand] = []
    arrays: list[list[float]] = []
    position, count = 0, 0
    while position < len(data):
        match = _TOKEN.match(data, position)
        if match is None:
            position += 1  # a stray bracket: viewers pass over it too
            continue
        position, kind, word = match.end(), match.lastgroup, match[0]
        if kind == "number":
            number = float(word)
            (arrays[-1] if arrays else operands).append(number if isfinite(number) else 0.0)
        elif kind == "name":
            operands.append(word.decode("latin-1"))
        elif kind == "mark":
            _mark(word, operands, arrays)
        elif kind == "text":
            position = _text_end(data, position)
            operands.append(None)
        elif kind == "hex":
            operands.append(None)
        elif kind == "word":
            count += 1
            if count > MAX_OPERATORS:
                raise OperatorError(f"it has more than {MAX_OPERATORS} operators")
            operator = word.decode("latin-1")
            yield operator, operands[-MAX_OPERANDS:]
            operands.clear()
            arrays.clear()
            if operator == "ID":
                position = _picture_end(data, position)
        if len(operands) > 2 * MAX_OPERANDS:
            del operands[:-MAX_OPERANDS]


def _mark(word: bytes, operands: list[Operand], arrays: list[list[float]]) -> None:
    if word == b"[":
        arrays.append([])
    elif word == b"]" and arrays:
        array = arrays.pop()
        # Arrays of arrays mean nothing to lines, and those of a text hold letters besides.
        if not arrays:
            operands.append(tuple(array[:MAX_OPERANDS]))


def _text_end(data: bytes, position: int) -> int:
    """Behind the bracket that closes a text; at the end of the data where none does."""
    depth = 1
    while depth:
        match = _IN_TEXT.match(data, position)
        if match is None:
            return len(data)
        position = match.end()
        depth += {b"(": 1, b")": -1}.get(match[0], 0)
    return position


def _picture_end(data: bytes, position: int) -> int:
    found = _PICTURE_END.search(data, position)
    if found is None:
        raise OperatorError("a picture in it has no end")
    return found.end()
