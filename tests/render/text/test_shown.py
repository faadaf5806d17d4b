"""Texts of the records that templates are given."""

from dataclasses import dataclass, field

import pytest
from markupsafe import Markup

from guidegen.quantities import Length
from guidegen.render.text.cache_key import NotKnownError, shown_text
from guidegen.words import Foreign


@dataclass(frozen=True)
class View:
    """A record as templates see it."""

    words: str
    more: str = field(default="", repr=False, compare=False)


DIFFERENT = (
    "1",
    1,
    1.0,
    True,
    None,
    b"1",
    Markup("1"),
    Foreign("1", "de"),
    Foreign("1", "fr"),
    Length("1", 1.0),
    Length("1", 1.04),
    ("1",),
    ("1", ""),
    (("1",), ""),
    ["1"],
    {"1": "2"},
    {"1": "2", "3": "4"},
    {"3": "4", "1": "2"},
    View("1"),
    View("1", "2"),
    View("1=2"),
    ("a", "b"),
    ("a3 b",),
    ("a)str 1 b",),
)


def test_what_a_template_can_tell_apart_has_another_text() -> None:
    """Kind, order, language, exact length and hidden fields all count."""
    texts = [shown_text(value) for value in DIFFERENT]
    assert len(set(texts)) == len(texts)


def test_sets_have_no_order() -> None:
    """The order in which a set happens to be gone through has no say."""
    assert shown_text({"b", "a", "c"}) == shown_text(frozenset("cba"))


@pytest.mark.parametrize("value", [object(), lambda: 1, iter(()), type("Named", (str,), {})("a")])
def test_what_is_not_known_has_no_text(value: object) -> None:
    """What may hold more than can be seen is refused, so that its page is made every time."""
    with pytest.raises(NotKnownError):
        shown_text((value,))
