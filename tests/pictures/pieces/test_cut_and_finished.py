"""A piece with allowances says which of its measures are finished ones, and which it is cut to."""

from geometry.kit_samples import only_piece
from pictures.drawing_lint import description, words
from pictures.english import draw_piece

BAND = """\
parts:
  band:
    name: Band
    label: A
    material: foam-5
    shape: strip
    dimensions: {length: 99, width: 19}
"""
TRIM = "    allowances: {left: {kind: trim, width: 10}, right: {kind: trim, width: 10}}\n"
SENTENCE = "Dimension lines show the piece as cut, with its allowances."


def test_dimension_lines_are_told_from_finished_measures():
    """A band of 99 mm with 10 mm to trim at both ends: its dimension line says 119 and that this is
    what is cut; what it is when finished stands in its description, and in the list beside it."""
    svg = draw_piece(only_piece(BAND + TRIM), "m")
    said = words(svg)
    assert "119" in said
    assert SENTENCE in said
    assert not any(word.startswith("finished") for word in said)
    assert "finished: length 99 mm" in description(svg)


def test_without_allowances_there_is_nothing_to_tell_apart():
    """The same band without allowances is cut as it is finished."""
    svg = draw_piece(only_piece(BAND), "m")
    assert "99" in words(svg)
    assert SENTENCE not in words(svg)
    assert "finished" not in description(svg)
