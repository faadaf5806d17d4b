"""Text of a Wavefront OBJ in → its triangles, texture islands, materials and drawn lines out.

Read is what Wavefront's Object Files specification (Advanced Visualizer manual, appendix B1) calls
`v`, `vt`, `f`, `l`, `usemtl`, `g` and `o`. Curved surfaces are not read; no other file is opened.
"""

import itertools
from collections.abc import Sequence

import numpy as np

from guidegen.bench.forms.reading.limits import (
    MOST_CORNERS,
    MOST_FACES,
    MOST_LINE,
    MOST_POINTS,
    Bad,
    number,
    too_many,
    triangles,
)
from guidegen.bench.forms.records import ReadMesh

MOST_NAMES = 400
"""Materials or groups in one file."""


class _Obj:
    """What was read so far."""

    def __init__(self) -> None:
        self.points: list[tuple[float, float, float]] = []
        self.places: list[tuple[float, float]] = []
        self.faces: list[tuple[int, int, int]] = []
        self.islands: list[tuple[int, int, int]] = []
        self.kinds: list[int] = []
        self.names: dict[str, int] = {"": 0}
        self.lines: list[tuple[int, int]] = []
        self.material = self.group = ""

    def take(self, words: Sequence[str], line: int) -> None:
        """One statement; those that say nothing of the form are passed over."""
        match words[0]:
            case "v":
                self._need(words, 4, line)
                self.points.append(_three(words, line))
                if len(self.points) > MOST_POINTS:
                    raise too_many("points", MOST_POINTS)
            case "vt":
                self._need(words, 3, line)
                self.places.append((number(words[1], line), number(words[2], line)))
                if len(self.places) > 4 * MOST_POINTS:
                    raise too_many("places of the texture map", 4 * MOST_POINTS)
            case "f":
                self._face(words[1:], line)
            case "l":
                self._line(words[1:], line)
            case "usemtl":
                self.material = " ".join(words[1:])[:80]
            case "g" | "o":
                self.group = " ".join(words[1:])[:80]
            case "curv" | "surf" | "cstype":
                raise Bad("curved surfaces are not read; save the form as triangles", line)

    def _need(self, words: Sequence[str], count: int, line: int) -> None:
        if len(words) < count:
            raise Bad(f'"{words[0]}" has {len(words) - 1} numbers, expected {count - 1}', line)

    def _face(self, words: Sequence[str], line: int) -> None:
        if not 3 <= len(words) <= MOST_CORNERS:
            raise Bad(f"a face of {len(words)} corners; expected 3 to {MOST_CORNERS}", line)
        pairs = [self._corner(word, line) for word in words]
        corners = [point for point, _ in pairs]
        name = self.material or self.group
        kind = self.names.setdefault(name, len(self.names))
        if len(self.names) > MOST_NAMES:
            raise too_many("materials and groups", MOST_NAMES)
        order = triangles(corners, self.points)
        for start in range(0, len(order), 3):
            a, b, c = order[start : start + 3]
            self.faces.append((corners[a], corners[b], corners[c]))
            self.islands.append((pairs[a][1], pairs[b][1], pairs[c][1]))
            self.kinds.append(kind)
        if len(self.faces) > MOST_FACES:
            raise too_many("triangles", MOST_FACES)

    def _line(self, words: Sequence[str], line: int) -> None:
        ends = [self._corner(word, line)[0] for word in words]
        if len(ends) < 2:
            raise Bad("a line of fewer than two points", line)
        self.lines += itertools.pairwise(ends)
        if len(self.lines) > 3 * MOST_FACES:
            raise too_many("lines", 3 * MOST_FACES)

    def _corner(self, word: str, line: int) -> tuple[int, int]:
        """Point and place on the map, counted from 0; -1 for no place."""
        parts = word.split("/")
        point = self._index(parts[0], len(self.points), "point", line)
        if len(parts) < 2 or not parts[1]:
            return point, -1
        return point, self._index(parts[1], len(self.places), "place of the texture map", line)

    def _index(self, word: str, count: int, what: str, line: int) -> int:
        digits = word.removeprefix("-")
        if not (digits.isascii() and digits.isdigit()) or len(digits) > 9 or int(digits) == 0:
            raise Bad(f'expected the number of a {what}, found "{word[:40]}"', line)
        # Counted from 1; below 0, from the last one so far.
        index = int(word) - 1 if int(word) > 0 else count + int(word)
        if not 0 <= index < count:
            raise Bad(f"there is no {what} {word}; {count} stand above", line)
        return index


def _three(words: Sequence[str], line: int) -> tuple[float, float, float]:
    return number(words[1], line), number(words[2], line), number(words[3], line)


def read_obj(text: str) -> ReadMesh:
    """The mesh of an OBJ. Raises Bad."""
    found = _Obj()
    held = ""
    for count, row in enumerate(text.split("\n"), 1):
        if len(row) + len(held) > MOST_LINE:
            raise Bad(f"longer than {MOST_LINE} letters", count)
        row = held + row.partition("#")[0].strip()  # noqa: PLW2901 - a statement may go on
        held = ""
        if row.endswith("\\"):
            held = row[:-1] + " "
            continue
        words = row.split()
        if words:
            found.take(words, count)
    places = np.array([*found.places, (np.nan, np.nan)])  # -1 is the last: no place
    mapped = np.array(found.islands, np.int64).reshape(-1, 3)
    return ReadMesh(
        np.array(found.points, float).reshape(-1, 3),
        np.array(found.faces, np.int64).reshape(-1, 3),
        places[mapped] if len(mapped) and (mapped >= 0).any() else None,
        np.array(found.kinds, np.int64),
        tuple(found.names),
        np.array(found.lines, np.int64).reshape(-1, 2),
    )
