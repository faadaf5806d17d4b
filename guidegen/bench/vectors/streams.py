"""Bytes of a PDF's stream and the names of its filters in → the plain bytes, of bounded size.

A stream of a kilobyte may unpack to gigabytes, so nothing is unpacked before its length is known
to be small: what the PDF library would unpack by itself is measured first.
"""

import base64
import binascii
import re
import zlib
from collections.abc import Sequence

MAX_FILE = 16_000_000
"""Bytes of a file. Our choice: a hundred tiled pages without photographs have five million."""
MAX_UNPACKED = 200_000_000
"""Bytes that all streams of a file unpack to. Our choice: one scanned page of 600 dots an inch has
a hundred million."""
MAX_CONTENT = 3_000_000
"""Bytes of lines and words on one page, and in one thing that pages use. Our choice: the 10,000
segments that a drawing may have fill a third of it."""

_STREAM = re.compile(rb"stream\r?\n")
_STEP = 1 << 20


class StreamError(Exception):
    """A stream that is not unpacked; the message is a sentence about it."""


def check_file(data: bytes) -> None:
    """Raise StreamError for a file whose streams unpack to more than MAX_UNPACKED bytes."""
    if len(data) > MAX_FILE:
        raise StreamError(f"the file is larger than {MAX_FILE // 1_000_000} MB")
    if re.search(rb"/FlateDecode\s*/FlateDecode|/LZWDecode|/RunLengthDecode", data):
        raise StreamError("the file is packed in a way that is not read")
    left = MAX_UNPACKED
    for found in _STREAM.finditer(data):
        left -= _unpacked_size(data, found.end(), left)
        if left < 0:
            raise StreamError(f"the file unpacks to more than {MAX_UNPACKED // 1_000_000} MB")


def _unpacked_size(data: bytes, start: int, most: int) -> int:
    """Bytes that a stream unpacks to, counted until `most`; 0 for what is not packed so."""
    # The two bytes that zlib begins with (RFC 1950, 2.2): deflate, and a check of both.
    head = data[start : start + 2]
    if len(head) < 2 or head[0] & 15 != 8 or (head[0] * 256 + head[1]) % 31:
        return 0
    unpacker, size, at = zlib.decompressobj(), 0, start
    try:
        while not unpacker.eof and at < len(data) and size <= most:
            size += len(unpacker.decompress(data[at : at + _STEP], _STEP))
            # At its end a stream may keep a tail for good.
            while unpacker.unconsumed_tail and not unpacker.eof and size <= most:
                size += len(unpacker.decompress(unpacker.unconsumed_tail, _STEP))
            at += _STEP
    except zlib.error:
        pass  # not a packed stream after all, or a damaged one: told where it is read
    return size


def unpack(data: bytes, filters: Sequence[str]) -> bytes:
    """The plain bytes of a page's content. Raises StreamError."""
    for name in filters:
        match name:
            case "/FlateDecode" | "/Fl":
                data = _inflated(data)
            case "/ASCII85Decode" | "/A85":
                data = _from_ascii85(data)
            case "/ASCIIHexDecode" | "/AHx":
                data = _from_hex(data)
            case _:
                raise StreamError(f"its lines are packed with {name[1:40]}, which is not read")
    if len(data) > MAX_CONTENT:
        raise _too_large()
    return data


def _too_large() -> StreamError:
    return StreamError(f"it has more than {MAX_CONTENT // 1_000_000} MB of lines and words")


def _inflated(data: bytes) -> bytes:
    unpacker = zlib.decompressobj()
    try:
        plain = unpacker.decompress(data, MAX_CONTENT + 1)
    except zlib.error:
        raise StreamError("its lines are damaged") from None
    if len(plain) > MAX_CONTENT:
        raise _too_large()
    return plain


def _from_ascii85(data: bytes) -> bytes:
    body = data.strip().removeprefix(b"<~").removesuffix(b"~>")
    try:
        return base64.a85decode(body)
    except ValueError:
        raise StreamError("its lines are damaged") from None


def _from_hex(data: bytes) -> bytes:
    digits = re.sub(rb"\s", b"", data.partition(b">")[0])
    try:
        return bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode("ascii"))
    except (ValueError, binascii.Error):
        raise StreamError("its lines are damaged") from None
