"""Codes of official hazard and precaution statements → their words."""

from guidegen.buildfile.statements import STATEMENTS


def statement_text(code: str) -> str:
    """The official words of a code such as H225 or P301+P310; empty for a code not kept here."""
    return STATEMENTS.get(code.replace(" ", ""), "")
