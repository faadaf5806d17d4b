"""The filter of the home page: what can be looked for, and what is found."""

import html
import re

import pytest
from render.page_samples import home_files, sample, theme


def home(copies):
    """The home page with the sample guide on it so many times."""
    content, plan, pictures = sample()
    return home_files(content, [plan] * copies, pictures, theme())["index.html"].decode()


def test_cards_hold_the_words_that_readers_look_for():
    """Title, summary, level, parts, materials and sizes of a guide can be found."""
    words = html.unescape(re.search(r'data-words="([^"]*)"', home(1))[1])
    for part in ("Mooring cuff & strap", "<small> wrist", "Badge", "Contact cement", "S", "M"):
        assert part in words


def test_filter_stands_where_there_is_a_choice():
    """One guide needs no filter; with more there is one, hidden until the script can work."""
    assert 'class="filter"' not in home(1)
    assert re.search(r'<form class="filter" [^>]*hidden>', home(2))


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("", True), ("belt", True), ("BELT foam", True), ("gurtel", True), ("Gürtel", True),
        ("foam lamp", False), (" belt ", True), (".*", False),
    ],
)  # fmt: skip
def test_every_word_must_be_held(ask_script, asked, found):
    """Case, order and marks on letters do not matter; each word that is typed must be there."""
    text = "Belt, in German Gürtel, of foam"
    (answer,) = ask_script("filter.js", "script.holds(item[0], item[1])", [[text, asked]])
    assert answer is found
