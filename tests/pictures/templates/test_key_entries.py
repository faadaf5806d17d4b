"""Samples of lines in the key of the templates: each looks as the line does on a page."""

import pytest
from pictures.drawing_lint import elements, words

from guidegen.geometry.outline.records import LineKind
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.linestyles import CUT, FAR_FACE, INNER, MARK, LineStyle
from guidegen.pictures.templates.key.parts import KeyEntry, draw_key_entry
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH


@pytest.mark.parametrize(
    ("style", "sample", "cuts", "own"),
    [
        (CUT, "line", 1, 1),
        (FAR_FACE, "bevel", 1, 1),
        # Ticks are drawn with the stroke of a cut: one cut and three of them.
        (MARK, "ticks", 4, 4),
        (INNER[LineKind.TEXTURE], "texture", 0, 1),
    ],
)
def test_a_sample_shows_its_line_beside_the_cut(
    style: LineStyle, sample: str, cuts: int, own: int
) -> None:
    """A bevel's line runs beside the cut, ticks stand on it, a texture is an area in its line."""
    canvas = Canvas(200, 50, "x", "", ENGLISH)
    below = draw_key_entry(canvas, (10, 40), 150, KeyEntry(style, sample))
    svg = svg_file(canvas.drawing())
    looks = [
        (float(path.get("stroke-width")), path.get("stroke-dasharray"))
        for path in elements(svg, "path")
        if path.get("stroke") not in {None, "none"}
    ]

    def dashes(one: LineStyle) -> str | None:
        return " ".join(f"{dash:g}" for dash in one.stroke.dash) or None

    def drawn(one: LineStyle) -> int:
        return looks.count((one.stroke.width, dashes(one)))

    assert drawn(style) == own
    assert drawn(CUT) == cuts
    assert words(svg)
    assert below < 40 - 8.4
