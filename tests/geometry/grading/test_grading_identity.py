"""Change nothing, and nothing changes; change a little, and little changes."""

from itertools import pairwise

from geometry.drawing_samples import LEG, good_piece
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.grading.rules import move_corners
from guidegen.geometry.grading.spread import spread_piece
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.measures import flatten, run_length
from guidegen.geometry.outline.records import Edge, Shape

CORNERS = ("left-top", "left-bottom", "right-bottom", "right-top")
LINES = ("left", "right", "length")
quick = settings(max_examples=40, deadline=None, derandomize=True)


def opened(piece: DrawnPiece, line: str, width: float, hinge: str, stays: bool) -> DrawnPiece:
    """The piece opened along one of its lines."""
    spread = next(s for s in piece.spreads if s.name == line)
    return spread_piece(piece, spread, width, hinge, stays)


def farthest(first: DrawnPiece, second: DrawnPiece) -> float:
    """mm from a point of one outline to the nearest of the other, the largest: by dense points."""
    a, b = flatten(first.ring(), 0.05), flatten(second.ring(), 0.05)
    return max(_one_way(a, b), _one_way(b, a))


def _one_way(points, others) -> float:
    worst = 0.0
    for x, y in points:
        nearest = min(_distance((x, y), start, end) for start, end in pairwise(others))
        worst = max(worst, nearest)
    return worst


def _distance(point, start, end) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    t = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square if square else 0.0
    t = min(1.0, max(0.0, t))
    return ((point[0] - start[0] - t * dx) ** 2 + (point[1] - start[1] - t * dy) ** 2) ** 0.5


@quick
@given(
    lines=st.lists(st.sampled_from(LINES), min_size=1, max_size=3, unique=True),
    hinge=st.sampled_from(["none", "start", "end"]),
    stays=st.booleans(),
)
def test_any_lines_opened_by_nothing_are_the_piece(lines, hinge, stays):
    """Whatever the order, hinge and side, opening by 0 mm gives the very same record."""
    piece = good_piece(LEG)
    changed = piece
    for line in lines:
        changed = opened(changed, line, 0.0, hinge, stays)
    assert changed == piece


@quick
@given(st.lists(st.sampled_from(CORNERS), unique=True))
def test_any_corners_moved_by_nothing_are_the_piece(names):
    """Rules that move corners by 0 mm leave each point where it was."""
    piece = good_piece(LEG)
    changed = move_corners(piece, dict.fromkeys(names, (0.0, 0.0)))
    assert changed.corners == piece.corners
    assert farthest(piece, changed) < 1e-9
    assert run_length(changed.ring()) == run_length(piece.ring())


@settings(max_examples=12, deadline=None, derandomize=True)
@given(
    name=st.sampled_from(CORNERS),
    dx=st.floats(-0.5, 0.5),
    dy=st.floats(-0.5, 0.5),
)
def test_a_small_move_moves_nothing_farther(name, dx, dy):
    """A corner moved a little takes no point of the outline farther than it goes itself."""
    piece = good_piece(LEG)
    changed = move_corners(piece, {name: (dx, dy)})
    assert farthest(piece, changed) <= (dx * dx + dy * dy) ** 0.5 + 0.06
    assert fault_of(Shape((Edge("outline", changed.ring()),))) is None


@settings(max_examples=12, deadline=None, derandomize=True)
@given(line=st.sampled_from(LINES), width=st.floats(-0.5, 0.5), stays=st.booleans())
def test_a_small_opening_moves_nothing_farther(line, width, stays):
    """Opened a little, no point of the outline lies farther off than the opening is wide."""
    piece = good_piece(LEG)
    changed = opened(piece, line, width, "none", stays)
    assert farthest(piece, changed) <= abs(width) + 0.06
