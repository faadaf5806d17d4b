"""Names of pieces in → the words and links with which repeats and sequences speak of them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from guidegen.words import ENGLISH, Words

PLACEHOLDER = re.compile(r"\{([a-z0-9]+(?:-[a-z0-9]+)*)\}")
"""A name that stands for pieces, in the words of a sequence."""


@dataclass(frozen=True, slots=True)
class Names:
    """Names of parts by id, and the language in which they stand in sentences."""

    by_id: Mapping[str, str]
    words: Words = ENGLISH


def in_sentence(name: str, words: Words = ENGLISH) -> str:
    """A name in the middle of a sentence: 'Lantern plate' → 'lantern plate', 'LED strip' stays.
    German keeps the capitals of nouns."""
    if words.language.partition("-")[0] == "de":
        return name
    plain = len(name) < 2 or name[1].islower() or name[1] == " "
    return name[:1].lower() + name[1:] if plain else name


def link(words: str, scheme: str, name: str) -> str:
    """A CommonMark link; brackets in the words do not end it."""
    escaped = re.sub(r"([\\\[\]<>*_`])", r"\\\1", words)
    return f"[{escaped}]({scheme}:{name})"


def spoken(ids: Sequence[str], names: Names, *, links: bool) -> str:
    """What a reader calls some parts, stacks or other things; parts as links where `links`."""
    words, known = [], names.by_id
    for name in _without_details(ids, known) if not links else ids:
        said = in_sentence(known[name], names.words) if name in known else name.replace("-", " ")
        words.append(link(said, "piece", name) if links and name in known else said)
    return _listed(words, names.words)


def _listed(said: Sequence[str], words: Words) -> str:
    """'a', 'a and b', 'a, b and c': English without the comma that its locale puts before and."""
    if words.language != ENGLISH.language or len(said) < 3:
        return words.listed(said)
    return f"{', '.join(said[:-1])} and {said[-1]}"


def _without_details(ids: Sequence[str], names: Mapping[str, str]) -> list[str]:
    """Parts without those that are named as a detail of another: 'hip sluice, frame' beside it.

    A title tells what is worked on; the text below it links to every part.
    """
    said = [names.get(name, "") for name in ids]
    return [
        name
        for name, words in zip(ids, said, strict=True)
        if not any(whole and words.startswith(f"{whole}, ") for whole in said)
    ]


def filled(text: str, swap: Mapping[str, Sequence[str]], names: Names, *, links: bool) -> str:
    """`text` with the pieces in the place of {names}; a first word keeps its capital."""

    def put(match: re.Match[str]) -> str:
        if match[1] not in swap:
            return match[0]
        words = spoken(swap[match[1]], names, links=links)
        if match.start() > 0:
            return words
        letter = 1 if words.startswith("[") else 0
        return words[:letter] + words[letter : letter + 1].upper() + words[letter + 1 :]

    return PLACEHOLDER.sub(put, text)
