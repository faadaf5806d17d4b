"""Themes: a small one changes styles, a picture, a template and a text, and takes all else over."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from render.page_samples import home_files, sample

from guidegen.app.jobs.languages import all_languages
from guidegen.buildfile.read.theme import BASE_THEME, read_theme
from guidegen.render.text.templates_engine import Theme

THEMES = Path(__file__).parent.parent / "themes"
NAMES = sorted(path.name for path in THEMES.iterdir() if path.is_dir())


def home(name: str) -> dict[str, bytes]:
    """The pages of no guide in one theme, with the theme's own texts."""
    content, plan, pictures = sample()
    theme = Theme(name, read_theme(THEMES, name))
    ((_, said),) = all_languages(replace(content, languages={}), theme)
    return home_files(said, [plan], pictures, theme)


def test_small_theme_says_only_what_it_changes() -> None:
    """Harbour has a handful of files; every other one is the base theme's."""
    own = {p.relative_to(THEMES / "harbour").as_posix() for p in (THEMES / "harbour").rglob("*.*")}
    base, small = read_theme(THEMES, BASE_THEME), read_theme(THEMES, "harbour")
    assert len(own) <= 6
    assert {name for name in small if small[name] != base.get(name)} == own


def test_small_theme_overrides_style_template_text_and_picture() -> None:
    """Its rules stand last, its page replaces the base's, its words and icon are on the pages."""
    base, small = home(BASE_THEME), home("harbour")
    assert small["theme.files/site.css"].startswith(base["theme.files/site.css"][:2000])
    assert b"--accent: #8a3b12" in small["theme.files/site.css"][-1200:]
    assert b"News from the yard" in small["index.html"]
    assert b"News from the yard" not in base["index.html"]
    assert b"What changed lately" not in small["index.html"]
    assert b"It may have moved" in base["404.html"]
    assert b"It may have moved" not in small["404.html"]
    for name in ("theme.files/icon.svg", "theme.files/icon-192.png"):
        assert small[name] != base[name]
    assert small["theme.files/site.js"] == base["theme.files/site.js"]


def tokens(name: str) -> list[dict[str, str]]:
    """Colours in light and in dark: what is stated last holds."""
    css = (read_theme(THEMES, name)["tokens.css"] + read_theme(THEMES, name)["own.css"]).decode()
    dark = "".join(re.findall(r"@media \(prefers-color-scheme: dark\) \{(.*?\})\s*\}", css, re.S))
    light = re.sub(r"@media \(prefers-color-scheme: dark\) \{.*?\}\s*\}", "", css, flags=re.S)
    first = dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", light))
    return [first, first | dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", dark))]


def contrast(one: str, other: str) -> float:
    """Contrast ratio after WCAG 2.2, definitions of contrast ratio and relative luminance."""

    def light(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        red, green, blue = (
            p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts
        )
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    high, low = sorted((light(one), light(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


# WCAG 2.2, 1.4.3: black on white has the highest ratio, 21 : 1.
def test_contrast_is_reckoned_as_published() -> None:
    """Black and white have 21 : 1, a colour and itself 1 : 1."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#8a3b12", "#8a3b12") == 1


@pytest.mark.parametrize("name", NAMES)
def test_words_of_every_theme_can_be_read(name: str) -> None:
    """Text, soft text and links have at least 4.5 : 1 on paper, desk and marks (WCAG 2.2, 1.4.3)."""
    for shade in tokens(name):
        for ground in ("paper", "desk", "accent-soft"):
            assert contrast(shade["ink"], shade[ground]) >= 4.5
        for words in ("soft", "accent"):
            for ground in ("paper", "desk"):
                assert contrast(shade[words], shade[ground]) >= 4.5, (words, ground)
