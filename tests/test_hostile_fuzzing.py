"""Readers under random changes: they give a result or a problem, never another exception.

A longer run by hand: GUIDEGEN_FUZZ=20000 ./start pytest tests/test_hostile_fuzzing.py
"""

import os
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from samples import GUIDE, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError
from guidegen.geometry.drawing.svg_document import DrawingError, read_document

LONG = int(os.environ.get("GUIDEGEN_FUZZ", "0"))
"""Examples of each test in a run by hand; then each run draws others."""


def fuzz(examples: int) -> settings:
    """A bounded run that is the same each time, or a long one that is not."""
    return settings(
        max_examples=LONG or examples,
        deadline=None,
        derandomize=not LONG,
        database=None,
        suppress_health_check=[HealthCheck.too_slow],
    )


LINES = GUIDE.splitlines()
WORDS = (
    "", "~", "true", "0", "-1", "1e9", ".nan", "9" * 30, "[]", "{}", "[[]]", "{a: 1}", "!!set x",
    "&a", "*a", "<<", "|", ">", "---", "...", "? a", "'", '"', "#", "%", "@", "\t", "\u0000", "\ud800",
    "\u202e", "../../x", "a.svg", "x.md", "forearm", "1 / 0", "(" * 25, "cuff", "- id: a", "2 h",
)  # fmt: skip


@st.composite
def damaged_guides(draw):
    """The sample guide with lines taken out, doubled, moved, or given another value."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 5))):
        at = draw(st.integers(0, len(lines) - 1))
        what = draw(st.sampled_from(("out", "twice", "indent", "swap", "value", "cut", "insert")))
        other = draw(st.integers(0, len(lines) - 1))
        word = draw(st.sampled_from(WORDS))
        if what == "out" and len(lines) > 2:
            del lines[at]
        elif what == "twice":
            lines.insert(other, lines[at])
        elif what == "indent":
            lines[at] = "  " + lines[at]
        elif what == "swap":
            lines[at], lines[other] = lines[other], lines[at]
        elif what == "value":
            lines[at] = lines[at].partition(":")[0] + ": " + word
        elif what == "cut":
            lines[at] = lines[at][: other % (len(lines[at]) + 1)]
        else:
            middle = other % (len(lines[at]) + 1)
            lines[at] = lines[at][:middle] + word + lines[at][middle:]
    return "\n".join(lines)


@fuzz(150)
@given(text=damaged_guides())
def test_a_damaged_guide_is_read_or_told(text):
    """A changed guide is read and checked; every problem of it has a place in its folder."""
    with tempfile.TemporaryDirectory() as name:
        folder = write_content(Path(name))
        (folder / "cuff" / "guide.yaml").write_bytes(text.encode("utf-8", "surrogatepass"))
        try:
            problems = run_checks(read_content(folder))
        except ContentError as error:
            problems = error.problems
            assert problems
        assert all(problem.place.file.startswith(name) for problem in problems)


@fuzz(300)
@given(text=st.one_of(st.text(max_size=200), st.lists(st.sampled_from(WORDS)).map(" ".join)))
def test_any_text_is_a_tree_or_told(text):
    """Any text is read as YAML, or there are problems and no value."""
    value, source, problems = read_tree(text, "a.yaml")
    assert source.file == "a.yaml"
    assert value is None or not problems


PIECES = (
    "forearm", "1", "2.5", "1e9", "3/4 in", "1 1/2 in", "0/0 cm", "9" * 20, "pi", "min", "max(", "sqrt(",
    "(", ")", ",", "+", "-", "*", "/", "%", "**", "//", "@", "if", "else", "lambda:", "[", "]", ".", "'",
    "\\", "\n", "\u0000", "\ud800", "é", "=", ":=", "0x", "1_0", "j", "in", "for", "*", "await", "{", "}",
)  # fmt: skip


@fuzz(500)
@given(
    text=st.one_of(
        st.text(max_size=60),
        st.lists(st.sampled_from(PIECES), max_size=14).map(" ".join),
        st.lists(st.sampled_from(PIECES), max_size=14).map("".join),
    )
)
def test_any_text_is_arithmetic_or_told(text):
    """Any text gives a number within bounds, or an ExpressionError in words."""
    try:
        number = parse_expression(text).value({"forearm": 250.0})
    except ExpressionError as error:
        assert len(str(error)) > 10
    else:
        assert abs(number) <= 1e9


MARKS = (
    "<svg xmlns='http://www.w3.org/2000/svg'>", "<svg>", "</svg>", "<g>", "</g>", "<path d='M0 0'/>", "<a ",
    "id='a'", "href='#a'", "href='//b'", "/>", ">", "<!DOCTYPE a>", "<!--", "-->", "<![CDATA[", "]]>",
    "<style>", "</style>", "url(", "@import", "&#0;", "&#x41;", "&a;", "<?xml version='1.0'?>", "<?a?>",
    "\u0000", "\ud800", "xmlns:x='y'", "<x:b/>", "onload='a'", "words", "style='fill:url(#a)'",
)  # fmt: skip


@fuzz(300)
@given(text=st.lists(st.sampled_from(MARKS), max_size=20).map("".join))
def test_any_marks_are_a_drawing_or_told(text):
    """Any mixture of marks gives a tree without scripts, or a DrawingError with its file."""
    try:
        document = read_document(text, "a.svg")
    except DrawingError as error:
        assert error.problem.place.file == "a.svg"
    else:
        assert not any(key.startswith("on") for item in document.root.iter() for key in item.attrib)
