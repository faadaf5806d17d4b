"""The strips that lie beside a template: which markers stand where on each, in mm.

Each strip is rigid, and where it lies is worked out from the photo: nobody has to lay them square
or at a measured distance. All measures are our choice, so that a strip fits A4 and US Letter, and
a marker can be read where a millimetre has four pixels.
"""

from dataclasses import dataclass

import numpy as np

from guidegen.bench.photos.arrays import Array

LENGTH = 250.0
"""mm of a strip."""
WIDTH = 34.0
"""mm of a strip."""
SIDE = 24.0
"""mm of a marker's black square."""
PITCH = 34.0
"""mm from one marker's middle to the next."""
FIRST = 23.0
"""mm from the strip's left end to its first marker's middle."""
MARKERS = 7
"""On each strip."""
STRIPS = 12
"""Numbered from 1 for people, from 0 here."""
CELLS = 8
"""Across a marker, its black rim of one cell on either side included."""
RULER = 200.0
"""mm of the line on each strip that tells how large it was printed."""
RULER_AT = (25.0, 2.0)
"""Its left end on the strip."""

CODES = tuple(
    int(code, 16)
    for code in [
        "21a146bab",
        "92d18fe9b",
        "7089014bb",
        "193979e27",
        "44153d3d7",
        "35cd5b8cf",
        "a10ba56a0",
        "2b874a608",
        "b57fb8d44",
        "4e20b5a64",
        "61d897f2c",
        "ab3469ffc",
        "594ca45c2",
        "fa1c2d2e2",
        "97c24b972",
        "75928624a",
        "1caafe99a",
        "3236ddc16",
        "884e527d6",
        "5771a8c7e",
        "f52925b81",
        "2e59cc1a1",
        "7fa58ab31",
        "eb43384f9",
        "3913d5345",
        "d79b1a3b5",
        "0dfbe768d",
        "5cd7a031d",
        "b9c8f7a4b",
        "46987e06b",
        "6e0c5d527",
        "5bc567bb4",
        "1e6302bc2",
        "8ac7d046a",
        "a65fe2326",
        "5400eb616",
        "f7a066836",
        "2dd0afdf6",
        "3b9cb60b1",
        "ad6a1caf9",
        "93b62efb5",
        "bb210d93d",
        "dee55094b",
        "a0cd1479b",
        "2a23abb27",
        "4f67f4b5f",
        "58a815818",
        "743427d64",
        "1dec40874",
        "892ab3a02",
        "38d5742ee",
        "0c43567a1",
        "5db311cb1",
        "c957ca1f9",
        "a22457823",
        "29ace98f3",
        "ccc52c528",
        "da8b3578c",
        "d5b4b9e36",
        "ac9cdd3ce",
        "cbdaa8391",
        "1986256b1",
        "bae6cc889",
        "df91b10e5",
        "a1a9d5a75",
        "2b651aa9d",
        "4d5c2e19d",
        "5b163736b",
        "f753d60a8",
        "5e84b37d2",
        "fce43a9f2",
        "bb926d1a6",
        "ed8d236e5",
        "6af846f37",
        "ea56a5138",
        "5d497146c",
        "470360eca",
        "8c4bcd67a",
        "295f3901e",
        "f6b577e97",
        "520602f5a",
        "b5119492e",
        "48e299ab7",
        "b79f5737a",
    ]
)
"""36 bits for each marker, row by row from its upper left, white is 1: the first of the family
36h11 of Olson, AprilTag (ICRA 2011), any two of which differ in at least 11 bits."""


@dataclass(frozen=True, slots=True)
class SeenMarker:
    """A marker in a photo."""

    number: int
    """Its place in CODES."""
    corners: Array
    """Pixels: upper left, upper right, lower right, lower left of the printed marker."""

    @property
    def strip(self) -> int:
        """The strip that it stands on."""
        return self.number // MARKERS


def marker_corners(number: int) -> Array:
    """The marker's corners on its strip, mm from the lower left, in the order of SeenMarker."""
    middle = FIRST + PITCH * (number % MARKERS)
    half = SIDE / 2
    x, y = np.array([-half, half, half, -half]), np.array([half, half, -half, -half])
    return np.column_stack((middle + x, WIDTH / 2 + y))


def marker_bits(number: int) -> tuple[tuple[bool, ...], ...]:
    """Rows of white (True) and black cells inside the rim, from the upper left."""
    code, inside = CODES[number], CELLS - 2
    bits = [bool(code >> (inside * inside - 1 - place) & 1) for place in range(inside * inside)]
    return tuple(tuple(bits[row * inside : (row + 1) * inside]) for row in range(inside))


def strip_rim() -> Array:
    """The corners of a strip, mm."""
    return np.array([(0.0, 0.0), (LENGTH, 0.0), (LENGTH, WIDTH), (0.0, WIDTH)])
