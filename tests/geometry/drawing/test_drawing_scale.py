"""A line that says how long it is finds every slip of scale."""

import pytest
from geometry.drawing_samples import codes, svg, try_drawing

PLATE = '<path class="outline" d="M10 10h100v60h-100z"/>'


def scale_message(drawn: float, stated: str) -> str:
    """What is said about a scale line drawn `drawn` mm long that should be `stated`."""
    line = f'<line id="check" class="scale" data-length="{stated}" x1="9" x2="{9 + drawn}"/>'
    _, problems = try_drawing(PLATE + line)
    assert [problem.code for problem in problems] == ["drawing-scale"]
    assert problems[0].message.startswith('line "check" should be ')
    return problems[0].message


@pytest.mark.parametrize("made", [72, 90, 96])
@pytest.mark.parametrize("read", [72, 90, 96])
def test_the_slip_of_the_units_to_the_inch_is_named(made, read):
    """A drawing made at one of 72, 90 and 96 units to the inch and read at another is recognised.

    100 mm were drawn as 100 / 25.4 * made units, which measure 25.4 / read mm each.
    """
    drawn = 100 / 25.4 * made * 25.4 / read
    if made == read:
        line = f'<line class="scale" data-length="100 mm" x1="0" x2="{drawn}"/>'
        assert codes(PLATE + line) == []
    else:
        message = scale_message(drawn, "100 mm")
        assert f"drawn at {made} units to the inch and read at {read}" in message


@pytest.mark.parametrize(
    ("drawn", "stated", "words"),
    [
        (4, "4 in", "inches were read as mm"),
        (10, "10 cm", "cm were read as mm"),
        (100, "10 mm", "mm were read as cm"),
        (100 / 25.4 * 72, "100 mm", "points were read as mm"),
        (100 / 25.4 * 96, "100 mm", "px were read as mm"),
        (100 * 25.4 / 72, "100 mm", "mm were read as points"),
        (100 * 25.4 / 96, "100 mm", "mm were read as px"),
    ],
)
def test_other_slips_are_named(drawn, stated, words):
    """Units taken for one another are recognised by their ratio."""
    assert words in scale_message(drawn, stated)


def test_an_unknown_ratio_is_stated_plainly():
    """Both lengths and the factor to correct are stated where no slip explains the difference."""
    _, problems = try_drawing(
        PLATE + '<line id="check" class="scale" data-length="100 mm" x1="0" x2="97"/>'
    )
    assert problems[0].message == 'line "check" should be 100 mm long but measures 97 mm'
    assert "103.09 %" in problems[0].cure


@pytest.mark.parametrize("drawn", [99.85, 100.15])
def test_a_fifth_of_a_millimetre_in_a_hundred_is_allowed(drawn):
    """Rounding by an editor is no slip: 0.1 mm and 0.1 % are allowed."""
    line = f'<line class="scale" data-length="100 mm" x1="0" x2="{drawn}"/>'
    assert codes(PLATE + line) == []


def test_a_scale_line_may_lie_anywhere_in_the_file():
    """A scale line counts for every piece of its file."""
    body = f'<g id="front">{PLATE}</g><line class="scale" data-length="50 mm" x1="0" x2="60"/>'
    assert codes(body, piece="front") == ["drawing-scale"]


def test_pixels_need_a_scale_line():
    """A drawing in px is refused with what to do, since a px has had three lengths."""
    text = svg(PLATE).replace("mm", "px")
    _, problems = try_drawing(text)
    assert [problem.code for problem in problems] == ["drawing-no-unit"]
    assert "mm, cm or in" in problems[0].cure
