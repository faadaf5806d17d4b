"""Where readers report mistakes: an address with named holes, checked before it is kept.

Readers follow what stands here, and it is filled with texts of guides that may come from
strangers: only https and mail, one mail address, no name and password before a host, holes after
the "?" alone.
"""

import re
from typing import Annotated

from pydantic import AfterValidator, Field

from guidegen.buildfile.records.meanings import OutsideCode
from guidegen.problems import did_you_mean

HOLES = ("guide", "version", "size", "step", "piece", "page")
"""What an address can be filled with."""
MAIL = "mailto:"
MAIL_FIELDS = ("subject", "body")
"""Fields of a message that a link may fill: RFC 6068, section 4, calls others unsafe."""
MOST_HOLES = 12
"""Our choice: each hole twice. More would let one link grow without end."""

HOLE = re.compile(r"\{([^{}]*)\}")
_MAILBOX = re.compile(r"[A-Za-z0-9._+-]+@[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+")
_HOST = r"[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)*(?::\d{1,5})?"
_FORM = re.compile(rf"https://{_HOST}(?:/[!$&'()*+,;=:@%\w.~/-]*)?", re.ASCII)
_NOT_ENCODED = re.compile(r"%(?![0-9A-Fa-f]{2})")


def split_report(address: str) -> tuple[str, str]:
    """What stands before the first "?" or "#", and the rest with that mark."""
    place = re.search(r"[?#]", address)
    return (address[: place.start()], address[place.start() :]) if place else (address, "")


def _report_address(address: str) -> str:
    """Refuse what must not be followed or filled; 'mailto:' before a mail address alone."""
    if _MAILBOX.fullmatch(split_report(address)[0]):
        address = MAIL + address
    base, rest = split_report(address)
    if HOLE.search(base):
        raise ValueError('holes such as {guide} may stand after the "?" of the address only')
    if base.lower().startswith(MAIL):
        _check_mail(base, rest)
    elif not _FORM.fullmatch(base):
        raise ValueError(
            "expected a mail address such as loft@example.org, or the address of a form with "
            f'https:// and nothing but ASCII letters before its "?", found "{base}"'
        )
    _check_holes(rest)
    if _NOT_ENCODED.search(address):
        raise ValueError('expected two hexadecimal digits after "%", as in %20 (a "%" is %25)')
    return address


def _check_mail(base: str, rest: str) -> None:
    if not base.startswith(MAIL) or not _MAILBOX.fullmatch(base.removeprefix(MAIL)):
        raise ValueError(f'expected one mail address such as loft@example.org, found "{base}"')
    if "#" in rest:
        raise ValueError('a mail address takes no "#"; write %23 in its subject or body')
    for field in rest[1:].split("&") if rest else ():
        name = field.partition("=")[0]
        if name not in MAIL_FIELDS:
            hint = did_you_mean(name, MAIL_FIELDS)
            raise ValueError(f'a report by mail has a subject and a body, no "{name}"{hint}')


def _check_holes(rest: str) -> None:
    names = HOLE.findall(rest)
    if re.search(r"[{}]", HOLE.sub("", rest)):
        raise ValueError("a brace stands alone; expected holes such as {guide}, or %7B and %7D")
    for name in names:
        if name not in HOLES:
            known = ", ".join(f"{{{one}}}" for one in HOLES)
            raise ValueError(f'there is no hole "{{{name}}}"{did_you_mean(name, HOLES)} ({known})')
    if len(names) > MOST_HOLES:
        raise ValueError(f"expected at most {MOST_HOLES} holes, found {len(names)}")


ReportAddress = Annotated[
    str, OutsideCode(), Field(max_length=500), AfterValidator(_report_address)
]
"""A mail address or a form's address with holes."""
