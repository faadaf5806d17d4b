"""Folders of talks with their annotations in → weights of the signs, and what a threshold is worth.

./start python tests/benchmarks/learn_talks.py FOLDER...

Logistic regression with a small penalty on the size of weights. Each talk of the last folder is
judged with weights that were learned from all other talks (leave one out), so that the table tells
how thresholds do on talks that gave no weights. The rules themselves are not left out: whoever
wrote them may have read the talks. The weights that are printed are those of all talks.
"""

import argparse
import json
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.optimize import minimize
from score_talks import Counts, count, talks_in

from guidegen.bench import talks
from guidegen.bench.talks.captions import read_cues
from guidegen.bench.talks.certainty import WEIGHTS
from guidegen.bench.talks.hearing import signs_by_thing
from guidegen.bench.talks.lexicon import Lexicon, Meant, make_lexicon
from guidegen.bench.talks.phrases import find_mentions
from guidegen.bench.talks.settling import Said, said_things
from guidegen.bench.talks.spoken import talk_of
from guidegen.bench.talks.stance import Stance
from guidegen.buildfile.read.trade import trade_stock

WORDS = Path(talks.__file__).parent / "words.csv"
"""Where the counted words stand, those that two talks say at least."""
PENALTY = 2.0
"""Penalty on the square of a weight. Our choice."""
OF_OTHERS = 0.5
"""What a talk of another folder than the last counts: the rules were made on some. Our choice."""


type Counted = Counter[tuple[str, bool]]
"""For a word and whether what it says was used, the number of talks."""


@dataclass(frozen=True)
class Learned:
    """A talk as the learner sees it."""

    said: Said
    there: list[set[str]]
    """For each cue, the ids that it names in truth."""

    @property
    def truth(self) -> set[str]:
        """The ids of the whole talk."""
        return set().union(*self.there)

    def counted(self) -> Counted:
        """Each word by which the talk speaks for a thing, once."""
        spoken_for = [one for one in self.said.settled if one.speaks_for]
        return Counter({(one.word, one.meant.id in self.truth) for one in spoken_for})

    def signs(self, words: Counted) -> dict[Meant, dict[str, float]]:
        """The signs of each thing, where words were counted in other talks."""
        return signs_by_thing(self.said, as_table(words))

    def rows(self, words: Counted) -> tuple[np.ndarray, np.ndarray]:
        """A row for each thing, with a column for each sign; and whether each is used in truth."""
        found = self.signs(words)
        x = [[signs.get(sign, 0.0) for sign in WEIGHTS] for signs in found.values()]
        return np.array(x, float), np.array([meant.id in self.truth for meant in found], float)


def as_table(words: Counted) -> dict[str, tuple[int, int]]:
    """Words → talks in which they were said, and in which what they say was used."""
    every = sorted({word for word, _ in words})
    return {
        word: (words[word, True] + words[word, False], words[word, True])
        for word in every
        if words[word, True] + words[word, False] > 0
    }


def read_talk(path: Path, lexicon: Lexicon) -> Learned:
    """What a talk says, and what it names in truth."""
    cues = read_cues(path.read_text(encoding="utf-8"))
    marks = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    talk = talk_of(cues, frozenset(phrase[0] for phrase in lexicon.things if len(phrase) == 1))
    mentions = find_mentions(talk, lexicon)
    there = [{*marks.get(str(number), ())} for number in range(1, len(cues) + 1)]
    return Learned(said_things(mentions, lexicon), there)


def learn(talks: list[Learned], shares: list[float]) -> np.ndarray:
    """The weights of the signs. Each talk's words are trusted as far as other talks tell."""
    words = sum((talk.counted() for talk in talks), Counter())
    rows = [talk.rows(words - talk.counted()) for talk in talks]
    x = np.vstack([one for one, _ in rows])
    y = np.concatenate([one for _, one in rows])
    share = np.concatenate(
        [np.full(len(one), part) for (_, one), part in zip(rows, shares, strict=True)]
    )

    # What holds for every thing is learned freely.
    penalty = np.array([0.01 if sign == "any" else PENALTY for sign in WEIGHTS])

    def loss(weights: np.ndarray) -> tuple[float, np.ndarray]:
        odds = x @ weights
        value = np.sum(share * (np.logaddexp(0, odds) - y * odds))
        slope = x.T @ (share * (1 / (1 + np.exp(-odds)) - y)) + penalty * weights
        return float(value + 0.5 * np.sum(penalty * weights**2)), slope

    return minimize(loss, np.zeros(x.shape[1]), jac=True, method="L-BFGS-B").x


def judged(
    talk: Learned, weights: np.ndarray, words: Counted, least: float
) -> tuple[Counts, Counts]:
    """Right, wrong and missed by cue and by ids, where things from a certainty on are named."""
    found = talk.signs(words)
    x, _ = talk.rows(words)
    certain = {meant for meant, odds in zip(found, x @ weights, strict=True) if odds >= least}
    named: list[set[str]] = [set() for _ in talk.there]
    for one in talk.said.settled:
        if one.meant in certain and one.mention.stance is not Stance.REFUSED:
            named[one.mention.cue].add(one.meant.id)
    by_cue = sum((count(*pair) for pair in zip(named, talk.there, strict=True)), Counts())
    return by_cue, count(set().union(*named), talk.truth)


def leave_one_out(new: list[Learned], old: list[Learned]) -> None:
    """Print what each threshold is worth on talks that gave no weights."""
    apart = []
    for talk in new:
        others = [one for one in new if one is not talk]
        weights = learn([*old, *others], [OF_OTHERS] * len(old) + [1.0] * len(others))
        words = sum((one.counted() for one in (*old, *others)), Counter())
        apart.append((talk, weights, words))
    for least in np.arange(0, 4.6, 0.2):
        pairs = [judged(*one, least) for one in apart]
        cue, ids = (sum((pair[side] for pair in pairs), Counts()) for side in (0, 1))
        print(
            f"{least:5.2f} by cue {cue.precision:.3f} {cue.recall:.3f} "
            f"by ids {ids.precision:.3f} {ids.recall:.3f}"
        )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", type=Path, nargs="+")
    *others, last = parser.parse_args().folders
    lexicon = make_lexicon(trade_stock())
    new = [read_talk(path, lexicon) for path in talks_in(last)]
    old = [read_talk(path, lexicon) for folder in others for path in talks_in(folder)]
    leave_one_out(new, old)
    every = [*old, *new]
    weights = learn(every, [OF_OTHERS] * len(old) + [1.0] * len(new))
    print("\n".join(f'    "{s}": {w:.2f},' for s, w in zip(WEIGHTS, weights, strict=True)))
    table = as_table(sum((talk.counted() for talk in every), Counter()))
    lines = [f"{word},{said},{used}" for word, (said, used) in table.items() if said > 1]
    WORDS.write_text("\n".join(["word,said,used", *lines, ""]), encoding="utf-8")
