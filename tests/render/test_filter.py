"""The filter of the home page: what can be looked for, and what is found."""

import html
import json
import re
import shutil
import subprocess

import pytest
from render.page_samples import THEME_FOLDER, sample, theme

from guidegen.render.site import render_home

NODE = shutil.which("node")


def home(copies):
    """The home page with the sample guide on it so many times."""
    content, plan, pictures = sample()
    return render_home(content, [plan] * copies, {"cuff": pictures}, theme())["index.html"].decode()


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
def test_every_word_must_be_held(asked, found):
    """Case, order and marks on letters do not matter; each word that is typed must be there."""
    if NODE is None:
        pytest.skip("needs node")
    program = (
        "const filter = require(process.argv[1]);"
        "console.log(JSON.stringify(filter.holds(process.argv[2], process.argv[3])));"
    )
    text = "Belt, in German Gürtel, of foam"
    command = [NODE, "-e", program, str(THEME_FOLDER / "filter.js"), text, asked]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=30)
    assert json.loads(done.stdout) is found
