"""A folder of talks with their annotations in → how well they are recognised.

./start python tests/benchmarks/score_talks.py FOLDER [--misses]

Beside each talk.vtt or talk.srt stands talk.json: for each cue, counted from 1, the ids of the
materials and tools of guidegen's own stock that it names: {"3": ["foam-6", "craft-knife"]}.
"""

import argparse
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from guidegen.bench.talks.captions import read_cues
from guidegen.bench.talks.hearing import hear
from guidegen.bench.talks.lexicon import make_lexicon
from guidegen.buildfile.read.trade import trade_stock


@dataclass(frozen=True)
class Counts:
    """What is named against what is there."""

    right: int = 0
    wrong: int = 0
    missed: int = 0

    @property
    def precision(self) -> float:
        """Share of what is named that is right."""
        return self.right / max(1, self.right + self.wrong)

    @property
    def recall(self) -> float:
        """Share of what is there that is named."""
        return self.right / max(1, self.right + self.missed)

    def __add__(self, other: Self) -> Self:
        """The counts of both."""
        return type(self)(
            self.right + other.right, self.wrong + other.wrong, self.missed + other.missed
        )

    def __str__(self) -> str:
        """In words, for the terminal."""
        return (
            f"precision {self.precision:.3f}, recall {self.recall:.3f} "
            f"({self.right} right, {self.wrong} wrong, {self.missed} missed)"
        )


@dataclass(frozen=True)
class Score:
    """How well talks are recognised."""

    by_cue: Counts
    by_ids: Counts
    """Each id once for a talk: what the worksheet asks an author to buy and lay out."""
    offered: Counts = Counts()
    """By ids, with what is left open under `which` as if it were named: only what is found counts."""
    told: tuple[str, ...] = ()
    """What is wrong or missed, with its cue."""


def score_talk(path: Path) -> Score:
    """How well one talk is recognised, cue by cue."""
    cues = read_cues(path.read_text(encoding="utf-8"))
    marks = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    heard = hear(cues, make_lexicon(trade_stock()))
    named = [{*one.materials, *one.tools} for one in heard]
    there = [{*marks.get(str(number), ())} for number in range(1, len(cues) + 1)]
    pairs = list(zip(named, there, strict=True))
    told = (
        f"{path.stem} {number}: wrong {sorted(found - marked)}, "
        f"missed {sorted(marked - found)}: {cue.words}"
        for number, (cue, (found, marked)) in enumerate(zip(cues, pairs, strict=True), 1)
        if found != marked
    )
    by_cue = sum((count(*pair) for pair in pairs), Counts())
    truth = set().union(*there)
    open_ = set().union(*named, *(one.maybe for one in heard))
    return Score(by_cue, count(set().union(*named), truth), count(open_, truth), tuple(told))


def count(named: set[str], there: set[str]) -> Counts:
    """Ids that are named against ids that are there."""
    return Counts(len(named & there), len(named - there), len(there - named))


def together(scores: list[Score]) -> Score:
    """The counts of several talks as one."""
    return Score(
        sum((one.by_cue for one in scores), Counts()),
        sum((one.by_ids for one in scores), Counts()),
        sum((one.offered for one in scores), Counts()),
    )


def talks_in(folder: Path) -> list[Path]:
    """Talks of a folder that have annotations."""
    found = [*folder.glob("*.vtt"), *folder.glob("*.srt")]
    return sorted(path for path in found if path.with_suffix(".json").is_file())


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--misses", action="store_true", help="show each cue that is not right")
    given = parser.parse_args()
    every = {path.name: score_talk(path) for path in talks_in(given.folder)}
    for name, score in [*every.items(), ("all", together([*every.values()]))]:
        print(
            f"{name} by cue: {score.by_cue}; by ids: {score.by_ids}; "
            f"named or left open: recall {score.offered.recall:.3f}"
        )
        if given.misses:
            print("\n".join(f"  {line}" for line in score.told))
