"""Letters that paper shows, and those that are told because it cannot."""

import pytest
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.checks.texts.letters import PRINTED, unprinted
from guidegen.problems import Severity
from guidegen.render.fonts.fallback_fonts import own_letters, spare_letters


def test_every_letter_that_counts_as_printed_has_a_glyph():
    """Both families, with the one that stands in for them, have each letter of the table."""
    for family in ("Barlow Condensed", "Atkinson Hyperlegible"):
        fonts = own_letters(family) | spare_letters()
        missing = [
            hex(code)
            for first, last in PRINTED
            for code in range(first, last + 1)
            if code not in fonts
        ]
        assert missing == [], family


@pytest.mark.parametrize(
    "words", ["Ψαλίδι, προσοχή", "Клей, щётка", "Żółć çğş ő", "½ in ≤ 3 °C", "two\nlines\ttab"]
)
def test_words_that_can_be_printed_are_left_alone(words):
    """Greek, Cyrillic, all of Latin and the signs of the trade."""
    assert unprinted(words) == ()


def test_letters_without_a_font_are_told_with_their_place(tmp_path):
    """Advice at the text, naming the letters; others are counted."""
    guide = changed(GUIDE, "licence: CC BY 4.0", 'licence: CC BY 4.0\ncredits: ["鎧 שלום"]')
    content = read_content(write_content(tmp_path, guide=guide))
    (found,) = [p for p in run_checks(content) if p.code == "letters-without-font"]
    assert found.severity is Severity.ADVICE
    assert "cjk unified ideograph-93a7" in found.message
    assert "and 2 more" in found.message
    assert found.path == "credits[0]"
