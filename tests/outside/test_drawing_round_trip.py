"""SVG in, graded by nothing, SVG out: the outline is where it was, within 0.01 mm.

Our own bound. The way back is judged by libraries of others: svgpathtools reads both path data,
Shapely measures the Hausdorff distance.
"""

import csv
import re
from pathlib import Path

import pytest
from geometry.drawing_samples import LEG, LEG_EDGES, good_drawing, svg, try_drawing
from shapely import LineString
from svgpathtools import Path as SvgPath
from svgpathtools import parse_path

from guidegen.geometry.outline.records import Shape
from guidegen.render.text.svg_paths import path_data

HANDBOOK = Path(__file__).parents[2] / "guidegen" / "handbook"
CORPUS = Path(__file__).parents[1] / "corpus" / "svg"

with (CORPUS / "expected.csv").open(newline="", encoding="utf-8") as table:
    SOUND = [row for row in csv.DictReader(table) if row["area"]]

NOTHING = """\
    spread:
      - {line: left, opens: calf - drawn_calf}
      - {line: right, opens: 0, hinge: end}
      - {line: length, opens: (ankle - drawn_ankle) / 3, hinge: start}
    grade: {left-top: {dx: calf - 360, dy: 0}}
"""
"""Grading that comes to nothing in size M."""


def polyline(path: SvgPath) -> LineString:
    """A path as some thousand straight pieces, evenly in each segment's parameter."""
    points = [segment.point(n / 200) for segment in path for n in range(201)]
    return LineString([(point.real, point.imag) for point in points])


def farthest(first: str, second: str) -> float:
    """Hausdorff distance in mm between two closed paths given as SVG path data."""
    return float(polyline(parse_path(first)).hausdorff_distance(polyline(parse_path(second))))


def outline_data(drawing: str) -> str:
    """Path data of the element whose id is outline."""
    match = re.search(r'<path id="outline"\s+d="([^"]+)"', drawing)
    assert match is not None
    return match[1]


def test_a_drawing_graded_by_nothing_comes_back():
    """A shin plate with spread lines and rules of nothing is the drawing again."""
    shape = good_drawing(LEG, LEG_EDGES + NOTHING, "M")
    assert farthest(outline_data(LEG), path_data(shape.ring(), 300, closed=True)) <= 0.01


def test_the_sample_of_the_handbook_comes_back():
    """The handbook's sample drawing, a page of 240 by 340 mm, is written out as it was drawn."""
    text = (HANDBOOK / "draw" / "sample-drawing.svg").read_text(encoding="utf-8")
    shape = good_drawing(text)
    assert farthest(outline_data(text), path_data(shape.ring(), 340, closed=True)) <= 0.01


def written(shape: Shape) -> str:
    """A shape as a new drawing."""
    holes = "".join(
        f'<path class="hole" d="{path_data(hole, 1000, closed=True)}"/>' for hole in shape.holes
    )
    outline = path_data(shape.ring(), 1000, closed=True)
    return svg(f'<path id="outline" d="{outline}"/>{holes}', 1000, 1000)


@pytest.mark.parametrize("row", SOUND, ids=[row["file"].removesuffix(".svg") for row in SOUND])
def test_every_sound_drawing_of_the_corpus_comes_back(row):
    """What is read, written and read again differs by at most 0.01 mm, holes included."""
    text = (CORPUS / row["file"]).read_text(encoding="utf-8")
    shape, _ = try_drawing(text, piece=row["piece"])
    assert shape is not None
    again = good_drawing(written(shape))
    rings = [shape.ring(), *shape.holes]
    for ring, other in zip(rings, [again.ring(), *again.holes], strict=True):
        first, second = (path_data(run, 1000, closed=True) for run in (ring, other))
        assert farthest(first, second) <= 0.01
