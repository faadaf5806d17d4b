"""Words in → the same words with each length in them marked, so that a page can show other units.

A mark carries the length in mm.
"""

import re
from collections.abc import Iterator, Mapping

from markupsafe import Markup, escape

from guidegen.buildfile.living.lengths import APART, NUMBER, Found, find_lengths, read_number
from guidegen.units import mm_text

__all__ = ["Found", "drawn_words", "find_lengths", "mark_lengths", "name_lengths"]


def mark_lengths(text: str) -> Markup:
    """A text as HTML, its lengths marked."""
    parts = [
        f'<span class="length"{_data(found)}>{escape(words)}</span>'
        if found
        else str(escape(words))
        for words, found in _parts(text)
    ]
    return Markup("".join(parts))  # noqa: S704 - all words in it are escaped


def _parts(text: str) -> Iterator[tuple[str, Found | None]]:
    """The text in pieces, those that are lengths with what was found."""
    place = 0
    for found in find_lengths(text):
        if found.start > place:
            yield text[place : found.start], None
        yield text[found.start : found.end], found
        place = found.end
    if text[place:]:
        yield text[place:], None


def _data(found: Found) -> str:
    return "".join(
        f' {name}="{value}"' if value else f" {name}" for name, value in _data_of(found).items()
    )


def _data_of(found: Found) -> dict[str, str]:
    """Data of a length: its mm, the unit that its author wrote, whether it has one of its own."""
    data = {"data-mm": mm_text(found.mm, 3)}
    if found.unit in {"cm", "in"}:
        data["data-written"] = found.unit
    if found.bare:
        data["data-bare"] = ""
    return data


_DRAWN_SIDES = re.compile(rf"{APART}({NUMBER}) × ({NUMBER})$")
"""'offcut 500 × 244': mm, as all numbers alone are in a drawing (ISO 129-1)."""
_DRAWN_LAYER = re.compile(rf"(?<=\S · )({NUMBER})$")
"""'A1 · 6': a layer and its thickness, in the same way."""
_UNIT_NAME = re.compile(r"(?<=\bin )mm\b(?!²)")

type DrawnWords = tuple[str, Mapping[str, str]]
"""Words of a drawing with the data of the element around them; none where they stand free."""


def drawn_words(words: str) -> list[DrawnWords]:
    """The words of a drawing in pieces: its lengths in mm, and names of the unit, with data."""
    spans = {found.start: (found.end, _data_of(found)) for found in find_lengths(words)}
    if match := _DRAWN_SIDES.search(words):
        spans.setdefault(match.start(1), (match.end(1), _drawn(match[1], "bare")))
        spans.setdefault(match.start(2), (match.end(2), _drawn(match[2], "drawn")))
    if match := _DRAWN_LAYER.search(words):
        spans.setdefault(match.start(1), (match.end(1), _drawn(match[1], "drawn")))
    for match in _UNIT_NAME.finditer(words):
        spans.setdefault(match.start(), (match.end(), {"data-unit-name": ""}))
    parts: list[DrawnWords] = []
    place = 0
    for start, (end, data) in sorted(spans.items()):
        if start < place:
            continue  # inside a length that was found before
        if start > place:
            parts.append((words[place:start], {}))
        parts.append((words[start:end], data))
        place = end
    if words[place:]:
        parts.append((words[place:], {}))
    return parts


def _drawn(number: str, how: str) -> dict[str, str]:
    """Data of a number alone: bare, or as short as drawings write lengths."""
    return {"data-mm": mm_text(read_number(number), 3), f"data-{how}": ""}


def name_lengths(words: str) -> str:
    """Start, end and mm of each length in a name, for an attribute; empty for none."""
    return " ".join(
        f"{found.start},{found.end},{mm_text(found.mm, 3)}{',' if found.bare else ''}"
        for found in find_lengths(words)
    )
