"""Mentions of a talk in → those that a speaker meant: "the sealer, sorry, the primer" is primer."""

from collections.abc import Sequence

from guidegen.bench.talks.phrases import Mention
from guidegen.bench.talks.spoken import Talk

NEAR = 3
"""Words behind a slip in which a speaker notices it. Our choice."""
RIGHT = 9
"""Words behind a slip in which the right name comes. Our choice."""
_NOTICED = (
    ("sorry",), ("i", "mean"), ("no", "wait"), ("wait", "no"), ("oops",), ("or", "rather"),
    ("scratch", "that"), ("correction",), ("no", "sorry"), ("no", "not"),
)  # fmt: skip
_GOES_ON = frozenset({"about", "for", "if", "it", "it's", "its", "that", "you"})
"""Words behind "sorry" and "I mean" where something else is begged pardon for or explained."""


def without_slips(talk: Talk, mentions: Sequence[Mention]) -> list[Mention]:
    """The mentions without those that are put right at once by the name of another thing."""
    return [one for one in mentions if not _put_right(talk, one, mentions)]


def _put_right(talk: Talk, one: Mention, mentions: Sequence[Mention]) -> bool:
    noticed = _noticed(talk, one.end)
    return noticed is not None and any(
        noticed <= other.at <= one.end + RIGHT and not one.candidates & other.candidates
        for other in mentions
        if all(named.kind != "process" for named in other.candidates)
    )


def _noticed(talk: Talk, at: int) -> int | None:
    """The place behind words that put right what was said just before a place; None for none."""
    for start in range(at, min(len(talk.said), at + NEAR)):
        for words in _NOTICED:
            end = start + len(words)
            if tuple(talk.said[start:end]) == words and talk.said[end : end + 1] != []:
                return None if talk.said[end] in _GOES_ON else end
    return None
