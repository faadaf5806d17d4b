"""Words in → the same words with each length in them marked, so that a page can show other units.

A mark carries the length in mm.
"""

import re
from collections.abc import Callable, Iterator
from html import unescape

from markupsafe import Markup, escape

from guidegen.buildfile.living.lengths import APART, NUMBER, Found, find_lengths, read_number
from guidegen.units import mm_text

__all__ = ["Found", "find_lengths", "mark_drawing", "mark_lengths"]


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
    written = f' data-written="{found.unit}"' if found.unit in {"cm", "in"} else ""
    return f' data-mm="{mm_text(found.mm, 3)}"{written}{" data-bare" if found.bare else ""}'


_TEXT = re.compile(r"(<text\b[^>]*>)([^<]*)(?=</text>)")
_NAME = re.compile(r"<(title|desc)>([^<]*)(?=</)")
_DRAWN_SIDES = re.compile(rf"{APART}({NUMBER}) × ({NUMBER})$")
"""'offcut 500 × 244': mm, as all numbers alone are in a drawing (ISO 129-1)."""
_DRAWN_LAYER = re.compile(rf"(?<=\S · )({NUMBER})$")
"""'A1 · 6': a layer and its thickness, in the same way."""
_UNIT_NAME = re.compile(r"(?<=\bin )mm\b(?!²)")


def mark_drawing(svg: str) -> str:
    """A drawing of ours, the lengths in its lettering and in its names marked.

    Names take no elements: for them, data-lengths says start, end and mm of each length.
    """
    if not svg:
        return svg
    return _NAME.sub(_marked_name, _TEXT.sub(_marked_text, svg))


def _marked_text(match: re.Match[str]) -> str:
    start, words = match[1], match[2]
    if " data-mm=" in start or not words:
        return match[0]
    marked = _put(words, lambda found: f"<tspan{_svg_data(found)}>")
    marked = _DRAWN_SIDES.sub(
        lambda found: f"{_drawn(found[1], 'bare')} × {_drawn(found[2], 'drawn')}", marked
    )
    marked = _DRAWN_LAYER.sub(lambda found: _drawn(found[1], "drawn"), marked)
    return start + _UNIT_NAME.sub('<tspan data-unit-name="">mm</tspan>', marked)


def _drawn(number: str, how: str) -> str:
    """A number alone: bare, or as short as drawings write lengths."""
    return f'<tspan data-mm="{mm_text(read_number(number), 3)}" data-{how}="">{number}</tspan>'


def _put(escaped: str, tag: Callable[[Found], str]) -> str:
    """Elements around the lengths of escaped words; no length has a letter that is escaped."""
    return "".join(
        f"{tag(found)}{words}</tspan>" if found else words for words, found in _parts(escaped)
    )


def _svg_data(found: Found) -> str:
    return _data(found).replace(" data-bare", ' data-bare=""')


def _marked_name(match: re.Match[str]) -> str:
    places = [
        f"{found.start},{found.end},{mm_text(found.mm, 3)}{',' if found.bare else ''}"
        for found in find_lengths(unescape(match[2]))
    ]
    data = f' data-lengths="{" ".join(places)}"' if places else ""
    return f"<{match[1]}{data}>{match[2]}"
