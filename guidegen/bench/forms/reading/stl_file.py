"""Bytes of an STL in, as text or binary → its triangles out.

The format as the StereoLithography Interface Specification (3D Systems 1989) has it: a solid of
facets, or 80 bytes, a count and 50 bytes for each facet. Normals of the file are not believed: the
order of a facet's corners says which side is outside.
"""

import numpy as np

from guidegen.bench.forms.reading.limits import MOST_FACES, MOST_LINE, Bad, number, too_many
from guidegen.bench.forms.records import Numbers, ReadMesh

_HEAD, _FACET = 84, 50
_ROW = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")])


def read_stl(data: bytes) -> ReadMesh:
    """The mesh of an STL. Raises Bad."""
    # Binary files may begin with "solid" too: what counts is whether the length fits the count.
    if len(data) >= _HEAD:
        count = int.from_bytes(data[80:84], "little")
        if len(data) == _HEAD + _FACET * count:
            return _binary(data, count)
    if data.lstrip()[:5].lower() == b"solid":
        return _text(data)
    if len(data) < _HEAD:
        raise Bad("is too short for an STL")
    raise Bad(f"says {count} facets and has room for {(len(data) - _HEAD) // _FACET}")


def _binary(data: bytes, count: int) -> ReadMesh:
    if count > MOST_FACES:
        raise too_many("triangles", MOST_FACES)
    rows = np.frombuffer(data, _ROW, count, _HEAD)
    return _mesh(rows["corners"].astype(float).reshape(-1, 3))


def _text(data: bytes) -> ReadMesh:
    corners: list[tuple[float, float, float]] = []
    facet = 0
    for count, row in enumerate(data.split(b"\n"), 1):
        if len(row) > MOST_LINE:
            raise Bad(f"longer than {MOST_LINE} letters", count)
        words = row.decode("ascii", "replace").lower().split()
        if not words:
            continue
        if words[0] == "vertex":
            if len(words) < 4:
                raise Bad("a vertex of fewer than three numbers", count)
            corners.append(
                (number(words[1], count), number(words[2], count), number(words[3], count))
            )
            facet += 1
        elif words[0] == "endloop":
            if facet != 3:
                raise Bad(f"a facet of {facet} corners; expected 3", count)
            facet = 0
        if len(corners) > 3 * MOST_FACES:
            raise too_many("triangles", MOST_FACES)
    if facet:
        raise Bad("ends within a facet")
    return _mesh(np.array(corners, float).reshape(-1, 3))


def _mesh(corners: Numbers) -> ReadMesh:
    return ReadMesh(corners, np.arange(len(corners), dtype=np.int64).reshape(-1, 3))
