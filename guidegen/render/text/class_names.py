"""Numbers of hands in a class in → their names: people, helpers, the leader."""

from guidegen.layout.times.class_records import ClassPlan
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
