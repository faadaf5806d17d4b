"""Cues and the phrases of a stock in → what each cue names, as far as it is certain.

A thing is named only where one thing of the stock can be meant; what stays open is left to the
author, with what it may be. So little is named wrongly, and something is missed.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field

from guidegen.bench.talks import telling
from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.lexicon import Lexicon, Meant
from guidegen.bench.talks.phrases import Mention, find_mentions
from guidegen.bench.talks.spoken import talk_of
from guidegen.bench.talks.stance import Stance
from guidegen.bench.talks.standing import standing_things
from guidegen.bench.talks.worlds import of_this_world


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

    @property
    def anything(self) -> bool:
        """Whether anything was named at all."""
        return bool(self.materials or self.tools or self.process)

    @property
    def open(self) -> bool:
        """Whether something of it is left to the author: nothing known, or several possible."""
        return bool(self.maybe) or not self.anything


@dataclass(frozen=True)
class _Known:
    """What the whole talk tells."""

    certain: frozenset[Meant]
    """Things that it names beyond doubt somewhere."""
    families: Counter[str]
    """How often each family of things is spoken of."""


def hear(cues: Sequence[Cue], lexicon: Lexicon) -> list[Heard]:
    """What each cue names, in the order of the cues."""
    single = frozenset(phrase[0] for phrase in lexicon.things if len(phrase) == 1)
    talk = talk_of(cues, single)
    mentions = find_mentions(talk, lexicon)
    heard = [Heard() for _ in cues]
    asked = [one for one in mentions if one.stance is not Stance.REFUSED]
    known = _known([one for one in asked if one.stance.speaks_for and not one.weak], lexicon)
    said = [one for one in mentions if not one.weak or _meant_here(one, lexicon) & known.certain]
    things = [(one, _thing(one, known, lexicon)) for one in said]
    # What is used somewhere is used in this build, also where the talk speaks against it.
    used = {named for one, named in things if one.stance.speaks_for and not one.unsure}
    placed, undecided = _placed(things, used)
    for one, named in placed:
        heard[one.cue].add(named)
    for cue, named in standing_things(talk, {named for _, named in placed}, lexicon):
        heard[cue].add(named)
    refused = {
        (one.cue, named)
        for one in mentions
        if one.stance is Stance.REFUSED
        for named in one.candidates
    }
    spoken = [one for one in said if one.stance is not Stance.REFUSED]
    for one in spoken:
        work = frozenset(named for named in one.candidates if named.kind == "process")
        process = _work(work, one.cue, heard, lexicon)
        if process is not None and (one.cue, process) not in refused:
            heard[one.cue].add(process)
    for one in undecided:
        _leave_open(one, heard, known, lexicon)
    return heard


def _placed(
    things: Sequence[tuple[Mention, Meant | None]], used: Collection[Meant | None]
) -> tuple[list[tuple[Mention, Meant]], list[Mention]]:
    """Mentions with what they name, and mentions that are left open; what is refused is neither."""
    placed: list[tuple[Mention, Meant]] = []
    undecided = []
    for one, meant in things:
        if one.stance is Stance.REFUSED:
            continue
        if meant is None or one.unsure or meant not in used:
            undecided.append(one)
        else:
            placed.append((one, meant))
    return placed, undecided


def _known(mentions: Iterable[Mention], lexicon: Lexicon) -> _Known:
    certain: set[Meant] = set()
    families: Counter[str] = Counter()
    for one in mentions:
        sure = _meant_here(one, lexicon)
        # A phrase that is a size alone begins with an empty word: it tells no family.
        families.update({named.family for named in sure if one.phrase[0]})
        if len(sure) == 1 and one.phrase[0]:
            certain |= sure
    return _Known(frozenset(certain), families)


def _meant_here(one: Mention, lexicon: Lexicon) -> frozenset[Meant]:
    """Of what a phrase may mean, what the words and sizes beside it leave."""
    others = one.beside - {*one.phrase}
    things = frozenset(
        named
        for named in one.candidates
        if named.kind != "process" and not telling.UNLESS.get(named.id, frozenset()) & others
    )
    return _sized(one, things, lexicon)


def _sized(one: Mention, things: frozenset[Meant], lexicon: Lexicon) -> frozenset[Meant]:
    """Those that have a size that is said beside the phrase; nothing where a size is said that
    none of them has."""
    if not any(lexicon.sizes[named] for named in things):
        return things
    if one.sizes:
        return _of_size(things, one.sizes, lexicon)
    # A number without a unit may count anything: it decides where it fits one thing alone.
    fitting = _of_size(things, one.bare, lexicon)
    return fitting if len(fitting) == 1 else things


def _of_size(
    things: frozenset[Meant], sizes: frozenset[float], lexicon: Lexicon
) -> frozenset[Meant]:
    return frozenset(
        named
        for named in things
        if any(
            abs(size - own) < max(0.6, 0.02 * own) for size in sizes for own in lexicon.sizes[named]
        )
    )


def _thing(one: Mention, known: _Known, lexicon: Lexicon) -> Meant | None:
    """The thing that a phrase means here; None where it stays open."""
    found = _meant_here(one, lexicon)
    if not one.phrase[0]:
        return _by_size_alone(found, known)
    if len(found) < 2:
        return next(iter(found), None)
    if len({named.family for named in found}) == 1:
        # Foams differ by size alone, and talks go from one to the other: without its size none is
        # named. rivet-9 stands for rivet-9-15 as well, where its 9 mm are said.
        plainest = min(found, key=lambda named: len(named.id))
        said = bool(one.sizes or one.bare & lexicon.sizes[plainest])
        longer = all(n.id.startswith(f"{plainest.id}-") for n in found - {plainest})
        return plainest if said and longer else None
    for words in (one.beside, one.near):
        others = words - {*one.phrase}
        scores = {named: len(telling.SIDES.get(named.id, frozenset()) & others) for named in found}
        best = [named for named, score in scores.items() if score == max(scores.values()) > 0]
        if best:
            return best[0] if len(best) == 1 else None
    sure = found & known.certain
    if len(sure) == 1 and not _for_a_purpose(one):
        return next(iter(sure))
    worldly = of_this_world(found, known.certain)
    if len(worldly) == 1:
        return next(iter(worldly))
    called = found & lexicon.called.get(one.phrase, frozenset())
    return next(iter(called)) if len(called) == 1 and not sure else None


def _for_a_purpose(one: Mention) -> bool:
    """Whether kinds of this name are used side by side, each for its own work: gloves, brushes."""
    return one.phrase[-1].removesuffix("s").removesuffix("e") in _PURPOSES


_PURPOSES = frozenset({"glov", "mask", "brush"})


def _by_size_alone(found: frozenset[Meant], known: _Known) -> Meant | None:
    """What a size without a name means: of the family that the talk speaks of most."""
    most = max((known.families[named.family] for named in found), default=0)
    best = [named for named in found if known.families[named.family] == most > 0]
    return best[0] if len(best) == 1 else None


def _leave_open(one: Mention, heard: Sequence[Heard], known: _Known, lexicon: Lexicon) -> None:
    """Keep what a phrase may mean, where the kind of work does not decide between tools."""
    here = heard[one.cue]
    found = {named for named in one.candidates if named.kind != "process"}
    if not found or not one.phrase[0]:
        return
    if len(found) == 1:
        # It is known what the word says, but not that the maker uses it.
        here.maybe += [n.id for n in found if n.id not in (*here.materials, *here.tools)]
        return
    if one.stance.speaks_for and not one.unsure and all(named.kind == "tool" for named in found):
        process = next((h.process for h in reversed(heard[: one.cue + 1]) if h.process), "")
        fitting = [named for named in found if named.id in lexicon.tools.get(process, ())]
        if len(fitting) == 1:
            here.add(fitting[0])
            return
    if not any(named.id in (*here.materials, *here.tools, *here.maybe) for named in found):
        here.maybe += [n.id for n in sorted(found, key=lambda n: (n not in known.certain, n.id))]


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
