"""Figures of what the trade builds: they are what the program draws, and nothing runs over."""

import pytest
from pictures.construction_figures import FIGURES, HANDBOOK
from pictures.drawing_lint import check_drawing
from pictures.holding_figures import FIGURES as HOLDING_FIGURES

from guidegen.render.text.svg import svg_file

ALL = FIGURES | HOLDING_FIGURES


@pytest.mark.parametrize("path", ALL)
def test_figures_of_constructions_are_as_drawn(path: str) -> None:
    """If not, tests/pictures/construction_figures.py or holding_figures.py draws FIGURES anew."""
    svg = svg_file(ALL[path]())
    check_drawing(svg)
    assert (HANDBOOK / path).read_text(encoding="utf-8") == svg
