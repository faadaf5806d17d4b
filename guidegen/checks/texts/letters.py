"""Letters that no font for paper has: they would print as empty boxes."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from unicodedata import name, normalize

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.yaml.tree import Source, Trail
from guidegen.checks.texts.text_places import PlacedText, guide_texts, shared_texts
from guidegen.problems import Problem

# fmt: off
PRINTED = (
    (0x20, 0x7E), (0xA0, 0x377), (0x37A, 0x37F), (0x384, 0x38A), (0x38C, 0x38C), (0x38E, 0x3A1),
    (0x3A3, 0x3E1), (0x3F0, 0x52F), (0x1C80, 0x1C88), (0x1D00, 0x1DF9), (0x1DFB, 0x1F15),
    (0x1F18, 0x1F1D), (0x1F20, 0x1F45), (0x1F48, 0x1F4D), (0x1F50, 0x1F57), (0x1F59, 0x1F59),
    (0x1F5B, 0x1F5B), (0x1F5D, 0x1F5D), (0x1F5F, 0x1F7D), (0x1F80, 0x1FB4), (0x1FB6, 0x1FC4),
    (0x1FC6, 0x1FD3), (0x1FD6, 0x1FDB), (0x1FDD, 0x1FEF), (0x1FF2, 0x1FF4), (0x1FF6, 0x1FFE),
    (0x2000, 0x2064), (0x2066, 0x2071), (0x2074, 0x208E), (0x2090, 0x209C), (0x20A0, 0x20C0),
    (0x2100, 0x215F), (0x2189, 0x2189), (0x2202, 0x2202), (0x220F, 0x220F), (0x2211, 0x2212),
    (0x2215, 0x2215), (0x2219, 0x221A), (0x221E, 0x221E), (0x222B, 0x222B), (0x2248, 0x2248),
    (0x2260, 0x2260), (0x2264, 0x2265), (0x25CA, 0x25CA), (0x2C60, 0x2C7F), (0x2DE0, 0x2E5D),
    (0xA640, 0xA69F), (0xFB00, 0xFB06), (0xFEFF, 0xFEFF),
)
# fmt: on
"""Unicode ranges that booklets and templates print: Latin, Greek, Cyrillic, signs. A test
compares them with the fonts. Alphabets that are written from the right, and those whose letters
change with their neighbours, need a typesetter that templates do not have."""

_FIRST = tuple(first for first, _ in PRINTED)

NAMED = 3
"""Letters that a finding names; the others are counted."""


def check_letters(_: Content, file: GuideFile) -> Iterator[Problem]:
    """Texts of a guide, and of its translations, with letters that cannot be printed."""
    yield from _unprinted_texts(guide_texts(file))


def check_shared_letters(content: Content) -> Iterator[Problem]:
    """The same for site.yaml and stock.yaml."""
    yield from _unprinted_texts(shared_texts(content))


def _unprinted_texts(texts: Iterable[PlacedText]) -> Iterator[Problem]:
    for text in texts:
        if text.wording.shown:
            yield from _told(text.source, text.trail, text.text)


def unprinted(text: str) -> tuple[str, ...]:
    """Letters that no font has, each once, in their order."""
    return tuple(
        letter for letter in dict.fromkeys(normalize("NFC", text)) if not _is_known(letter)
    )


def _is_known(letter: str) -> bool:
    if letter in "\n\r\t":
        return True
    place = bisect_right(_FIRST, ord(letter)) - 1
    return place >= 0 and ord(letter) <= PRINTED[place][1]


def _told(source: Source, trail: Trail, text: str) -> Iterable[Problem]:
    letters = unprinted(text)
    if not letters:
        return ()
    named = ", ".join(
        f'"{letter}" ({name(letter, "without a name").lower()})' for letter in letters[:NAMED]
    )
    more = f" and {len(letters) - NAMED} more" if len(letters) > NAMED else ""
    message = f"no font for paper has {named}{more}; expected Latin, Greek or Cyrillic letters"
    return (source.problem("letters-without-font", trail, message),)
