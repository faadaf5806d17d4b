"""Things that a talk has named and a general noun in → the thing that the noun stands for.

"The glue" is the glue that was named before, as long as no other was. Colours and media stand for
the paint that they are: "a coat of black". General English, written from common knowledge; no
source.
"""

from collections.abc import Iterator, Sequence

from guidegen.bench.talks.lexicon import Lexicon, Meant
from guidegen.bench.talks.phrases import Mention
from guidegen.bench.talks.speech import BEHIND, leaves_it
from guidegen.bench.talks.spoken import Talk
from guidegen.bench.talks.stance import stance_of
from guidegen.bench.talks.telling import words_in

CARRIED = 40
"""Words back in which one thing of several is still meant. Our choice."""
GENERAL = words_in("glue adhesive tape board cord saw brush binding varnish filler gun mask")
"""Nouns under which the stock has several things."""
_DETERMINED = words_in("the that this same more your my our of some any enough")
_ALIKE = words_in("same wet excess leftover")

_AMOUNTS = words_in(
    "bit little touch dab dabs coat coats layer layers drop blob splash streak smear lick spot hint"
)
_COLOURS = words_in(
    "black white red blue green brown grey gray silver gold bronze copper brass yellow orange "
    "purple"
)
_SHADES = words_in("dark light pale matt matte metallic dull bright of more the a and thin second")


def general_places(talk: Talk) -> Iterator[tuple[int, str]]:
    """Where a general noun is said of something known: its place and the noun."""
    for at, word in enumerate(talk.said):
        if word not in GENERAL or not leaves_it(talk.behind(at + 1), BEHIND):
            continue
        before = talk.before(at)
        if before in _ALIKE and at:
            before = talk.before(at - 1)
        if before in _DETERMINED:
            yield at, word


def things_called(noun: str, lexicon: Lexicon) -> frozenset[Meant]:
    """The things of a stock that some phrase calls by this noun."""
    return frozenset(
        named
        for phrase, found in lexicon.things.items()
        if phrase[-1] == noun
        for named in found
        if named.kind != "process"
    )


def carried_things(
    talk: Talk,
    placed: Sequence[tuple[Mention, Meant]],
    mentions: Sequence[Mention],
    lexicon: Lexicon,
) -> Iterator[tuple[int, Meant]]:
    """Cues in which a general noun or a colour stands for a thing, with the thing.

    `placed` holds what was named; words of any of the `mentions` have their meaning already.
    """
    taken = {
        at for one in mentions if not one.weak for at in range(one.at, one.end) if _a_thing(one)
    }
    may = {noun: things_called(noun, lexicon) for noun in GENERAL & {*talk.said}}
    for at, noun in general_places(talk):
        if at in taken or not stance_of(talk, at, 1).speaks_for:
            continue
        named = named_before(at, may[noun], placed)
        if named is not None:
            yield talk.words[at].cue, named
    former = Meant("tool", "round-former")
    if former in lexicon.sizes:
        for at in bent_over(talk):
            if stance_of(talk, at, 1).speaks_for:
                yield talk.words[at].cue, former
    paint = Meant("material", "paint")
    if any(named == paint for _, named in placed):
        for at in coloured(talk):
            if at not in taken:
                yield talk.words[at].cue, paint


def bent_over(talk: Talk) -> Iterator[int]:
    """Places of round things of the household over which something is bent: "over a soup bowl"."""
    for at, word in enumerate(talk.said):
        if word not in _ROUND or not leaves_it(talk.behind(at + 1), BEHIND):
            continue
        back = at
        while back > max(0, at - 4) and talk.before(back) not in {"over", "around", "round", ""}:
            back -= 1
        article = {"a", "an", "the", "my", "your", "this", "some", "any"} & {*talk.said[back:at]}
        bent = _BENT & talk.near(talk.words[at].cue)
        if talk.before(back) in {"over", "around", "round"} and article and bent:
            yield at


_ROUND = words_in(
    "bowl pot pan mug cup tin can bottle jar tube pipe bucket drum ball football basketball globe "
    "vase flask thermos barrel cylinder post pole tumbler"
)
_BENT = words_in(
    "bend bends bent bending shape shaped shaping form formed forming curve curved curl drape "
    "draped warm hot heat heated wrap wrapped mould mold press"
)


def _a_thing(one: Mention) -> bool:
    return any(named.kind != "process" for named in one.candidates)


def named_before(
    at: int, may: frozenset[Meant], placed: Sequence[tuple[Mention, Meant]]
) -> Meant | None:
    """The one of several things that was named before a place; None where it is not one."""
    earlier = [(one.at, named) for one, named in placed if one.at < at and named in may]
    found = {named for _, named in earlier}
    if len(found) > 1:
        found = {named for where, named in earlier if where >= at - CARRIED}
    return next(iter(found)) if len(found) == 1 else None


def coloured(talk: Talk) -> Iterator[int]:
    """Places of colours that stand for paint: "a coat of black", "a bit of silver on the edges"."""
    for at, word in enumerate(talk.said):
        if word not in _COLOURS or not leaves_it(talk.behind(at + 1), BEHIND):
            continue
        back = at - 1
        while back >= 0 and talk.before(back + 1) in _SHADES:
            back -= 1
        if back >= 0 and back < at - 1 and talk.before(back + 1) in _AMOUNTS:
            yield at
