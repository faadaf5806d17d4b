"""A phrase of a talk in → whether the maker uses the thing, or only speaks of it.

What a build needs is what its maker uses. Talks also name what others use, what was tried and given
up, what something is compared with, and what is not needed. A denial or another's way reaches over
its sentence, which captions cut in pieces, up to the next subject or contrast. Verbs of use in the
first person end it. General English, written from common knowledge; no source.
"""

from enum import Enum

from guidegen.bench.talks.refusing import is_refused
from guidegen.bench.talks.spoken import Talk
from guidegen.bench.talks.ways import (
    ASKED,
    CONDITIONS,
    CONTRAST,
    COULD,
    DENIED,
    DISMISSED,
    DOUBTED,
    EARLIER,
    INDISPENSABLE,
    LIST_REFUSED,
    OWN_WAY,
    QUESTION,
    REFUSED,
    SUBJECTS,
    TURNED_DOWN,
    USED,
    VERBS,
)

NEAR_ITS_END = 6
"""Words from a phrase to the end of its sentence, so that the next one speaks of it. Our choice."""
SCOPE = 14
"""Words before and behind a phrase that may tell how it is spoken of. Our choice."""


class Stance(Enum):
    """How a talk speaks of a thing in one place."""

    USED = "used"
    """With a verb of use, by the maker or for the reader."""
    NAMED = "named"
    """Without such a verb."""
    DOUBTED = "doubted"
    """As another's way, as given up, as what would be, as worse than something else."""
    REFUSED = "refused"
    """As what is not used."""

    @property
    def speaks_for(self) -> bool:
        """Whether this place tells that the thing is used."""
        return self in {Stance.USED, Stance.NAMED}


def stance_of(talk: Talk, at: int, length: int) -> Stance:
    """How the words around a phrase of so many words speak of it."""
    before, behind = _before(talk, at), _behind(talk, at + length)
    if INDISPENSABLE.search(before):
        return Stance.USED
    if is_refused(talk, at, length) or DENIED.match(behind):
        return Stance.REFUSED
    # "If you don't have a glue gun" speaks of one.
    if not before.startswith("if ") and REFUSED.search(before):
        return Stance.REFUSED
    if _asked_and_denied(talk, at, at + length) or _in_a_refused_list(before, behind):
        return Stance.REFUSED
    if talk.words[at].sentence in talk.questions or _turned_down(talk, at + length):
        return Stance.DOUBTED
    if DOUBTED.search(before) or _of_another_build(talk, at) or _declined(talk, at, before):
        return Stance.DOUBTED
    if USED.search(before):
        return Stance.USED
    return Stance.DOUBTED if DISMISSED.match(behind) else Stance.NAMED


def _before(talk: Talk, at: int) -> str:
    """The words before a place from the last subject or contrast of its sentence on."""
    kept: list[str] = []
    for back in range(at - 1, max(-1, at - SCOPE - 1), -1):
        word = talk.said[back]
        if talk.words[back].sentence != talk.words[at].sentence or word in CONTRAST:
            break
        kept.append(word)
        # "If I had a saw" and "when we tried tape" are told by the word before the subject.
        if word in SUBJECTS:
            if back and talk.said[back - 1] in CONDITIONS:
                kept.append(talk.said[back - 1])
            break
    return " ".join(reversed(kept))


def _behind(talk: Talk, at: int) -> str:
    """The words behind a phrase to the end of its sentence."""
    kept: list[str] = []
    for ahead in range(at, min(len(talk.said), at + SCOPE)):
        if talk.words[ahead].sentence != talk.words[at - 1].sentence:
            break
        kept.append(talk.said[ahead])
    return " ".join(kept)


def _asked_and_denied(talk: Talk, at: int, end: int) -> bool:
    """Whether a question with the phrase is answered with no: "Do I need a saw? No." """
    sentence = talk.words[at].sentence
    start = at
    while start and talk.words[start - 1].sentence == sentence:
        start -= 1
    while end < len(talk.said) and talk.words[end].sentence == sentence:
        end += 1
    answered = end < len(talk.said) and talk.said[end] in {"no", "nope", "nah", "never"}
    return answered and bool(QUESTION.match(" ".join(talk.said[start : start + 3])))


def _turned_down(talk: Talk, end: int) -> bool:
    """Whether the next sentence turns it down: "Hot glue hisses. I don't care for it." """
    sentence = talk.words[end - 1].sentence
    start = end
    last = min(len(talk.said), end + NEAR_ITS_END + 1)
    while start < last and talk.words[start].sentence == sentence:
        start += 1
    if start == last:
        return False
    return bool(TURNED_DOWN.match(" ".join(talk.said[start : start + 5])))


def _of_another_build(talk: Talk, at: int) -> bool:
    """Whether the sentence tells of an earlier work ("the last one I made with white glue"), or
    that somebody asked about it."""
    sentence = talk.words[at].sentence
    said = [
        talk.said[one]
        for one in range(max(0, at - SCOPE), min(len(talk.said), at + SCOPE))
        if talk.words[one].sentence == sentence
    ]
    first = max(0, at - SCOPE)
    here = [word for word in range(first, at) if talk.words[word].sentence == sentence]
    asked = ASKED.search(" ".join(talk.said[word] for word in here))
    return bool(EARLIER.search(" ".join(said)) or asked)


def _in_a_refused_list(before: str, behind: str) -> bool:
    """Whether a thing is one of several that are refused together: "no saw, drill or file"."""
    found = LIST_REFUSED.search(before)
    if found is None:
        return False
    between = found["between"].split()
    alternatives = {"or", "nor"} & {*between, *behind.split()[:6]}
    return bool(alternatives) and not any(word in VERBS for word in between)


def _declined(talk: Talk, at: int, before: str) -> bool:
    """Whether what could be done is set against the maker's own way: "you could use tape, but I
    glue it"."""
    if not COULD.search(before):
        return False
    sentence = talk.words[at].sentence
    rest = [
        talk.said[ahead]
        for ahead in range(at, min(len(talk.said), at + 2 * SCOPE))
        if talk.words[ahead].sentence in {sentence, sentence + 1}
    ]
    return bool(OWN_WAY.search(" ".join(rest)))
