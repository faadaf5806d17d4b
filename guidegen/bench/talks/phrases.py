"""Cues and a lexicon in → the phrases said in them: what each may mean, its size, its company."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from guidegen.bench.talks import telling
from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.company import THROUGHOUT, needed_by
from guidegen.bench.talks.lexicon import Lexicon, Meant, length_at, number_at
from guidegen.bench.talks.refusing import is_likened, is_refused
from guidegen.bench.talks.speech import BEFORE, BEHIND, leaves_it
from guidegen.bench.talks.spoken import Talk, words_of_talk

REACH = 4
"""Words before and after a phrase in which its size is looked for. Our choice."""
LEAST_BARE = 15
"""Numbers without a unit below which they count things. Our choice."""
WIDEST = 60.0
"""mm above which a length is none of a thing's thickness or width, but how much of it. Our choice:
the widest webbing of the stock has 50."""


@dataclass(frozen=True, slots=True)
class Mention:
    """A phrase where it was said."""

    cue: int
    candidates: frozenset[Meant]
    phrase: tuple[str, ...]
    sizes: frozenset[float]
    """mm that are said beside it."""
    bare: frozenset[float]
    """Numbers beside it without a unit."""
    refused: bool
    beside: frozenset[str]
    """All words of the cue."""
    near: frozenset[str]
    """All words of the cue and of the one before."""
    weak: bool
    """Whether it is an ordinary word without the company in which it means a thing."""


def find_mentions(cues: Sequence[Cue], lexicon: Lexicon) -> list[Mention]:
    """All phrases for things, and all for work: "cut with scissors" holds one of each."""
    words = words_of_talk(cues)
    beside: list[set[str]] = [set() for _ in cues]
    for word in words:
        beside[word.cue].add(word.said)
    single = frozenset(phrase[0] for phrase in lexicon.things if len(phrase) == 1)
    talk = Talk(words, [word.said for word in words], [frozenset(one) for one in beside], single)
    things = _phrases(talk, talk.said, lexicon.things, lexicon.longest)
    work = _phrases(talk, [word.plain for word in words], lexicon.work, lexicon.longest)
    alone = _sizes_alone(talk, lexicon)
    return sorted([*things, *alone, *work], key=lambda one: one.cue)


def _phrases(
    talk: Talk,
    forms: list[str],
    known: Mapping[tuple[str, ...], frozenset[Meant]],
    longest: int,
) -> Iterator[Mention]:
    """Phrases from left to right, the longest at each place; a caption may break one in two."""
    at = 0
    while at < len(forms):
        length, phrase = _longest(talk, forms, at, known, longest)
        if length and not (_is_thing(known[phrase]) and _is_no_thing(talk, at, length, phrase)):
            yield _mention(talk, at, length, phrase, known[phrase])
        at += max(1, length)


def _mention(
    talk: Talk, at: int, length: int, phrase: tuple[str, ...], candidates: frozenset[Meant]
) -> Mention:
    sizes, bare = _sizes_near(talk, at, length)
    cue = talk.words[at].cue
    refused = is_refused(talk, at, length)
    beside = talk.beside[cue]
    near = talk.near(cue)
    needed = needed_by(phrase)
    weak = needed is not None and not needed & (near - {*phrase[-1:]})
    weak |= phrase in THROUGHOUT and not THROUGHOUT[phrase] & talk.all
    return Mention(cue, candidates, phrase, sizes, bare, refused, beside, near, weak)


def _longest(
    talk: Talk,
    forms: list[str],
    at: int,
    known: Mapping[tuple[str, ...], frozenset[Meant]],
    longest: int,
) -> tuple[int, tuple[str, ...]]:
    """Words of the longest phrase from a place on, and the phrase. Recognisers of speech write
    "screw driver" and "web bing": two words are tried as one."""
    for size in range(min(longest, len(forms) - at), 0, -1):
        first, last = talk.words[at], talk.words[at + size - 1]
        if last.cue - first.cue > 1 or last.clause != first.clause:
            continue
        phrase = tuple(forms[at : at + size])
        # "The paint can dry" is no paint can.
        may = phrase[-1] == "can" and talk.behind(at + size) in telling.CAN_DO
        if may:
            continue
        if phrase in known:
            return size, phrase
        joined = ("".join(phrase),)
        if size == 2 and len(joined[0]) > 5 and joined in known:
            return size, joined
    return 0, ()


def _is_thing(candidates: frozenset[Meant]) -> bool:
    return any(named.kind != "process" for named in candidates)


def _is_no_thing(talk: Talk, at: int, length: int, phrase: tuple[str, ...]) -> bool:
    """Whether a phrase for a thing is here part of another thing, or work."""
    before, behind = talk.before(at), talk.behind(at + length)
    if before in telling.OTHERS.get(phrase[-1], ()):
        return True
    if behind in telling.HEADS and not (
        behind == "can"
        and (before in {"the", ""} or talk.behind(at + length + 1) in telling.CAN_DO)
    ):
        return True
    if is_likened(talk, at):
        return True
    if length > 1:
        return False
    # Captions without full stops run on from line to line: only words of the same line tell.
    cue = talk.words[at].cue
    if not leaves_it(before, BEFORE) and talk.words[at - 1].cue == cue:
        return True
    if not leaves_it(behind, BEHIND) and talk.words[at + 1].cue == cue:
        return True
    word = phrase[0]
    if word not in telling.MAYBE_WORK:
        several = word.endswith("s") and word[:-1] in telling.MAYBE_WORK
        fastens = before and behind in telling.FASTENED and before not in telling.AS_A_THING
        return several and bool(fastens or before in {"it", "he", "she", "who", "which"})
    # "Paint!" is a sentence of its own, and no order: orders say what is to be painted.
    if behind == "on" and word in telling.PUT_ON:
        return True
    alone = not before and (not behind or behind in telling.AS_SUBJECT)
    return not alone and before not in telling.AS_A_THING


def _sizes_near(talk: Talk, at: int, length: int) -> tuple[frozenset[float], frozenset[float]]:
    """Lengths in mm that are said in the same cue close before or behind a phrase, and numbers
    without a unit."""
    words, said = talk.words, talk.said
    cue = words[at].cue
    sizes, bare = set(), set()
    for start in range(max(0, at - REACH), at):
        size = length_at(said, start)
        if size is not None and start + size[1] == at and words[start].cue == cue:
            # Right before it: no other size of the cue is meant.
            return frozenset({size[0]}), frozenset()
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
            other = behind in telling.BESIDE_A_LENGTH or behind in talk.things
            if narrow and not other and talk.before(start) not in telling.BEFORE_A_LENGTH:
                sizes.add(size[0])
            start += size[1]
            continue
        # "Two layers of foam" counts; "the fifty" is a size.
        if (number := number_at(said, start)) is not None and number >= LEAST_BARE:
            bare.add(number)
        start += 1
    return frozenset(sizes), frozenset(bare)


def _sizes_alone(talk: Talk, lexicon: Lexicon) -> Iterator[Mention]:
    """Sizes that stand for a thing: "a scrap of the two mil", "one twenty, then two forty" where
    something is sanded."""
    at = 0
    while at < len(talk.said):
        cue = talk.words[at].cue
        length = length_at(talk.said, at)
        number = number_at(talk.said, at)
        used = 1
        if length is not None and talk.said[at + length[1] - 1] in {"mm", "mil", "mill", "mils"}:
            used = length[1]
            behind = talk.behind(at + used)
            if talk.before(at) in {"the", "some", "that", "this"} and (
                not behind or behind in _ENDS_A_NAME
            ):
                found = lexicon.of_size(length[0])
                yield _mention(talk, at, used, ("", *talk.said[at : at + used]), found)
        elif number is not None and talk.near(cue) & _SANDING:
            found = frozenset(one for one in lexicon.of_size(number) if number >= MIN_GRIT)
            if found:
                yield _mention(talk, at, 1, ("grit", talk.said[at]), found)
        at += used


MIN_GRIT = 60
"""The coarsest grit that is heard from a number alone. Our choice."""
_SANDING = telling.words_in("sand sanding sandpaper sanded grit grits abrasive rub rasp")
_ENDS_A_NAME = telling.words_in(
    """
    and or for is here in on just between so because with but if to at it not like stuff one as
    that when where then under over
    """
)
"""Words that go on after a name, so that a size before them was the name itself."""
