"""Names on a page map: each template has one, and none stands over another."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.label_places import enters_box, inside
from guidegen.pictures.pen.label_room import LabelBox, Leader, MapRoom
from guidegen.pictures.pen.map_names import Nameable, draw_name, place_names
from guidegen.words import ENGLISH

SHEET = LabelBox((42, 42), 84, 84)


def _thing(code: str, x: float, y: float, width: float, height: float) -> Nameable:
    ring = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
    return Nameable(f"Piece {code}", code, [ring])


def _cross(one: Leader, other: Leader) -> bool:
    return LineString(one).crosses(LineString(other))


@given(
    st.lists(
        st.tuples(st.floats(0, 70), st.floats(0, 70), st.floats(1, 14), st.floats(0.6, 14)),
        max_size=8,
    )
)
@settings(max_examples=12, deadline=None)
def test_no_name_stands_over_another(places: list[tuple[float, float, float, float]]) -> None:
    """Strips and patches wherever they lie, also over one another: all names and numbers are clear,
    lie on the sheet, and those beside their template are joined to a point of it by a leader that
    runs through no other words and crosses no other leader."""
    numbers = [LabelBox((3, 81), 6, 5), LabelBox((45, 81), 6, 5)]
    things = [_thing(f"H{n}L H{n}R", *place) for n, place in enumerate(places)]
    room = MapRoom(SHEET, list(numbers))
    named = place_names(things, room)
    assert len(named) == len(things)
    boxes = [*numbers, *(name.box for name in named)]
    assert not any(a.meets(b) for a, b in combinations(boxes, 2))
    by_code = {thing.code: thing for thing in things}
    for name in named:
        thing = next(
            one for code, one in by_code.items() if code in name.words or one.name == name.words
        )
        if name.to is not None:
            assert inside(thing.rings, name.to)
            assert room.holds(name.box)
    leaders = [leader for name in named if (leader := name.leader())]
    for name in named:
        others = [box for box in boxes if box is not name.box]
        leader = name.leader()
        assert leader is None or not any(enters_box(*leader, box.sides()) for box in others)
    assert not any(_cross(one, other) for one, other in combinations(leaders, 2))


def test_a_large_piece_says_its_name_and_a_strip_its_code_beside() -> None:
    """A plate has code and name on it; a strip 2 mm wide its code, with a leader to its middle."""
    plate, strip = _thing("A1", 5, 5, 40, 30), _thing("H3L H3R", 60, 10, 2, 50)
    named = {name.words: name for name in place_names([plate, strip], MapRoom(SHEET))}
    assert named["A1 Piece A1"].to is None
    beside = named["H3L H3R"]
    assert beside.to is not None
    assert abs(beside.to[0] - 61) < 1
    canvas = Canvas(84, 84, "Map", "", ENGLISH)
    for name in named.values():
        draw_name(canvas, name)
    drawn = canvas.drawing().items
    assert sum(getattr(item, "css", "") == "leader" for item in drawn) == 1


def test_codes_of_both_hands_are_shortened_where_there_is_no_room() -> None:
    """Between two strips on a sheet as wide as they, the code of a pair leaves its hands away."""
    things = [_thing("H3L H3R", 2, 2, 1, 6)]
    taken = [LabelBox((9.5, 5), 9, 10)]
    (name,) = place_names(things, MapRoom(LabelBox((7, 5), 14, 10), taken))
    assert name.words == "H3"
    (name,) = place_names([_thing("A1 A2", 2, 2, 1, 6)], MapRoom(LabelBox((7, 5), 14, 10), taken))
    assert name.words == "A1 A2"
