"""Edges of a seam that do not lie against each other: two thicknesses, or a slant against a square."""

import pytest
from geometry.kit_samples import guide_file, stock

from guidegen.geometry.pieces.kit import make_kit

GUIDE = """\
parts:
  one:
    name: One
    label: A
    material: {one}
    shape: strip
    dimensions: {{length: 200, width: 40}}
{bevel}
  two:
    name: Two
    label: B
    material: {two}
    shape: strip
    dimensions: {{length: 200, width: 40}}
{other}
seams:
  side: {{join: [one.top, two.top]}}
"""
BEVEL = "    bevels: {top: {angle: 45, direction: inward}}"


@pytest.mark.parametrize(
    ("one", "two", "bevel", "other", "found"),
    [
        ("foam-5", "foam-5", "", "", []),
        ("foam-10", "foam-5", "", "", ["seam-thickness"]),
        ("foam-5", "foam-5", BEVEL, BEVEL, []),
        ("foam-5", "foam-5", BEVEL, "", ["seam-bevel"]),
        ("foam-5", "foam-5", "", BEVEL, ["seam-bevel"]),
    ],
)
def test_edges_that_do_not_meet_are_told(one, two, bevel, other, found):
    """A step and a wedge are each told once, at the seam; like edges pass."""
    file = guide_file(GUIDE.format(one=one, two=two, bevel=bevel, other=other))
    _, problems = make_kit(file, stock(), next(iter(file.size_names())))
    assert [p.code for p in problems if p.code.startswith("seam-")] == found
    assert all(p.path == "seams.side.join" for p in problems if p.code in found)
