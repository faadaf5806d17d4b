"""Moving, turning and mirroring keep lengths, areas and the direction of outlines."""

from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.geometry.outline.measures import (
    run_area,
    run_length,
    segment_end,
    segment_point,
    segment_start,
)
from guidegen.geometry.outline.records import Arc, Cubic, Edge, Line, MatchMark, Shape
from guidegen.geometry.outline.transforms import (
    RigidMotion,
    mirror_across,
    mirror_shape,
    move_shape,
    reverse_run,
    transform_run,
    transform_shape,
)

OUTLINE = Shape(
    (
        Edge("bottom", (Line((0, 0), (60, 0)),)),
        Edge("right", (Arc((60, 30), 30, -90, 180),)),
        Edge("top", (Cubic((60, 60), (40, 90), (20, 40), (0, 60)), Line((0, 60), (0, 0)))),
    ),
    holes=((Arc((30, 25), 8, 0, -360),),),
    marks=(MatchMark("bottom", "seam", (20, 0), (0, 1), 2),),
)
"""An outline with a line, an arc, a Bézier curve, a hole and a mark."""

number = st.floats(-500, 500)
motions = st.builds(RigidMotion, number, number, st.floats(-360, 360), st.booleans())


@given(motions)
def test_motions_keep_lengths_areas_and_orientation(motion):
    """Whatever the motion, edges keep their length and outlines stay counter-clockwise."""
    moved = transform_shape(OUTLINE, motion)
    assert {e.name: run_length(e.run) for e in moved.edges} == pytest.approx(
        {e.name: run_length(e.run) for e in OUTLINE.edges}
    )
    assert run_area(moved.ring()) == pytest.approx(run_area(OUTLINE.ring()))
    assert run_area(moved.holes[0]) == pytest.approx(run_area(OUTLINE.holes[0]))
    ring = moved.ring()
    for segment, following in zip(ring, ring[1:] + ring[:1], strict=True):
        assert segment_end(segment) == pytest.approx(segment_start(following), abs=1e-6)


@given(motions)
def test_marks_stay_on_their_edge(motion):
    """A mark moves with its edge and still points into the piece."""
    moved = transform_shape(OUTLINE, motion)
    (mark,) = moved.marks
    (line,) = moved.edge("bottom").run
    shares = (1 / 3, 2 / 3)
    assert any(mark.point == pytest.approx(segment_point(line, t), abs=1e-6) for t in shares)
    dx, dy = (line.end[0] - line.start[0]) / 60, (line.end[1] - line.start[1]) / 60
    assert mark.inward == pytest.approx((-dy, dx), abs=1e-9)


def test_mirroring_twice_is_no_change():
    """The mirror image of the mirror image is the shape itself."""
    back = mirror_shape(mirror_shape(OUTLINE))
    assert [e.name for e in back.edges] == [e.name for e in OUTLINE.edges]
    assert transform_run(back.ring(), RigidMotion()) == pytest.approx(OUTLINE.ring())


def test_mirroring_turns_the_order_of_edges():
    """Mirrored, the edges follow one another the other way, from the same first one."""
    assert [e.name for e in mirror_shape(OUTLINE).edges] == ["bottom", "top", "right"]


@given(st.floats(-180, 180), number, number, number, number)
def test_mirror_across_a_line_keeps_the_line(angle, x, y, px, py):
    """Points of the mirror line stay; all others go to the same distance beyond it."""
    direction = (cos(radians(angle)), sin(radians(angle)))
    end = (x + 100 * direction[0], y + 100 * direction[1])
    mirror = mirror_across((x, y), end)
    assert mirror.point((x, y)) == pytest.approx((x, y), abs=1e-6)
    assert mirror.point(end) == pytest.approx(end, abs=1e-6)
    image = mirror.point((px, py))

    def aside(point):
        return (point[1] - y) * direction[0] - (point[0] - x) * direction[1]

    assert aside(image) == pytest.approx(-aside((px, py)), abs=1e-6)


def test_reversed_runs_run_back():
    """A reversed run starts at the end, ends at the start and encloses the same area backward."""
    ring = OUTLINE.ring()
    back = reverse_run(ring)
    assert segment_start(back[0]) == pytest.approx(segment_end(ring[-1]))
    assert run_area(back) == pytest.approx(-run_area(ring))


def test_moving_and_turning():
    """Moving adds to coordinates; a quarter turn takes x to y."""
    assert move_shape(OUTLINE, 5, -2).edge("bottom").run == (Line((5, -2), (65, -2)),)
    (line,) = transform_shape(OUTLINE, RigidMotion(angle=90)).edge("bottom").run
    assert line.end == pytest.approx((0, 60), abs=1e-9)
