"""Words that stand for a thing of the stock → the cues in which they do.

A colour stands for paint ("a coat of black"), a round thing of the household for what foam is bent
over ("over a soup bowl"). General English, written from common knowledge; no source.
"""

from collections.abc import Collection, Iterator

from guidegen.bench.talks.lexicon import Lexicon, Meant
from guidegen.bench.talks.speech import BEHIND, leaves_it
from guidegen.bench.talks.spoken import Talk
from guidegen.bench.talks.stance import stance_of
from guidegen.bench.talks.telling import MAYBE_WORK, words_in

_AMOUNTS = words_in(
    "bit little touch dab dabs coat coats layer layers drop blob splash streak smear lick spot hint"
)
_COLOURS = words_in(
    "black white red blue green brown grey gray silver gold bronze copper brass yellow orange "
    "purple"
)
_SHADES = words_in("dark light pale matt matte metallic dull bright of more the a and thin second")
_ROUND = words_in(
    "bowl pot pan mug cup tin can bottle jar tube pipe bucket drum ball football basketball globe "
    "vase flask thermos barrel cylinder post pole tumbler stockpot saucepan handle broomstick "
    "kettle stick dowel flowerpot jug glass beans balloon melon roll rolls bottles cans tins"
)
_BENT = words_in(
    "bend bends bent bending shape shaped shaping form formed forming curve curved curl drape "
    "draped warm hot heat heated wrap wrapped mould mold press"
)

_ROLLED = words_in("roll rolled rolling rolls roller")


def standing_things(
    talk: Talk, used: Collection[Meant], lexicon: Lexicon
) -> Iterator[tuple[int, Meant]]:
    """Cues in which a round thing or a colour stands for a thing, with the thing.

    `used` holds what the talk names and uses: without paint, a colour is none.
    """
    former = Meant("tool", "round-former")
    if former in lexicon.sizes:
        for at in bent_over(talk):
            if stance_of(talk, at, 1).speaks_for:
                yield talk.words[at].cue, former
    paint = Meant("material", "paint")
    if paint in used:
        for at in coloured(talk):
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
        rolled = _ROLLED & talk.near(talk.words[at].cue)
        if talk.before(back) in {"over", "around", "round"} and article and bent and not rolled:
            yield at


def coloured(talk: Talk) -> Iterator[int]:
    """Places of colours that stand for paint: "a coat of black", "a bit of silver on the edges"."""
    for at, word in enumerate(talk.said):
        # "A coat of white glue" is no paint.
        if word not in _COLOURS or not leaves_it(talk.behind(at + 1), BEHIND - MAYBE_WORK):
            continue
        back = at - 1
        while back >= 0 and talk.before(back + 1) in _SHADES:
            back -= 1
        if back >= 0 and back < at - 1 and talk.before(back + 1) in _AMOUNTS:
            yield at
