"""Words in → their width on paper out, so that labels fit before anybody draws them.

The table holds the advance widths of Barlow Condensed, the family of all lettering in drawings, in
thousandths of the letter size. A test compares it with the font files themselves.
"""

import re
from functools import cache, lru_cache
from unicodedata import normalize

CAP_HEIGHT = 0.7
"""Height of capitals and digits as a share of the letter size: OS/2 table of the font."""

LEAST = 3.0
"""mm; the smallest lettering on a drawing 160 mm wide: our choice, readable on a telephone."""

# fmt: off
_WIDTHS = {
    400: {
        119: "'", 123: "‘’", 144: "|", 177: ",", 180: "`", 181: "l", 190: ".", 193: ";", 196: "·",
        200: " j", 208: "i", 211: ":", 215: "I", 222: "()", 235: "\"", 245: "²", 250: "“”",
        251: "!¡", 256: "1", 263: "³", 267: "t", 273: "{}", 277: "f", 292: "r", 295: "•",
        303: "[]", 313: "-", 334: "/\\", 358: "°", 361: "*z", 366: "7", 368: "y", 370: "?¿×",
        372: "–", 374: "s", 376: "_x", 379: "v", 395: "Z", 396: "L^", 402: "2c", 403: "9",
        404: "F", 405: "k", 407: "e", 408: "3", 409: "5", 410: "6A", 413: "ag", 415: "4o",
        416: "$S", 417: "þ", 422: "8", 423: "Tbd", 424: "Yhnu", 426: "J", 428: "pq", 429: "Eµ",
        430: "øß", 432: "ð", 434: "X", 439: "V", 442: "+<=>PÞ−±≤≥", 443: "QR", 444: "0", 446: "C",
        449: "B", 451: "G", 452: "K", 456: "O", 461: "~", 465: "D", 472: "H«»", 476: "U", 493: "N",
        499: "Δ", 503: "£", 509: "Ð", 521: "M", 524: "Ø", 542: "&", 554: "w", 589: "#", 592: "—",
        623: "W", 625: "…", 648: "m", 652: "æ", 662: "¼", 665: "½", 699: "Æ", 732: "¾", 761: "@",
        781: "%",
    },
    600: {
        152: "'", 165: "‘’", 171: "|", 199: ",l", 200: " ", 206: "`", 211: ".j", 215: "i·",
        218: ";", 224: "I", 252: ":", 258: "²", 269: "!¡", 274: "1", 275: "³", 279: "()", 282: "t",
        291: "f", 302: "•", 306: "\"", 313: "r", 316: "“”", 319: "{}", 325: "-", 330: "[]",
        359: "°", 361: "*", 368: "z", 377: "–", 386: "/\\", 389: "×", 392: "7", 398: "s", 403: "y",
        405: "_", 406: "Z", 413: "?^¿", 415: "FLv", 417: "x", 422: "c", 423: "9", 425: "2",
        426: "3e", 428: "5", 429: "6", 431: "g", 432: "o", 433: "kþ", 434: "$8Sa", 435: "E",
        437: "bd", 438: "u", 439: "+<=>hn−±≤≥", 441: "pq", 443: "Jðµ", 450: "0ß", 452: "T",
        455: "Q", 456: "AY", 457: "CPÞ", 459: "4", 460: "X", 461: "R", 462: "BGø", 463: "«»",
        467: "O", 471: "V", 472: "D", 477: "HK", 478: "U", 480: "~", 507: "NÐ", 512: "£", 525: "Δ",
        538: "M", 581: "&", 592: "w", 593: "—", 597: "Ø", 606: "#", 665: "Wm", 674: "æ", 679: "…",
        682: "½", 697: "¼", 735: "Æ", 759: "@", 771: "¾", 772: "%",
    },
}
# fmt: on

_BREAKS = re.compile(r"[ \t\r\n]+")

_WIDEST = 800
"""Width of a letter that the table does not know: nearly the widest that it does."""


@cache
def _advances(weight: int) -> dict[str, int]:
    groups = _WIDTHS[600 if weight >= 500 else 400]
    return {letter: width for width, letters in groups.items() for letter in letters}


def text_width(words: str, size: float, weight: int = 400) -> float:
    """mm that `words` take in one line; accents add nothing, unknown letters count as wide."""
    return _advance(words, weight) * size / 1000


# The same few thousand words are measured some fifty times each for the sheets of one size.
@lru_cache(maxsize=20_000)
def _advance(words: str, weight: int) -> int:
    """Thousandths of the size of type that `words` take in one line."""
    table = _advances(weight)
    # Accents stand over their letters and take no room of their own.
    bare = (letter for letter in normalize("NFD", words) if not "\u0300" <= letter <= "\u036f")
    return sum(table.get(letter, _WIDEST) for letter in bare)


def shorten(words: str, width: float, size: float, weight: int = 400) -> str:
    """`words` cut off with an ellipsis where they take more than `width` mm."""
    if text_width(words, size, weight) <= width:
        return words
    # Letter by letter from the end: names are short, and kerning is not in the table anyway.
    while words and text_width(words + "…", size, weight) > width:
        words = words[:-1]
    return words.rstrip() + "…"


def wrap(words: str, width: float, size: float, weight: int = 400, most: int = 9) -> list[str]:
    """Lines of at most `width` mm, broken between words; at most `most`, the last shortened.

    No-break spaces hold together what they join.
    """
    return [*_wrapped(words, width, size, weight, most)]


# Labels of templates are tried in a dozen sizes, and on each paper again.
@lru_cache(maxsize=5_000)
def _wrapped(words: str, width: float, size: float, weight: int, most: int) -> tuple[str, ...]:
    lines: list[str] = []
    for word in filter(None, _BREAKS.split(words)):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, weight) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    if len(lines) > most:
        # All that is left goes into the last line and is cut off there, with a sign that it was.
        lines = [*lines[: most - 1], " ".join(lines[most - 1 :])]
    return tuple(shorten(line, width, size, weight) for line in lines)
