"""A block of words on a template: with its picture it stays inside the room that it was given."""

import pytest
from pictures.drawing_lint import elements, lettering, path_points
from shapely import MultiPoint, Polygon, box

from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.templates.notes import KeyNote, WordLine, block_of, draw_note
from guidegen.pictures.templates.symbols import HandSymbol
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH


@pytest.mark.parametrize("angle", [0.0, 90.0])
def test_words_stand_beside_their_picture(angle: float) -> None:
    """Neither leaves the block's rectangle, and they do not touch."""
    canvas = Canvas(100, 100, "x", "", ENGLISH)
    block = block_of(WordLine("B1 Plate", 4), WordLine("cut 2", 3), symbol=HandSymbol(flipped=True))
    note = KeyNote(block, (50, 50), angle)
    draw_note(canvas, note, 0, 0)
    svg = svg_file(canvas.drawing())
    room = Polygon([(x, 100 - y) for x, y in note.ring(0.3)])
    symbol = MultiPoint(
        [point for path in elements(svg, "path") for point in path_points(path.get("d"))]
    ).envelope
    assert room.covers(symbol)
    for one in lettering(svg):
        words = box(one.left, one.top, one.right, one.bottom)
        assert room.covers(words), one
        assert words.distance(symbol) > 1, one
