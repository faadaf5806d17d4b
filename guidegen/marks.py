"""Marks texts for the catalogue, for tables that are read before any language is."""


def msg(text: str) -> str:
    """The text itself: marks a text of a table for the catalogue, to be said later."""
    return text


def msgs(one: str, more: str) -> tuple[str, str]:
    """Both texts themselves, of one and of several: for the catalogue, as plurals."""
    return one, more
