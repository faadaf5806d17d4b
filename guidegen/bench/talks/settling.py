"""The phrases of a talk and a stock in → the one thing that each means, as far as it can be told.

What tells is a size that is said, the words beside a phrase, the work at hand, what the talk named
before, or the material it works in. Where nothing tells, a phrase stays open.
"""

from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.bench.talks import telling
from guidegen.bench.talks.certainty import Settled, SettledBy
from guidegen.bench.talks.lexicon import Lexicon, Meant
from guidegen.bench.talks.phrases import Mention
from guidegen.bench.talks.stance import Stance
from guidegen.bench.talks.worlds import of_this_world

LAST_FAMILIES = 200
"""Names before a size without one among which its family is looked for. Our choice."""
NEAR_WORK = 2
"""Cues before and behind a kind of work in which its tools are expected. Our choice."""


@dataclass(frozen=True)
class Known:
    """What the whole talk tells."""

    certain: frozenset[Meant]
    """Things that it names beyond doubt somewhere."""
    needed: Mapping[int, frozenset[Meant]]
    """Tools that the kinds of work near each cue need."""
    families: Sequence[tuple[int, str]]
    """Families of things in the order in which they are spoken of, with the places."""


@dataclass(frozen=True)
class Said:
    """The phrases of a talk that may mean things."""

    settled: Sequence[Settled]
    """Those of which it is known what they mean."""
    undecided: Sequence[Mention]
    known: Known


def said_things(mentions: Sequence[Mention], lexicon: Lexicon) -> Said:
    """What the phrases of a talk mean, as far as it can be told."""
    asked = [one for one in mentions if one.stance is not Stance.REFUSED]
    spoken_for = [one for one in asked if one.stance.speaks_for and not one.weak]
    known = _known(spoken_for, _needed(asked, lexicon), lexicon)
    settled, undecided = [], []
    for one in mentions:
        if one.weak and not meant_here(one, lexicon) & known.certain:
            undecided.append(one)
            continue
        meant = _thing(one, known, lexicon)
        if meant is not None:
            settled.append(Settled(one, *meant))
        else:
            undecided.append(one)
    return Said(settled, undecided, known)


def _needed(mentions: Iterable[Mention], lexicon: Lexicon) -> dict[int, frozenset[Meant]]:
    """Tools that the kinds of work need of which a cue or one near it speaks."""
    needed: dict[int, set[Meant]] = {}
    for work in mentions:
        tools = {
            Meant("tool", tool)
            for named in work.candidates
            if named.kind == "process"
            for tool in lexicon.tools[named.id]
        }
        for cue in range(work.cue - NEAR_WORK, work.cue + NEAR_WORK + 1):
            needed.setdefault(cue, set()).update(tools)
    return {cue: frozenset(tools) for cue, tools in needed.items()}


def _known(
    mentions: Iterable[Mention], needed: Mapping[int, frozenset[Meant]], lexicon: Lexicon
) -> Known:
    certain: set[Meant] = set()
    families: list[tuple[int, str]] = []
    for one in mentions:
        sure = meant_here(one, lexicon)
        # A phrase that is a size alone begins with an empty word: it tells no family.
        families += [(one.at, named.family) for named in sure if one.phrase[0]]
        if len(sure) == 1 and one.phrase[0]:
            certain |= sure
    return Known(frozenset(certain), needed, sorted(families))


def meant_here(one: Mention, lexicon: Lexicon) -> frozenset[Meant]:
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
        sized = _of_size(things, one.sizes, lexicon)
        # "Nine mil heads, the fifteen long ones": both tell of a rivet.
        return _of_size(sized, one.bare, lexicon) or sized
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


def _thing(one: Mention, known: Known, lexicon: Lexicon) -> tuple[Meant, SettledBy] | None:
    """The thing that a phrase means here, and what tells so; None where it stays open."""
    found = meant_here(one, lexicon)
    if not one.phrase[0]:
        by_size = _by_size_alone(one, found, known)
        return (by_size, "size") if by_size else None
    if len(found) < 2:
        several = sum(named.kind != "process" for named in one.candidates) > 1
        return next(((named, "size" if several else "name") for named in found), None)
    if len({named.family for named in found}) == 1:
        # Foams differ by size alone, and talks go from one to the other: without its size none is
        # named. rivet-9 stands for rivet-9-15 as well, where its 9 mm are said.
        plainest = min(found, key=lambda named: len(named.id))
        said = bool(one.sizes or one.bare & lexicon.sizes[plainest])
        longer = all(n.id.startswith(f"{plainest.id}-") for n in found - {plainest})
        if said and longer:
            return plainest, "size"
        # A buckle is as wide as the webbing of the talk, where that is of one width.
        webbing = {
            size for one in known.certain if one.family == "webbing" for size in lexicon.sizes[one]
        }
        fitting = [one for one in found if one.family == "buckle" and lexicon.sizes[one] & webbing]
        return (fitting[0], "talk") if len(fitting) == 1 else None
    for words in (one.beside, one.near):
        others = words - {*one.phrase}
        scores = {named: len(telling.SIDES.get(named.id, frozenset()) & others) for named in found}
        best = [named for named, score in scores.items() if score == max(scores.values()) > 0]
        if best:
            return (best[0], "company") if len(best) == 1 else None
    sure = found & known.certain
    called = found & lexicon.called.get(one.phrase, frozenset())
    ways = (
        found & known.needed.get(one.cue, frozenset()),
        sure if not _for_a_purpose(one) else frozenset(),
        of_this_world(found, known.certain),
        called if not sure else frozenset(),
    )
    return next(((next(iter(way)), "talk") for way in ways if len(way) == 1), None)


def _for_a_purpose(one: Mention) -> bool:
    """Whether kinds of this name are used side by side, each for its own work: gloves, brushes."""
    return one.phrase[-1].removesuffix("s").removesuffix("e") in _PURPOSES


_PURPOSES = frozenset({"glov", "mask", "brush", "scissor"})


def _by_size_alone(one: Mention, found: frozenset[Meant], known: Known) -> Meant | None:
    """What a size without a name means: of the family that the talk spoke of last."""
    families = {named.family for named in found}
    last = bisect_left(known.families, (one.at, ""))
    before = known.families[max(0, last - LAST_FAMILIES) : last]
    spoken = [family for _, family in before if family in families]
    best = [named for named in found if named.family in spoken[-1:]]
    return best[0] if len(best) == 1 else None
