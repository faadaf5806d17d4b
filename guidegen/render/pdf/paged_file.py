"""WeasyPrint's objects of a document in → its bytes for each paper out.

Files for two papers differ in their page boxes alone, so all but the pages is written once, and
the pages anew for each. Objects that are no streams are packed into streams of objects (ISO
32000-1:2008, 7.5.7 and 7.5.8). pydyf 0.13 works each of them out a second time, to number the
file; and to open and save it again for each paper takes longer than all of this.
"""

import zlib
from collections.abc import Iterable, Sequence
from copy import copy
from dataclasses import dataclass
from functools import cached_property
from hashlib import md5
from itertools import batched
from typing import Any

from guidegen.render.pdf.mended.kept_paths import number_bytes
from guidegen.units import POINTS_PER_MM

LEVEL = 7
"""How hard zlib tries. Our choice: 9 takes two and a half times as long for one per cent less."""

PACKED = 1000
"""Objects of one stream. Our choice: a viewer unpacks as many for one that it asks for."""

BOXES = ("MediaBox", "CropBox", "BleedBox", "TrimBox", "ArtBox")
"""All that a page may have (ISO 32000-1:2008, 14.11.2)."""

_PLAIN, _PACKED = 1, 2
"""Kinds of entries of a cross-reference stream (ISO 32000-1:2008, table 18)."""

type Box = tuple[float, ...]
"""Left, bottom, right, top in PDF units."""


@dataclass(frozen=True, slots=True)
class _Page:
    number: int
    entries: bytes
    """All of its dictionary but the boxes."""
    boxes: dict[str, Box]


class PagedFile:
    """A document that is written but for the boxes of its pages."""

    def __init__(self, pdf: Any, version: str | None) -> None:  # noqa: ANN401 - of the library
        """`pdf` is the library's, with all of its objects in place."""
        pdf.add_object(pdf.info)
        self._trailer = b"/Root %d 0 R/Info %d 0 R" % (pdf.catalog.number, pdf.info.number)
        self._pages = [_page(pdf.objects[number]) for number in pdf.pages["Kids"][::3]]
        self._written = _Written(f"%PDF-{version or '1.7'}\n%\xf0\x9f\x96\xa4\n".encode("latin-1"))
        self._written.places = [(0, 0, 0)] * len(pdf.objects)
        # What a viewer asks for first stands with the pages.
        first = (pdf.catalog, pdf.pages, pdf.info)
        self._first = [(one.number, bytes_of(one)) for one in first]
        waiting = {one.number for one in (*first, *self._pages)}
        packed: list[tuple[int, bytes]] = []
        for one in pdf.objects[1:]:
            if hasattr(one, "stream"):
                entries = {key: value for key, value in one.extra.items() if key != "Length"}
                self._written.add_stream(
                    one.number, _entries(entries), _content(one.stream), packed=one.compress
                )
            elif one.number not in waiting:
                packed.append((one.number, bytes_of(one)))
        self._written.pack(packed)

    @property
    def pages(self) -> int:
        """How many pages it has."""
        return len(self._pages)

    @cached_property
    def data(self) -> bytes:
        """The file, its pages as they were laid out."""
        return self._with_boxes(page.boxes for page in self._pages)

    def on_paper(self, width: float, height: float) -> bytes:
        """The file, its pages not scaled and in the middle of sheets of `width` by `height` mm.

        Only the page boxes move (ISO 32000-1:2008, 14.11.2): content, links and tags stay where
        they are in the user space, so that one layout serves papers of several sizes. A page that
        lies on its long side gets a sheet that does.
        """
        sheets = (_around(page.boxes["MediaBox"], width, height) for page in self._pages)
        return self._with_boxes(
            dict.fromkeys(page.boxes, sheet)
            for page, sheet in zip(self._pages, sheets, strict=True)
        )

    def _with_boxes(self, boxes: Iterable[dict[str, Box]]) -> bytes:
        written = self._written.copy()
        pages = [
            (page.number, b"<<%s%s>>" % (page.entries, _entries(own)))
            for page, own in zip(self._pages, boxes, strict=True)
        ]
        written.pack([*self._first, *pages])
        return written.end(self._trailer)


class _Written:
    """The beginning of a file."""

    def __init__(self, head: bytes) -> None:
        self._parts, self._size = [head], len(head)
        self.places: list[tuple[int, int, int]] = []
        """Of each object its kind; where it begins, or its stream; its place in that."""

    def copy(self) -> "_Written":
        """The same beginning, to be ended in another way."""
        own = copy(self)
        own._parts, own.places = self._parts[:], self.places[:]
        return own

    def add_stream(self, number: int, entries: bytes, content: bytes, *, packed: bool) -> None:
        """Add a stream, compressed if asked for; `entries` are all of its dictionary but that."""
        if packed:
            content = zlib.compress(content, LEVEL)
            entries += b"/Filter /FlateDecode"
        self.places[number] = (_PLAIN, self._size, 0)
        self._add(
            b"%d 0 obj\n<<%s/Length %d>>\nstream\n%s\nendstream\nendobj\n"
            % (number, entries, len(content), content)
        )

    def pack(self, objects: Sequence[tuple[int, bytes]]) -> None:
        """Add objects that are no streams, by their numbers."""
        for some in batched(objects, PACKED):
            number = len(self.places)
            self.places.append((0, 0, 0))
            start, head = 0, []
            for index, (one, data) in enumerate(some):
                self.places[one] = (_PACKED, number, index)
                head.append(b"%d %d" % (one, start))
                start += len(data) + 1
            numbers = b" ".join(head) + b"\n"
            entries = b"/Type /ObjStm/N %d/First %d" % (len(some), len(numbers))
            content = numbers + b"\n".join(data for _, data in some)
            self.add_stream(number, entries, content, packed=True)

    def end(self, trailer: bytes) -> bytes:
        """The whole file: places of all objects, and its name, at the end."""
        name = md5(b"".join(self._parts), usedforsecurity=False).hexdigest().encode()
        start, number = self._size, len(self.places)
        self.places.append((_PLAIN, start, 0))
        entries = b"/Type /XRef/W [1 4 2]/Size %d%s/ID [(guidegen) <%s>]" % (
            number + 1,
            trailer,
            name,
        )
        content = b"".join(
            kind.to_bytes(1) + place.to_bytes(4) + index.to_bytes(2)
            for kind, place, index in self.places
        )
        self.add_stream(number, entries, content, packed=True)
        self._add(b"startxref\n%d\n%%%%EOF\n" % start)
        return b"".join(self._parts)

    def _add(self, part: bytes) -> None:
        self._parts.append(part)
        self._size += len(part)


def _page(page: Any) -> _Page:  # noqa: ANN401 - a dictionary of the library
    boxes = {name: tuple(page[name]) for name in BOXES if name in page}
    others = {key: value for key, value in page.items() if key not in boxes}
    return _Page(page.number, _entries(others), boxes)


def _around(page: Box, width: float, height: float) -> Box:
    """The sheet around a page."""
    left, bottom, right, top = page
    if right - left > top - bottom:
        width, height = height, width
    across = (width * POINTS_PER_MM - (right - left)) / 2
    up = (height * POINTS_PER_MM - (top - bottom)) / 2
    return tuple(round(side, 4) for side in (left - across, bottom - up, right + across, top + up))


def bytes_of(item: Any) -> bytes:  # noqa: ANN401 - whatever stands in a file
    """An item of a file as pydyf writes it, whose kinds are told at once."""
    kind = type(item)
    if kind is bytes:
        return bytes(item)
    if kind is str:
        return str(item).encode("ascii")
    if kind is int:
        return b"%d" % item
    if kind is float:
        return number_bytes(item)
    if isinstance(item, dict):
        return b"<<%s>>" % _entries(item)
    if isinstance(item, list | tuple):
        return b"[%s]" % b" ".join(map(bytes_of, item))
    return bytes(item.data)


def _entries(dictionary: dict[str, Any]) -> bytes:
    return b"".join(
        [b"/%s %s" % (key.encode("ascii"), bytes_of(value)) for key, value in dictionary.items()]
    )


def _content(items: Iterable[Any]) -> bytes:
    return b"\n".join(map(bytes_of, items))
