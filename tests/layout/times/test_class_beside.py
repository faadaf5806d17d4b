"""What is done before a class, and a class without some of its people."""

from collections import defaultdict
from itertools import pairwise
from pathlib import Path

from demo_content import read_demo
from layout.times.shops import guide_of, stock_of

from guidegen.buildfile.derive.cautions import step_tools, step_young
from guidegen.buildfile.records.safety.cautions import Young
from guidegen.layout.times.class_beside import plan_before, plan_missing
from guidegen.layout.times.class_plan import seats
from guidegen.layout.times.class_records import BeforeWork, Means, Missing
from guidegen.layout.times.class_times import plan_class_times
from guidegen.layout.times.step_graph import depends_on

DEMO = Path(__file__).parents[3] / "content"


def test_work_before_grows_with_the_kits_and_shrinks_with_the_adults():
    """Ten minutes for each of seven kits: 70 for the leader alone, 30 for three adults in turns;
    a step for two pairs of hands is done by one pair of three; one without pieces is done once."""
    guide = guide_of(
        {"id": "cut", "time": 10, "parts": ["p"]},
        {"id": "press", "time": 10, "hands": 2, "parts": ["p"]},
        {"id": "air", "time": 10, "parts": []},
    )
    alone = plan_before(guide, 7, {"cut"}, Means())
    assert alone == (BeforeWork("cut", 7, 1, 70),)
    three = plan_before(guide, 7, {"cut", "press", "air"}, Means(helpers=2))
    assert [(one.kits, one.minutes) for one in three] == [(7, 30), (7, 70), (1, 10)]


def test_what_is_done_for_each_size_is_counted_by_sets():
    """Printing at 10 min a set: three sets for seven people take the leader 30 min, two adults 20,
    and four adults 10, of whom three work."""
    guide = guide_of({"id": "print", "time": 10, "parts": ["p"], "for-each": "size"})
    for helpers, minutes, adults in ((0, 30, 1), (1, 20, 2), (3, 10, 3)):
        (found,) = plan_before(guide, 7, {"print"}, Means(helpers=helpers), 3)
        assert (found.kits, found.minutes, found.adults, found.sets) == (3, minutes, adults, True)


def test_two_missing_are_the_adults_that_lack_most():
    """Two of four stay away, both adults: the young pair then has the leader alone for two hot
    steps, which takes two rounds."""
    guide = guide_of({"id": "form", "time": 10, "cautions": ["hot"]})
    means = Means(young=frozenset({0, 1}))
    assert plan_class_times(guide, stock_of(), 4, means=means).end == 20
    found = plan_missing(guide, stock_of(), 4, (), means, 1)
    assert found == Missing(2, 20, True)
    assert plan_missing(guide, stock_of(), 3, (), means, 1) is None


def test_steps_for_which_adults_lack_then_are_told():
    """A hot step for two pairs of hands: with two adults and the leader it can be done for the
    young; without them it cannot."""
    guide = guide_of({"id": "form", "hands": 2, "cautions": ["hot"]})
    found = plan_missing(guide, stock_of(), 4, (), Means(young=frozenset({1, 3})), 1)
    assert found == Missing(2, 0.0, False, ("form",))


def test_the_demo_is_planned_for_twelve_without_a_clash():
    """Twelve people, two of them young, two heat guns, three knives, seven hours with an hour's
    break, on the demo's workshop guide: nobody is in two places, no tool serves more than it can,
    no minor does an adult's step, nobody works in the break, and what a step needs is done before
    it. What papers say of such a class: tests/app/commands/test_class_of_twelve.py."""
    content = read_demo("mooring-bracer")
    (file,) = content.guides
    guide, stock = file.guide, content.stock
    tools = {"heat-gun": 2, "craft-knife": 3}
    means = Means(tools, frozenset({0, 2}), helpers=1, breaks=((180, 240),), start=540)
    times = plan_class_times(guide, stock, 12, means=means)
    assert times.end <= 7 * 60
    steps = {step.id: step for step in guide.steps}
    inside = [step for step in steps if step not in times.beforehand]
    assert {(slot.kit, slot.step) for slot in times.slots} == {
        (kit, step) for kit in range(12) for step in inside
    }
    lanes = defaultdict(list)
    done = {}
    for slot in sorted(times.slots, key=lambda slot: slot.start):
        for needed in depends_on(guide)[slot.step]:
            assert needed in times.beforehand or done[slot.kit, needed] <= slot.start
        done[slot.kit, slot.step] = slot.ready
        assert all(end <= 180 or start >= 240 for start, end in slot.spans)
        if step_young(steps[slot.step], stock) is Young.ADULTS:
            assert not means.young & set(slot.hands)
        for hand in slot.hands:
            lanes[hand].append(slot)
        for tool in step_tools(steps[slot.step], stock):
            at_once = [one for one in times.slots if one.start <= slot.start < one.end
                       and tool in step_tools(steps[one.step], stock)]  # fmt: skip
            if tool in tools:
                assert len(at_once) <= seats(stock.tools[tool], tools[tool])
    for lane in lanes.values():
        assert all(one.end <= after.start for one, after in pairwise(lane))
    before = plan_before(guide, 12, times.beforehand, means)
    assert [one.step for one in before] == [*times.beforehand]
