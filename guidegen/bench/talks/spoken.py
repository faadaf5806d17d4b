"""Cues in → the words of a talk, with the line, sentence and clause in which each was said."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.lexicon import plain, words_of
from guidegen.bench.talks.telling import words_in

LONGEST = 30
"""Words of a sentence before and behind one that are looked at. Our choice: talks without full
stops may be one sentence."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word where it was said."""

    cue: int
    sentence: int
    """Counted through the talk: captions break sentences."""
    clause: int
    """Counted through the talk: what stands between commas."""
    said: str
    plain: str


@dataclass(frozen=True, slots=True)
class Talk:
    """The words of a whole talk, and what stands beside each."""

    words: Sequence[Word]
    said: list[str]
    beside: Sequence[frozenset[str]]
    things: frozenset[str]
    """Words that name a thing alone."""
    questions: frozenset[int]
    """Sentences that ask."""
    all: frozenset[str]
    """All words of the talk."""

    def before(self, at: int) -> str:
        """The word before, in the same clause; empty for none."""
        return self.said[at - 1] if at and self._joined(at - 1, at) else ""

    def behind(self, at: int) -> str:
        """The word at a place, if it is of the clause of the word before it; empty for none."""
        return self.said[at] if at < len(self.said) and self._joined(at - 1, at) else ""

    def near(self, cue: int) -> frozenset[str]:
        """The words of a cue and of the one before it."""
        return self.beside[cue] | (self.beside[cue - 1] if cue else frozenset())

    def around(self, cue: int) -> frozenset[str]:
        """The words of a cue, of the two before it and of the next."""
        return frozenset().union(*self.beside[max(0, cue - 2) : cue + 2])

    def sentence(self, at: int) -> list[str]:
        """The words of the sentence that a word belongs to, so many before and behind it."""
        number = self.words[at].sentence
        near = range(max(0, at - LONGEST), min(len(self.words), at + LONGEST))
        return [self.said[one] for one in near if self.words[one].sentence == number]

    def _joined(self, first: int, second: int) -> bool:
        return self.words[first].clause == self.words[second].clause


def talk_of(cues: Sequence[Cue], things: frozenset[str]) -> Talk:
    """A talk of its cues; `things` are words that name a thing alone."""
    words, questions = words_of_talk(cues)
    beside: list[set[str]] = [set() for _ in cues]
    for word in words:
        beside[word.cue].add(word.said)
    said = [word.said for word in words]
    near = [frozenset(one) for one in beside]
    return Talk(words, said, near, things, questions, frozenset(said))


FEW_STOPS = 0.25
"""Share of cues with a full stop below which a talk has none: recognisers of speech write none.
Our choice."""
_HANGING = words_in(
    "a an the my your our his her their some any this that these those with without of for to from "
    "in on at by into over under and or nor but not no dont never than like as instead rather use "
    "using used need people they i we you he she is are was"
)
"""Words that end no sentence: a cue behind one goes on with it, in a talk without full stops."""
_APART = re.compile(
    r"\b(?!(?:it|that|he|she|who|what|let|there|here|where|how|one)\b)(\w+)['\u2019]s\b",
    re.IGNORECASE,
)
"""A name with "is" or "has", or of an owner: "the blade's new" speaks of one blade."""


def words_of_talk(cues: Sequence[Cue]) -> tuple[list[Word], frozenset[int]]:
    """All words in their order, and the sentences that ask; a caption may break a sentence."""
    words: list[Word] = []
    questions: set[int] = set()
    sentence = clause = 0
    stops = sum(bool(re.search(r"[.!?](?:\s|$)", cue.words)) for cue in cues)
    unstopped = stops < FEW_STOPS * len(cues)
    for number, cue in enumerate(cues):
        sentence += unstopped and bool(words) and words[-1].said not in _HANGING
        said = _APART.sub(r"\1 s", cue.words)
        for mark in re.split(r"([.!?,;:]+(?=\s|$)|\s[-\u2013\u2014]+\s)", said):
            if not words_of(mark):
                if "?" in mark:
                    questions.add(sentence)
                clause += 1
                sentence += mark[:1] in {".", "!", "?"}
            words += [Word(number, sentence, clause, word, plain(word)) for word in words_of(mark)]
    return words, frozenset(questions)
