"""Hands and minutes of a class in → names of people, helpers and leader, and times, in words."""

from guidegen.layout.class_hours import ClassDay
from guidegen.layout.times.class_records import ClassPlan
from guidegen.quantities import clock_words
from guidegen.words import Words


def hand_name(plan: ClassPlan, hand: int, words: Words) -> str:
    """The name of somebody who works in a class."""
    people = len(plan.people)
    if hand < people:
        return plan.people[hand].name
    if hand < people + plan.helpers:
        return words.say("helper {number}", number=hand - people + 1)
    return words.say("the leader")


def all_hands(plan: ClassPlan) -> tuple[int, ...]:
    """Numbers of all people, and of helpers and the leader where they have work of the class."""
    return (*range(len(plan.people)), *plan.busy_adults)


DAY = 1440.0


def time_words(plan: ClassPlan, minute: float) -> str:
    """'9:45' by the clock where the class has a start, else '0:15' from it."""
    return clock_words(minute if plan.start is None else (plan.start + minute) % DAY)


def span_words(plan: ClassPlan, start: float, end: float, words: Words) -> str:
    """'0:15 to 0:40', or by the clock; in a class of several days after the name of its day.

    What is left when a class that would run on for long is over has no time.
    """
    if plan.is_left(start):
        return words.say("after the class")
    first, last = time_words(plan, start), time_words(plan, end)
    hours = plan.times.class_hours
    if plan.ends_late(end):
        since = words.say("from {first}", first=first)
        day = day_of(plan, start)
        return words.say("{day}, {time}", day=day_words(day, words), time=since) if day else since
    if not plan.times.class_days or hours is None:
        return words.say("{first} to {last}", first=first, last=last)
    days = hours.day(start), hours.day(end, ends=True)
    names = [day_words(hours.days[number], words) for number in days]
    if days[0] == days[1]:
        return words.say("{day}, {first} to {last}", day=names[0], first=first, last=last)
    return words.say(
        "{day}, {first} to {next}, {last}", day=names[0], first=first, next=names[1], last=last
    )


def hours_words(plan: ClassPlan, start: float, end: float, words: Words) -> str:
    """'9:15 to 9:40' where the day is told already."""
    if plan.ends_late(end):
        return words.say("from {first}", first=time_words(plan, start))
    return words.say("{first} to {last}", first=time_words(plan, start), last=time_words(plan, end))


def minute_words(plan: ClassPlan, minute: float, words: Words) -> str:
    """'Sunday, 13:40' of an end in a class of several days; else '13:40'."""
    hours = plan.times.class_hours
    if not plan.times.class_days or hours is None:
        return time_words(plan, minute)
    day = hours.days[hours.day(minute, ends=True)]
    name, time = day_words(day, words), time_words(plan, minute)
    # What dries through midnight is ready on a day that may be none of the class.
    midnights = (plan.start or 0.0) + minute, (plan.start or 0.0) + day.start
    after = int(midnights[0] // DAY - midnights[1] // DAY)
    if not after:
        return words.say("{day}, {time}", day=name, time=time)
    later = words.many("{n} day after {day}", "{n} days after {day}", after, day=name)
    return words.say("{time}, {later}", time=time, later=later)


def day_words(day: ClassDay, words: Words) -> str:
    """'Saturday', or 'day 2' of one that has a number alone."""
    return words.say("day {number}", number=day.name) if day.name.isdigit() else day.name


def day_of(plan: ClassPlan, minute: float) -> ClassDay | None:
    """The day on which something begins, in a class of several; else None."""
    hours = plan.times.class_hours
    if not plan.times.class_days or hours is None:
        return None
    return hours.days[hours.day(minute)]


def day_line(plan: ClassPlan, day: ClassDay, words: Words) -> str:
    """'Saturday, 9:30 to 16:00; break 12:00 to 13:00'."""
    said = words.say(
        "{day}, {hours}",
        day=day_words(day, words),
        hours=hours_words(plan, day.start, day.end, words),
    )
    inside = [span for span in plan.times.breaks if day.start <= span[0] < day.end]
    if not inside:
        return said
    pauses = words.listed(hours_words(plan, *span, words) for span in inside)
    return words.say("{day}; break {times}", day=said, times=pauses)


def break_words(plan: ClassPlan, words: Words) -> str:
    """'12:30 to 13:30' of all breaks; empty where there is none."""
    return words.listed(span_words(plan, *span, words) for span in plan.times.breaks)
