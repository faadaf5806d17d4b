"""The words of a talk in → the sizes said beside a name, and sizes that stand for a thing."""

from collections.abc import Iterator

from guidegen.bench.talks.lexicon import Lexicon, Meant, length_at, number_at
from guidegen.bench.talks.spoken import LONGEST, Talk
from guidegen.bench.talks.telling import words_in

type StandIn = tuple[int, int, tuple[str, ...], frozenset[Meant]]
"""A place in the talk, how many words, the phrase, what it may mean."""

REACH = 4
"""Words before and after a phrase in which its size is looked for. Our choice."""
LEAST_BARE = 15
"""Numbers without a unit below which they count things. Our choice."""
LAST_WIDTH = 60
"""Words before "the same width" in which that width is looked for. Our choice."""
WIDEST = 60.0
"""mm above which a length is none of a thing's thickness or width, but how much of it. Our choice:
the widest webbing of the stock has 50."""
LEAST_OF_A_SHEET = 5
"""Bare numbers below which "a piece of the two" means both. Our choice."""
_MILLIMETRES = frozenset(
    {"mm", "mil", "mill", "mils", "millimetre", "millimeter", "millimetres", "millimeters"}
)
_BEFORE_A_STAND_IN = words_in(
    "the some that this its s theyre weve use using used got get take took from with is are bottoms"
)
"""Words before a size that stands for a thing."""
_OFF_A_SHEET = words_in(
    "sheet sheets piece pieces scrap scraps bit bits strip strips offcut offcuts layer layers roll "
    "length lengths square squares"
)
_MEASURED = words_in(
    "hole holes gap gaps deep apart long between wide allowance margin overlap radius off measure "
    "measured distance cut line lines around tall high"
)

MIN_GRIT = 60
"""The coarsest grit that is heard from a number alone. Our choice."""
_SANDING = words_in("sand sanding sandpaper sanded grit grits abrasive rasp smooth block filler")
_BEHIND_A_GRIT = words_in("stuff grit paper sandpaper first after over and to for on then again")
_ENDS_A_NAME = words_in(
    """
    and or for is here in on just between so because with but if to at it not like stuff one as
    that when where then under over cut is was goes works bends holds too
    """
)
"""Words that go on after a name, so that a size before them was the name itself."""

_BESIDE_A_LENGTH = words_in(
    """
    off from in into inside past away deep long apart gap margin overlap allowance border radius
    hole holes slot slots strip strips line lines seam tab tabs square circle disc wider longer
    shorter beyond above below beneath either clear between
    """
)
"""Words behind a length that is no size of the thing beside it: two millimetres from the foam."""
_BEFORE_A_LENGTH = words_in("by every another within past")
"""Words before such a length: overlap the foam by six millimetres."""


def sizes_near(talk: Talk, at: int, length: int) -> tuple[frozenset[float], frozenset[float]]:
    """Lengths in mm that are said in the same cue close before or behind a phrase, and numbers
    without a unit."""
    words, said = talk.words, talk.said
    cue = words[at].cue
    sizes, bare = set(), set()
    for start in range(max(0, at - REACH), at):
        size = length_at(said, start)
        joined = size is not None and start + size[1] == at
        # A caption may end between a size and its noun; a comma may not stand there.
        broken = words[start].cue == cue - 1 and words[start].clause == words[at].clause
        if size and joined and (words[start].cue == cue or broken):
            # Right before it: no other size of the cue is meant.
            return frozenset({size[0]}), frozenset()
    if {"same", "width"} <= talk.beside[cue]:
        # A buckle of the same width as the webbing that was spoken of last.
        earlier = (length_at(said, one) for one in range(at - 1, max(-1, at - LAST_WIDTH), -1))
        wide = next((size[0] for size in earlier if size and size[0] <= WIDEST), None)
        return frozenset({wide} if wide else ()), frozenset()
    start = max(0, at - REACH)
    while start < min(len(words), at + length + REACH):
        if words[start].cue != cue or at <= start < at + length:
            start += 1
            continue
        size = length_at(said, start)
        if size is not None:
            narrow = size[0] <= WIDEST or said[start + size[1] - 1] == "grit"
            behind = talk.behind(start + size[1])
            # "The belt and a fifty mil buckle" tells the buckle's size, not the belt's.
            other = behind in _BESIDE_A_LENGTH or behind in talk.things
            if narrow and not other and talk.before(start) not in _BEFORE_A_LENGTH:
                sizes.add(size[0])
            start += size[1]
            continue
        # "Two layers of foam" counts; "the fifty" is a size.
        if (number := number_at(said, start)[0]) is not None and number >= LEAST_BARE:
            bare.add(number)
        start += 1
    if sizes:
        # "Nine mil heads, the fifteen long ones": what else is said of the thing.
        near = range(max(0, at - LONGEST), min(len(words), at + LONGEST))
        whole = (n for n in near if words[n].cue == cue)
        numbers = (number_at(said, n)[0] for n in whole)
        bare |= {number for number in numbers if number is not None and number >= LEAST_BARE}
    return frozenset(sizes) or _in_the_next_cue(talk, at + length), frozenset(bare)


def _in_the_next_cue(talk: Talk, at: int) -> frozenset[float]:
    """The size behind a phrase behind the end of a caption: "webbing | 25 mil wide"."""
    if not talk.behind(at) or talk.words[at].cue == talk.words[at - 1].cue:
        return frozenset()
    size = length_at(talk.said, at)
    if size is None or size[0] > WIDEST:
        return frozenset()
    behind = talk.behind(at + size[1])
    return frozenset() if behind in _BESIDE_A_LENGTH - {"wide"} else frozenset({size[0]})


def sizes_alone(talk: Talk, lexicon: Lexicon) -> Iterator[StandIn]:
    """Sizes that stand for a thing: "a scrap of the two mil", "ten mil for the cuff", "a fifty",
    "one twenty, then two forty" where something is sanded."""
    at = 0
    while at < len(talk.said):
        length = length_at(talk.said, at)
        number, words = number_at(talk.said, at)
        used = 1
        if length is not None and talk.said[at + length[1] - 1] in _MILLIMETRES:
            used = length[1]
            if _ends_a_name(talk, at + used) and _stands_for_a_thing(talk, at):
                yield at, used, ("", *talk.said[at : at + used]), lexicon.of_size(length[0])
        elif number is not None and length is None:
            used = words
            phrase = tuple(talk.said[at : at + used])
            found = lexicon.of_size(number)
            grit = number >= MIN_GRIT and found and _ends_a_grit(talk, at + used)
            if grit and _SANDING & talk.all:
                yield at, used, ("grit", *phrase), found
            elif number >= LEAST_OF_A_SHEET and _ends_a_name(talk, at + used):
                before = talk.before(at)
                large = number >= LEAST_BARE and before in {"the", "a", "an"}
                if large or _cut_off(talk, at):
                    yield at, used, ("", *phrase), found
        at += used


def _ends_a_name(talk: Talk, at: int) -> bool:
    behind = talk.behind(at)
    return not behind or behind in _ENDS_A_NAME


def _ends_a_grit(talk: Talk, at: int) -> bool:
    """Whether nothing behind a number says that it counts something else."""
    return _ends_a_name(talk, at) or talk.behind(at) in _BEHIND_A_GRIT


def _stands_for_a_thing(talk: Talk, at: int) -> bool:
    """Whether a size stands behind an article ("the two mil"), a verb of use or what is cut off
    ("a strip of two"), or begins a sentence ("ten mil for the cuff")."""
    before = talk.before(at)
    if talk.beside[talk.words[at].cue] & _MEASURED and before not in {"the", "that"}:
        return False
    return (
        before in _BEFORE_A_STAND_IN
        or (before == "of" and at > 1 and talk.before(at - 1) in _OFF_A_SHEET)
        or (not before and talk.words[at].cue != talk.words[at - 1].cue)
    )


def _cut_off(talk: Talk, at: int) -> bool:
    """Whether a bare number is the size of a sheet: "a piece of the six"."""
    return (
        talk.before(at) == "the"
        and talk.before(at - 1) == "of"
        and talk.before(at - 2) in _OFF_A_SHEET
    )
