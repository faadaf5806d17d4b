"""Living numbers of a guide in → its texts for one size, or for pages that serve all sizes.

What serves all sizes carries, through Markdown and escaping, marks of private-use letters that
name each size's number; `settle` turns them into words when the page is whole: inside elements
into spans that a script narrows to the chosen size, elsewhere into plain words.
"""

import re
from collections.abc import Mapping
from dataclasses import replace

from markupsafe import escape

from guidegen.buildfile.living.holes import Living, Reads
from guidegen.buildfile.living.texts import number_words, with_living
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.geometry.fastening.answers import living_value
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import GuidePlan
from guidegen.units import mm_text
from guidegen.words import Words

_START, _NEXT, _END = "\ue000", "\ue002", "\ue001"
"""Private-use letters: no keyboard types them, and Markdown takes them for letters."""
_MARK = re.compile(f"{_START}([a-z]+)((?:{_NEXT}[A-Za-z0-9-]+=[0-9.-]+)+){_END}")
_PLAIN = re.compile(
    r"<(script|style|title|textarea|svg|option)\b.*?</\1\s*>|<[^>]*>", re.DOTALL | re.IGNORECASE
)
"""Where no span may stand: within tags, and in elements that take none or are no HTML."""


def guide_in_size(guide: Guide, kit: Kit, words: Words) -> Guide:
    """The guide with the numbers of one size in its texts, as plain words."""

    def say(living: Living) -> str:
        try:
            said = number_words(living, living_value(kit, living), words)
            if kit.sides is None:
                return said
            left, right = (
                number_words(living, living_value(side, living), words) for side in kit.sides
            )
            if left == right:
                return said
            return words.say("{left} left and {right} right", left=left, right=right)
        except ExpressionError:
            return "?"  # proof tells of it, and nothing is pressed then

    return with_living(guide, say)


def plan_in_size(plan: GuidePlan, kit: Kit, words: Words) -> GuidePlan:
    """The plan whose guide speaks of one size."""
    guide = guide_in_size(plan.file.guide, kit, words)
    return replace(plan, file=replace(plan.file, guide=guide))


def plan_for_all(plan: GuidePlan, words: Words) -> GuidePlan:
    """The plan whose guide speaks of all sizes at once: with marks where they differ."""

    def say(living: Living) -> str:
        values: dict[str, float] = {}
        for kit in plan.kits:
            try:
                values[kit.size] = living_value(kit, living)
            except ExpressionError:
                return "?"
        said = {number_words(living, value, words) for value in values.values()}
        if len(said) == 1:
            return said.pop()
        marks = (f"{_NEXT}{size}={value:.4f}" for size, value in values.items())
        return f"{_START}{living.reads}{''.join(marks)}{_END}"

    return replace(plan, file=replace(plan.file, guide=with_living(plan.file.guide, say)))


def settle(text: str, words: Words) -> str:
    """A page with its marks as words."""
    if _START not in text:
        return text
    parts: list[str] = []
    place = 0
    for match in _PLAIN.finditer(text):
        parts.append(_MARK.sub(lambda mark: _spans(mark, words), text[place : match.start()]))
        parts.append(settle_plain(match[0], words))
        place = match.end()
    parts.append(_MARK.sub(lambda mark: _spans(mark, words), text[place:]))
    return "".join(parts)


def settle_plain(text: str, words: Words) -> str:
    """A text without HTML, its marks as words: '300 mm (S, M), 320 mm (L)'."""
    if _START not in text:
        return text
    return _MARK.sub(
        lambda mark: ", ".join(
            f"{said} ({', '.join(sizes)})" for said, (_, sizes) in _groups(mark, words).items()
        ),
        text,
    )


def _spans(mark: re.Match[str], words: Words) -> str:
    parts = []
    for said, (value, sizes) in _groups(mark, words).items():
        inner = str(escape(said))
        if mark[1] in {Reads.LENGTH, Reads.BARE}:
            bare = " data-bare" if mark[1] == Reads.BARE else ""
            inner = f'<span class="length" data-mm="{mm_text(value, 3)}"{bare}>{inner}</span>'
        names = escape(", ".join(sizes))
        parts.append(
            f'<span data-in-sizes="{" ".join(sizes)}">{inner}'
            f'<span class="of-size"> ({names})</span></span>'
        )
    comma = '<span class="of-size">, </span>'
    return f'<span class="by-size">{comma.join(parts)}</span>'


def _groups(mark: re.Match[str], words: Words) -> Mapping[str, tuple[float, list[str]]]:
    """Words of each number with its value and the sizes that have it, in the order of sizes."""
    living = Living("", parse_expression(0), reads=Reads(mark[1]))
    groups: dict[str, tuple[float, list[str]]] = {}
    for entry in mark[2][1:].split(_NEXT):
        size, _, number = entry.partition("=")
        value = float(number)
        groups.setdefault(number_words(living, value, words), (value, []))[1].append(size)
    return groups
