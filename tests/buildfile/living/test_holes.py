"""Living numbers between braces: what can be written, how it is rounded, what is refused."""

import pytest

from guidegen.buildfile.living.holes import (
    Ask,
    HoleError,
    Reads,
    fill_holes,
    find_holes,
    parse_living,
)
from guidegen.buildfile.living.texts import number_words
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.words import ENGLISH, SPACE, read_words

NAMES = {"belt_free": 171.8, "belt_plates": 7.0}


def value_of(text: str, answer: float = 0.0) -> float:
    """The number of what stands between braces."""
    return parse_living(text).value(NAMES, lambda ask: answer)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("belt_free", 172.0),
        ("belt_free : to 5 mm", 170.0),
        ("belt_free : up to 5", 175.0),
        ("belt_free:down to 1 cm", 170.0),
        ("belt_free : to 1/2 in", 177.8),
        ("2*belt_plates + 1 : count", 15.0),
        ("belt_free / 10 : number", 17.18),
        ("atan(1) : degrees", None),
    ],
)
def test_a_number_is_rounded_as_its_author_says(text, value):
    """Lengths to whole mm unless told otherwise; up and down as told; an inch is 25.4 mm."""
    if value is None:
        with pytest.raises(HoleError, match="no function"):
            parse_living(text)
    else:
        assert value_of(text) == pytest.approx(value)


def test_edges_of_parts_with_hyphens_are_asked_for_by_name():
    """edge(chest-front, armhole) is one question and no subtraction."""
    living = parse_living("edge(chest-front, armhole)/8 : to 0.5")
    assert living.asks == (Ask("edge", ("chest-front", "armhole")),)
    assert living.names == frozenset()
    assert living.value({}, lambda ask: 210.0) == 26.5


def test_a_count_that_is_no_whole_number_is_refused():
    """Nine and a half studs cannot be punched."""
    with pytest.raises(ExpressionError, match=r"expected a whole number, found 3\.5"):
        value_of("belt_plates/2 : count")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("belt_free : cubits", "expected after the colon length"),
        ("belt_free : to 0", "to round to more than 0"),
        ("edge(cuff)", r"expected edge\(part, edge\)"),
        ("belt_free +", "cannot read"),
        ("__import__('os')", "cannot read|no function|expected arithmetic"),
    ],
)
def test_what_cannot_be_read_is_told(text, message):
    """Each refusal says what was expected."""
    with pytest.raises(HoleError, match=message):
        parse_living(text)


def test_doubled_braces_are_braces():
    """`{{x}}` prints {x}; an empty pair, or a hole that cannot be read, stays as it is."""
    assert fill_holes("{{x}} {belt_free} {} {a b}", lambda living: "172 mm") == (
        "{x} 172 mm {} {a b}"
    )
    assert [hole.text for hole in find_holes("a {b} {{c}}")] == ["b", "", ""]


def test_numbers_are_written_as_the_language_writes_them():
    """Half millimetres are kept below 100 mm, with the decimal sign of the language."""
    bare = parse_living("belt_free : bare")
    assert number_words(parse_living("belt_free"), 26.5, ENGLISH) == f"26.5{SPACE}mm"
    assert number_words(bare, 26.5, read_words("de")) == "26,5"
    assert bare.reads is Reads.BARE
