"""The work view of the steps: what the page hands to its script, and what the script reckons."""

import html
import json
import re

import pytest
from render.page_samples import downloads, sample, theme

from guidegen.render.site.pages import render_guide


def test_steps_hand_their_waits_to_the_timers():
    """The page holds the minutes of each wait, and the view's controls hidden until it can work."""
    content, plan, pictures = sample()
    page = render_guide(content, plan, pictures, theme(), downloads())["cuff/steps.html"].decode()
    waits = re.search(r'data-keep="cuff" data-waits="([^"]*)"', page)
    assert json.loads(html.unescape(waits[1])) == {"glue": 10}
    assert re.search(r'<p class="work-start" hidden>', page)
    assert re.search(r'<div class="work-bar" [^>]*hidden>', page)
    assert re.findall(r'data-work="(\w+)"', page) == ["back", "next", "close"]
    # Every step with a wait has the line after which its timer stands.
    assert page.count('class="wait-line"') == 1


@pytest.mark.parametrize(
    ("ms", "words"),
    [(0, "0:00"), (-5, "0:00"), (1, "0:01"), (249_000, "4:09"), (3_900_000, "1:05:00")],
)
def test_clock_shows_zero_only_when_the_time_is_up(ask_script, ms, words):
    """Time left is rounded up to seconds."""
    assert ask_script("work.js", "script.clockWords(item)", [ms]) == [words]


@pytest.mark.parametrize(
    ("right", "down", "turn"),
    [(-120, 10, 1), (120, -10, -1), (-40, 0, 0), (-120, 90, 0), (0, 300, 0)],
)
def test_only_level_swipes_turn_the_steps(ask_script, right, down, turn):
    """A swipe to the left goes on, to the right back; a scroll or a tap does neither."""
    found = ask_script("work.js", "script.swipeTurn(item[0], item[1])", [[right, down]])
    assert found == [turn]
