"""Horns of segments: the cuts of a cone by tilted planes, developed flat."""

from math import cos, degrees, pi, radians, sin, tan, tau

import numpy as np
import pytest

from guidegen.geometry.outline.measures import flatten, run_length
from guidegen.geometry.shapes.building import ShapeError
from guidegen.geometry.shapes.horns import (
    CutPlane,
    HornCone,
    HornSegment,
    horn_segment,
    mitre_angles,
)

GIVEN = {
    "girth": 170.0, "length": 260.0, "segments": 6.0, "segment": 1.0, "bend": 0.0, "twist": 0.0,
    "tip": 0.0, "ease": 0.0, "backing": 0.0, "neutral": 0.5,
}  # fmt: skip


def segment(number: int, **changes: float):
    """The flat outline of one segment, of foam without thickness."""
    return horn_segment({**GIVEN, "segment": float(number), **changes}, 0.0)


def test_a_straight_horn_is_a_cone() -> None:
    """The whole net of a cone is a sector of slant s = sqrt(r² + h²) and arc 2 pi r (school
    geometry); cut across, its segments are frusta whose rims follow by similar triangles."""
    r = 170 / tau
    slant = (r * r + 260 * 260) ** 0.5
    whole = segment(1, segments=1.0)
    assert run_length(whole.edge("side").run) == pytest.approx(slant, abs=0.01)
    assert run_length(whole.edge("bottom").run) == pytest.approx(170, abs=0.01)
    third = segment(3)
    assert run_length(third.edge("bottom").run) == pytest.approx(170 * 4 / 6, abs=0.01)
    assert run_length(third.edge("top").run) == pytest.approx(170 * 3 / 6, abs=0.01)


def test_a_slender_horn_has_the_cut_of_a_mitred_cylinder() -> None:
    """Sheet metal handbooks: the development of a cylinder of radius r cut at a degrees from square
    is y = r tan(a) cos(phi). A horn that hardly tapers comes within what the taper explains."""
    r, turn = 170 / tau, 24.0
    flat = segment(1, segments=2.0, bend=turn, tip=169.9, length=200.0)
    points = np.array(flatten(flat.edge("top").run))[::-1]
    points -= points[0]
    phi = points[:, 0] / r
    # It is opened on the inside of the bend, where the cut is lowest.
    expected = r * tan(radians(turn / 2)) * (1 - np.cos(phi))
    assert np.abs(points[:, 1] - expected).max() < 0.06


@pytest.mark.parametrize("twist", [0.0, 25.0, -40.0])
def test_rims_that_meet_are_equally_long(twist: float) -> None:
    """Half a turn about the normal of the cut carries the upper segment's lower rim onto the lower
    segment's upper rim, so both are one ellipse, opened at one place."""
    for number in range(1, 6):
        low = segment(number, bend=110.0, twist=twist)
        high = segment(number + 1, bend=110.0, twist=twist)
        top, bottom = run_length(low.edge("top").run), run_length(high.edge("bottom").run)
        assert top == pytest.approx(bottom, abs=0.02)


def test_half_a_turn_on_the_cut_keeps_the_rim() -> None:
    """The ellipse of the cut is its own image about its centre, which lies off the axis."""
    cone = HornCone(radians(9))
    plane = CutPlane(180.0, radians(12), 0.4)
    centre = [
        (a + b) / 2
        for a, b in zip(cone.place(plane, 0.4), cone.place(plane, 0.4 + pi), strict=True)
    ]
    assert abs(centre[0]) > 0.5
    for azimuth in np.linspace(0, tau, 13):
        image = cone.place(plane, cone.opposite(plane, float(azimuth)))
        there = [2 * c - p for c, p in zip(centre, cone.place(plane, float(azimuth)), strict=True)]
        assert image == pytest.approx(there, abs=1e-9)


@pytest.mark.parametrize("twist", [0.0, 30.0])
def test_the_bend_adds_up(twist: float) -> None:
    """Each joint turns the axis by twice the tilt of its cut. Without a twist the chain of half turns
    about the normals of the cuts ends 100 degrees from where it began, in one plane; with one it
    leaves the plane and comes less far round."""
    frame = np.eye(3)
    for joint in range(5):
        side, tilt = joint * (pi + radians(twist)), radians(100 / 5 / 2)
        normal = np.array([sin(tilt) * cos(side), sin(tilt) * sin(side), cos(tilt)])
        # The upper part as it lies in the straight cone, turned half round about the cut's normal.
        frame = frame @ (2 * np.outer(normal, normal) - np.eye(3))
    axis = frame[:, 2]
    turned = degrees(np.arccos(axis[2]))
    if twist:
        assert turned < 95
        assert abs(axis[1]) > 0.2
    else:
        assert turned == pytest.approx(100)
        assert axis[1] == pytest.approx(0, abs=1e-9)


def test_foam_is_cut_between_two_angles_along_a_mitre() -> None:
    """On a cylinder the cut runs from -a to a about square; the taper of a cone takes its own
    lean from both."""
    plane = CutPlane(100.0, radians(10), 0.0)
    tube = HornSegment(HornCone(1e-9), plane, None, 0.0)
    assert mitre_angles(tube, plane) == pytest.approx((-10, 10))
    horn = HornSegment(HornCone(radians(6)), plane, None, 0.0)
    assert mitre_angles(horn, plane) == pytest.approx((-16, 4))


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"bend": 290.0, "length": 150.0, "segment": 2.0}, "inside of a segment would be"),
        ({"segments": 2.0, "bend": 90.0}, "turns by 90° at each joint"),
        ({"segments": 1.0, "segment": 1.0, "bend": 20.0}, "one segment alone is straight"),
        ({"tip": 170.0}, "horns taper"),
        ({"segment": 7.0}, "expected a whole number from 1 to 6"),
    ],
)
def test_horns_that_cannot_be(changes: dict[str, float], says: str) -> None:
    """Each is refused with what would make it possible."""
    with pytest.raises(ShapeError, match=says):
        horn_segment({**GIVEN, **changes}, 5.0)
