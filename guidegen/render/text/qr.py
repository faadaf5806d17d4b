"""An address in → a QR code as an image that stands in the page itself.

The only module that imports segno. Codes follow ISO/IEC 18004.
"""

from dataclasses import dataclass

import segno

from guidegen.errors import OutputError

QUIET_ZONE = 4
"""Modules left blank around a code (ISO/IEC 18004:2015, 6.3.8)."""


@dataclass(frozen=True, slots=True)
class CodeView:
    """A QR code with its address in words."""

    src: str
    """The image as a data: address."""
    words: str
    """The address as one would type it."""
    href: str
    modules: int
    """Squares along a side, the quiet zone counted: a code is printed as wide as it needs."""


def code_view(address: str) -> CodeView:
    """The code of an address, with correction of level M: 15 % of it may be dirty or torn.

    Raises OutputError for an address that no code can hold.
    """
    try:
        code = segno.make_qr(address, error="m", boost_error=False)
    except segno.DataOverflowError as error:
        raise OutputError(f"too long for a QR code: {address} ({error})") from None
    size = int(code.symbol_size(border=QUIET_ZONE)[0])
    return CodeView(code.svg_data_uri(border=QUIET_ZONE), plain_address(address), address, size)


def plain_address(address: str) -> str:
    """An address without the beginning that every browser adds."""
    return address.removeprefix("https://").rstrip("/")
