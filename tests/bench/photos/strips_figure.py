"""The figure of the handbook that shows a page of strips: ./start python tests/bench/photos/strips_figure.py"""

from pathlib import Path

from guidegen.bench.photos.frame import frame_pages
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

FIGURE = Path(__file__).parents[3] / "guidegen" / "handbook" / "draw" / "pictures" / "strips.svg"


def draw_strips() -> str:
    """The first page for A4."""
    return svg_file(frame_pages("a4", ENGLISH)[0])


if __name__ == "__main__":
    FIGURE.write_text(draw_strips(), encoding="utf-8")
