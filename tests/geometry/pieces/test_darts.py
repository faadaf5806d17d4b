"""A dart is closed before a seam that runs across its mouth."""

from pathlib import Path

import pytest
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.pieces.kit import make_kit

CAP = """\
  cap:
    name: Cap
    label: C
    material: foam-5
    shape: dome
    dimensions: {radius: 110, arc: 130, darts: 4, tip: 30}
  rim:
    name: Rim
    label: R
    material: foam-5
    shape: strip
    dimensions: {length: 100, width: 20}
seams:
  dart: {join: [cap.dart-1a, cap.dart-1b]}
  hem: {join: [cap.EDGE, rim.top], tolerance: 200}
"""

STEPS = """\
  - id: SEAM
    title: Join the SEAM
    stage: gluing
    process: gluing
    parts: [cap, rim]
    seams: [SEAM]
    text: Join them.
    time: 5 min
"""


def dart_problems(folder: Path, edge: str, order: tuple[str, str]) -> list[str]:
    """What the geometry of a darted cap says of the order of its seams."""
    guide = changed(GUIDE, "seams:\n", CAP.replace("EDGE", edge))
    guide += "".join(STEPS.replace("SEAM", seam) for seam in order)
    content = read_content(write_content(folder, guide=guide))
    _, problems = make_kit(content.guides[0], content.stock, "M")
    return [str(problem) for problem in problems if problem.code == "dart-open"]


@pytest.mark.parametrize("edge", ["rim-1", "rim-2"])
def test_seam_across_an_open_dart(tmp_path, edge):
    """A seam on either side of the mouth that comes before the dart is told with both steps."""
    (told,) = dart_problems(tmp_path, edge, ("hem", "dart"))
    assert (
        '"Join the hem" joins hem across the dart dart, which "Join the dart" closes only' in told
    )
    assert "steps[4].seams[0]" in told


def test_closed_dart_first(tmp_path):
    """Closing the dart first is the right order."""
    assert dart_problems(tmp_path, "rim-1", ("dart", "hem")) == []


def test_seams_elsewhere_are_free(tmp_path):
    """An edge that does not end at the dart may be joined whenever one likes."""
    assert dart_problems(tmp_path, "rim-3", ("hem", "dart")) == []


HORNS = """\
  horn-1: {name: Horn 1, label: H1, material: foam-5, shape: horn-segment, dimensions: &horn {girth: 200, length: 200, segments: 2, segment: 1, bend: 20}}
  horn-2: {name: Horn 2, label: H2, material: foam-5, shape: horn-segment, dimensions: {girth: 200, length: 200, segments: 2, segment: 2, bend: 20}}
seams:
  closing: {join: [horn-1.side, horn-1.side-2]}
  joint: {join: [horn-1.top, horn-2.bottom]}
"""  # fmt: skip


@pytest.mark.parametrize(("order", "told"), [(("joint", "closing"), 1), (("closing", "joint"), 0)])
def test_segments_of_a_horn_are_closed_before_their_rims_are_joined(tmp_path, order, told):
    """The earlier step is named with the one that closes the segment; the right order says nothing."""
    guide = changed(GUIDE, "seams:\n", HORNS.replace("&horn ", ""))
    guide += "".join(
        STEPS.replace("SEAM", seam).replace("[cap, rim]", "[horn-1, horn-2]") for seam in order
    )
    content = read_content(write_content(tmp_path, guide=guide))
    _, problems = make_kit(content.guides[0], content.stock, "M")
    found = [one for one in problems if one.code == "rim-open"]
    assert len(found) == told
    assert all('"Join the closing" closes only afterwards' in one.message for one in found)
