"""Arithmetic on measurements."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.buildfile.yaml.expressions import Expression, ExpressionError, parse_expression


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12),
        ("3/4 in", 19.05),
        ("1 1/2 in", 38.1),
        ("60 cm", 600),
        ("0.5 m", 500),
        ("2.5mm", 2.5),
        ("calf + 20", 390),
        ("calf + 2*pi*(3 + 0.5*5 mm)", 370 + 2 * math.pi * 5.5),
        ("max(calf, ankle) - min(calf, ankle)", 130),
        ("floor(calf / 30) + 1", 13),
        ("-ankle + 3/4 in * 2", -240 + 38.1),
        ("sin(30) * 100", 50),
        ("(calf - ankle)**2", 130**2),
    ],
)
def test_values(text: str, value: float) -> None:
    """Numbers, units, fractions, names, functions and powers give what a person would get."""
    assert parse_expression(text).value({"calf": 370, "ankle": 240}) == pytest.approx(value)


@pytest.mark.parametrize(
    ("source", "message"),
    [
        ("calf +", "cannot read"),
        ("", "found nothing"),
        (True, "expected a number"),
        (None, "expected a number"),
        ("calf ^ 2", "write ** for a power"),
        ("calf // 2", "write floor"),
        ("calf.real", "measurement names only"),
        ("__import__('os')", "no function"),
        ("(lambda: 1)()", "measurement names only"),
        ("[1, 2]", "measurement names only"),
        ("'a' * 3", "measurement names only"),
        ("sinus(3)", 'no function "sinus"; did you mean "sin"?'),
        ("pi(2)", 'no function "pi"'),
        ("max + 1", "needs brackets"),
        ("1e12", "too large"),
        ("3/0 in", "divides by zero"),
        ("9" * 400, "longer than 300"),
        ("(" * 25 + "1" + ")" * 25, "levels of brackets"),
        ("1 if 2 else 3", "measurement names only"),
        ("3 furlongs", "is no unit"),
        ("calf - 2ease", "or a star between them, as in 2*ease"),
        ("2 strap_overlap", "as in 2*strap_overlap"),
        ("60 ft", "3/4 in$"),
    ],
)
def test_refused_when_read(source: object, message: str) -> None:
    """What is not arithmetic is refused with what was expected."""
    with pytest.raises(
        ExpressionError, match=message.replace("(", r"\(").replace("?", r"\?").replace("*", r"\*")
    ):
        parse_expression(source)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("calff", 'no measurement or value "calff"; did you mean "calf"?'),
        ("1 / (calf - 370)", "divides by zero"),
        ("calf ** 9", "power 9 is too large"),
        ("(-calf) ** 0.5", "root of a negative"),
        ("sqrt(-calf)", "out of range"),
        ("calf ** 8", "not a sensible number"),
        ("round(calf, 1, 2)", "too many arguments"),
        ("max(1)", "too few"),
    ],
)
def test_refused_when_worked_out(text: str, message: str) -> None:
    """What has no finite value is refused, whatever the measurements are."""
    with pytest.raises(ExpressionError) as caught:
        parse_expression(text).value({"calf": 370.0})
    assert message in str(caught.value)


def test_names_are_collected() -> None:
    """An expression knows the names that it needs, without functions and constants."""
    assert parse_expression("max(a_b, 2*pi) - c").names == {"a_b", "c"}


def test_equal_when_written_alike() -> None:
    """Two readings of the same text are equal, so that unchanged content compares equal."""
    assert parse_expression("a + 1") == parse_expression("a + 1")
    assert parse_expression(5) == parse_expression(5.0) == Expression("5")


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text whatever brings anything but a number or an ExpressionError."""
    try:
        value = parse_expression(text).value({"a": 1.0})
    except ExpressionError:
        return
    assert math.isfinite(value)


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_agrees_with_python(a: float, b: float) -> None:
    """Sums and products are those of Python itself."""
    names = {"a": a, "b": b}
    assert parse_expression("a + b - 2*a").value(names) == a + b - 2 * a


@pytest.mark.parametrize("text", ["60 ft", '3/4"', "12inch", "calf + 2 yd"])
def test_unknown_units_are_told_with_those_that_there_are(text):
    """A unit that is none is named, and the message lists all that an author may write."""
    with pytest.raises(ExpressionError, match="is no unit; expected mm, cm, m or in"):
        parse_expression(text)


@pytest.mark.parametrize(
    ("text", "value"), [("6.5e-05", 6.5e-05), ("2E+3", 2000.0), ("1e2 + 1", 101.0)]
)
def test_an_exponent_is_no_unit(text, value):
    """YAML 1.2 writes small and large numbers with an exponent (10.2.1.4); so may build files."""
    assert parse_expression(text).value({}) == pytest.approx(value)
