"""Codes of official hazard and precaution statements → their words."""

from guidegen.buildfile.records.safety.statements import STATEMENTS
from guidegen.buildfile.records.safety.statements_de import STATEMENTS_DE
from guidegen.words import Foreign

_OFFICIAL = {"en": STATEMENTS, "de": STATEMENTS_DE}
"""By language. The regulation's own words: no other language is made of these."""


def statement_text(code: str, language: str = "en") -> str:
    """The official words of a code such as H225 or P301+P310; empty for a code not kept here.

    Marked as English where the official words of the language are not kept.
    """
    name, tongue = code.replace(" ", ""), language.partition("-")[0]
    own = _OFFICIAL.get(tongue, {}).get(name)
    if own is not None:
        return own
    return Foreign(STATEMENTS[name], "en") if name in STATEMENTS else ""
