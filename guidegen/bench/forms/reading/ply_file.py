"""Bytes of a PLY in, as text or binary → its triangles and drawn lines out.

The format as Turk's "The PLY Polygon File Format" (1994) has it: a head that lists elements with
their properties, then their values. Elements and properties that say nothing of the form are
passed over. Edges (`element edge`) are lines to cut along.
"""

import re
import struct
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from guidegen.bench.forms.reading.limits import (
    MOST_CORNERS,
    MOST_FACES,
    MOST_POINTS,
    Bad,
    number,
    too_many,
    triangles,
)
from guidegen.bench.forms.records import ReadMesh

MOST_HEAD = 20_000
"""Bytes of the head."""
MOST_VALUES = 1_200_000
"""Numbers in one file. Our choice: ten a point and four a face, and as many again."""
_TYPES = {
    "char": "b", "int8": "b", "uchar": "B", "uint8": "B", "short": "h", "int16": "h",
    "ushort": "H", "uint16": "H", "int": "i", "int32": "i", "uint": "I", "uint32": "I",
    "float": "f", "float32": "f", "double": "d", "float64": "d",
}  # fmt: skip
"""Letters of Python's struct by the names of both editions of the format."""


@dataclass(frozen=True, slots=True)
class _Property:
    name: str
    kind: str
    counts: str = ""
    """Type of the count of a list; empty for a single value."""


@dataclass(frozen=True, slots=True)
class _PlyElement:
    name: str
    count: int
    properties: tuple[_Property, ...]


def read_ply(data: bytes) -> ReadMesh:
    """The mesh of a PLY. Raises Bad."""
    end = data.find(b"end_header", 0, MOST_HEAD)
    if not data.startswith(b"ply") or end < 0:
        raise Bad("expected a head that begins with ply and ends with end_header")
    body = data.find(b"\n", end) + 1
    if body == 0:
        raise Bad("ends after its head")
    kind, elements = _head(data[:end].decode("ascii", "replace"))
    values: _Text | _Binary
    if kind == "ascii":
        values = _Text(data[body:])
    else:
        values = _Binary(data, body, "<" if kind == "binary_little_endian" else ">")
    return _gather(elements, values)


def _head(text: str) -> tuple[str, list[_PlyElement]]:
    kind, elements = "", list[_PlyElement]()
    for count, row in enumerate(text.split("\n"), 1):
        words = row.split()
        match words:
            case ["format", kind, *_]:
                if kind not in {"ascii", "binary_little_endian", "binary_big_endian"}:
                    raise Bad(f'no such format: "{kind[:40]}"', count)
            case ["element", name, size]:
                if not size.isdigit() or len(size) > 9:
                    raise Bad(f'expected a count of elements, found "{size[:40]}"', count)
                elements.append(_PlyElement(name, int(size), ()))
            case ["property", "list", counts, inner, name] if elements:
                _known(counts, inner, line=count)
                elements[-1] = _with(elements[-1], _Property(name, _TYPES[inner], _TYPES[counts]))
            case ["property", inner, name] if elements:
                _known(inner, line=count)
                elements[-1] = _with(elements[-1], _Property(name, _TYPES[inner]))
            case ["property", *_]:
                raise Bad("a property that is not read", count)
    if not kind:
        raise Bad("no line says its format")
    return kind, elements


def _known(*names: str, line: int) -> None:
    for name in names:
        if name not in _TYPES:
            raise Bad(f'no such type: "{name[:40]}"', line)


def _with(element: _PlyElement, more: _Property) -> _PlyElement:
    if len(element.properties) >= 100:
        raise Bad("more than 100 properties of one element")
    return _PlyElement(element.name, element.count, (*element.properties, more))


class _Text:
    """Values in order, as words."""

    def __init__(self, data: bytes) -> None:
        # Word by word: all words of a hostile file at once would take twenty times its size.
        self._words = (found.group() for found in re.finditer(rb"\S+", data))

    def take(self, kind: str) -> float:
        """The next one."""
        word = next(self._words, None)
        if word is None:
            raise Bad("ends before its last element")
        value = number(word[:100].decode("ascii", "replace"), 0)
        return value if kind in "fd" else int(value)


class _Binary:
    """Values in order, as bytes."""

    def __init__(self, data: bytes, place: int, order: str) -> None:
        self._data, self._place = data, place
        self._structs = {kind: struct.Struct(order + kind) for kind in set(_TYPES.values())}

    def take(self, kind: str) -> float:
        """The next one."""
        form = self._structs[kind]
        if self._place + form.size > len(self._data):
            raise Bad("ends before its last element")
        (value,) = form.unpack_from(self._data, self._place)
        self._place += form.size
        return float(value) if kind in "fd" else int(value)


_BOUNDS = {"vertex": MOST_POINTS, "face": MOST_FACES, "edge": 3 * MOST_FACES}


def _gather(elements: list[_PlyElement], values: _Text | _Binary) -> ReadMesh:
    points: list[tuple[float, float, float]] = []
    faces: list[tuple[int, int, int]] = []
    lines: list[tuple[int, int]] = []
    told = 0
    for element in elements:
        most = _BOUNDS.get(element.name, MOST_FACES)
        if element.count > most:
            raise too_many(f"elements {element.name[:40]}", most)
        for _ in range(element.count):
            read = [_value(one, values) for one in element.properties]
            row = {one.name: found for one, found in zip(element.properties, read, strict=True)}
            told += sum(len(v) if isinstance(v, list) else 1 for v in read)
            if told > MOST_VALUES:
                raise too_many("values", MOST_VALUES)
            if element.name == "vertex":
                points.append(_single(row, "x", "y", "z"))
            elif element.name == "face":
                faces += _triangles(row, points)
                if len(faces) > MOST_FACES:
                    raise too_many("triangles", MOST_FACES)
            elif element.name == "edge":
                one, two, _ = _single({**row, "": 0.0}, "vertex1", "vertex2", "")
                lines.append((int(one), int(two)))
    return ReadMesh(
        np.array(points, float).reshape(-1, 3),
        np.array(faces, np.int64).reshape(-1, 3),
        lines=np.array(lines, np.int64).reshape(-1, 2),
    )


def _value(one: _Property, values: _Text | _Binary) -> float | list[float]:
    if not one.counts:
        return values.take(one.kind)
    count = int(values.take(one.counts))
    if not 0 <= count <= 1000:
        raise Bad(f"a list of {count} values; expected at most 1000")
    return [values.take(one.kind) for _ in range(count)]


def _single(row: dict[str, float | list[float]], *names: str) -> tuple[float, float, float]:
    found = []
    for name in names:
        value = row.get(name)
        if not isinstance(value, int | float):
            raise Bad(f'expected a value "{name}" of each element')
        found.append(float(value))
    return found[0], found[1], found[2]


def _triangles(
    row: dict[str, float | list[float]], points: list[tuple[float, float, float]]
) -> Iterator[tuple[int, int, int]]:
    listed = row.get("vertex_indices", row.get("vertex_index"))
    if not isinstance(listed, list):
        raise Bad("a face without vertex_indices")
    corners = [int(value) for value in listed]
    if not 3 <= len(corners) <= MOST_CORNERS:
        raise Bad(f"a face of {len(corners)} corners; expected 3 to {MOST_CORNERS}")
    if not all(0 <= corner < len(points) for corner in corners):
        raise Bad(f"a face names a point that is not there; there are {len(points)}")
    order = triangles(corners, points)
    for start in range(0, len(order), 3):
        a, b, c = order[start : start + 3]
        yield corners[a], corners[b], corners[c]
