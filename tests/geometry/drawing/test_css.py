"""Styles of drawings: what would load something, and what is harmless."""

import pytest

from guidegen.geometry.drawing.css import declarations, loads, safe_declarations

# CSS Values and Units Level 4 and CSS Images Level 4: functions with an address in them.
LOADING = ["url(%s)", 'src("%s")', 'image("%s")', 'image-set("%s" 1x)', "element(%s)"]
LOADING += ['-webkit-image-set("%s" 1x)', 'cross-fade("%s", red)']


@pytest.mark.parametrize("function", LOADING)
def test_what_loads_is_told(function: str) -> None:
    """Each function that may fetch another file is found with what it names, in brackets too."""
    assert loads(f"fill: {function % 'other.png'}") == "other.png"
    assert loads(f"fill: {function % '#leaf'}") is None
    assert loads(f"@media print {{ path {{ fill: {function % 'other.png'} }} }}") == "other.png"


@pytest.mark.parametrize(
    ("value", "kept"),
    [
        ("rgb(1 2 3)", "rgb(1 2 3)"),
        ("url(#leaf)", "url(#leaf)"),
        ("calc(1px)", "calc(1px)"),
        ("url(leaf.png)", ""),
        ("element(#leaf)", ""),
        ("attr(id)", ""),
        ("{ red }", ""),
        ("[ red ]", ""),
        ("@x", ""),
        ("calc(calc(calc(calc(1px))))", ""),
    ],
)
def test_values_are_written_anew_or_left_out(value: str, kept: str) -> None:
    """What is not known to be harmless does not stay: blocks, unknown functions, deep brackets."""
    written = safe_declarations(f"fill: {value}", {"fill"})
    assert written == (f"fill: {kept}" if kept else "")


def test_declarations_tell_property_value_and_weight() -> None:
    """Names in lower case, values as written, comments left out."""
    css = "FILL: Red; /* no */ stroke: #123 !important"
    assert declarations(css) == [("fill", "Red", False), ("stroke", "#123", True)]
