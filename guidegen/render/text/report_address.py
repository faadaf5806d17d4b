"""The site's address for mistakes and what is known of a place → a link that is filled in.

Every value is percent-encoded to the last mark, so that no title of a guide can add a field of its
own, and no value is looked through for holes again.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import quote

from guidegen.buildfile.records.report import HOLE, split_report

LONGEST = 120
"""Letters of a value that are kept. Our choice: a mail program takes about 2,000 in all."""
_SAFE = "%&=+;/?:@!$'()*,~-._#"
"""What an author's own part of an address keeps: marks that divide it, and what is encoded."""


@dataclass(frozen=True, slots=True)
class ReportView:
    """A link that reports a mistake."""

    href: str
    size_at: str = ""
    """Where in `href` the reader's size belongs, which a script knows: counts of letters, blanks
    between; empty where the size is known or not asked for."""


def filled(address: str, values: Mapping[str, str]) -> ReportView:
    """The address with its holes filled; what has no value stays empty.

    Raises ValueError for letters that no address can hold (lone surrogates).
    """
    base, rest = split_report(address)
    parts, places = [base], []
    for at, part in enumerate(HOLE.split(rest)):
        if at % 2 == 0:
            parts.append(quote(part, safe=_SAFE))
            continue
        value = values.get(part, "")
        if part == "size" and not value:
            places.append(sum(map(len, parts)))
        parts.append(quote(value[:LONGEST], safe=""))
    return ReportView("".join(parts), " ".join(map(str, places)))


def encoded_line(text: str) -> str:
    """Words of ours with holes, for the query of an address: all encoded but the holes."""
    return quote(text, safe="{}")
