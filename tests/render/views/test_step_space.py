"""Where a step's list of things at hand stands on paper."""

from itertools import product

import pytest

from guidegen.render.views.step_space import HandPlace, hand_place, may_run_on, plain_letters

SHORT, LONG = ["Cut along the line."], ["Brush the cement on both faces. " * 30]
FEW, MANY = [["knife", "mat"]], [["a tool with a long name, and what else it takes"] * 6] * 3


@pytest.mark.parametrize(
    ("words", "listed", "drawing", "place"),
    [
        (SHORT, [], 0.8, HandPlace.NONE),
        (SHORT, FEW, 1.2, HandPlace.WORDS),  # the drawing is the longer one
        (LONG, FEW, 0.3, HandPlace.PICTURE),  # the words are
        (SHORT, FEW, None, HandPlace.SIDE),
        (SHORT, MANY, None, HandPlace.BELOW),  # a margin column would be taller than the action
    ],
)
def test_the_list_stands_where_there_is_room(words, listed, drawing, place):
    """Under whichever column ends first; across the page where neither leaves room."""
    assert hand_place(words, listed, drawing) is place


def test_every_list_has_a_place():
    """Nothing at hand is left out, whatever a step says and shows."""
    for words, listed, drawing in product((SHORT, LONG, []), (FEW, MANY), (None, 0.2, 1.0, 3.0)):
        assert hand_place(words, listed, drawing) is not HandPlace.NONE


def test_words_are_as_long_as_they_are_on_paper():
    """Tags take no room, a line of the source is no line of the page, a link says its page."""
    html = (
        '<ol>\n<li>Cut the\n<a href="#a">cuff</a><span class="on-page" style="--to: \'#a\'"></span>.'
        "</li>\n<li>Wait.</li>\n</ol>"
    )
    assert plain_letters(html).split("\n")[:2] == ["Cut the cuff (page 00).", "Wait."]


@pytest.mark.parametrize(
    ("words", "place", "long"),
    [
        (LONG, HandPlace.PICTURE, True),
        (LONG, HandPlace.SIDE, True),
        (LONG, HandPlace.BELOW, False),  # what lies at hand would go over with the end of the words
        (LONG, HandPlace.WORDS, False),
        (SHORT, HandPlace.PICTURE, False),
    ],
)
def test_only_a_long_step_with_its_list_at_its_head_goes_over_the_page(words, place, long):
    """A step is never torn from its list."""
    assert may_run_on(words, place) is long
