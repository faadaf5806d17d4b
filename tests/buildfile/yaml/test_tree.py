"""YAML text to values with places."""

import random
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.buildfile.yaml import tree
from guidegen.buildfile.yaml.tree import MAX_VALUES, read_tree

SHIPPED = Path(tree.__file__).parents[2]
NEEDS_C = pytest.mark.skipif(
    not hasattr(yaml, "CSafeLoader"), reason="PyYAML was built without the parser in C"
)


def _problem(text: str) -> str:
    value, _, problems = read_tree(text, "f.yaml")
    assert value is None
    return str(problems[0])


def test_every_value_has_its_place() -> None:
    """Keys and values know line and column, in block and in flow style."""
    _, source, problems = read_tree("a: 1\nb:\n  - x\n  - {c: 2.5}\n", "f.yaml")
    assert not problems
    assert str(source.place(("b", 1, "c"))) == "f.yaml:4:9"
    assert str(source.place(("b", 1, "c"), key=True)) == "f.yaml:4:6"
    assert str(source.place(("b", 7, "nothing"))) == "f.yaml:3:3"


def test_plain_words_stay_words() -> None:
    """YAML 1.2: no, on, 1:30 and dates are texts; only true, false and null are special."""
    value, _, _ = read_tree("[no, on, 1:30, 2026-11-25, true, ~, 007, 1e3, .5, '1']", "f.yaml")
    assert value == ["no", "on", "1:30", "2026-11-25", True, None, 7, 1000.0, 0.5, "1"]


def test_truth_and_nothing_have_three_spellings_each() -> None:
    """YAML 1.2.2, 10.3.2: null, true and false in lower, capital and upper letters, no others."""
    value, _, problems = read_tree(
        "[true, True, TRUE, false, False, FALSE, null, Null, NULL, ~, tRue, fALSE, nUll, off]", "f"
    )
    assert not problems
    assert value == [*[True] * 3, *[False] * 3, *[None] * 4, "tRue", "fALSE", "nUll", "off"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a: 1\na: 2", "f.yaml:2:1  a: the key stands twice, first in line 1"),
        ("a: [1", "f.yaml:"),
        (
            "a: b: c",
            "f.yaml:1:5  not readable as YAML: a text with a colon and a blank in it needs",
        ),
        (
            "a:\n  b: 1\n   c: 2",
            "f.yaml:3:4  not readable as YAML: this line begins in column 4, the one",
        ),
        ("a:\n   b: 1\n  c: 2", "above it (line 2) in column 4; keys of one record"),
        ("a:\n  - b: 1\n\n   # c\n   c: 2", "in column 4, the one above it (line 2) in column 5"),
        ("a:\n  b: 1\n- c", "f.yaml:3:3  not readable as YAML: a dash stands here among keys"),
        ("a:\n  b\n  c: 2", 'f.yaml:2:3  not readable as YAML: no colon after "b"'),
        ("a:b\nc: 2", 'f.yaml:1:1  not readable as YAML: no blank after "a:"'),
        ("a: [1, 2\nb: 3", 'the "[" that opens in line 1 is not closed with "]" before this'),
        ("a: {b: 1\nc: 3", 'the "{" that opens in line 1 is not closed with "}" before this'),
        ("a: {b: 1}}", 'f.yaml:1:10  not readable as YAML: this "}" closes nothing'),
        ("a: 'it's'", "f.yaml:1:8  not readable as YAML: more stands here, though the value ended"),
        (
            'b: 1\na: "c\nd: 2\n',
            "f.yaml:2:4  not readable as YAML: the quote that opens here is not",
        ),
        ("a: @b", 'f.yaml:1:4  not readable as YAML: a text that begins with "@" needs quotes'),
        ("a: - b", "a list with dashes begins on a line of its own"),
        ("a:\n\t- b", "indent with spaces"),
        ("a: !!python/object/apply:os.system [ls]", "tags such as"),
        ("a: *b", "before its anchor"),
        ("a: &x [*x]", "before its anchor"),
        ("<<: {a: 1}", "merge keys"),
        ("? [1]\n: 2", "expected a plain word as key"),
        ("a: 1\n---\nb: 2", "second one"),
        ("[" * 100, "levels of nesting"),
        ("a: \x01", "not readable as YAML"),
    ],
)
def test_refused(text: str, message: str) -> None:
    """What guidegen does not read is refused at its place, in plain words."""
    assert message in _problem(text)


def test_caret_stands_under_the_slip() -> None:
    """A problem shows the source line with a caret under the column."""
    assert _problem("ab: 1\nab: 2").splitlines()[1:3] == ["    ab: 2", "    ^"]


def test_alias_bomb_is_stopped() -> None:
    """Aliases that would grow a small file beyond all measure are counted, not built."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    for number in range(1, 12):
        lines.append(f"a{number}: &a{number} [" + ", ".join([f"*a{number - 1}"] * 10) + "]")
    assert f"more than {MAX_VALUES}" in _problem("\n".join(lines))


def test_too_large_file() -> None:
    """A file beyond the limit is refused before it is parsed."""
    assert "larger than" in _problem("a: " + "x" * 1_000_001)


@settings(max_examples=200)
@given(st.text(alphabet="ab:-[]{}&*!|>'\"#% \n\t,?", max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text brings an exception: there is a value, or a problem with a place."""
    value, _, problems = read_tree(text, "f.yaml")
    assert not (problems and value is not None)
    assert all(problem.place.file == "f.yaml" for problem in problems)


def _both_ways(text: str, monkeypatch: pytest.MonkeyPatch) -> tuple[object, object]:
    """What the parser in C and the one in Python give, or the latter alone twice."""
    tree._read.cache_clear()
    quick = read_tree(text, "f.yaml")
    tree._read.cache_clear()
    with monkeypatch.context() as without:
        without.delattr(yaml, "CSafeLoader")
        careful = read_tree(text, "f.yaml")
    tree._read.cache_clear()
    return quick, careful


@NEEDS_C
@pytest.mark.parametrize(
    "text",
    [
        "{a: [b, c: ]}",  # an empty value in {}: its column differs
        "{a: b?c, d: e}",
        "[? a, b]",
        "a:\n\t- b",
        "{a: b\t, c: d}",
        "a\ufeffb: c",
        "a: b\u2028c: d",
        "a: b\x85c: d",
        "a: 1\na: 2",
        "a: [b",
        "a: @b",
        "a: 1\n? ",
        "- ? ",
    ],
)
def test_parsers_that_differ_are_not_mixed(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the parser in C takes a text otherwise, what is told is what the one in Python says."""
    quick, careful = _both_ways(text, monkeypatch)
    assert quick == careful


@NEEDS_C
def test_the_parser_in_c_reads_what_guidegen_ships() -> None:
    """Nothing of what it ships has to be read a second time."""
    for path in (
        SHIPPED / "trade" / "stock.yaml",
        SHIPPED / "starter" / "first-cuff" / "guide.yaml",
    ):
        text = path.read_text(encoding="utf-8")
        assert not tree._READ_OTHERWISE.search(text), path
        value, _, _ = tree._built(text, "f.yaml", tree._alike_events(text), again=True)
        assert value, path


@NEEDS_C
def test_damaged_files_are_read_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    """Both parsers give the same values, places and problems of files with slips."""
    chance = random.Random(5)
    marks = [*"\t\n \r:-?,[]{}#&*!|>'\"%@`\\~=", "- ", "? ", ": ", " #", "---\n", "...\n", "|-\n"]
    marks += [">+2\n", "&a ", "*a", "!!str ", "<<: ", "\r\n", "''", '"\\u0041"', "{a:1}", "\ufeff"]
    lines = (SHIPPED / "trade" / "stock.yaml").read_text(encoding="utf-8").splitlines(True)
    for _ in range(250):
        first = chance.randrange(len(lines))
        text = "".join(lines[first : first + 12])
        for _ in range(chance.randrange(1, 4)):
            at = chance.randrange(len(text) + 1)
            text = text[:at] + chance.choice(marks) + text[at + chance.choice((0, 0, 2)) :]
        quick, careful = _both_ways(text, monkeypatch)
        assert quick == careful, text
