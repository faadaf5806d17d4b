"""Captions in WebVTT (W3C Candidate Recommendation, 2019) or SubRip in → cues with their times.

Captions come from strangers: sizes and counts are bounded, tags and control codes taken away.
"""

import html
import re
import unicodedata
from dataclasses import dataclass

from guidegen.errors import UsageError

MAX_BYTES = 2_000_000
"""Bytes of one file. Our choice: a talk of ten hours has about half a million."""
MAX_CUES = 6_000
"""Cues of one talk. Our choice: one every two seconds for three hours."""
MAX_WORDS = 1_000
"""Letters of one cue. Our choice: two lines on a screen have about 80."""

_TIME = r"(?:(\d{1,3}):)?([0-5]?\d):([0-5]?\d)[.,](\d{1,3})"
_TIMING = re.compile(rf"^\s*{_TIME}\s*-->\s*{_TIME}(?:\s.*)?$")
_TAG = re.compile(r"<[^<>]{0,200}>")
_STYLING = re.compile(r"\{\\[^{}]{0,60}\}")
_BLOCKS = ("NOTE", "STYLE", "REGION")
"""Words that begin what is no cue in WebVTT."""


@dataclass(frozen=True, slots=True)
class Cue:
    """What is said from one time to another."""

    start: float
    """Seconds from the beginning of the talk."""
    end: float
    words: str


def read_cues(text: str) -> tuple[Cue, ...]:
    """The cues of a talk in their order. Raises UsageError for what is no captions, or too many."""
    if len(text.encode("utf-8", "surrogatepass")) > MAX_BYTES:
        raise UsageError(f"the captions are larger than {MAX_BYTES / 1e6:g} MB")
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    cues: list[Cue] = []
    at = 0
    while at < len(lines):
        timing = _TIMING.match(lines[at])
        if timing is None:
            at = _after_block(lines, at)
            continue
        at += 1
        said = []
        # A cue ends at an empty line; one that a timing follows at once has lost it.
        while at < len(lines) and lines[at].strip() and not _TIMING.match(lines[at]):
            said.append(lines[at])
            at += 1
        if said and at < len(lines) and _TIMING.match(lines[at]) and said[-1].strip().isdigit():
            said.pop()
        words = _plain(" ".join(said))
        if words:
            cues.append(Cue(_seconds(timing.groups()[:4]), _seconds(timing.groups()[4:]), words))
        if len(cues) > MAX_CUES:
            raise UsageError(f"the talk has more than {MAX_CUES} cues; divide it")
    if not cues:
        raise UsageError(
            "no captions in it: expected WebVTT or SubRip, with times such as "
            "00:00:01.000 --> 00:00:04.000"
        )
    return tuple(cues)


def _after_block(lines: list[str], at: int) -> int:
    """The line after one that is no timing; after a whole note or style sheet."""
    if not lines[at].startswith(_BLOCKS):
        return at + 1
    while at < len(lines) and lines[at].strip():
        at += 1
    return at + 1


def _seconds(parts: tuple[str | None, ...]) -> float:
    hours, minutes, seconds, fraction = (part or "0" for part in parts)
    return int(hours) * 3600 + int(minutes) * 60 + int(seconds) + int(fraction.ljust(3, "0")) / 1000


def _plain(text: str) -> str:
    """Words without tags, entities, control codes and marks of direction."""
    text = html.unescape(_STYLING.sub("", _TAG.sub("", text)))
    kept = "".join(
        mark if unicodedata.category(mark)[0] != "C" else " "
        for mark in unicodedata.normalize("NFC", text)
    )
    return " ".join(kept.split())[:MAX_WORDS]


def clock(seconds: float) -> str:
    """Minutes and seconds as build files write them: 3:20, 1:02:05."""
    whole = int(seconds)
    hours, minutes, rest = whole // 3600, whole // 60 % 60, whole % 60
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"
