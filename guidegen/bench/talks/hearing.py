"""Cues and the phrases of a stock in → what each cue names, as far as it is certain.

A thing is named only where one thing of the stock can be meant, and where the talk as a whole makes
it certain enough that the build uses it; what stays open is left to the author, with what it may
be. So little is named wrongly, and something is missed.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.certainty import (
    ENOUGH,
    Settled,
    certainty,
    counted_words,
    signs_of,
)
from guidegen.bench.talks.lexicon import Lexicon, Meant
from guidegen.bench.talks.phrases import Mention, find_mentions
from guidegen.bench.talks.settling import Known, Said, said_things
from guidegen.bench.talks.spoken import talk_of
from guidegen.bench.talks.stance import Stance
from guidegen.bench.talks.standing import standing_things


@dataclass
class Heard:
    """What one cue names."""

    materials: list[str] = field(default_factory=list)
    tools: list[str] = field(default_factory=list)
    process: str = ""
    maybe: list[str] = field(default_factory=list)
    """Things of which one is meant, where nothing says which: the likeliest first."""

    def add(self, named: Meant) -> None:
        """Keep what is named, once."""
        if named.kind == "process":
            self.process = self.process or named.id
            return
        kept = self.materials if named.kind == "material" else self.tools
        if named.id not in kept:
            kept.append(named.id)

    def offer(self, which: Sequence[Meant]) -> None:
        """Keep what may be meant, unless one of it is named or offered already."""
        if not any(one.id in (*self.materials, *self.tools, *self.maybe) for one in which):
            self.maybe += [one.id for one in which]

    @property
    def anything(self) -> bool:
        """Whether anything was named at all."""
        return bool(self.materials or self.tools or self.process)

    @property
    def open(self) -> bool:
        """Whether something of it is left to the author: nothing known, or several possible."""
        return bool(self.maybe) or not self.anything


def hear(cues: Sequence[Cue], lexicon: Lexicon, enough: float = ENOUGH) -> list[Heard]:
    """What each cue names, in the order of the cues; `enough` is the certainty that it takes."""
    single = frozenset(phrase[0] for phrase in lexicon.things if len(phrase) == 1)
    talk = talk_of(cues, single)
    mentions = find_mentions(talk, lexicon)
    heard = [Heard() for _ in cues]
    said = said_things(mentions, lexicon)
    certain = {
        meant
        for meant, signs in signs_by_thing(said, counted_words()).items()
        if certainty(signs) >= enough
    }
    placed = [place for place in said.settled if place.meant in certain and place.speaks_for]
    for place in placed:
        heard[place.mention.cue].add(place.meant)
    for cue, named in standing_things(talk, {place.meant for place in placed}, lexicon):
        heard[cue].add(named)
    refused = {
        (one.cue, named)
        for one in mentions
        if one.stance is Stance.REFUSED
        for named in one.candidates
    }
    for one in mentions:
        if one.stance is Stance.REFUSED:
            continue
        work = frozenset(named for named in one.candidates if named.kind == "process")
        process = _work(work, one.cue, heard, lexicon)
        if process is not None and (one.cue, process) not in refused:
            heard[one.cue].add(process)
    doubted = [
        (place.mention, [place.meant]) for place in said.settled if place.meant not in certain
    ]
    undecided = [(one, _likeliest_first(one, said.known)) for one in said.undecided]
    for one, which in sorted([*doubted, *undecided], key=lambda pair: pair[0].at):
        if one.stance is not Stance.REFUSED:
            heard[one.cue].offer(which)
    return heard


def signs_by_thing(
    said: Said, words: Mapping[str, tuple[int, int]]
) -> dict[Meant, dict[str, float]]:
    """What speaks for each thing that is spoken for somewhere."""
    places: dict[Meant, list[Settled]] = {}
    for one in said.settled:
        places.setdefault(one.meant, []).append(one)
    return {
        meant: signs_of(
            spoken,
            frozenset().union(*(said.known.needed.get(one.mention.cue, ()) for one in spoken)),
            words,
        )
        for meant, spoken in places.items()
        if any(one.speaks_for for one in spoken)
    }


def _likeliest_first(one: Mention, known: Known) -> list[Meant]:
    """What an undecided phrase may mean; what a size without a name may mean is no help."""
    found = [named for named in one.candidates if named.kind != "process" and one.phrase[0]]
    return sorted(found, key=lambda named: (named not in known.certain, named.id))


def _parts(named: Meant) -> set[str]:
    return {*named.id.split("-")}


def _work(
    found: Collection[Meant], cue: int, heard: Sequence[Heard], lexicon: Lexicon
) -> Meant | None:
    """The kind of work that a verb means: what it is done with decides between several."""
    if len(found) < 2:
        return next(iter(found), None)
    near = heard[max(0, cue - 8) : cue + 1]
    tools = {tool for one in near for tool in one.tools}
    materials = [Meant("material", name) for one in near for name in one.materials]
    brought = {caution for named in materials for caution in lexicon.cautions[named]}
    scores = {
        named: len(tools & lexicon.tools.get(named.id, frozenset()))
        + 2 * len(brought & lexicon.cautions[named])
        # wood-glue is for glue-wood: names of the stock share their words.
        + max((len(_parts(named) & _parts(other)) for other in materials), default=0)
        for named in found
    }
    best = max(scores.values())
    winners = [named for named, score in scores.items() if score == best]
    return winners[0] if best > 0 and len(winners) == 1 else None
