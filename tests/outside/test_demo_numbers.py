"""Numbers in the sentences of the demo: living ones, or on this list, each with why it is always true.

A new length, angle or share that somebody types fails here, until it is made a living number or is
entered below with its reason.
"""

import re
from pathlib import Path

import pytest
from demo_content import read_demo

from guidegen.buildfile.living.holes import find_holes
from guidegen.buildfile.living.texts import living_texts
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.walk import wordings

CONTENT = Path(__file__).parent.parent.parent / "content"
NUMBER = re.compile(
    r"(?<![\w.,/{-])\d+(?:[.,/]\d+)?(?:\s?(?:to|or|and|bis|,)\s\d+(?:[.,]\d+)?)*[\s\u00a0]?"
    r"(?:mm|cm|in|inch|inches|°C|degrees|°|%)(?![\w²])"
)
"""A typed length, angle, temperature or share."""

ALWAYS = {
    "50 mm": "the test square, and a buckle that is called so",
    "2 inches": "the other test square",
    "47 or 48 mm": "what a printer makes of the test square",
    "100 %": "actual size",
    "6 mm": "the name of a foam, and the least by which a pane covers its window",
    "5 mm": "the name of a foam that one may take instead",
    "10 mm": "the name of a foam, or a slip of the tape, or what nobody sees of a strip",
    "2 mm": "the name of a foam, or what a knife and an eye do not see",
    "3 mm": "2 pi times half the difference of two foams",
    "1 mm": "what a knife takes off",
    "6 to 8 mm": "8 mm as drawn, and what scissors take",
    "15 mm": "how far a template may be corrected by hand; common practice, no source",
    "200 mm": "the distance of hot air; common practice, no source",
    "200 to 250 mm": "the distance of a spray can; common practice, no source",
    "80 mm": "what is left of a strap behind its slider, the author's choice in all sizes",
    "40 mm": "what is left of an elastic behind its stitches, the author's choice in all sizes",
    "70 °C": "where cement softens; from memory",
}
"""Typed numbers of the guides, and why they hold in every size."""


@pytest.fixture(scope="module")
def content() -> Content:
    """The demo."""
    return read_demo()


def bare(text: str) -> list[str]:
    """Typed numbers of a text, living ones left out."""
    for hole in find_holes(text):
        text = text[: hole.start] + "{" * (hole.end - hole.start) + text[hole.end :]
    return [match[0].replace("\u00a0", " ") for match in NUMBER.finditer(text)]


@pytest.mark.parametrize("guide", ["mooring-bracer", "quay-lamp", "slipway-marshal", "tide-herald"])
def test_every_number_of_every_sentence_lives_or_is_always_true(content, guide):
    """No typed length, angle or share stands in a text that could hold a living one."""
    (file,) = [file for file in content.guides if file.id == guide]
    typed = {
        number: ".".join(map(str, trail))
        for trail, text in living_texts(file.guide)
        for number in bare(text)
    }
    assert {number: place for number, place in typed.items() if number not in ALWAYS} == {}


def test_the_list_holds_nothing_that_no_sentence_says(content):
    """Every entry is still there: a number that went living leaves the list."""
    said = {
        number
        for file in content.guides
        for trail, text in living_texts(file.guide)
        for number in bare(text)
    }
    assert sorted(ALWAYS.keys() - said) == []


def test_numbers_are_found():
    """What the search for typed numbers sees, and what it leaves alone."""
    assert bare("Leave 20 to 40 mm, {gap}, at 45 degrees.") == ["20 to 40 mm", "45 degrees"]
    assert bare("Rub with 120 grit, {width(a) - 3 mm : to 5 mm} wide, 3 times.") == []


STOCK_ALWAYS = {
    "50 mm": "the test square",
    "10 mm": "the name of a foam",
    "100 to 200 mm": "the distance of hot air; common practice, no source",
    "200 to 250 mm": "the distance of a spray can; common practice, no source",
    "50 °C": "what labels of spray cans say (Directive 75/324/EEC), from memory",
    "350 °C": "a soldering iron at work; common practice, no source",
    "4 mm": "stitches that are gathered; common practice, no source",
    "2.5 to 3 mm": "stitches of a machine; common practice, no source",
    "200 °C": "the sole of an iron; common practice, no source",
    "30 mm": "fingers and a machine's needle; common practice, no source",
}
"""Typed numbers of techniques, cautions and words of the stock that comes with guidegen, on which the
demo's lies: all guides and sizes share them."""


def test_numbers_of_techniques_and_cautions_hold_for_every_guide(content):
    """What all guides share names no length of one piece in one size."""
    shared = ("processes", "cautions", "terms", "order", "musts")
    typed = {
        number: ".".join(map(str, leaf.trail))
        for leaf, _ in wordings(content.stock)
        if leaf.trail[0] in shared
        for number in bare(leaf.text)
    }
    assert {number: place for number, place in typed.items() if number not in STOCK_ALWAYS} == {}
    assert typed.keys() == STOCK_ALWAYS.keys()
