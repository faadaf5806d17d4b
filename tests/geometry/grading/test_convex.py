"""Convex edges stay convex when a piece is graded: no dent beside a line that closes."""

from math import cos, hypot, pi, sin

import pytest
from geometry.drawing_samples import LEG, LEG_EDGES, good_drawing, svg

from guidegen.geometry.outline.convexity import concave_turn
from guidegen.geometry.outline.measures import bounds, run_length, segment_length, segment_point
from guidegen.geometry.outline.records import Run

K = 0.5522847498
"""Handle of a quarter circle, in radii."""


def oval(a: float, b: float) -> str:
    """The path of an ellipse around (100, 150)."""
    quarters = []
    for turn in range(4):
        one, two = turn * pi / 2, (turn + 1) * pi / 2
        points = [
            (cos(one) - K * sin(one), sin(one) + K * cos(one)),
            (cos(two) + K * sin(two), sin(two) - K * cos(two)),
            (cos(two), sin(two)),
        ]
        quarters.append(" ".join(f"{100 + a * x:.6f},{150 + b * y:.6f}" for x, y in points))
    return f'<path id="outline" d="M{100 + a},150 C' + " C".join(quarters) + ' Z"/>'


LINES = """
<line id="spread-left" x1="75" y1="40" x2="75" y2="260"/>
<line id="spread-right" x1="125" y1="40" x2="125" y2="260"/>
"""
MARKS = """
<circle id="corner-top" cx="100" cy="60" r="2"/>
<circle id="corner-left" cx="40" cy="150" r="2"/>
<circle id="corner-bottom" cx="100" cy="240" r="2"/>
<circle id="corner-right" cx="160" cy="150" r="2"/>
"""
CLOSES = """\
    spread:
      - {line: left, opens: 0.25*(calf - drawn_calf)}
      - {line: right, opens: 0.25*(calf - drawn_calf)}
"""


def concave_points(ring: Run, count: int = 4000) -> int:
    """At how many of about `count` points, spread over a closed run, the outline turns right."""
    whole = run_length(ring)
    points = []
    for segment in ring:
        share = max(1, round(count * segment_length(segment) / whole))
        points += [segment_point(segment, number / share) for number in range(share)]
    count = len(points)
    found = 0
    for index, q in enumerate(points):
        p, r = points[index - 1], points[(index + 1) % count]
        cross = (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0])
        size = hypot(q[0] - p[0], q[1] - p[1]) * hypot(r[0] - q[0], r[1] - q[1])
        found += cross < -1e-6 * size
    return found


@pytest.mark.parametrize("marks", ["", MARKS], ids=["a ring without corners", "with four marks"])
@pytest.mark.parametrize("size", ["S", "M", "L"])
def test_a_kneecap_stays_convex(marks, size):
    """A kneecap closed by 7.5 mm on each side in S, opened in L, has no concave point of 4,000."""
    shape = good_drawing(svg(oval(60, 90) + marks + LINES), CLOSES, size)
    assert concave_points(shape.ring()) == 0
    left, _, right, _ = bounds((shape.ring(),))
    opens = {"S": -15.0, "M": 0.0, "L": 17.5}[size]
    assert right - left == pytest.approx(120 + opens, abs=0.5)


def test_marks_on_a_smooth_edge_stay_where_they_are():
    """Smoothing a dent leaves the corners beside it in their places."""
    shape = good_drawing(svg(oval(60, 90) + MARKS + LINES), CLOSES, "S")
    ends = [edge.run[0].start for edge in shape.edges]
    assert len(ends) == 4
    assert sorted(round(x, 2) for x, _ in ends) == pytest.approx([47.5, 100, 100, 152.5], abs=0.3)


def test_a_hem_that_a_corner_moves_stays_convex():
    """A grade rule that moves one end of a curved hem leaves it convex."""
    hem = """
    <path id="outline" d="M40,60 L160,60 L160,200 C120,220 80,220 40,200 Z"/>
    <circle id="corner-a" cx="40" cy="60" r="2"/><circle id="corner-b" cx="40" cy="200" r="2"/>
    <circle id="corner-c" cx="160" cy="200" r="2"/><circle id="corner-d" cx="160" cy="60" r="2"/>
    """
    part = """\
    edges:
      hem: {from: b, to: c}
    grade:
      c: {dx: 0.9*(calf - drawn_calf), dy: 0.5*(calf - drawn_calf)}
"""
    shape = good_drawing(svg(hem), part, "L")
    assert concave_turn(shape.edge("hem").run) < 0.02


@pytest.mark.parametrize(("size", "turned"), [("S", False), ("L", True)])
def test_a_hinge_lets_only_its_own_edge_turn_inward(size, turned):
    """Opened about its lower end, a plate's hem turns hollow, its other edges stay convex; closed,
    the hem bends outward and nothing is hollow."""
    part = LEG_EDGES + "    spread: [{line: left, opens: calf - drawn_calf, hinge: end}]\n"
    shape = good_drawing(LEG, part, size)
    turns = {edge.name: concave_turn(edge.run) for edge in shape.edges}
    assert (turns["bottom"] > 3) is turned
    drawn = {edge.name: concave_turn(edge.run) for edge in good_drawing(LEG, LEG_EDGES, "M").edges}
    for name in ("left", "right", "top"):
        assert drawn[name] > 0.5 or turns[name] < 0.5  # what was drawn hollow may be hollow
