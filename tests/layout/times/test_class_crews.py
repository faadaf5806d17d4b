"""Classes with young people: who takes over, and what never happens in any class."""

from collections import defaultdict
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.times.shops import guide_of, stock_of

from guidegen.buildfile.derive.cautions import step_young
from guidegen.buildfile.records.safety.cautions import Young
from guidegen.layout.times.class_plan import seats
from guidegen.layout.times.class_records import Gain, GainKind, Means
from guidegen.layout.times.class_times import (
    advise_hours,
    kept_tools,
    plan_class_times,
    too_few_adults,
)
from guidegen.layout.times.step_graph import depends_on

FORM = {"id": "form", "cautions": ["hot"]}
MARK = {"id": "mark", "parts": ["q"]}


def _who(times, step):
    return {slot.kit: slot.hands for slot in times.slots if slot.step == step}


def test_the_leader_takes_over_for_somebody_young():
    """Of an adult and a young person the leader, number 2, does the hot step of the second."""
    times = plan_class_times(guide_of(FORM), stock_of(), 2, means=Means(young=frozenset({1})))
    assert _who(times, "form") == {0: (0,), 1: (2,)}
    assert times.end == 10
    (slot,) = [slot for slot in times.slots if slot.taken_over]
    assert (slot.kit, slot.helpers) == (1, (2,))


def test_helpers_come_first_then_the_leader_then_the_class():
    """Four young people and one adult, a helper, a leader: three hot steps at once are done by the
    adult on the own kit, by helper and leader; the rest a round later, one of them by the adult."""
    means = Means(young=frozenset({1, 2, 3, 4}), helpers=1)
    times = plan_class_times(guide_of(FORM), stock_of(), 5, means=means)
    assert _who(times, "form") == {0: (0,), 1: (5,), 2: (6,), 3: (5,), 4: (6,)}
    assert times.end == 20
    alone = plan_class_times(guide_of(FORM), stock_of(), 5, means=Means(young=means.young))
    assert _who(alone, "form") == {0: (0,), 1: (5,), 2: (5,), 3: (0,), 4: (5,)}


def test_somebody_young_works_on_while_another_does_the_hot_step():
    """The own marking goes on beside the hot step that the leader does: both end after 10 min."""
    times = plan_class_times(guide_of(FORM, MARK), stock_of(), 1, means=Means(young=frozenset({0})))
    assert _who(times, "form") == {0: (1,)} and _who(times, "mark") == {0: (0,)}
    assert times.end == 10 and times.idle(0) == ()


def test_a_helper_lends_a_hand_before_a_neighbour_leaves_the_own_kit():
    """Two pairs of hands a step, two people, two helpers: both kits at once."""
    guide = guide_of({"id": "join", "hands": 2})
    times = plan_class_times(guide, stock_of(), 2, means=Means(helpers=2))
    assert _who(times, "join") == {0: (0, 2), 1: (1, 3)} and times.end == 10


def test_a_step_that_takes_more_adults_than_there_are_is_told():
    """Two young people and a leader cannot do a hot step of two hands; a helper is enough."""
    guide = guide_of({**FORM, "hands": 2})
    means = Means(young=frozenset({0, 1}))
    assert too_few_adults(guide, stock_of(), 2, means) == {"form": 2}
    with pytest.raises(ValueError, match="adults"):
        plan_class_times(guide, stock_of(), 2, means=means)
    more = Means(young=means.young, helpers=1)
    assert not too_few_adults(guide, stock_of(), 2, more)
    assert _who(plan_class_times(guide, stock_of(), 2, means=more), "form") == {
        0: (2, 3),
        1: (2, 3),
    }
    assert not too_few_adults(guide, stock_of(), 2, Means())


def test_one_more_helper_is_told_with_what_it_saves():
    """Four hot steps by the leader take 40 min; with a helper beside it 20."""
    guide, means = guide_of(FORM), Means(young=frozenset(range(4)))
    times = plan_class_times(guide, stock_of(), 4, means=means)
    gains = advise_hours(guide, stock_of(), times, 0.5, means).gains
    assert gains[:1] == (Gain(GainKind.STEP, "form", 40, True),)
    assert Gain(GainKind.HELPER, "", 20, True) in gains


def test_nobody_works_in_a_break():
    """Two steps of 40 min from 0:00, a break from 1:00 to 1:30: the second would reach into it,
    so it begins at 1:30. Waits go on through the break, and no one waits in it."""
    guide = guide_of({"id": "a", "time": 40, "wait": 30}, {"id": "b", "time": 40})
    times = plan_class_times(guide, stock_of(), 1, means=Means(breaks=((60, 90),)))
    assert [slot.spans for slot in times.slots] == [((0, 40),), ((90, 130),)]
    assert [(one.start, one.end, one.drying) for one in times.idle(0)] == [(40, 60, True)]


def test_long_work_goes_on_after_a_break():
    """Work of 100 min is begun where an hour is left before the break, and taken up again."""
    guide = guide_of({"id": "long", "time": 100})
    times = plan_class_times(guide, stock_of(), 1, means=Means(breaks=((60, 90),)))
    assert [slot.spans for slot in times.slots] == [((0, 60), (90, 130))]
    times = plan_class_times(guide, stock_of(), 1, means=Means(breaks=((50, 90),)))
    assert [slot.spans for slot in times.slots] == [((90, 190),)]


def test_a_shorter_break_is_told_with_what_it_saves():
    """A break of an hour in the way of the second step: 15 min less are 15 min saved."""
    guide, means = (
        guide_of({"id": "a", "time": 40}, {"id": "b", "time": 40}),
        Means(breaks=((60, 120),)),
    )
    times = plan_class_times(guide, stock_of(), 1, means=means)
    gains = advise_hours(guide, stock_of(), times, 2.5, means).gains
    assert Gain(GainKind.BREAK, "1", 15, True) in gains


@st.composite
def _classes(draw):
    steps = [
        {
            "id": f"s{number}",
            "time": draw(st.integers(1, 30)),
            "wait": draw(st.sampled_from([0, 0, 15, 60])),
            "hands": draw(st.sampled_from([1, 1, 1, 2])),
            "parts": draw(st.lists(st.sampled_from("pqr"), unique=True, max_size=2)),
            "tools": draw(st.lists(st.sampled_from(["gun", "pen"]), unique=True)),
            "cautions": draw(st.sampled_from([[], [], ["hot"]])),
        }
        for number in range(draw(st.integers(1, 6)))
    ]
    people = draw(st.integers(1, 7))
    told = draw(st.dictionaries(st.sampled_from(["gun", "pen"]), st.integers(1, 3)))
    young = draw(st.frozensets(st.integers(0, people - 1)))
    breaks = draw(st.sampled_from([(), ((30, 60),), ((45, 50), (100, 160))]))
    return guide_of(*steps), people, Means(told, young, draw(st.integers(0, 3)), breaks)


@settings(max_examples=60, deadline=None)
@given(_classes())
def test_no_class_puts_anybody_where_they_cannot_be(case):
    """In random classes everybody's kit gets every step; nobody is in two places, no tool is used
    by more than it serves, nobody young does a step for adults, nobody works in a break, all parts and waits are kept."""
    guide, people, means = case
    stock = stock_of()
    if too_few_adults(guide, stock, people, means):
        return
    times = plan_class_times(guide, stock, people, means=means)
    steps = {step.id: step for step in guide.steps}
    slot_of = {(slot.kit, slot.step): slot for slot in times.slots}
    assert set(slot_of) == {(kit, step) for kit in range(people) for step in steps}
    lanes = defaultdict(list)
    for slot in times.slots:
        hot = step_young(steps[slot.step], stock) is Young.ADULTS
        assert len(set(slot.hands)) == min(steps[slot.step].hands, people + means.helpers)
        assert slot.taken_over is (hot and slot.kit in means.young)
        if hot:
            assert not means.young & set(slot.hands)
        else:
            assert people + means.helpers not in slot.hands  # the leader
        for other in depends_on(guide)[slot.step]:
            assert slot_of[slot.kit, other].ready <= slot.start
        for start, end in times.breaks:
            assert all(last <= start or first >= end for first, last in slot.spans)
        for hand in slot.hands:
            lanes["hand", hand].append(slot)
    for lane in lanes.values():
        assert all(one.end <= after.start for one, after in pairwise(lane))
    for tool in kept_tools(guide, stock, people, means):
        there = means.tools.get(tool, -(-people // stock.tools[tool].shared_by))
        using = [slot for slot in times.slots if tool in steps[slot.step].tools]
        for slot in using:
            at_once = [other for other in using if other.start <= slot.start < other.end]
            assert len(at_once) <= seats(stock.tools[tool], there)
