"""Outer layers of a bent stack have the longer way: outline, window, holes and what lies on them."""

from math import pi

import pytest
from geometry.fastening_samples import try_whole, whole

from guidegen.geometry.outline.measures import bounds

PLATE = """\
measurements: {waist: {name: Waist, take: Around.}}
sizes: {S: {waist: 700}, L: {waist: 1000}}
parts:
  plate:
    name: Plate
    label: A
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 180, height: 90, radius: 12}
    placements: [{part: frame}]
    points:
      holes: {kind: rivet, line: {from: [-70, 0], to: [70, 0]}, count: 2, diameter: 4, through: [frame]}
  frame:
    name: Frame
    label: B
    material: foam-5
    shape: frame
    dimensions: {width: 180, height: 90, web: 30, radius: 12}
    placements: [{part: wave}]
  wave:
    name: Wave
    label: C
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 180, height: 20}
stacks:
  bent:
    name: Bent plate
    backing: 3
    curve: {girth: waist%s}
    layers: [{part: plate}, {part: frame}, {part: wave}]
"""
HOLES_LIE_UNDER_THE_WAVE = "line: {from: [-70, 0], to: [70, 0]}"
TEXT = PLATE.replace(HOLES_LIE_UNDER_THE_WAVE, "line: {from: [-70, 32], to: [70, 32]}")


def test_once_around_a_layer_is_longer_by_two_pi_t():
    """A strip that closes round 700 mm in 5 mm foam, and the same on it: 2 pi x 5 mm longer."""
    around = 700 + 2 * pi * (3 + 2.5)
    text = TEXT.replace("width: 180", f"width: {around}") % ""
    kit = whole(text, "S")
    first, second, third = kit.stacks[0].layers
    assert first.longer == 0
    assert second.longer == pytest.approx(2 * pi * 5, abs=0.05)
    assert third.longer == pytest.approx(2 * pi * 10, abs=0.05)
    assert second.way == pytest.approx(around + 2 * pi * 5, abs=0.05)


@pytest.mark.parametrize(("size", "waist"), [("S", 700), ("L", 1000)])
def test_frame_and_window_grow_alike(size, waist):
    """The frame, its window and its holes are longer by the ratio of both radii; heights stay."""
    kit = whole(TEXT % "", size)
    inner = waist / (2 * pi) + 3 + 2.5
    factor = (inner + 5) / inner
    frame = next(kit.built("frame"))
    left, low, right, high = bounds((frame.shape.ring(),))
    assert right - left == pytest.approx(180 * factor, abs=0.01)
    assert high - low == pytest.approx(90, abs=0.01)
    window = max(frame.shape.holes, key=lambda hole: bounds((hole,))[2] - bounds((hole,))[0])
    left, low, right, high = bounds((window,))
    assert right - left == pytest.approx(120 * factor, abs=0.01)
    assert high - low == pytest.approx(30, abs=0.01)
    (row,) = [row for row in kit.rows if row.part == "frame"]
    assert [spot.at[0] for spot in row.spots] == pytest.approx([-70 * factor, 70 * factor])
    assert row.pitch == pytest.approx(140 * factor)
    own = {row.part: row for row in kit.rows}["plate"]
    assert own.pitch == pytest.approx(140)


def test_a_radius_may_be_stated():
    """A bend of 100 mm with 3 mm of backing: 105.5 to 110.5 mm."""
    kit = whole(TEXT.replace("girth: waist%s", "radius: 100"), "S")
    assert kit.stacks[0].radius == 103
    assert kit.finished[1].width == pytest.approx(180 * 110.5 / 105.5, abs=0.01)


def test_heights_may_go_round():
    """Along the height the frame gets higher and no wider."""
    kit = whole(TEXT % ", along: height", "S")
    factor = 1 + 5 / (700 / (2 * pi) + 5.5)
    assert kit.finished[1].height == pytest.approx(90 * factor, abs=0.01)
    assert kit.finished[1].width == pytest.approx(180, abs=0.01)


def test_what_is_kept_as_drawn_is_told():
    """A frame as long as its plate ends short; one that is as long as it must be does not."""
    kit, problems = try_whole(TEXT % ", lengthens: false", "S")
    assert kit is not None
    assert [(one.code, one.path) for one in problems] == [
        ("layer-short", "stacks.bent.layers[1].part"),
        ("layer-short", "stacks.bent.layers[2].part"),
    ]
    assert "frame is as long as plate and lies farther out: bent, it ends 7.7 mm short" in (
        problems[0].message
    )


def test_one_layer_cannot_follow_two_bends():
    """A wave that also lies on another plate with another bend."""
    other = """\
  other:
    name: Other
    curve: {radius: 60}
    layers: [{part: plate}, {part: wave}]
"""
    _, problems = try_whole(TEXT % "" + other, "S")
    assert [(one.code, one.path) for one in problems] == [
        ("bad-curve", "stacks.other.layers[1].part")
    ]
    _, problems = try_whole(TEXT.replace("girth: waist%s", "radius: -5"), "S")
    assert [(one.code, one.path) for one in problems] == [("bad-curve", "stacks.bent.curve.radius")]
