"""Units of lengths on pages: values beside words, and the script's words those of the program."""

import random
import re

import pytest
from markupsafe import escape
from render.page_samples import downloads, sample, theme

from guidegen.render.site import render_guide
from guidegen.render.views_words import length_words
from guidegen.units import inch_text
from guidegen.words import read_words


def test_lengths_on_pages_carry_their_value():
    """By itself a length is an element with its mm; within other words it is plain text."""
    assert escape(length_words(34.25)) == '<span class="length" data-mm="34.25">34.2\u00a0mm</span>'
    assert f"{length_words(340)} long" == "340\u00a0mm long"


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
    ("mm", "language", "words"),
    [(340, "en", "34\u00a0cm"), (12.5, "en", "1.25\u00a0cm"), (345, "de", "34,5\u00a0cm")],
)
def test_centimetres(ask_script, mm, language, words):
    """A centimetre is ten millimetres; what was told to a tenth of a mm stays so."""
    found = ask_script("units.js", f"script.lengthText(item, 'cm', '{language}')", [mm])
    assert found == [words]
