"""Bevels that no knife cuts, or that leave nothing, are told with the cut and the rim they make."""

from math import cos, radians

import pytest
from geometry.kit_samples import try_kit

from guidegen.geometry.outline.bevels import bevel_cut

STRIP = """\
parts:
  strip:
    name: Strip
    label: A
    material: FOAM
    shape: strip
    dimensions: {length: 200, width: WIDTH}
    bevels: {BEVELS}
"""
BOTH = "{top: {angle: ANGLE, direction: inward}, bottom: {angle: ANGLE, direction: inward}}"
ONE = "{top: {angle: ANGLE, direction: inward}}"


def told(bevels: str, angle: float, *, foam: str = "foam-5", width: float = 80):
    """Place and message of what is told of a strip with bevels."""
    text = STRIP.replace("{BEVELS}", bevels).replace("ANGLE", str(angle))
    text = text.replace("FOAM", foam).replace("WIDTH", str(width))
    _, problems = try_kit(text)
    assert {problem.code for problem in problems} <= {"bevel-slender"}
    return [(problem.path, problem.message) for problem in problems]


@pytest.mark.parametrize("angle", [15, 30, 45, 60])
def test_usual_bevels_are_not_told(angle):
    """Up to 60 degrees from square is common practice, no source: nothing is said."""
    assert told(ONE, angle) == []


def test_75_degrees_are_told():
    """On 5 mm foam the cut is 5 / cos(75) = 19.3 mm long, and a rim of 15 degrees stays."""
    ((path, message),) = told(ONE, 75)
    assert path == "parts.strip.bevels.top"
    assert message == (
        "75° from square on 5 mm foam: the cut is 19.3 mm long and leaves a rim of 15°, which frays"
    )


def test_a_cut_longer_than_the_blade_is_told():
    """60 degrees through 10 mm are 20 mm, as long as a blade; on 5 mm foam they are 10 mm."""
    assert told(ONE, 60, foam="foam-10") == []
    assert bevel_cut(60, 10) == pytest.approx(10 / cos(radians(60)))
    assert bevel_cut(45, 10) == pytest.approx(200**0.5)


def test_bevels_that_leave_no_face_are_told():
    """45 degrees on both edges of a strip of 12 mm in 5 mm foam leave a face of 2 mm."""
    assert told(BOTH, 45, width=14) == []
    ((path, message),) = told(BOTH, 45, width=12)
    assert path == "parts.strip"
    assert message == "its bevels leave less than 3 mm of the smaller face"
