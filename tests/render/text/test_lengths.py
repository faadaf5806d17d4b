"""Lengths in words and drawings: which are recognised, and how they are marked."""

import re
import time

import pytest

from guidegen.pictures.pen.canvas import Canvas
from guidegen.render.text.lengths import find_lengths, mark_lengths
from guidegen.render.text.svg import page_svg, svg_file
from guidegen.words import ENGLISH


def lengths(text: str) -> list[tuple[str, float, str, bool]]:
    """What is found: words, mm, unit, whether the unit stands elsewhere."""
    return [
        (text[found.start : found.end], round(found.mm, 3), found.unit, found.bare)
        for found in find_lengths(text)
    ]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Leave 20 mm free.", [("20 mm", 20, "mm", False)]),
        ("2,5 mm tief", [("2,5 mm", 2.5, "mm", False)]),
        ("(8mm)", [("8mm", 8, "mm", False)]),
        ("1.5 cm wide", [("1.5 cm", 15, "cm", False)]),
        ("5 to 10 mm", [("5", 5, "mm", True), ("10 mm", 10, "mm", False)]),
        ("5\u201310\u00a0mm", [("5", 5, "mm", True), ("10\u00a0mm", 10, "mm", False)]),
        ("between 5 and 10 mm", [("5", 5, "mm", True), ("10 mm", 10, "mm", False)]),
        ("a sheet of 300 × 200 mm", [("300", 300, "mm", True), ("200 mm", 200, "mm", False)]),
        ("3/4 in from the rim", [("3/4 in", 19.05, "in", False)]),
        ("1 1/2 inches", [("1 1/2 inches", 38.1, "in", False)]),
        ("2-inch squares", [("2-inch", 50.8, "in", False)]),
        ("2\u00a0in", [("2\u00a0in", 50.8, "in", False)]),
        ("3\u00a0× 340\u00a0mm", [("340\u00a0mm", 340, "mm", False)]),
        ("240\u00a0mm to 2.6\u00a0m", [("240\u00a0mm", 240, "mm", False), ("2.6\u00a0m", 2600, "m", False)]),
    ],
)  # fmt: skip
def test_lengths_are_found(text, expected):
    """Metric lengths, ranges, sides of a sheet, inches with fractions, and what guidegen writes."""
    assert lengths(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "2 × 340 mm",  # two lengths, or two times one
        "3 at 20 mm",
        "5, 10 and 20 mm",
        "1,500 mm",
        "±1 mm",
        "-3 mm",
        "10 mm² and 8 cm³",
        "3 mm/s",
        "2 in total",
        "use 1/2 in each coat",
        "a roll of 5 m",
        "B20 mm",
        "20 mm (3/4 in)",
        "5 mmm",
    ],
)
def test_what_may_mean_something_else_is_left_alone(text):
    """Counts, areas, speeds, prepositions, and lengths that say themselves in both systems."""
    assert lengths(text) == []
    assert mark_lengths(text) == text


def test_marks_keep_the_words_and_escape_them():
    """A mark carries mm, and the author's unit where that is another; all else is escaped."""
    assert mark_lengths("<b> & 2.5 mm, 3 cm") == (
        '&lt;b&gt; &amp; <span class="length" data-mm="2.5">2.5 mm</span>, '
        '<span class="length" data-mm="30" data-written="cm">3 cm</span>'
    )


def test_drawings_are_marked_in_lettering_and_names():
    """Lettering takes elements; names say where their lengths stand, with escaped letters as one.

    Without the marks, the drawing in a page is the file but for what HTML does not know.
    """
    canvas = Canvas(90, 40, "A & B, 6 mm", "", ENGLISH)
    canvas.length((1, 1), 9, 3)
    for words in ("Foam < 6 mm; dimensions in mm", "offcut 500 × 244", "A1 · 2,5"):
        canvas.text((1, 1), words, 3)
    marked = page_svg(canvas.drawing())
    assert '<title data-lengths="7,11,6">A &amp; B, 6 mm</title>' in marked
    assert 'data-mm="9" ' in marked and ">9</text>" in marked
    assert (
        'Foam &lt; <tspan data-mm="6">6 mm</tspan>; dimensions in '
        '<tspan data-unit-name="">mm</tspan>'
    ) in marked
    assert '>500</tspan> × <tspan data-mm="244" data-drawn="">244</tspan>' in marked
    assert '>A1 · <tspan data-mm="2.5" data-drawn="">2,5</tspan></text>' in marked
    plain = re.sub(r'</?tspan[^>]*>| data-lengths="[^"]*"', "", marked)
    file = re.sub(
        r' (?:xmlns:ev|xmlns:xlink|baseProfile|version)="[^"]*"', "", svg_file(canvas.drawing())
    )
    assert plain == file


def test_long_texts_take_no_time():
    """The search grows with the text, whatever is in it."""
    started = time.process_time()
    for text in ("1 " * 50_000, "9" * 100_000, "1×" * 50_000, "1 mm " * 20_000, "1/2 " * 25_000):
        list(find_lengths(text))
    assert time.process_time() - started < 5
