"""Texts of ours and figures in → the words of one language out.

The only module that imports Babel: its catalogues (.po) hold our texts, its CLDR data the ways of
writing numbers, dates, money and lists. English is the language of the sources, so it needs no
catalogue. A record of words is handed on explicitly; nothing here remembers which one is in use.
"""

import gettext
import re
import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import Self

from babel import Locale, UnknownLocaleError
from babel.dates import format_date
from babel.lists import format_list
from babel.messages.pofile import PoFileError, read_po
from babel.numbers import format_currency, format_percent

from guidegen.marks import msg as msg  # noqa: PLC0414 - all others take it from here
from guidegen.marks import msgs as msgs  # noqa: PLC0414 - the same
from guidegen.units import mm_text

CATALOGUES = Path(__file__).parent / "languages"
"""Catalogues of the package, '<language>.po'."""

SPACE = "\u00a0"
"""Space between a number and its unit (ISO 80000-1, 7.1.4), where no line breaks."""

_HOLE = re.compile(r"\{([a-z_][a-z0-9_]*)\}")
_CONTEXT = "\4"
"""Between context and text of a key, as gettext has it in .mo files."""


def holes(text: str) -> list[str]:
    """Names of what is put into a text, sorted."""
    return sorted(_HOLE.findall(text))


def fill(text: str, values: Mapping[str, object]) -> str:
    """A text with values in the place of {names}. Raises KeyError for a name without a value."""
    return _HOLE.sub(lambda hole: str(values[hole[1]]), text)


def alphabetical(text: str) -> str:
    """Key that sorts words as a dictionary does: accents and capitals do not count, ß is ss.

    DIN 5007-1, from memory. Languages that give letters with accents places of their own, such as
    Swedish, would need more than that.
    """
    letters = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in letters if not unicodedata.combining(letter))


@dataclass(frozen=True)
class Words:
    """How one language says things."""

    language: str = "en"
    """BCP 47 tag, such as de or de-AT."""
    texts: Mapping[str, tuple[str, ...]] = field(default_factory=dict, repr=False)
    """Translations by text, several where the plural has several forms; contexts before \\4."""
    plural: str = ""
    """Which form a number takes: the Plural-Forms expression of the catalogue."""

    @property
    def locale(self) -> Locale:
        """The CLDR data of the language."""
        return _locale(self.language)

    @property
    def direction(self) -> str:
        """'ltr' or 'rtl'."""
        return str(self.locale.text_direction)

    def say(self, text: str, /, **values: object) -> str:
        """A text in this language, with values in its {holes}; English where it is not known."""
        return fill(self.texts.get(text, (text,))[0], values)

    def say_as_it_is(self, text: str) -> str:
        """A text in this language with its {holes}, for a script that fills them."""
        return self.texts.get(text, (text,))[0]

    def within(self, context: str, text: str, /, **values: object) -> str:
        """The same for a text that means different things in different places."""
        return fill(self.texts.get(f"{context}{_CONTEXT}{text}", (text,))[0], values)

    def many(self, one: str, more: str, n: float, /, **values: object) -> str:
        """A text in the form that goes with the number `n`, which is {n} in it."""
        text = self._form(one, more, n, self.texts.get(one, ()))
        return fill(text.replace("{n} ", "{n}" + SPACE), {"n": self.number(n, 2), **values})

    def forms(self, one: str, more: str) -> dict[str, str]:
        """The same text with its {holes}, by CLDR's name of each plural form: for a script."""
        tags = {str(self.locale.plural_form(n)): n for n in range(200, -1, -1)}
        found = self.texts.get(one, ())
        forms = {tag: self._form(one, more, n, found) for tag, n in sorted(tags.items())}
        return {"other": forms.get("other", more)} | forms

    def _form(self, one: str, more: str, n: float, found: tuple[str, ...]) -> str:
        if len(found) > 1:
            return found[min(_plural(self.plural)(int(n)), len(found) - 1)]
        return one if n == 1 else more

    def number(self, value: float, digits: int = 0) -> str:
        """A number without needless zeros, with the decimal sign of the language.

        Thousands are not grouped: lengths and counts of a kit stay short.
        """
        return mm_text(value, digits).replace(".", _decimal(self.language))

    def money(self, price: float, currency: str) -> str:
        """A price as CLDR writes it; without cents where there are none.

        Sums are never rounded: what stands below one another has to add up.
        """
        price = round(price, 2)
        whole = float(price).is_integer()
        pattern = self.locale.currency_formats["standard"].pattern
        if whole:
            pattern = pattern.replace(".00", "")
        value = round(price) if whole else price
        said = format_currency(value, currency, pattern, self.locale, currency_digits=False)
        # CLDR, currencySpacing: a code in letters keeps clear of the digits.
        return re.sub(r"(?<=[A-Za-z])(?=\d)", SPACE, said)

    def percent(self, share: float) -> str:
        """A share of one as per cent, without decimals."""
        return str(format_percent(share, locale=self.locale))

    def date(self, written: str) -> str:
        """An ISO 8601 date in long form; what is no date stays as it is written."""
        try:
            day = date.fromisoformat(written)
        except ValueError:
            return written
        return str(format_date(day, "long", self.locale))

    def listed(self, words: Iterable[str]) -> str:
        """Several words as a list: 'a, b and c'."""
        return str(format_list(list(words), locale=self.locale))

    def either(self, words: Iterable[str]) -> str:
        """'a, b or c' as the language joins them."""
        return str(format_list(list(words), style="or", locale=self.locale))

    def name(self, language: str) -> str:
        """What speakers of another language call it: 'Deutsch'."""
        locale = _locale(language)
        name = locale.get_display_name(locale) or language
        return name[:1].upper() + name[1:]

    def say_language(self, language: str) -> str:
        """The name of another language in this one: 'German'."""
        return _locale(language).get_display_name(self.locale) or language

    def direction_of(self, language: str) -> str:
        """'ltr' or 'rtl', for another language."""
        return str(_locale(language).text_direction)


class Foreign(str):
    """A text that is not in the language of its page, for want of a translation."""

    __slots__ = ("language",)
    language: str

    def __new__(cls, text: str, language: str) -> Self:
        """`language` is that of the text."""
        made = super().__new__(cls, text)
        made.language = language
        return made

    def __reduce__(self) -> tuple[type[Self], tuple[str, str]]:
        """Travels between processes with its language."""
        return (type(self), (str(self), self.language))


def language_of(text: str) -> str:
    """BCP 47 tag of a text that is not in the language of its page; else empty."""
    return text.language if isinstance(text, Foreign) else ""


ENGLISH = Words()
"""The language of the sources."""


@lru_cache(maxsize=64)
def _locale(language: str) -> Locale:
    """CLDR data of a language; of English where CLDR does not know it."""
    try:
        return Locale.parse(language, sep="-")
    except (UnknownLocaleError, ValueError):
        return Locale("en")


@lru_cache(maxsize=64)
def _decimal(language: str) -> str:
    return str(_locale(language).number_symbols["latn"]["decimal"])


@lru_cache(maxsize=64)
def _plural(expression: str) -> Callable[[int], int]:
    return gettext.c2py(expression or "n != 1")


def known_language(language: str) -> bool:
    """Whether CLDR knows how the language writes numbers and dates."""
    try:
        Locale.parse(language, sep="-")
    except (UnknownLocaleError, ValueError):
        return False
    return True


def parse_catalogue(data: bytes) -> tuple[dict[str, tuple[str, ...]], str]:
    """Translations and plural expression of a .po file; what is empty or fuzzy is left out.

    Raises ValueError where it is no catalogue.
    """
    try:
        catalogue = read_po(BytesIO(data), abort_invalid=True)
        plural = catalogue.plural_expr
    except (PoFileError, UnicodeDecodeError, ValueError) as error:
        raise ValueError(str(error) or "no catalogue") from None
    texts: dict[str, tuple[str, ...]] = {}
    for message in catalogue:
        said = message.string if isinstance(message.string, tuple | list) else (message.string,)
        if not message.id or message.fuzzy or not all(said):
            continue
        first = message.id[0] if isinstance(message.id, tuple | list) else message.id
        key = f"{message.context}{_CONTEXT}{first}" if message.context else first
        texts[key] = tuple(str(form) for form in said)
    return texts, str(plural)


def known_texts() -> tuple[str, ...]:
    """All that pages and documents say of themselves, in English, in order.

    German is kept whole, so its catalogue has every text. Of a text with two meanings each stands
    once; of one that counts, the form for one.
    """
    texts, _ = parse_catalogue((CATALOGUES / "de.po").read_bytes())
    return tuple(sorted({key.rpartition(_CONTEXT)[2] for key in texts}))


def read_words(language: str, more: Iterable[bytes] = ()) -> Words:
    """The words of a language: the package's catalogue, with those of `more` catalogues over it.

    A region takes the catalogue of its language: de-AT reads de.po. Raises ValueError.
    """
    texts: dict[str, tuple[str, ...]] = {}
    plural = ""
    file = CATALOGUES / f"{language.partition('-')[0]}.po"
    own = [file.read_bytes()] if file.is_file() else []
    for data in (*own, *more):
        found, plural = parse_catalogue(data)
        texts.update(found)
    return Words(language, texts, plural)
