"""Hands and minutes of a class in → names of people, helpers and leader, and times, in words."""

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
    """'0:15 to 0:40', or by the clock."""
    return words.say("{first} to {last}", first=time_words(plan, start), last=time_words(plan, end))


def break_words(plan: ClassPlan, words: Words) -> str:
    """'12:30 to 13:30' of all breaks; empty where there is none."""
    return words.listed(span_words(plan, *span, words) for span in plan.times.breaks)
