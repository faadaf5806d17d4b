"""How a talk speaks of one thing, in all places → how certain it is that its build uses the thing.

Each sign counts for or against, with a weight that `tests/benchmarks/learn_talks.py` learned by
logistic regression from the talks of tests/bench/talks/spoken. Their sum is the logarithm of the
odds. The signs are few and general, so that they hold for talks that nobody has read yet.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from importlib.resources import files
from math import log
from typing import Literal

from guidegen.bench.talks.lexicon import Meant
from guidegen.bench.talks.phrases import Mention
from guidegen.bench.talks.stance import Stance

type SettledBy = Literal["name", "size", "company", "talk"]
"""What tells which of several things is meant: nothing is needed, a size that is said, the words
beside it, or what the talk says elsewhere."""


@dataclass(frozen=True, slots=True)
class Settled:
    """A phrase and the one thing that it means."""

    mention: Mention
    meant: Meant
    by: SettledBy

    @property
    def word(self) -> str:
        """The phrase in one string; sizes that stand for a thing share one."""
        phrase = self.mention.phrase
        return " ".join(phrase) if phrase[0] not in {"", "grit"} else phrase[0] or "size"

    @property
    def speaks_for(self) -> bool:
        """Whether this place tells that the thing is used."""
        return self.mention.stance.speaks_for and not self.mention.unsure


WEIGHTS: Mapping[str, float] = {
    "word": 1.05,  # how far other talks mean the thing by its best word
    "any": 3.09,  # what is named and spoken for at all
    "twice": 0.31,  # a second place that speaks for it
    "thrice": 0.43,  # and a third
    "used": 0.20,  # a verb of use by the maker before it
    "with": 0.27,  # what work is done with
    "work": 0.59,  # a tool that the work near by needs
    "one word": -0.60,  # no more than one word, and no size
    "by company": -0.51,  # the words beside it had to tell which
    "by the talk": -0.57,  # what the talk says elsewhere had to tell which
    "compared": -0.69,  # its sentence compares: too, better, than
    "against": -0.54,  # the talk also speaks against it
    "more against": -0.91,  # at least as often as for it
}
"""Weights of the signs."""
ENOUGH = 2.5
"""The certainty from which a thing is named."""


PRIOR = (9.0, 1.0)
"""Talks that use what a word says and talks that do not, added to those that were counted, so that
a word of few talks is trusted little. Our choice."""


def counted_words() -> dict[str, tuple[int, int]]:
    """Words for things → in how many talks they were said for a thing, and in how many of those it
    was used. Counted by `tests/benchmarks/learn_talks.py`."""
    text = (files("guidegen.bench.talks") / "words.csv").read_text(encoding="utf-8")
    rows = (line.split(",") for line in text.splitlines()[1:])
    return {word: (int(said), int(used)) for word, said, used in rows}


def trust(said: int, used: int) -> float:
    """How far above or below an uncounted word a counted one stands, in logarithms of odds."""
    yes, no = PRIOR
    return log((used + yes) / (said - used + no)) - log(yes / no)


def certainty(signs: Mapping[str, float]) -> float:
    """The logarithm of the odds that the build uses a thing, by the signs of it."""
    return sum(WEIGHTS[sign] * value for sign, value in signs.items())


def signs_of(
    places: Sequence[Settled], work: Collection[Meant], words: Mapping[str, tuple[int, int]]
) -> dict[str, float]:
    """What speaks for or against one thing, by all places where the talk speaks of it.

    `work` holds tools that the kinds of work near these places need, `words` what is counted.
    """
    spoken_for = [one for one in places if one.speaks_for]
    against = len(places) - len(spoken_for)
    signs = {
        "any": True,
        "twice": len(spoken_for) > 1,
        "thrice": len(spoken_for) > 2,
        "used": any(one.mention.stance is Stance.USED for one in spoken_for),
        "with": any(one.mention.instrument for one in spoken_for),
        "work": places[0].meant in work,
        "one word": all(len(one.mention.phrase) == 1 and one.by != "size" for one in spoken_for),
        "by company": all(one.by == "company" for one in spoken_for),
        "by the talk": all(one.by == "talk" for one in spoken_for),
        "compared": any(one.mention.compared for one in spoken_for),
        "against": against > 0,
        "more against": against >= len(spoken_for),
    }
    best = max(trust(*words.get(one.word, (0, 0))) for one in spoken_for)
    return {"word": best, **{sign: 1.0 for sign, there in signs.items() if there}}
