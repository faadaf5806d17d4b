"""A guide in → the texts of it that may hold living numbers, and the guide with them filled."""

from collections.abc import Callable, Iterator

from guidegen.buildfile.living.holes import Living, fill_holes
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.meanings import Wording
from guidegen.buildfile.records.walk import Leaf, rebuilt, wordings
from guidegen.buildfile.yaml.tree import Trail
from guidegen.words import SPACE, Foreign, Words


def living_texts(guide: Guide) -> Iterator[tuple[Trail, str]]:
    """Texts that may hold living numbers, in the order of the file; steps are found by their id."""
    for leaf, wording in wordings(guide):
        if wording.living:
            yield leaf.lasting, leaf.text


def with_living(guide: Guide, say: Callable[[Living], str]) -> Guide:
    """The guide with each living number as `say` writes it."""

    def visit(leaf: Leaf) -> str:
        text = leaf.text
        if not (isinstance(leaf.meaning, Wording) and leaf.meaning.living):
            return text
        filled = fill_holes(text, say)
        if filled == text:
            return text
        return Foreign(filled, text.language) if isinstance(text, Foreign) else filled

    return rebuilt(guide, visit)


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
