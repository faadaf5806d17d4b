"""Labels beside their foam: their leaders run over no other piece and through no other words."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from guidegen.pictures.cutting.notes import Ground, place_note
from guidegen.pictures.pen.label_room import LabelBox, MapRoom

SHEET = LabelBox((60, 40), 132, 86)
"""As much as is free around a sheet of 120 by 80 mm on a drawing."""


def _strip(x: float, y: float, width: float, height: float) -> list[list[tuple[float, float]]]:
    return [[(x, y), (x + width, y), (x + width, y + height), (x, y + height)]]


def _polygon(note_box: LabelBox) -> Polygon:
    return Polygon(note_box.corners())


@given(st.integers(2, 9), st.floats(8, 90), st.floats(0.3, 2), st.booleans())
@settings(max_examples=12, deadline=None)
def test_strips_in_a_row_are_named_beside_them(
    count: int, length: float, gap: float, upright: bool
) -> None:
    """However close they lie, each leader ends on its own strip and leaves the others alone."""
    pitch = 2 + gap
    strips = [
        _strip(n * pitch, 0, 2, length * 0.8) if upright else _strip(0, n * pitch, length, 2)
        for n in range(count)
    ]
    room, ground = MapRoom(SHEET), Ground(strips, [])
    notes = []
    for number, strip in enumerate(strips):
        note = place_note(f"A{number}", [strip], ground, room)
        assert note is not None
        room.add(note.box, note.leader)
        notes.append(note)
        leader = LineString(note.leader)
        assert Polygon(strip[0]).buffer(1e-6).contains(leader.boundary.geoms[1])
        assert not any(leader.crosses(Polygon(other[0])) for other in strips if other is not strip)
        assert not any(_polygon(note.box).intersects(Polygon(one[0])) for one in strips)
    for one, other in combinations(notes, 2):
        assert not one.box.meets(other.box)
        assert not LineString(one.leader).intersects(LineString(other.leader))
        assert not LineString(one.leader).crosses(_polygon(other.box))


def test_many_copies_share_one_label_with_their_number() -> None:
    """Of 60 studs one is named, for all, by the shortest leader; none where all around is foam."""
    studs = [_strip(10 + 3 * (n % 10), 10 + 3 * (n // 10), 2, 2) for n in range(60)]
    note = place_note("K1", studs, Ground(studs, []), MapRoom(SHEET))
    assert note is not None
    assert note.words == "K1 × 60"
    assert note.length < 6
    frame = [*box(0, 0, 120, 80).exterior.coords][:-1]
    full = Ground([*studs, [frame]], [])
    assert place_note("K1", studs, full, MapRoom(LabelBox((60, 40), 120, 80))) is None
