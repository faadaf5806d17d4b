"""Strips to print: what stands on them, and that they come out at true size."""

import cv2
import numpy as np
import pytest
from bench.photos.strips_figure import FIGURE, draw_strips

from guidegen.bench.photos.frame import frame_pages
from guidegen.bench.photos.strips import CODES, MARKERS, STRIPS, marker_bits
from guidegen.pictures.pen.records import Rectangle, groups
from guidegen.render.text.svg import svg_file
from guidegen.units import PAPERS
from guidegen.words import ENGLISH, read_words


def test_markers_are_those_of_the_published_family():
    """Each marker has the bits of 36h11 (Olson, AprilTag, ICRA 2011) as OpenCV ships them."""
    family = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    for number in range(STRIPS * MARKERS):
        bits = cv2.aruco.Dictionary.getBitsFromByteList(family.bytesList[number : number + 1], 6)
        assert np.array_equal(bits.astype(bool), np.array(marker_bits(number)))
    assert len(CODES) == STRIPS * MARKERS


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_pages_fit_their_paper(paper):
    """All that is drawn keeps 10 mm from the paper's edge, and the square is 50 mm each way."""
    size = PAPERS[paper]
    for page in frame_pages(paper, ENGLISH):
        assert (page.width, page.height) == (size.width, size.height)
        boxes = [one for one in page.items if isinstance(one, Rectangle)]
        boxes += [
            one for group in groups(page.items) for one in group.items if isinstance(one, Rectangle)
        ]
        assert all(box.x >= 10 and box.x + box.width <= size.width - 10 for box in boxes)
        assert all(box.y >= 10 and box.y + box.height <= size.height - 10 for box in boxes)
        assert any((box.width, box.height) == (50, 50) for box in boxes)


def test_figure_of_the_handbook_is_a_page():
    """FIGURE is drawn as it is now; if not: ./start python tests/bench/photos/strips_figure.py"""
    assert FIGURE.read_text(encoding="utf-8") == draw_strips()


def test_strips_are_made_in_german():
    """Words on strips follow the language that is asked for."""
    assert "Streifen trennen" in svg_file(frame_pages("a4", read_words("de"))[0])
