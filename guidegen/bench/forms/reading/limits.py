"""How large a file of a mesh may be, and the checks that all formats share."""

import re

import numpy as np

from guidegen.bench.forms.records import FormError, Indices, Numbers, ReadMesh, refuse

MOST_BYTES = 48_000_000
"""Of one file. Our choice: 100,000 faces as text, with room."""
MOST_FACES = 100_000
"""Triangles. Our choice: five times what is flattened in twenty seconds."""
MOST_POINTS = 150_000
MOST_CORNERS = 64
"""Of one face. Our choice: a cap of a lathe has as many."""
MOST_LINE = 20_000
"""Letters of one line of text."""

_NUMBER = re.compile(r"[+-]?(\d{1,40}(\.\d{0,40})?|\.\d{1,40})([eE][+-]?\d{1,3})?")


class Bad(Exception):
    """What is wrong with a file, and in which line; the reader knows its name."""

    def __init__(self, message: str, line: int = 0, code: str = "form-file") -> None:
        super().__init__(message)
        self.message, self.line, self.code = message, line, code

    def named(self, name: str) -> FormError:
        """The same as a problem of the file."""
        place = f"line {self.line}: " if self.line else ""
        return refuse(self.code, name, place + self.message)


def too_many(what: str, most: int) -> Bad:
    """The refusal of a large file."""
    return Bad(f"more than {most} {what}; reduce the mesh", code="form-large")


def number(word: str, line: int) -> float:
    """A coordinate. Raises Bad; nan and inf are words that a mesh has no use for."""
    if len(word) > 90 or not _NUMBER.fullmatch(word):
        raise Bad(f'expected a number, found "{word[:40]}"', line)
    return float(word)


def triangles(corners: list[int], points: list[tuple[float, float, float]]) -> list[int]:
    """A polygon as triangles: positions of their corners, in threes.

    A polygon that is flat and convex is cut from its first corner, any other ear by ear, so that no
    triangle lies outside it.
    """
    count = len(corners)
    if count == 3:
        return [0, 1, 2]
    ring = np.array([points[corner] for corner in corners])
    if not np.isfinite(ring).all():
        return [number for last in range(2, count) for number in (0, last - 1, last)]
    after = np.roll(ring, -1, axis=0)
    normal = np.cross(ring, after).sum(axis=0)  # Newell: works for polygons that are not flat
    size = float(np.linalg.norm(normal))
    if size == 0.0:
        return [number for last in range(2, count) for number in (0, last - 1, last)]
    return _ears(ring, normal / size)


def _ears(ring: Numbers, normal: Numbers) -> list[int]:
    """Ear clipping as seen along the normal (Meisters 1975: every simple polygon has two ears)."""
    left, found = list(range(len(ring))), []

    def turn(one: int, two: int, three: int) -> float:
        a, b, c = ring[one], ring[two], ring[three]
        return float(np.cross(b - a, c - b) @ normal)

    while len(left) > 3:
        best, ear = -np.inf, 0
        for place in range(len(left)):
            one, two, three = left[place - 1], left[place], left[(place + 1) % len(left)]
            area = turn(one, two, three)
            if area <= 0:
                continue
            others = (p for p in left if p not in (one, two, three))
            if any(
                turn(one, two, p) > 0 and turn(two, three, p) > 0 and turn(three, one, p) > 0
                for p in others
            ):
                continue
            sides = sum(
                float(np.sum((ring[p] - ring[q]) ** 2))
                for p, q in ((one, two), (two, three), (three, one))
            )
            if area / sides > best:  # the best shaped one: slender triangles spoil all that follows
                best, ear = area / sides, place
        found += [left[ear - 1], left[ear], left[(ear + 1) % len(left)]]
        del left[ear]
    return found + left


def checked(mesh: ReadMesh) -> ReadMesh:
    """The same, once its numbers are known to make sense. Raises Bad."""
    if len(mesh.faces) == 0:
        raise Bad("no faces in it: expected the surface of a form", code="form-empty")
    if len(mesh.faces) > MOST_FACES:
        raise too_many("triangles", MOST_FACES)
    if len(mesh.points) > 3 * MOST_POINTS:
        raise too_many("points", 3 * MOST_POINTS)
    for what in (mesh.faces, mesh.lines):
        if what is not None and len(what) and not _within(what, len(mesh.points)):
            raise Bad(f"a face names a point that is not there; there are {len(mesh.points)}")
    used = mesh.points[np.unique(mesh.faces)]
    if not np.isfinite(used).all() or float(np.abs(used).max()) > 1e9:
        raise Bad("a coordinate is no number, or far too large")
    return mesh


def _within(what: Indices, count: int) -> bool:
    return bool(what.min() >= 0 and what.max() < count)
