"""Start and breaks of a class, by the clock."""

import pytest

from guidegen.app.commands.people.clock import class_clock, class_hours
from guidegen.errors import UsageError


def test_minutes_from_the_start() -> None:
    """9:30 is minute 570 of the day; a break at 12:30 is 180 min from it; breaks are put in order,
    and over midnight the clock goes on."""
    assert class_clock("9:30", ["15:00-15:15", "12:30-13:30"], 7) == (
        570, ((180, 240), (330, 345)),
    )  # fmt: skip
    assert class_clock("22:00", ["23:45-0:15"], 4) == (1320, ((105, 135),))
    assert class_clock("", [], 3) == (None, ())


@pytest.mark.parametrize(
    ("start", "breaks", "words"),
    [
        ("9.30", [], "a time such as 9:30"),
        ("24:00", [], "a time such as 9:30"),
        ("", ["12:30-13:30"], "tell when the class begins"),
        ("9:30", ["12:30"], "two times such as"),
        ("9:30", ["13:30-12:30"], "inside the class"),
        ("9:30", ["9:00-10:00"], "inside the class"),
        ("9:30", ["16:00-17:00"], "inside the class"),
        ("9:30", ["12:30-13:30", "13:00-14:00"], "overlap"),
    ],
)
def test_slips_of_the_clock_are_told(start: str, breaks: list[str], words: str) -> None:
    """What is no time, or lies outside the class, is told with what was expected."""
    with pytest.raises(UsageError, match=words):
        class_clock(start, breaks, 7)


def test_an_end_tells_the_hours() -> None:
    """From 9:30 to 17:00 are 7.5 h, over midnight too; without either a class lasts 3 h."""
    assert class_hours(None, "9:30", "17:00") == 7.5
    assert class_hours(None, "22:00", "1:00") == 3
    assert (class_hours(None, "", ""), class_hours(2, "9:30", "")) == (3, 2)


@pytest.mark.parametrize(
    ("hours", "start", "end", "words"),
    [
        (3, "9:30", "17:00", "leave one of them out"),
        (None, "", "17:00", "tell when the class begins"),
        (None, "9:30", "9:30", "another time"),
        (None, "9:30", "17", "a time such as 17:00"),
        (0, "", "", "more than 0"),
        (101, "", "", "at most 100"),
    ],
)
def test_slips_of_the_hours_are_told(hours: float | None, start: str, end: str, words: str) -> None:
    """Two lengths, none, or an end without a start are told with what was expected."""
    with pytest.raises(UsageError, match=words):
        class_hours(hours, start, end)
