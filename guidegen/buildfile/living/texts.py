"""A guide in → the texts of it that may hold living numbers, and the guide with them filled."""

from collections.abc import Callable, Iterator

from guidegen.buildfile.living.holes import Living, fill_holes
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.walk import texts_of, with_texts
from guidegen.buildfile.yaml.tree import Trail
from guidegen.words import SPACE, Foreign, Words

LIVING_KEYS = frozenset(
    {"overview", "wearing", "care", "note", "answer", "text", "check", "sign", "cure"}
)
"""Keys of texts that may hold living numbers. Titles and names stand in lists of all sizes and
all guides, where a number of one size would be wrong."""


def may_live(trail: Trail) -> bool:
    """Whether the text at `trail` may hold living numbers; entries of a change log may not."""
    last = next((step for step in reversed(trail) if isinstance(step, str)), "")
    return last in LIVING_KEYS and trail[0] != "changes"


def living_texts(guide: Guide) -> Iterator[tuple[Trail, str]]:
    """Texts that may hold living numbers, in the order of the file; steps are found by their id."""
    for trail, text in texts_of(guide).items():
        if may_live(trail):
            yield trail, text


def with_living(guide: Guide, say: Callable[[Living], str]) -> Guide:
    """The guide with each living number as `say` writes it."""

    def change(trail: Trail, text: str) -> str:
        if not may_live(trail):
            return text
        filled = fill_holes(text, say)
        if filled == text:
            return text
        return Foreign(filled, text.language) if isinstance(text, Foreign) else filled

    return with_texts(guide, change)


def number_words(living: Living, value: float, words: Words) -> str:
    """A living number as readers see it, without marks; `value` is rounded already."""
    match living.reads:
        case "length":
            return f"{words.number(value, 0 if value >= 100 else 1)}{SPACE}mm"
        case "bare":
            return words.number(value, 0 if value >= 100 else 1)
        case "degrees":
            return f"{words.number(value, 1)}°"
        case "number":
            return words.number(value, 2)
        case _:
            return words.number(value)
