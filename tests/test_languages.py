"""Pages and documents in other languages: nothing stays English unsaid, and right to left holds."""

import re
from collections.abc import Iterator
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from catalogue_texts import LANGUAGES, missing, read, source_texts
from language_samples import LETTERS, THEME, made_up, make, read_sample

from guidegen.buildfile.read.translated import translated
from guidegen.buildfile.translate.translation import Translation
from guidegen.buildfile.yaml.tree import Source
from guidegen.render.site.frame import STYLE_SHEETS
from guidegen.shipped import SHIPPED
from guidegen.words import holes, read_words

SEEN = ("alt", "aria-label", "title", "placeholder", "data-label", "content")
"""Attributes whose words readers see or hear."""

NAMES = " ".join(f"{one.name} {one.licence} {one.holder} {one.source}" for one in SHIPPED)
ALLOWED = {"guidegen", "fit", "cuff", "Tester", *re.findall("[A-Za-z]{3,}", NAMES)}
"""A command with the guide's name in it, the author's, and what works of others are called."""


class _Texts(HTMLParser):
    """Texts that readers see or hear, drawings included."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element begins."""
        values = dict(attrs)
        self._silent += tag in {"style", "script"}
        technical = tag == "meta" and values.get("name") not in {"description"}
        if not technical:
            self.found += [value for name, value in attrs if name in SEEN and value]

    def handle_endtag(self, tag: str) -> None:
        """An element ends."""
        self._silent -= tag in {"style", "script"}

    def handle_data(self, data: str) -> None:
        """Words."""
        if not self._silent:
            self.found.append(data)


def plain_english(page: str) -> Iterator[str]:
    """Words of three letters and more that came from no catalogue and no author."""
    reader = _Texts()
    reader.feed(page)
    for text in reader.found:
        for word in re.findall(r"[A-Za-z]{3,}", text):
            if word not in ALLOWED:
                yield f"{word}: {' '.join(text.split())[:80]}"


def test_no_text_goes_past_the_catalogue():
    """In a made-up language every word on a page, in a drawing or for a screen reader is made up."""
    past = {name: sorted(set(plain_english(page))) for name, page in made_up().pages.items()}
    assert len(past) > 10
    assert {name: words for name, words in past.items() if words} == {}


def test_pages_run_in_the_direction_of_their_language():
    """A Hebrew page says so, and its style sheet names no left and no right of the text."""
    page = made_up().pages["cuff/index.html"]
    assert '<html lang="he" dir="rtl">' in page
    css = "\n".join((THEME / name).read_text(encoding="utf-8") for name in STYLE_SHEETS)
    physical = r"(?:margin|padding|border)-(?:left|right)|(?:text-align|float): (?:left|right)"
    assert re.findall(physical, css) == []


def test_drawings_are_laid_out_from_the_left():
    """Words of a drawing begin where it was drawn, on a page that runs from the right as well."""
    drawings = re.findall(r"<svg [^>]*role=\"img\"[^>]*>", made_up().pages["cuff/steps.html"])
    assert drawings
    assert all('direction="ltr"' in head for head in drawings)


@pytest.fixture(scope="module")
def half_german():
    """The tiny guide in German, with two texts translated and the rest missing."""
    content = read_sample("en, de")
    (file,) = content.guides
    source = Source("guide.de.yaml", ())
    texts = {("title",): "Probestulpe", ("parts", "plate", "name"): "Platte"}
    nothing = Translation("de", source)
    content = replace(
        content,
        site=content.site.model_copy(update={"address": "https://loft.example/"}),
        guides=(replace(file, translations={"de": Translation("de", source, texts)}),),
        shared_translations={"de": (nothing, nothing)},
        languages={"en": frozenset({"cuff"}), "de": frozenset({"cuff"})},
    )
    return make(translated(content, read_words("de")))


class _Gaps(HTMLParser):
    """Each text of a page with the language that its elements give it."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.texts: list[tuple[str, str]] = []
        self._languages = [""]
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element begins."""
        if tag not in {"br", "hr", "img", "meta", "link", "input", "source", "col"}:
            self._languages.append(dict(attrs).get("lang") or self._languages[-1])
            self._silent += tag in {"title", "script", "style", "svg", "h1", "desc"}

    def handle_endtag(self, tag: str) -> None:
        """An element ends."""
        self._languages.pop()
        self._silent -= tag in {"title", "script", "style", "svg", "h1", "desc"}

    def handle_data(self, data: str) -> None:
        """Words."""
        if data.strip() and not self._silent:
            self.texts.append((" ".join(data.split()), self._languages[-1]))


def test_gaps_are_shown_in_the_original_and_marked(half_german):
    """A text without a translation tells its language and is marked; the page says why."""
    page = half_german.pages["cuff/steps.html"]
    reader = _Gaps()
    reader.feed(page)
    languages = dict(reader.texts)
    for text in ("Cut along the lines.", "Bend the cuff", "Sharp blade", "Craft knife"):
        assert languages[text] == "en", text
    assert languages["Schritte"] == "de"
    assert 'class="gap" lang="en" data-lang="en"' in page
    assert "Was fehlt, steht in der Sprache Englisch" in page


def test_pages_lead_to_the_same_page_in_other_languages(half_german):
    """A switch on each page leads to the same page; alternates have full addresses."""
    page = half_german.pages["cuff/M/index.html"]
    assert 'href="../../../cuff/M/index.html" lang="en" hreflang="en" dir="ltr">English</a>' in page
    assert '<link rel="alternate" hreflang="en" href="https://loft.example/cuff/M/">' in page
    assert '<link rel="alternate" hreflang="de" href="https://loft.example/de/cuff/M/">' in page
    assert '<link rel="canonical" href="https://loft.example/de/cuff/M/">' in page
    home = half_german.pages["index.html"]
    assert 'href="../index.html" lang="en"' in home


def test_figures_are_german(half_german):
    """Decimal commas, prices and plurals are those of the language."""
    page = half_german.pages["cuff/M/index.html"].replace("\u00a0", " ")
    assert re.search(r"\d,\d+ m²", page)
    assert re.search(r"\d €", page)
    assert "4 Teile" in half_german.pages["cuff/index.html"].replace("\u00a0", " ")


@pytest.mark.parametrize("language", sorted(path.stem for path in LANGUAGES.glob("*.po")))
def test_catalogues_are_complete(language):
    """Each text of templates and sources is translated, with its holes and all its plurals.

    After a change of texts: ./start python tests/catalogue_texts.py
    """
    catalogue, wanted = read(language), source_texts()
    assert missing(catalogue) == []

    def keys(texts):
        return {(m.context, m.id if isinstance(m.id, str) else m.id[0]) for m in texts if m.id}

    assert keys(wanted) - keys(catalogue) == set()
    assert keys(catalogue) - keys(wanted) == set()
    for message in catalogue:
        if message.id:
            forms = [message.id] if isinstance(message.id, str) else list(message.id)
            said = [message.string] if isinstance(message.string, str) else list(message.string)
            allowed = {tuple(holes(form)) for form in forms}
            assert all(tuple(holes(form)) in allowed for form in said), message.id
            assert len(said) == (1 if isinstance(message.id, str) else catalogue.num_plurals)


def test_the_made_up_language_says_what_authors_say():
    """What stands for an author's text reaches the page, so that the test above tests something."""
    assert LETTERS in made_up().pages["cuff/steps.html"]
