"""A phrase of a talk in → whether the talk refuses the thing, or only likens something to it."""

from guidegen.bench.talks.spoken import Talk
from guidegen.bench.talks.telling import words_in

REFUSAL = 4
"""Words before a phrase in which a refusal counts. Our choice."""

_REFUSED_ACTS = words_in("dont doesnt didnt wont wouldnt cant cannot never not")
"""Refusals of what is done. "Never use a knife" refuses the knife; "don't pin canvas" does not
refuse the canvas."""
_TURNED = words_in("skip forget without")
"""Refusals that a refusal before them turns round: don't forget the clamps."""
_REFUSALS = _REFUSED_ACTS | _TURNED | words_in("no instead isnt arent")
_JOINTS = words_in("but because and so then just")
"""Words behind which an earlier refusal does not reach."""
_USING = words_in(
    """
    use using used need needed have having want bother buy get take try reach like own wear
    touch grab be any a an the with that this those these my your for of
    """
)
"""Words between such a refusal and a thing that leave the thing refused."""
_OWNING = words_in("have own got")
_DENIALS = words_in("no nope nah")
"""Words right behind a thing that deny it, where nothing of their clause goes on."""
_ANSWERED = words_in("i we its it thats this that the wait sorry you okay lets take use")
"""Words behind "no" where it answers what was said before."""
_LIKING = words_in(
    """
    i you we they would id youd who from with use using used need needs something anything
    things some get grab take uh um or of in on by and a its
    """
)
"""Words before "like" where it is no likeness: I like a sharp knife, from like a delivery box."""
_SKIPPED = words_in("a an the your my some old little big wet hot piece bit of")
"""Words between "like" or "than" and what is likened."""


def is_refused(talk: Talk, at: int, length: int) -> bool:
    """Whether a phrase of so many words is refused before it, or denied right behind it."""
    return _is_declined(talk, at) or _is_denied(talk, at + length)


def _is_declined(talk: Talk, at: int) -> bool:
    """Whether a refusal stands close before a phrase, in the same sentence."""
    between: list[str] = []
    for back in range(at - 1, max(-1, at - REFUSAL - 1), -1):
        word = talk.said[back]
        if talk.words[at].sentence != talk.words[back].sentence or word in _JOINTS:
            return False
        if word == "instead" and between[-1:] != ["of"]:
            # "Instead I take the iron" takes it.
            between.append(word)
            continue
        if word in _REFUSALS:
            # "Don't forget the clamps" and "never enough clamps" ask for clamps.
            if "enough" in between or _is_turned(talk, back):
                return False
            act = between[-1] if between else ""
            # "No, I mean the primer" and "no, the primer" answer; "no primer" refuses.
            if word == "no" and act in _ANSWERED:
                return False
            # "If you don't have a glue gun" speaks of one.
            if act in _OWNING and "if" in talk.said[max(0, back - 2) : back]:
                return False
            # "Don't use a saw" refuses the saw; "don't pin canvas" leaves the canvas.
            return word not in _REFUSED_ACTS or not act or act in _USING or "with" in between
        between.append(word)
    return False


def _is_turned(talk: Talk, at: int) -> bool:
    """Whether a word such as skip, forget or without is itself refused."""
    earlier = talk.said[max(0, at - 2) : at]
    return talk.said[at] in _TURNED and any(one in _REFUSED_ACTS for one in earlier)


def _is_denied(talk: Talk, at: int) -> bool:
    """Whether the word right behind a phrase denies it: "do I need a saw, no"."""
    if at >= len(talk.said) or talk.words[at].cue != talk.words[at - 1].cue:
        return False
    # "Foam. No, sorry, ten mil" puts something right.
    follows = talk.said[at + 1 : at + 2] in (["sorry"], ["wait"], ["its"])
    if follows and talk.words[at + 1].sentence == talk.words[at].sentence:
        return False
    return talk.said[at] in _DENIALS and (
        at + 1 == len(talk.said) or talk.words[at + 1].clause != talk.words[at].clause
    )


def is_likened(talk: Talk, at: int) -> bool:
    """Whether a phrase is only likened to: "light as a feather", "it cuts like a knife"."""
    back = at - 1
    while back >= 0 and at - back < 4 and talk.said[back] in _SKIPPED and talk.before(back + 1):
        back -= 1
    word = talk.before(back + 1) if back >= 0 else ""
    if word == "than" or (word == "as" and {"a", "an", "some"} & {*talk.said[at - 1 : at + 1]}):
        return True
    return word == "like" and talk.before(back) not in _LIKING
