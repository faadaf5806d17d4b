"""What the YAML parser says of a text → the author's slip in the author's words.

The parser tells what it met ("expected <block end>"), which is rarely what was done: a line set in
too far, a quote or a bracket left open, a colon left out. The lines tell which of them it was.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

_KEY_BEFORE_COLON = re.compile(r"\s*(- +)*[\w.-]+")
"""A line up to its first colon, where a key stands before it and nothing else."""
_COLONS = re.compile(r":(\s|$)")
_OPENING = {"sequence": "[", "mapping": "{"}


@dataclass(frozen=True)
class Fault:
    """What is wrong, and the line and column, from 1, where an author would mend it."""

    words: str
    line: int
    column: int


def explain_fault(
    context: str, problem: str, began: tuple[int, int] | None, met: Fault, lines: Sequence[str]
) -> Fault:
    """The fault that stands behind what the parser met at `met`, and of what began at `began`.

    `met.words` holds the parser's own words, for a fault that is not among the usual ones.
    """
    line = lines[met.line - 1] if met.line <= len(lines) else ""
    before = line[: met.column - 1]
    if "'\\t'" in problem:
        return Fault(f"{met.words}; indent with spaces, not tabs", met.line, met.column)
    if "cannot start any token" in problem:
        words = f'a text that begins with "{line[met.column - 1 : met.column]}" needs quotes'
        return Fault(words, met.line, met.column)
    if "quoted scalar" in context and began:
        return Fault("the quote that opens here is not closed", *began)
    if "while parsing a flow" in context and began:
        opening = _OPENING["sequence" if "sequence" in context else "mapping"]
        closing = {"[": "]", "{": "}"}[opening]
        words = (
            f'the "{opening}" that opens in line {began[0]} is not closed with "{closing}" before '
            "this, or a comma is missing"
        )
        return Fault(words, met.line, met.column)
    if "sequence entries are not allowed" in problem:
        return Fault("a list with dashes begins on a line of its own", met.line, met.column)
    if "mapping values are not allowed" in problem and not _KEY_BEFORE_COLON.fullmatch(before):
        return Fault("a text with a colon and a blank in it needs quotes", met.line, met.column)
    if "mapping values are not allowed" in problem:
        return _misplaced(met.line, lines)
    if "block" in context and not before.strip():
        return _set_in(met.line, lines)
    if "block" in context:
        if line[met.column - 1 : met.column] in {"]", "}"}:
            words = f'this "{line[met.column - 1]}" closes nothing'
        else:
            words = (
                "more stands here, though the value ended before it; a text that holds quotes, "
                "or begins with one, needs quotes around all of it"
            )
        return Fault(words, met.line, met.column)
    return met


def _misplaced(number: int, lines: Sequence[str]) -> Fault:
    """What is wrong where line `number`, from 1, has a key that cannot stand there."""
    above = _line_above(number, lines)
    upper = lines[above - 1]
    indent = _column(upper)
    if re.fullmatch(r"\s*[\w.-]+\s*", upper):
        return Fault(f'no colon after "{upper.strip()[:40]}"', above, indent)
    if missing := re.fullmatch(r"\s*(?:- +)*([\w.-]+:)\S.*", upper):
        return Fault(f'no blank after "{missing[1][:40]}"', above, indent)
    return _set_in(number, lines)


def _set_in(number: int, lines: Sequence[str]) -> Fault:
    """Say that line `number`, from 1, does not stand below the lines that it belongs to."""
    above = _line_above(number, lines)
    line, upper = lines[number - 1], lines[above - 1]
    if _column(line) == _column(upper):
        return Fault("a dash stands here among keys", number, _column(line))
    words = (
        f"this line begins in column {_column(line)}, the one above it (line {above}) in column "
        f"{_column(upper)}; keys of one record stand below one another, as do dashes of one list"
    )
    return Fault(words, number, _column(line))


def _line_above(number: int, lines: Sequence[str]) -> int:
    """The nearest line above `number`, from 1, that holds more than a comment."""
    above = number - 1
    while above > 1 and not lines[above - 1].split("#")[0].strip():
        above -= 1
    return max(above, 1)


def _column(line: str) -> int:
    """Column, from 1, in which a line begins: of one with a dash, its first key's."""
    dashed = re.match(r" *(- +)*", line)
    return (dashed.end() if dashed else 0) + 1
