"""A talk in → the words for what is made in it, which then name no tool of that name.

Who makes a mask speaks of the mask all the time, and who makes gauntlets of gloves: there "the
mask" protects no lungs. General English, written from common knowledge; no source.
"""

from guidegen.bench.talks.spoken import Talk
from guidegen.bench.talks.telling import words_in

WORN = words_in("mask masks glove gloves goggles goggle glasses")
"""Words for protective wear that are words for costume as well."""
WEARING = words_in(
    """
    wear wears wearing wore on pop pull put grab protect protective dust dusty fumes fume vapour
    vapours vapor vapors solvent hot heat warm burn burns burnt knife blade sharp cut cutting skin
    data sheet paint spray spraying sand sanding lungs breathe filter filters filtered chemical
    glue resin rotary grinding drill drilling please with need paper
    """
)
"""Words near which such wear protects."""
OPENING = 60
"""Words from the beginning of a talk in which what is made is told. Our choice."""


def made_in(talk: Talk) -> frozenset[str]:
    """Words for protective wear that this talk uses for what it makes: "we do the owl mask"."""
    opening = talk.said[:OPENING]
    found = set()
    for at, word in enumerate(opening):
        if word in WORN and _tells_a_work(opening[max(0, at - 4) : at]):
            found |= {word, word.removesuffix("s"), f"{word}s"}
    return frozenset(found)


def _tells_a_work(before: list[str]) -> bool:
    """Whether a verb of making stands before, with nothing between but an article and what
    describes the work."""
    for word in reversed(before):
        if word in _MAKING:
            return True
        if word in _BREAKING:
            return False
    return False


_MAKING = words_in(
    "make makes making made build builds building built doing sewing finish finished start todays"
)
_BREAKING = words_in("with on and in from to need needs use using wear wearing your put get")
