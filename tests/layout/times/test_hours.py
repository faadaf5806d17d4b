"""Working hours: hands work in the evening and on free days, drying goes on at night."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from layout.step_samples import guide_of
from pydantic import ValidationError

from guidegen.buildfile.records.site import WorkingHours
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.hours import DAY, Hours, site_hours
from guidegen.layout.schedules import Schedule
from guidegen.layout.times.plans import plan_team, plan_teams

HOUR = 60.0
USUAL = Hours(3 * HOUR, 7 * HOUR)
"""Seven hours from 10:00 on two free days, then three from 18:00 on five evenings."""


def plan(*steps: dict[str, object], hours: Hours | None = USUAL, people: int = 1) -> Schedule:
    """A plan of steps on one part, each after the one before it."""
    return plan_team(guide_of(*({"parts": ["p"], **s} for s in steps)), Stock(), people, hours)


def spans(plan: Schedule) -> list[list[tuple[float, float]]]:
    """When each step is worked on, in hours from the start."""
    return [[(a / HOUR, b / HOUR) for a, b in slot.spans] for slot in plan.slots]


def test_long_work_is_laid_down_for_the_night_and_taken_up_again():
    """Nine hours from 10:00: seven on the first free day, two on the second; then seven more."""
    made = plan({"id": "cut", "time": 9 * HOUR}, {"id": "sand", "time": 7 * HOUR})
    assert spans(made) == [[(0, 7), (24, 26)], [(26, 31), (56, 58)]]
    assert (made.days, made.work_days) == (3, (1, 2))
    assert made.hands_on == 16 * HOUR


def test_what_dries_goes_on_at_night():
    """Glued until 16:00 and left for 14 hours, it is ready at 06:00: the next day begins at 10:00."""
    made = plan({"id": "glue", "time": 6 * HOUR, "wait": "14 h"}, {"id": "paint", "time": 30})
    assert spans(made) == [[(0, 6)], [(24, 24.5)]]
    assert plan({"id": "glue", "time": 30, "wait": "14 h"}).elapsed == 14.5 * HOUR


def test_evenings_begin_at_six_and_a_week_has_two_free_days():
    """35 h: 7 on each free day, then 3 from 18:00 on, 56 h after the first 10:00, and so on."""
    made = plan({"id": "all", "time": 35 * HOUR})
    starts = [start for start, _ in spans(made)[0]]
    assert starts == [0, 24, 56, 80, 104, 128, 152, 168]
    assert (made.days, made.work_days) == (8, (5, 3))


def test_short_work_is_done_in_one_go():
    """Half an hour is left: an hour of glue waits for the next day, a short job takes its place."""
    guide = guide_of(
        {"id": "cut", "parts": ["p"], "time": 6.5 * HOUR},
        {"id": "glue", "parts": ["p"], "time": HOUR},
        {"id": "mark", "parts": ["q"], "time": 25},
    )
    made = plan_team(guide, Stock(), 1, USUAL)
    assert [(slot.step, slot.start / HOUR) for slot in made.slots] == [
        ("cut", 0), ("mark", 6.5), ("glue", 24),
    ]  # fmt: skip


def test_long_work_is_not_begun_with_minutes_left():
    """Two hours begin where one is left of the day, not where half an hour is."""

    def begin(first: float) -> float:
        return plan({"id": "a", "time": first}, {"id": "b", "time": 120}).slots[1].start / HOUR

    assert begin(6 * HOUR) == 6
    assert begin(6.5 * HOUR) == 24


@pytest.mark.parametrize(
    ("evening", "free", "days", "work_days"),
    [(3, 0, 3, (3, 0)), (0, 7, 2, (0, 2)), (0, 3, 8, (0, 3)), (0.5, 0, 18 + 6, (18, 0))],
    ids=["evenings", "free-days", "short-free-days", "half-hours"],
)
def test_a_site_may_work_on_evenings_or_free_days_alone(evening, free, days, work_days):
    """Nine hours: on three evenings, on two free days, or three of three hours a week apart."""
    made = plan({"id": "cut", "time": 9 * HOUR}, hours=Hours(evening * HOUR, free * HOUR))
    assert (made.days, made.work_days) == (days, work_days)


def test_work_within_a_day_counts_no_days():
    """Three hours on the first day are a day; without hours nothing is counted."""
    assert plan({"id": "a", "time": 180}).days == 1
    endless = plan({"id": "a", "time": 5000}, hours=None)
    assert (endless.days, endless.work_days) == (1, (0, 0))


def test_helpers_work_in_the_same_hours():
    """Two chains of seven hours: two days for one, one day for two."""
    chains = [{"id": part, "parts": [part], "time": 7 * HOUR} for part in "pq"]
    teams = plan_teams(guide_of(*chains), Stock(), USUAL)
    assert [(team.people, team.days) for team in teams] == [(1, 2), (2, 1)]


@given(
    evening=st.sampled_from([0.0, 15.0, 60.0, 180.0, 360.0]),
    free=st.sampled_from([15.0, 61.0, 420.0, 840.0]),
    at=st.floats(0, 30 * DAY),
    time=st.floats(0.5, 1500),
)
def test_hands_only_work_in_the_hours(evening, free, at, time):
    """Every span lies within one day's hours; together they are as long as the work; none is early.

    The clock is worked out here anew: days of 1440 min from the first 10:00, free days first.
    """
    hours = Hours(evening, free)
    begin = hours.begin(at, time)
    spans = hours.spans(begin, time)
    assert begin >= at and spans[0][0] == begin
    assert sum(end - start for start, end in spans) == pytest.approx(time)
    for start, end in spans:
        day, minute = divmod(start + 600 + 1e-7, DAY)
        opens, length = (600, free) if day % 7 < 2 else (1080, evening)
        assert opens - 1e-6 <= minute and minute + end - start <= opens + length + 1e-6
    assert spans[0][1] - begin >= min(time, 60, max(evening, free)) - 1e-6


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ({"evening": 0, "free-day": 0}, "quarter of an hour"),
        ({"evening": 0.1}, "quarter of an hour"),
        ({"evening": 7}, "less than or equal to 6"),
        ({"free-day": -1}, "greater than or equal to 0"),
    ],
)
def test_hours_that_nobody_has_are_refused(keys, told):
    """No hours at all, a few minutes, evenings past midnight, less than nothing."""
    with pytest.raises(ValidationError, match=told):
        WorkingHours.model_validate(keys)


def test_three_hours_an_evening_and_seven_a_free_day_are_usual():
    """A site that says nothing, and one that chooses."""
    assert site_hours(WorkingHours()) == USUAL
    assert site_hours(WorkingHours.model_validate({"evening": 0, "free-day": 5})) == Hours(0, 300)
