"""The handbook's gallery of motions. Run it to draw the figure anew."""

from pathlib import Path

from guidegen.buildfile.records.motions import SAID, Motion
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.steps.actions import usual
from guidegen.pictures.steps.motions import BAND, draw_head
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

FIGURE = Path(__file__).parents[2] / "guidegen" / "handbook" / "write" / "pictures" / "motions.svg"

COLUMN, LETTERS = 112.0, 4.0
"""mm; width of a column of the gallery, and size of the words."""


def draw_motions() -> str:
    """All motions in two columns, each with the name that a process gives it."""
    rows = -(-len(Motion) // 2)
    said = "; ".join(f"{motion}: {SAID[motion]}" for motion in Motion)
    canvas = Canvas(2 * COLUMN, rows * BAND, "Motions of processes", f"{said}.", ENGLISH)
    for number, motion in enumerate(Motion):
        column, row = divmod(number, rows)
        left, top = column * COLUMN, (rows - row) * BAND
        at = (left + 2, top - BAND / 2 - LETTERS * 0.35)
        canvas.text(at, motion, LETTERS, css="label")
        draw_head(canvas, usual(motion), top, left + 18, COLUMN - 18)
    return svg_file(canvas.drawing())


if __name__ == "__main__":
    FIGURE.write_text(draw_motions(), encoding="utf-8")
