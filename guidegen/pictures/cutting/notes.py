"""Labels that found no room on their foam → places beside it, each with a leader.

A leader never runs over another piece or through other words: a reader would cut the wrong one.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.label_places import Rings, inside, meets_box
from guidegen.pictures.pen.label_room import (
    LabelBox,
    Leader,
    MapRoom,
    around,
    bounds,
    covers,
    crosses,
    targets,
)
from guidegen.pictures.pen.lettering import CAP_HEIGHT, LEAST, text_width
from guidegen.pictures.pen.records import INK
from guidegen.pictures.pen.tints import NARROW

AIR = 0.7
"""mm around words."""
NEAR_END = 1.0
"""mm from the end of a strip to where a leader may end on it."""
FARTHEST = 30.0
"""mm from a piece to its label. Our choice."""
SMALL = 6.0
"""mm; a smaller piece has one place where a leader ends."""
ASIDE = (0.0, 0.6, -0.6, 1.1, -1.1)
"""Of its own sides, how far a label at the rim may stand beside the straight way. Our choice."""
MOST_COPIES = 12
"""Of so many copies of one label a place is looked for, spread over all. Our choice."""
DOT = 0.45
"""mm; radius of the dot in which a leader ends on a face (ISO 128-22)."""


@dataclass(frozen=True, slots=True)
class SideNote:
    """A label beside its piece."""

    words: str
    box: LabelBox
    leader: Leader

    @property
    def length(self) -> float:
        """mm of its leader."""
        return dist(*self.leader)


class Ground:
    """What lies on the drawing: pieces, each as outline and holes, flattened, and lines that words
    keep off and leaders may cross: the rim of the sheet, an offcut.
    """

    def __init__(self, pieces: Sequence[Rings], lines: Sequence[list[Point]]) -> None:
        self._pieces = [(rings, bounds(rings[0])) for rings in pieces]
        self._lines = lines

    def bare(self, box: LabelBox) -> bool:
        """Whether words there would stand on no foam and no line."""
        return not any(
            rim.meets(box) and any(covers(ring, box) for ring in rings)
            for rings, rim in self._pieces
        ) and not any(meets_box(line, box.centre, box.width, box.height) for line in self._lines)

    def crossed(self, leader: Leader, own: Rings) -> bool:
        """Whether a leader runs over a piece that is not its own."""
        reach = bounds(leader)
        return any(
            rings is not own and rim.meets(reach) and _runs_over(leader, rings)
            for rings, rim in self._pieces
        )


def _runs_over(leader: Leader, rings: Rings) -> bool:
    """Whether a line crosses a rim, or ends on a piece that lies in a hole of another."""
    return inside(rings, leader[1]) or any(
        crosses(leader, side)
        for ring in rings
        for side in zip(ring, ring[1:] + ring[:1], strict=True)
    )


def place_note(
    label: str, copies: Sequence[Rings], ground: Ground, room: MapRoom
) -> SideNote | None:
    """The place with the shortest leader to any of the copies; None where there is none.

    `copies` are those of the label, each one of the pieces on the ground.
    """
    words = label if len(copies) == 1 else f"{label} × {len(copies)}"
    every = max(1, len(copies) // MOST_COPIES)
    ends = [(end, rings) for rings in copies[::every] for end in _ends(rings)]
    places = ([*around(end, FARTHEST), *_at_the_rim(words, end, room)] for end, _ in ends)
    for spots in zip(*places, strict=True):
        found = [
            note
            for (end, rings), spot in zip(ends, spots, strict=True)
            if (note := _note(words, spot, end, room)) and ground.bare(note.box)
            if not ground.crossed(note.leader, rings)
        ]
        if found:
            return min(found, key=lambda note: (note.length, note.leader))
    return None


def _ends(rings: Rings) -> list[Point]:
    """Where a leader may end on a piece."""
    room = bounds(rings[0])
    ends = targets(rings, NEAR_END)
    return ends if max(room.width, room.height) > SMALL else ends[:1]


def _at_the_rim(words: str, end: Point, room: MapRoom) -> list[Point]:
    """Places above, below and left of a point, as far out as the drawing goes."""
    box, (x, y) = note_box(words, end), room.sheet.centre
    across, up = room.sheet.width - box.width, room.sheet.height - box.height
    return [
        spot
        for shift in ASIDE
        for spot in (
            (end[0] + shift * box.width, y + up / 2),
            (end[0] + shift * box.width, y - up / 2),
            (x - across / 2, end[1] + shift * box.height),
        )
    ]


def _note(words: str, spot: Point, end: Point, room: MapRoom) -> SideNote | None:
    box = note_box(words, spot)
    if not (room.holds(box) and room.free(box)):
        return None
    leader = box.leader_to(end)
    return SideNote(words, box, leader) if room.clear(leader) else None


def note_box(words: str, centre: Point) -> LabelBox:
    """The room of words."""
    return LabelBox(centre, text_width(words, LEAST, 600) + AIR, LEAST * CAP_HEIGHT + AIR)


def draw_note(canvas: Canvas, note: SideNote) -> None:
    """Words, and the leader with a dot on the foam."""
    canvas.line(*note.leader, NARROW, css="thin leader")
    canvas.circle(note.leader[1], DOT, None, fill=INK, css="arrow")
    x, y = note.box.centre
    at = (x, y - LEAST * CAP_HEIGHT / 2)
    canvas.text(at, note.words, LEAST, anchor="middle", weight=600, css="label")
