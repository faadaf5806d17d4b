"""People of a class in → names of their files."""

import re
import unicodedata

LETTERS = 40
"""Letters of a person's name in the name of a file. Our choice."""


def own_name(number: int, name: str) -> str:
    """'03-robin' of a person of a number from 0: letters and digits that every system can keep."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    short = re.sub(r"[^a-z0-9]+", "-", plain)[:LETTERS].strip("-")
    return f"{number + 1:02}{'-' + short if short else ''}"


HANDOUT = "handout-"
"""How the names of all handouts begin."""


def handout_name(number: int, name: str) -> str:
    """'handout-03-robin.pdf'."""
    return f"{HANDOUT}{own_name(number, name)}.pdf"
