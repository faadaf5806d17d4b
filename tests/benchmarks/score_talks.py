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
class Score:
    """Counts over the cues of a talk."""

    right: int
    wrong: int
    missed: int
    told: tuple[str, ...] = ()
    """What is wrong or missed, with its cue."""
    ids: tuple[int, int, int] = (0, 0, 0)
    """Right, wrong and missed ids of a talk, each counted once however often it is named."""

    @property
    def precision(self) -> float:
        """Share of what is named that is right."""
        return self.right / max(1, self.right + self.wrong)

    @property
    def recall(self) -> float:
        """Share of what is there that is named."""
        return self.right / max(1, self.right + self.missed)

    @property
    def by_ids(self) -> Self:
        """The same over the ids of a talk: what the worksheet asks an author to buy and lay out."""
        return type(self)(*self.ids)


def score_talk(path: Path) -> Score:
    """How well one talk is recognised, cue by cue."""
    cues = read_cues(path.read_text(encoding="utf-8"))
    marks = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    heard = hear(cues, make_lexicon(trade_stock()))
    right = wrong = missed = 0
    all_named: set[str] = set()
    all_there: set[str] = set()
    told = []
    for number, (cue, one) in enumerate(zip(cues, heard, strict=True), 1):
        named, there = {*one.materials, *one.tools}, {*marks.get(str(number), ())}
        all_named |= named
        all_there |= there
        right += len(named & there)
        wrong += len(named - there)
        missed += len(there - named)
        if named != there:
            told.append(
                f"{path.stem} {number}: wrong {sorted(named - there)}, "
                f"missed {sorted(there - named)}: {cue.words}"
            )
    ids = (
        len(all_named & all_there), len(all_named - all_there), len(all_there - all_named)
    )  # fmt: skip
    return Score(right, wrong, missed, tuple(told), ids)


def together(scores: list[Score]) -> Score:
    """The counts of several talks as one."""
    return Score(
        sum(one.right for one in scores),
        sum(one.wrong for one in scores),
        sum(one.missed for one in scores),
        ids=(
            sum(one.ids[0] for one in scores),
            sum(one.ids[1] for one in scores),
            sum(one.ids[2] for one in scores),
        ),
    )


def line_of(name: str, score: Score) -> str:
    """A score in words, by cues and by ids of a talk."""
    return "; ".join(
        f"{how}: precision {one.precision:.3f}, recall {one.recall:.3f} "
        f"({one.right} right, {one.wrong} wrong, {one.missed} missed)"
        for how, one in ((f"{name} by cue", score), ("by ids", score.by_ids))
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
        print(line_of(name, score))
        if given.misses:
            print("\n".join(f"  {line}" for line in score.told))
