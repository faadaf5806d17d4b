"""Figures of what the trade builds: they are what the program draws, and nothing runs over."""

import pytest
from pictures.construction_figures import FIGURES, PICTURES
from pictures.drawing_lint import check_drawing

from guidegen.render.text.svg import svg_file


@pytest.mark.parametrize("name", FIGURES)
def test_figures_of_constructions_are_as_drawn(name: str) -> None:
    """FIGURE: ./start python tests/pictures/construction_figures.py draws them anew."""
    drawing = FIGURES[name]()
    svg = svg_file(drawing)
    check_drawing(svg)
    assert (PICTURES / f"{name}.svg").read_text(encoding="utf-8") == svg
