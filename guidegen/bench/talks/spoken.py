"""Cues in → the words of a talk, with the line, sentence and clause in which each was said."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.lexicon import plain, words_of


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

    @property
    def all(self) -> frozenset[str]:
        """All words of the talk."""
        return frozenset(self.said)

    def before(self, at: int) -> str:
        """The word before, in the same clause; empty for none."""
        return self.said[at - 1] if at and self._joined(at - 1, at) else ""

    def behind(self, at: int) -> str:
        """The word at a place, if it is of the clause of the word before it; empty for none."""
        return self.said[at] if at < len(self.said) and self._joined(at - 1, at) else ""

    def near(self, cue: int) -> frozenset[str]:
        """The words of a cue and of the one before it."""
        return self.beside[cue] | (self.beside[cue - 1] if cue else frozenset())

    def _joined(self, first: int, second: int) -> bool:
        return self.words[first].clause == self.words[second].clause


def words_of_talk(cues: Sequence[Cue]) -> list[Word]:
    """All words in their order; a caption may break a sentence."""
    words, sentence, clause = [], 0, 0
    for number, cue in enumerate(cues):
        for mark in re.split(r"([.!?,;:]+(?=\s|$)|\s[-\u2013\u2014]+\s)", cue.words):
            if not words_of(mark):
                clause += 1
                sentence += mark[:1] in {".", "!", "?"}
            words += [Word(number, sentence, clause, word, plain(word)) for word in words_of(mark)]
    return words
