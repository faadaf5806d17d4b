"""However a drawing is damaged, the author gets a shape or a problem, never a traceback."""

from pathlib import Path

import pytest
from geometry.drawing_samples import LEG, svg, try_drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.problems import Severity

SAMPLE = (
    Path(__file__).parents[3] / "guidegen" / "handbook" / "draw" / "sample-drawing.svg"
).read_text(encoding="utf-8")

SPREAD = """\
    spread:
      - {line: width, opens: 12}
      - {line: length, opens: -9, hinge: start}
    grade: {side: {dx: 5, dy: -2}}
"""

TOKENS = (
    "", " ", "0", "-1", "1e9", "1e-9", "nan", "M", "A", "z", "C", ",", '"', "<", "/>", "&amp;", "&x;",
    "#", "url(#a)", "matrix(", "scale(0)", "rotate(45)", "%", "em", "id", "class", "hole", "outline",
    "corner-", "é", "\u0000", "\ud7ff", "99999999999999999999", "00", "--", "<g>", "</g>",
)  # fmt: skip


@settings(max_examples=100, deadline=None, derandomize=True)
@given(
    edits=st.lists(
        st.tuples(st.integers(0, len(SAMPLE)), st.integers(0, 12), st.sampled_from(TOKENS)),
        min_size=1,
        max_size=4,
    )
)
def test_damaged_drawings_give_a_shape_or_a_problem(edits):
    """Parts of the sample drawing cut out or replaced: either a shape or an error comes of it."""
    text = SAMPLE
    for position, length, token in edits:
        text = text[:position] + token + text[position + length :]
    if text.lstrip().startswith(("<svg", "<?xml", "<!")):
        shape, problems = try_drawing(text, SPREAD)
        assert (shape is None) == any(p.severity is Severity.ERROR for p in problems)


numbers = st.floats(-400, 400).map(lambda number: f"{number:.3g}")
commands = st.tuples(st.sampled_from("MmLlHhVvCcSsQqTtAaZz"), st.lists(numbers, max_size=8)).map(
    lambda pair: pair[0] + " ".join(pair[1])
)


@settings(max_examples=100, deadline=None, derandomize=True)
@given(data=st.lists(commands, min_size=1, max_size=8))
def test_any_path_data_gives_a_shape_or_a_problem(data):
    """Random commands with random numbers are read, or refused with a reason."""
    body = f'<path id="outline" d="M100 100{" ".join(data)}"/><path id="spread-w" d="M90 -9V400"/>'
    part = "    spread: [{line: w, opens: 7}]\n"
    shape, problems = try_drawing(body, part)
    assert (shape is None) == any(p.severity is Severity.ERROR for p in problems)


@settings(max_examples=100, deadline=None, derandomize=True)
@given(
    ends=st.tuples(*[st.floats(-50, 300)] * 4),
    width=st.floats(-60, 60),
    hinge=st.sampled_from(["none", "start", "end"]),
)
def test_any_spread_line_gives_a_shape_or_a_problem(ends, width, hinge):
    """A spread line anywhere, opened by anything, either works or says why not."""
    x1, y1, x2, y2 = (f"{end:.2f}" for end in ends)
    line = f'<line id="spread-any" x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"/>'
    part = f"    spread: [{{line: any, opens: {width:.3f}, hinge: {hinge}}}]\n"
    shape, problems = try_drawing(LEG + line, part)
    assert (shape is None) == any(p.severity is Severity.ERROR for p in problems)


@pytest.mark.parametrize(
    "text", ["", " ", "\ufeff", "<svg", "<svg/>", "\x00", "<svg xmlns='x'/>", svg("")]
)
def test_drawings_that_are_none_give_a_problem(text):
    """Empty files and mere beginnings are refused."""
    shape, problems = try_drawing("<?xml version='1.0'?>" + text)
    assert shape is None
    assert problems[0].code.startswith("drawing-")
