"""Start, breaks and days of a class, by the clock."""

from pathlib import Path

import pytest

from guidegen.app.commands.people.clock import class_clock, class_hours, when_told
from guidegen.app.commands.people.when import WhenTold
from guidegen.errors import ContentError, UsageError
from guidegen.layout.class_hours import ClassDay


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


NAMES = ("Robin", "Kim", "Lou")


def test_days_of_options_follow_each_other() -> None:
    """Two days, a break in each that holds it: minutes from the first start on, through the night;
    days without a name are numbered; a single day is a class of one."""
    told = WhenTold(days=("Sat 9:30-16:00", "10:00-13:00"), breaks=("12:00-13:00", "11:00-11:15"))
    when = when_told(told, NAMES)
    assert (when.hours, when.start) == ((1470 + 180) / 60, 570)
    assert when.breaks == ((90, 105), (150, 210), (1530, 1545))
    assert when.days == (ClassDay(0, 390, "Sat"), ClassDay(1470, 1650, "2"))
    one = when_told(WhenTold(days=("Sat 9:30-16:00",)), NAMES)
    assert (one.days, one.hours) == ((), 6.5)


def test_days_of_a_file(tmp_path: Path) -> None:
    """A file tells hours alone, or with breaks, who is away, and dates: a week lies between."""
    path = tmp_path / "days.yaml"
    path.write_text(
        "Sat: {hours: 9:00-12:00, date: 2026-12-05}\n"
        "Next: {hours: 10:00-13:00, breaks: [11:00-11:30], away: Kim, date: 2026-12-12}\n",
        encoding="utf-8",
    )
    when = when_told(WhenTold(file=path), NAMES)
    start = 7 * 1440 + 60
    away = frozenset({1})
    assert when.days == (ClassDay(0, 180, "Sat"), ClassDay(start, start + 180, "Next", away))
    assert when.breaks == ((start + 60, start + 90),)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("Sat: 9-12", "two times such as"),
        ("Sat: {hours: 9:00-12:00, breaks: 13}", "expected breaks such as"),
        ("Sat: {hours: 9:00-12:00, brakes: 1}", 'did you mean "breaks"'),
        ("Sat: {hours: 9:00-12:00, date: soon}", "a date such as"),
        ("Sat: {hours: 9:00-12:00, date: 2026-12-05}\nSun: 9:00-12:00", "give all a date"),
        ("Sat: {hours: 9:00-12:00, away: Kin}\nSun: 9:00-12:00", 'did you mean "Kim"'),
        ("Sat: {hours: 9:00-12:00, away: Kim}", "Kim is away on all days"),
        ("Sat: {hours: 9:00-12:00, breaks: 12:30-13:00}", "outside the day"),
        ("Sat: {hours: 9:00-12:00, breaks: [10:00-11:00, 10:30-11:30]}", "overlap"),
        ("Sat: {hours: 9:00-12:00, date: 2026-12-05}\nSun: {hours: 9:00-12:00, date: 2026-12-04}",
         "begins before Sat has ended"),
        ("Sat: 22:00-21:00\nSun: 9:00-12:00", "begins before Sat has ended"),
        (f"{'x' * 21}: 9:00-12:00", "at most 20 letters"),
    ],
)  # fmt: skip
def test_slips_of_a_file_of_days_are_told(tmp_path: Path, written: str, words: str) -> None:
    """What is no day is told with its place, and what was expected."""
    path = tmp_path / "days.yaml"
    path.write_text(written + "\n", encoding="utf-8")
    with pytest.raises((UsageError, ContentError)) as raised:
        when_told(WhenTold(file=path), NAMES)
    error = raised.value
    told = [str(error), *(str(one) for one in getattr(error, "problems", ()))]
    assert words in " ".join(told)


@pytest.mark.parametrize(
    ("away", "at"),
    [("Kin", [(2, 32)]), ("[Kim, Robbin, Kin]", [(2, 38), (2, 46)])],
)
def test_unknown_names_of_who_is_away_are_told_where_they_stand(
    tmp_path: Path, away: str, at: list[tuple[int, int]]
) -> None:
    """Each name under `away` that nobody has is told at its own line and column, counted by hand,
    with the nearest one of the class, all of them at once."""
    path = tmp_path / "days.yaml"
    path.write_text(
        f"Sat: 9:00-12:00\nSun: {{hours: 9:00-12:00, away: {away}}}\n", encoding="utf-8"
    )
    with pytest.raises(ContentError) as raised:
        when_told(WhenTold(file=path), NAMES)
    problems = raised.value.problems
    assert [(one.place.line, one.place.column) for one in problems] == at
    nearest = {"Kin": "Kim", "Robbin": "Robin"}
    for one in problems:
        (name,) = [name for name in nearest if f'"{name}"' in one.message]
        assert one.message == f'nobody is called "{name}"; did you mean "{nearest[name]}"?'
    number = "[1]" if away.startswith("[") else ""
    assert problems[0].path == f"Sun.away{number}"


@pytest.mark.parametrize(
    ("told", "words"),
    [
        (WhenTold(3, days=("9:00-12:00",)), "leave --hours"),
        (WhenTold(days=("9:00-12:00",), file=Path("x")), "leave one of them out"),
        (WhenTold(file=Path("x"), breaks=("9:00-9:30",)), "breaks stand in the file"),
        (WhenTold(days=("Sat",)), 'such as "Saturday 9:30-16:00"'),
        (WhenTold(days=("9:00-12:00",), breaks=("13:00-14:00",)), "inside one of the days"),
        (WhenTold(days=("9:00-12:00",), breaks=("lunch",)), "two times such as"),
        (WhenTold(days=("A 9:00-12:00", "A 9:00-12:00")), "two days are called A"),
        (WhenTold(days=("9:00-12:00",) * 15), "at most 14"),
    ],
)
def test_slips_of_options_of_days_are_told(told: WhenTold, words: str) -> None:
    """Two ways to say when, and what is no day, are told."""
    with pytest.raises(UsageError, match=words):
        when_told(told, NAMES)
