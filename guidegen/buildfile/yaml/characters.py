"""Text in → the first character in it that no page, feed or terminal may get."""

import re

_FORBIDDEN = re.compile("[^\t\n\r -~\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""All but the characters of XML 1.0 (fifth edition, 2.2), without DEL and the C1 controls that it
only advises against: terminals obey some of these. Halves of surrogate pairs are no characters."""


def forbidden_at(text: str) -> int:
    """Where the first forbidden character stands; -1 where there is none."""
    found = _FORBIDDEN.search(text)
    return found.start() if found else -1


def forbidden_words(text: str, at: int) -> str:
    """What to say about it."""
    code = ord(text[at])
    kind = "half of a pair of surrogates" if 0xD800 <= code <= 0xDFFF else "a control character"
    if code in {0xFFFE, 0xFFFF}:
        kind = "no character"
    return f"U+{code:04X} is {kind}; expected letters, digits, signs, blanks and line ends"
