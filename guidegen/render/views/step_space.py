"""A step's words and drawing in → where on paper its list of things at hand takes least height.

Lengths in mm, as our theme sets them (booklet-steps.css). They are measured, not promised: they
only choose between places that all hold the list, so that any other theme still shows everything.
"""

import re
from collections.abc import Sequence
from enum import StrEnum
from math import ceil


class HandPlace(StrEnum):
    """Where the list of a step's things at hand stands in a booklet."""

    NONE = "none"
    """There is nothing at hand."""
    PICTURE = "picture"
    """Under the drawing."""
    WORDS = "words"
    """Under the words beside the drawing."""
    SIDE = "side"
    """In a margin column of its own, where there is no drawing."""
    BELOW = "below"
    """Across the page in a few lines, under all else."""


PICTURE, BESIDE_PICTURE, BESIDE_LIST, LIST = 78.0, 94.0, 125.0, 47.0
"""Widths of a drawing, of the words beside it and beside a list alone, and of that list."""
ACROSS = 178.0
"""Width of a list across the page."""
TERM = 15.0
"""What the head of each entry takes of it."""
WORDS_A_MM, LIST_A_MM = 0.64, 0.66
"""Letters on a mm of the action, and of the list."""
WORDS_LINE, LIST_LINE = 4.3, 3.9
"""Height of their lines."""
PAGE_OF_LINK = re.compile(r'<span class="on-page"[^>]*>')
END_OF_BLOCK = re.compile(r"</(?:p|li|h[1-6]|tr)>")
TAG = re.compile(r"<[^>]*>")
GAPS = 4.0
"""Between paragraphs of an action, about."""
LONG = 40.0
"""Height of words from which a step may go on over the page: a shorter one is turned over whole."""
RIM = 3.0
"""Above and below a list across the page."""


def hand_place(
    words: Sequence[str], listed: Sequence[Sequence[str]], drawing: float | None
) -> HandPlace:
    """The place of the list where the step is lowest; of equals the one that leads the action.

    `words` are the paragraphs of the action with all that stands below them; `listed` has for each
    entry of the list its items; `drawing` is height over width of the step's
    picture, None without one.
    """
    if not listed:
        return HandPlace.NONE
    # One behind the other, each behind its name.
    named = [item for items in listed for item in ("name of it", *items)]
    below = _rows(named, ACROSS * LIST_A_MM) * LIST_LINE + RIM
    if drawing is None:
        beside, across = _height(words, BESIDE_LIST), _listed(listed, LIST)
        heights = {HandPlace.SIDE: max(beside, across), HandPlace.BELOW: beside + below}
        return min(heights, key=lambda place: heights[place])
    action, picture = _height(words, BESIDE_PICTURE), PICTURE * drawing
    heights = {
        HandPlace.PICTURE: max(action, picture + _listed(listed, PICTURE)),
        HandPlace.WORDS: max(action + _listed(listed, BESIDE_PICTURE), picture),
        HandPlace.BELOW: max(action, picture) + below,
    }
    return min(heights, key=lambda place: heights[place])


def may_run_on(words: Sequence[str], place: HandPlace) -> bool:
    """Whether a step may go on over the page: its list stands before its action, which is long."""
    before = place in {HandPlace.NONE, HandPlace.PICTURE, HandPlace.SIDE}
    return before and _height(words, BESIDE_PICTURE) >= LONG


def plain_letters(html: str) -> str:
    """The words of a text, a line for each paragraph; on paper a link says its page."""
    blocks = END_OF_BLOCK.sub("\0", PAGE_OF_LINK.sub(" (page 00)", html)).split("\0")
    return "\n".join(" ".join(TAG.sub("", block).split()) for block in blocks)


def _height(words: Sequence[str], width: float) -> float:
    letters = width * WORDS_A_MM
    lines = sum(ceil(len(row) / letters) for text in words for row in text.split("\n") if row)
    return lines * WORDS_LINE + GAPS


def _listed(listed: Sequence[Sequence[str]], width: float) -> float:
    return sum(_rows(items, (width - TERM) * LIST_A_MM) for items in listed) * LIST_LINE + 2


def _rows(items: Sequence[str], letters: float) -> int:
    """Lines of so many letters that items take, one behind the other."""
    return ceil(sum(len(item) + 2 for item in items) / letters)
