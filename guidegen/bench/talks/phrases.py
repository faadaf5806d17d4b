"""Cues and a lexicon in → the phrases said in them: what each may mean, its size, its company."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.bench.talks import telling
from guidegen.bench.talks.company import OF_A_KIND, THROUGHOUT, needed_by
from guidegen.bench.talks.lexicon import Lexicon, Meant
from guidegen.bench.talks.refusing import is_likened
from guidegen.bench.talks.sizes import sizes_alone, sizes_near
from guidegen.bench.talks.speech import BEFORE, BEHIND, leaves_it
from guidegen.bench.talks.spoken import Talk
from guidegen.bench.talks.stance import Stance, stance_of
from guidegen.bench.talks.telling import words_in
from guidegen.bench.talks.workpiece import WEARING, WORN, made_in

INSTRUMENT = 4
"""Words before a phrase in which "with" makes it an instrument. Our choice."""
_COMPARING = words_in("too than less worse better")
_ARTICLES = frozenset({"a", "an", "the", "my", "your"})


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
    stance: Stance
    """How the talk speaks of it here."""
    beside: frozenset[str]
    """All words of the cue."""
    near: frozenset[str]
    """All words of the cue and of the one before."""
    weak: bool
    """Whether it is an ordinary word without the company in which it means a thing."""
    at: int
    """Its first word, counted through the talk."""
    unsure: bool
    """Whether the word may mean something else in this talk: it is left open."""
    instrument: bool
    """Whether "with" or "using" stands close before: what work is done with."""
    compared: bool
    """Whether its sentence compares: too, better, than."""


def find_mentions(talk: Talk, lexicon: Lexicon) -> list[Mention]:
    """All phrases for things, and all for work: "cut with scissors" holds one of each."""
    words = talk.words
    things = _phrases(talk, talk.said, lexicon.things, lexicon.longest)
    work = _phrases(talk, [word.plain for word in words], lexicon.work, lexicon.longest)
    alone = (_mention(talk, *found) for found in sizes_alone(talk, lexicon))
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
    sizes, bare = sizes_near(talk, at, length)
    cue = talk.words[at].cue
    stance = stance_of(talk, at, length)
    beside = talk.beside[cue]
    near = talk.near(cue)
    needed = needed_by(phrase)
    weak = needed is not None and not needed & (near - {*phrase[-1:]})
    weak |= phrase in THROUGHOUT and len(THROUGHOUT[phrase] & talk.all) < OF_A_KIND
    unsure = (
        length == 1
        and phrase[0] in WORN
        and (phrase[0] in made_in(talk) or not WEARING & (near - {*phrase}))
    )
    before = {*talk.said[max(0, at - INSTRUMENT) : at]}
    compared = bool(_COMPARING & {*talk.sentence(at)})
    instrument = bool(before & {"with", "using"})
    return Mention(
        cue, candidates, phrase, sizes, bare, stance, beside, near, weak, at, unsure,
        instrument, compared,
    )  # fmt: skip


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
    if length > 1 and not (length == 2 and phrase[0] in _ARTICLES):
        return False
    # Captions without full stops run on from line to line: only words of the same line tell.
    cue = talk.words[at].cue
    if length == 1 and not leaves_it(before, BEFORE) and talk.words[at - 1].cue == cue:
        return True
    # "If the drill screams, stop": a verb at the end of a clause.
    does = length > 1 and behind.endswith("s") and not talk.behind(at + length + 1)
    if not does and not leaves_it(behind, BEHIND) and talk.words[at + length].cue == cue:
        return True
    return length == 1 and _is_work(talk, at)


def _is_work(talk: Talk, at: int) -> bool:
    """Whether a single word for a thing is here work: "brush it off", "the lid clips on"."""
    word, before, behind = talk.said[at], talk.before(at), talk.behind(at + 1)
    if word not in telling.MAYBE_WORK:
        several = word.endswith("s") and word[:-1] in telling.MAYBE_WORK
        fastens = before and behind in telling.FASTENED and before not in telling.AS_A_THING
        return several and bool(fastens or before in {"it", "he", "she", "who", "which"})
    if behind == "on" and word in telling.PUT_ON:
        return True
    # "Paint!" and "then varnish, two coats": orders say what is to be worked on; what has nothing
    # to work on is a thing.
    alone = (not before and (not behind or behind in telling.AS_SUBJECT)) or (
        before in {"then", "now", "next"} and not behind
    )
    return not alone and before not in telling.AS_A_THING
