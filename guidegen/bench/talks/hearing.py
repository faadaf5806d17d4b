"""Cues and the phrases of a stock in → what each cue names, as far as it is certain.

A thing is named only where one thing of the stock can be meant; what stays open is left to the
author. So little is named wrongly, and something is missed.
"""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.lexicon import Lexicon, Meant, length_at, number_at, plain, words_of

REACH = 4
"""Words before and after a phrase in which its size is looked for. Our choice."""
REFUSAL = 4
"""Words before a phrase in which a refusal counts. Our choice."""


def _words_in(text: str) -> frozenset[str]:
    return frozenset(text.split())


_REFUSALS = _words_in(
    """
    no not never without dont doesnt didnt wont wouldnt cant cannot instead skip forget
    isnt arent
    """
)
_JOINTS = _words_in(
    """
    but because and so then just
    """
)
"""Words behind which an earlier refusal does not reach."""
_GENERIC = _words_in(
    """
    glue paint sand seal drill saw file clamp pin screw iron tape mark fold cut print
    stick join
    """
)
"""Single words that are work as often as a thing."""
_POINTING = _words_in(
    """
    a an the some your my our their this that these those of more with any second thin
    new another one two three four his her good strong big small old
    """
)


@dataclass(frozen=True, slots=True)
class _Word:
    cue: int
    sentence: int
    """Counted through the talk: captions break sentences."""
    said: str
    plain: str


@dataclass(frozen=True, slots=True)
class _Mention:
    """A phrase where it was said."""

    cue: int
    candidates: frozenset[Meant]
    phrase: tuple[str, ...]
    sizes: frozenset[float]
    """mm that are said beside it."""
    bare: frozenset[float]
    """Numbers beside it without a unit."""
    refused: bool


@dataclass
class Heard:
    """What one cue names."""

    materials: list[str] = field(default_factory=list)
    tools: list[str] = field(default_factory=list)
    process: str = ""

    def add(self, named: Meant) -> None:
        """Keep what is named, once."""
        if named.kind == "process":
            self.process = self.process or named.id
            return
        kept = self.materials if named.kind == "material" else self.tools
        if named.id not in kept:
            kept.append(named.id)

    @property
    def anything(self) -> bool:
        """Whether anything was named at all."""
        return bool(self.materials or self.tools or self.process)


def hear(cues: Sequence[Cue], lexicon: Lexicon) -> list[Heard]:
    """What each cue names, in the order of the cues."""
    mentions = _mentions(_words(cues), lexicon)
    refused = {(one.cue, named) for one in mentions if one.refused for named in one.candidates}
    heard = [Heard() for _ in cues]
    certain: set[Meant] = set()
    things = [one for one in mentions if not one.refused]
    for one in things:
        sure = _sized(one, lexicon)
        if len(sure) == 1:
            certain |= sure
    for one in things:
        for kind in ("material", "tool", "process"):
            named = _decided(one, kind, certain, heard, lexicon)
            if named is not None and (one.cue, named) not in refused:
                heard[one.cue].add(named)
    return heard


def _words(cues: Sequence[Cue]) -> list[_Word]:
    words, sentence = [], 0
    for number, cue in enumerate(cues):
        for mark in re.split(r"([.!?]+(?=\s|$))", cue.words):
            if mark[:1] in {".", "!", "?"}:
                sentence += 1
            words += [_Word(number, sentence, word, plain(word)) for word in words_of(mark)]
    return words


def _mentions(words: list[_Word], lexicon: Lexicon) -> list[_Mention]:
    """All phrases for things, and all for work: "cut with scissors" holds one of each."""
    things = _phrases(words, [word.said for word in words], lexicon.things, lexicon.longest)
    work = _phrases(words, [word.plain for word in words], lexicon.work, lexicon.longest)
    return sorted([*things, *work], key=lambda one: one.cue)


def _phrases(
    words: list[_Word],
    forms: list[str],
    known: Mapping[tuple[str, ...], frozenset[Meant]],
    longest: int,
) -> Iterator[_Mention]:
    """Phrases from left to right, the longest at each place; a caption may break one in two."""
    said = [word.said for word in words]
    at = 0
    while at < len(words):
        length = next(
            (
                size
                for size in range(min(longest, len(words) - at), 0, -1)
                if tuple(forms[at : at + size]) in known
                and words[at + size - 1].cue - words[at].cue <= 1
            ),
            0,
        )
        phrase = tuple(forms[at : at + length])
        verb = length == 1 and phrase[0] in _GENERIC and (at == 0 or said[at - 1] not in _POINTING)
        if length and not (
            verb and forms[at] == said[at] and known[phrase] and _is_thing(known[phrase])
        ):
            sizes, bare = _sizes_near(words, said, at, length)
            refused = _is_refused(said, words, at)
            yield _Mention(words[at].cue, known[phrase], phrase, sizes, bare, refused)
        at += max(1, length)


def _is_thing(candidates: frozenset[Meant]) -> bool:
    return any(named.kind != "process" for named in candidates)


def _sizes_near(
    words: list[_Word], said: list[str], at: int, length: int
) -> tuple[frozenset[float], frozenset[float]]:
    """Lengths in mm that are said in the same cue close before or behind a phrase, and numbers
    without a unit."""
    cue = words[at].cue
    sizes, bare = set(), set()
    for start in range(max(0, at - REACH), min(len(words), at + length + REACH)):
        if words[start].cue != cue or at <= start < at + length:
            continue
        size = length_at(said, start)
        if size is not None:
            sizes.add(size[0])
        elif (number := number_at(said, start)) is not None:
            bare.add(number)
    return frozenset(sizes), frozenset(bare)


def _is_refused(said: list[str], words: list[_Word], at: int) -> bool:
    """Whether a refusal stands close before a phrase, in the same sentence."""
    for back in range(at - 1, max(-1, at - REFUSAL - 1), -1):
        if words[at].sentence != words[back].sentence or said[back] in _JOINTS:
            return False
        if said[back] in _REFUSALS:
            return True
    return False


def _sized(one: _Mention, lexicon: Lexicon) -> frozenset[Meant]:
    """Of what a phrase may mean, what has a size that is said beside it; nothing where a size is
    said that none of them has."""
    things = frozenset(named for named in one.candidates if named.kind != "process")
    if not any(lexicon.sizes[named] for named in things):
        return things
    if one.sizes:
        return _of_size(things, one.sizes, lexicon)
    # A number without a unit may count anything: it decides where it fits one thing alone.
    fitting = _of_size(things, one.bare, lexicon)
    return fitting if len(fitting) == 1 else things


def _of_size(
    things: frozenset[Meant], sizes: frozenset[float], lexicon: Lexicon
) -> frozenset[Meant]:
    return frozenset(
        named
        for named in things
        if any(abs(size - own) < 0.6 for size in sizes for own in lexicon.sizes[named])
    )


def _decided(
    one: _Mention, kind: str, certain: Collection[Meant], heard: Sequence[Heard], lexicon: Lexicon
) -> Meant | None:
    """What of a kind a phrase means here; None where it stays open."""
    if kind == "process":
        found = frozenset(named for named in one.candidates if named.kind == "process")
        return _work(found, one.cue, heard, lexicon)
    found = frozenset(named for named in _sized(one, lexicon) if named.kind == kind)
    if len(found) == 1:
        (named,) = found
        return named
    known = [named for named in found if named in certain]
    if len(known) == 1:
        return known[0]
    called = found & lexicon.called.get(one.phrase, frozenset())
    if len(called) == 1 and not known:
        return next(iter(called))
    # rivet-9 stands for rivet-9-15 as well: the plain one, where nobody says more.
    plainest = min(found, key=lambda named: len(named.id), default=None)
    if (
        plainest
        and not known
        and all(n.id.startswith(f"{plainest.id}-") for n in found - {plainest})
    ):
        return plainest
    if kind == "tool":
        process = next((h.process for h in reversed(heard[: one.cue + 1]) if h.process), "")
        fitting = [named for named in found if named.id in lexicon.tools.get(process, ())]
        if len(fitting) == 1:
            return fitting[0]
    return None


def _parts(named: Meant) -> set[str]:
    return {*named.id.split("-")}


def _work(
    found: Collection[Meant], cue: int, heard: Sequence[Heard], lexicon: Lexicon
) -> Meant | None:
    """The kind of work that a verb means: what it is done with decides between several."""
    if len(found) < 2:
        return next(iter(found), None)
    near = heard[max(0, cue - 8) : cue + 1]
    tools = {tool for one in near for tool in one.tools}
    materials = [Meant("material", name) for one in near for name in one.materials]
    brought = {caution for named in materials for caution in lexicon.cautions[named]}
    scores = {
        named: len(tools & lexicon.tools.get(named.id, frozenset()))
        + 2 * len(brought & lexicon.cautions[named])
        # wood-glue is for glue-wood: names of the stock share their words.
        + max((len(_parts(named) & _parts(other)) for other in materials), default=0)
        for named in found
    }
    best = max(scores.values())
    winners = [named for named, score in scores.items() if score == best]
    return winners[0] if best > 0 and len(winners) == 1 else None
