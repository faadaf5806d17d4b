"""Words, numbers and dates of languages, against CLDR and the rules of gettext."""

import pickle
from datetime import date

import pytest
from babel import Locale
from babel.dates import format_date
from babel.lists import format_list
from babel.numbers import format_currency, format_decimal, format_percent

from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.words import (
    ENGLISH,
    Words,
    alphabetical,
    known_language,
    parse_catalogue,
    read_words,
)

CATALOGUE = b"""
msgid ""
msgstr ""
"Content-Type: text/plain; charset=utf-8\\n"
"Plural-Forms: nplurals=3; plural=(n==1 ? 0 : n<5 ? 1 : 2);\\n"

msgid "Cut {what} now"
msgstr "Jetzt {what} & mehr schneiden"

msgctxt "noun"
msgid "Work"
msgstr "Arbeit"

msgid "{n} sheet"
msgid_plural "{n} sheets"
msgstr[0] "{n} eins"
msgstr[1] "{n} wenige"
msgstr[2] "{n} viele"

#, fuzzy
msgid "Guessed"
msgstr "Geraten"
"""


def made(text: str, words: Words) -> str:
    """What a template gives in a language."""
    return Engine(Theme("test", {"page.j2": text.encode()}), words).render(
        "page.j2", thing="<b>", n=3
    )


@pytest.fixture(scope="module")
def words():
    """Words of a small catalogue with three forms of the plural."""
    return Words("de", *parse_catalogue(CATALOGUE))


@pytest.mark.parametrize("language", ["en", "en-GB", "de", "de-AT", "fr", "he", "ar", "pl"])
def test_numbers_money_dates_and_lists_are_those_of_cldr(language):
    """Each language writes numbers, prices, dates and lists as CLDR says (through Babel)."""
    locale, words = Locale.parse(language, sep="-"), Words(language)
    if locale.default_numbering_system == "latn":
        for value in (0.5, 12.25, 340.0):
            assert words.number(value, 2) == format_decimal(value, "0.##", locale)
    assert words.money(4.5, "EUR") == format_currency(4.5, "EUR", locale=locale)
    cents = format_currency(43, "EUR", locale=locale)
    assert words.money(43, "EUR") == cents.replace("43.00", "43").replace("43,00", "43")
    assert words.money(16.5, "EUR") == format_currency(16.5, "EUR", locale=locale)
    assert words.date("2026-11-25") == format_date(date(2026, 11, 25), "long", locale)
    assert words.percent(0.85) == format_percent(0.85, locale=locale)
    assert words.listed(["A1", "A2", "B1"]) == format_list(["A1", "A2", "B1"], locale=locale)


def test_words_are_sorted_as_in_a_dictionary():
    """Umlauts stand with their letters and ß with ss (DIN 5007-1, from memory)."""
    mixed = ["Zugabe", "Ohr", "Öffnungslinie", "Massage", "Nut", "Maß"]
    wanted = ["Maß", "Massage", "Nut", "Öffnungslinie", "Ohr", "Zugabe"]
    assert sorted(mixed, key=alphabetical) == wanted


def test_direction_and_names_are_those_of_cldr():
    """Hebrew and Arabic run from right to left; a language is named as its speakers name it."""
    assert [Words(tag).direction for tag in ("en", "de", "he", "ar")] == [
        "ltr",
        "ltr",
        "rtl",
        "rtl",
    ]
    assert [ENGLISH.name(tag) for tag in ("en", "de", "he")] == ["English", "Deutsch", "עברית"]
    assert known_language("de-AT")
    assert not known_language("zz")


@pytest.mark.parametrize(
    ("n", "text"), [(1, "1\u00a0eins"), (3, "3\u00a0wenige"), (7, "7\u00a0viele")]
)
def test_plurals_follow_the_catalogue(words, n, text):
    """The form of a number is the one that Plural-Forms of the catalogue gives."""
    assert words.many("{n} sheet", "{n} sheets", n) == text


def test_texts_are_said_filled_and_told_apart_by_context(words):
    """A text is translated before its holes are filled; a context tells two meanings apart."""
    assert words.say("Cut {what} now", what="A1") == "Jetzt A1 & mehr schneiden"
    assert words.within("noun", "Work") == "Arbeit"
    assert words.say("Work") == "Work"
    assert words.say("Guessed") == "Guessed"
    assert ENGLISH.many("{n} sheet", "{n} sheets", 1) == "1\u00a0sheet"


def test_templates_say_and_escape(words):
    """A template's texts are translated, and texts and values are escaped once."""
    assert made('{{ _("Cut {what} now", what=thing) }}', words) == (
        "Jetzt &lt;b&gt; &amp; mehr schneiden"
    )
    assert made('{{ _n("{n} sheet", "{n} sheets", n) }}', words) == "3\u00a0wenige"
    assert made('{{ _p("noun", "Work") }}', words) == "Arbeit"


def test_texts_cannot_be_padded():
    """A text of a theme or catalogue cannot blow up a value: formats in holes are not obeyed."""
    assert made('{{ _("{n:>999999999}%(n)999999d", n=1) }}', ENGLISH) == (
        "{n:&gt;999999999}%(n)999999d"
    )


def test_words_travel_between_processes(words):
    """A worker says the same."""
    assert pickle.loads(pickle.dumps(words)).say("Cut {what} now", what=1) == (  # noqa: S301 - our own record
        "Jetzt 1 & mehr schneiden"
    )


def test_a_region_reads_the_catalogue_of_its_language():
    """de-AT says what de says, with the numbers of Austria."""
    words = read_words("de-AT")
    assert words.say("Glossary") == "Glossar"
    assert words.money(43, "EUR").startswith("€")


@pytest.mark.parametrize("data", [b'msgid "a"\nnonsense\n', b'msgid "\xff"\n'])
def test_what_is_no_catalogue_is_refused(data):
    """A broken catalogue is an error in words."""
    with pytest.raises(ValueError, match=r".+"):
        parse_catalogue(data)
