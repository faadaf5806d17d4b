"""Colours of the theme against published contrast and safety colours."""

import re
from pathlib import Path

import pytest

from guidegen.render.booklets.booklet import STYLES
from guidegen.render.site.frame import STYLE_SHEETS

THEME = Path(__file__).parents[2] / "themes" / "workshop"

SAFETY = {"danger": "#9b2423", "warning": "#d05d29", "caution": "#f9a800", "notice": "#005387"}
"""Screen values of RAL 3001, 2010, 1003 and 5005, the safety colours that ISO 3864-4 names.
Wikipedia, "ISO 3864", table of colours; the standard itself was not read."""


def tokens():
    """Colours of the light and of the dark theme, by name."""
    text = (THEME / "tokens.css").read_text(encoding="utf-8")
    light, dark = text.split("prefers-color-scheme: dark")
    found = [dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6})", part)) for part in (light, dark)]
    return found[0], found[0] | found[1]


def luminance(colour):
    """Relative luminance of sRGB as WCAG 2.2 defines it."""
    values = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in values]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    """Contrast ratio as WCAG 2.2 defines it."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_formula():
    """The formula gives the ratios of known pairs (WebAIM contrast checker: #767676 on white)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("number", [0, 1], ids=["light", "dark"])
def test_letters_have_contrast(number):
    """Letters reach 4.5 : 1 on every ground that they stand on (WCAG 2.2, 1.4.3)."""
    colours = tokens()[number]
    for letters in ("ink", "soft", "accent"):
        for ground in ("paper", "desk", "accent-soft"):
            assert contrast(colours[letters], colours[ground]) >= 4.5, (letters, ground)


@pytest.mark.parametrize("number", [0, 1], ids=["light", "dark"])
def test_drawings_have_contrast(number):
    """Lines and labels of drawings reach 4.5 : 1 on every face that they may cross."""
    colours = tokens()[number]
    for face in (f"foam-{n}" for n in range(1, 7)):
        assert contrast(colours["ink"], colours[face]) >= 4.5, face


def test_signal_words_have_contrast():
    """Signal words reach 4.5 : 1 on their panels: white on red and blue, black on the others."""
    colours = tokens()[0]
    for panel in ("danger", "notice"):
        assert contrast(colours[panel], colours["on-dark"]) >= 4.5
    for panel in ("warning", "caution"):
        assert contrast(colours[panel], colours["on-light"]) >= 4.5


def test_safety_colours_are_those_of_the_standard():
    """Panels have the safety colours, in both themes alike."""
    for colours in tokens():
        assert {name: colours[name] for name in SAFETY} == SAFETY


def test_safety_colours_are_kept_for_safety_messages():
    """Only rules for signal words use a safety colour."""
    uses = rf"var\(--(?:{'|'.join(SAFETY)})\)|{'|'.join(SAFETY.values())}"
    for name in (*(name for name in STYLE_SHEETS if name != "tokens.css"), *STYLES):
        text = (THEME / name).read_text(encoding="utf-8")
        for selector, rules in re.findall(r"([^{}]+)\{([^{}]*)\}", text):
            if re.search(uses, rules):
                known = r"\.(?:line-caution|danger|warning|caution|notice|signal)\b"
                assert re.match(known, selector.strip()), selector
