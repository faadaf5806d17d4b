"""Names of pieces in → the words and links with which repeats and sequences speak of them."""

import re
from collections.abc import Mapping, Sequence

PLACEHOLDER = re.compile(r"\{([a-z0-9]+(?:-[a-z0-9]+)*)\}")
"""A name that stands for pieces, in the words of a sequence."""


def in_sentence(name: str) -> str:
    """A name in the middle of a sentence: 'Lantern plate' → 'lantern plate', 'LED strip' stays."""
    plain = len(name) < 2 or name[1].islower() or name[1] == " "
    return name[:1].lower() + name[1:] if plain else name


def listed(words: Sequence[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def link(words: str, scheme: str, name: str) -> str:
    """A CommonMark link; brackets in the words do not end it."""
    escaped = re.sub(r"([\\\[\]<>*_`])", r"\\\1", words)
    return f"[{escaped}]({scheme}:{name})"


def spoken(ids: Sequence[str], names: Mapping[str, str], *, links: bool) -> str:
    """What a reader calls some parts, stacks or other things; parts as links where `links`."""
    words = []
    for name in _without_details(ids, names) if not links else ids:
        said = in_sentence(names[name]) if name in names else name.replace("-", " ")
        words.append(link(said, "piece", name) if links and name in names else said)
    return listed(words)


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


def filled(
    text: str, swap: Mapping[str, Sequence[str]], names: Mapping[str, str], *, links: bool
) -> str:
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
