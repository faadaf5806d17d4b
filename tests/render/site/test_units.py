"""Units of lengths on pages: values beside words, and the script's words those of the program."""

import random
import re

import pytest
from markupsafe import escape
from render.page_samples import downloads, sample, theme

from guidegen.quantities import length_words
from guidegen.render.site.pages import render_guide
from guidegen.units import inch_text
from guidegen.words import ENGLISH, read_words


def test_lengths_on_pages_carry_their_value():
    """By itself a length is an element with its mm; within other words it is plain text."""
    assert (
        escape(length_words(34.25, ENGLISH))
        == '<span class="length" data-mm="34.25">34.2\u00a0mm</span>'
    )
    assert f"{length_words(340, ENGLISH)} long" == "340\u00a0mm long"


def test_both_units_stand_on_the_page():
    """Without a script, lengths are in mm with inches beside them."""
    content, plan, pictures = sample()
    page = render_guide(content, plan, pictures, theme(), downloads())["cuff/index.html"].decode()
    found = re.findall(r'data-mm="([0-9.]+)">([^<]+)</span><span class="inches">([^<]+)<', page)
    assert ("160", "160\u00a0mm", "6 5/16\u00a0in") in found


def test_script_says_inches_as_the_program_does(ask_script):
    """Inches with fractions are the same for thousands of lengths, halves of a sixteenth too."""
    chance = random.Random(7)
    lengths = [round(chance.uniform(0, 3000), 2) for _ in range(3000)]
    lengths += [n * 25.4 / 32 for n in range(200)] + [0, 25.4, 82.55, -25.4, -3]
    assert ask_script("units.js", "script.inchText(item)", lengths) == [
        inch_text(length) for length in lengths
    ]


@pytest.mark.parametrize("language", ["en", "de"])
def test_script_says_millimetres_as_the_program_does(ask_script, language):
    """Decimal signs and digits of mm are those of the page's language (CLDR)."""
    words = read_words(language)
    lengths = [0.5, 3, 12.5, 99.9, 340, 1234.5, 2500]
    found = ask_script("units.js", f"script.lengthText(item, 'mm', '{language}')", lengths)
    assert found == [length_words(length, words) for length in lengths]


@pytest.mark.parametrize(
    ("mm", "how", "words"),
    [
        (20, {}, "13/16\u00a0in"),
        (20, {"inch": "Zoll"}, "13/16\u00a0Zoll"),
        (5, {"bare": True}, "3/16"),
        (340, {"drawn": True}, "13 3/8\u2033"),
        (1, {}, "3/64\u00a0in"),
        (0.1, {}, ""),
        (0, {}, "0\u00a0in"),
    ],
)
def test_inches(ask_script, mm, how, words):
    """With a name, bare in a range, short in a drawing; finer where a sixteenth is too coarse."""
    assert ask_script(
        "units.js", "script.lengthText(item[0], 'in', 'en', item[1])", [[mm, how]]
    ) == [words]


def test_numbers_in_drawings(ask_script):
    """A number alone is mm; centimetres say so."""
    found = ask_script(
        "units.js", "script.lengthText(340, item, 'en', {drawn: true})", ["mm", "cm"]
    )
    assert found == ["340", "34\u00a0cm"]


def test_names_of_drawings_say_other_lengths(ask_script):
    """Lengths in a name are replaced at their places, counted in characters."""
    item = ["\U0001f4d0 6 mm, 20 mm", [[2, 6, "1/4 in"], [8, 13, "13/16 in"]]]
    found = ask_script("units.js", "script.replaced(...item)", [item])
    assert found == ["\U0001f4d0 1/4 in, 13/16 in"]


@pytest.mark.parametrize(
    ("mm", "language", "words"),
    [(340, "en", "34\u00a0cm"), (12.5, "en", "1.25\u00a0cm"), (345, "de", "34,5\u00a0cm")],
)
def test_centimetres(ask_script, mm, language, words):
    """A centimetre is ten millimetres; what was told to a tenth of a mm stays so."""
    found = ask_script("units.js", f"script.lengthText(item, 'cm', '{language}')", [mm])
    assert found == [words]
