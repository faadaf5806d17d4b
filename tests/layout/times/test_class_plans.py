"""Time tables of classes: simple cases by hand, networkx's longest path, and no double booking."""

from itertools import pairwise
from pathlib import Path

import networkx as nx
import pytest
from demo_content import read_demo
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.times.shops import critical_path, guide_of, stock_of

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.schedules import Schedule
from guidegen.layout.times.class_records import Gain, GainKind, Means
from guidegen.layout.times.class_times import advise_hours, plan_class_times
from guidegen.layout.times.plans import marked_beforehand
from guidegen.layout.times.step_graph import depends_on

ROOT = Path(__file__).parents[3]
DEMO = read_demo("mooring-bracer")


def _starts(times: Schedule, step: str) -> list[float]:
    return [slot.start for slot in times.slots if slot.step == step]


def test_twelve_people_queue_for_two_heat_guns():
    """12 people, 6 to a gun: two at a time, 10 min each, so six rounds and 60 min."""
    times = plan_class_times(guide_of({"id": "form", "tools": ["gun"]}), stock_of(), 12)
    assert _starts(times, "form") == [t for t in (0, 10, 20, 30, 40, 50) for _ in range(2)]
    assert times.end == 60
    waits = [sum(i.end - i.start for i in times.idle(person)) for person in range(12)]
    assert waits == [t for t in (0, 10, 20, 30, 40, 50) for _ in range(2)]
    assert not any(idle.drying for person in range(12) for idle in times.idle(person))


def test_tools_that_go_around_hold_nobody_up():
    """A pen that six share is passed while they work: all twelve are done in 10 min."""
    times = plan_class_times(guide_of({"id": "mark", "tools": ["pen"]}), stock_of(), 12)
    assert times.end == 10


def test_queue_is_used_for_other_work():
    """Two people, one gun, and 10 min of other work: the second does that first, 20 min in all."""
    guide = guide_of({"id": "form", "tools": ["gun"]}, {"id": "mark", "parts": ["q"]})
    times = plan_class_times(guide, stock_of(), 2)
    assert [(s.kit, s.step, s.start) for s in times.slots] == [
        (0, "form", 0), (1, "mark", 0), (1, "form", 10), (0, "mark", 10),
    ]  # fmt: skip
    assert times.end == 20 and not times.idle(0) and not times.idle(1)


def test_pairs_do_one_kit_after_the_other():
    """A step of 7 min for two people takes a pair 14 min, and three people 21: one waits."""
    guide = guide_of({"id": "join", "hands": 2, "time": 7})
    pair = plan_class_times(guide, stock_of(), 2)
    assert _starts(pair, "join") == [0, 7] and pair.end == 14
    assert [slot.helpers for slot in pair.slots] == [(1,), (0,)]
    assert plan_class_times(guide, stock_of(), 4).end == 14
    assert plan_class_times(guide, stock_of(), 3).end == 21
    assert plan_class_times(guide, stock_of(), 1).end == 7


def test_drying_is_told_from_queueing():
    """10 min of coating, 30 of drying, then the gun in turns: the second queues after drying."""
    guide = guide_of({"id": "coat", "wait": 30}, {"id": "form", "tools": ["gun"]})
    times = plan_class_times(guide, stock_of(), 2)
    assert [(i.start, i.end, i.drying) for i in times.idle(1)] == [(10, 40, True), (40, 50, False)]
    assert times.end == 60 and times.elapsed == 60


def test_kept_apart_by_the_whole_class():
    """Glue of all before heat of anybody, and 20 min of airing between; in two rooms side by side."""
    processes = {name: {"name": name, "how": "So."} for name in ("glue", "heat")}
    rule = {"first": "glue", "then": "heat", "apart": True, "wait": 20, "reason": "Fire."}
    stock = stock_of(processes=processes, rules=[rule])
    guide = guide_of(
        {"id": "glue", "process": "glue", "tools": ["gun"]},
        {"id": "heat", "process": "heat", "parts": ["q"], "tools": ["pen"]},
    )
    times = plan_class_times(guide, stock, 2)
    assert _starts(times, "glue") == [0, 10]
    assert _starts(times, "heat") == [40, 40]
    apart = plan_class_times(guide, stock, 2, means=Means(rooms=2))
    assert sorted(_starts(apart, "heat")) == [0, 10] and apart.end == 20


def test_prepared_steps_are_not_in_the_class():
    """Steps that the author marks are left out, and what needs them may begin at once."""
    guide = guide_of({"id": "cut", "beforehand": True, "wait": 600}, {"id": "glue"})
    assert marked_beforehand(guide) == ("cut",)
    times = plan_class_times(guide, stock_of(), 3)
    assert _starts(times, "glue") == [0, 0, 0] and times.beforehand == ("cut",)
    assert plan_class_times(guide, stock_of(), 1, ()).end == 620


def test_advice_for_too_few_hours():
    """50 min of work do not fit in half an hour: two steps of 10 min at home, or two left over."""
    guide = guide_of(*({"id": f"s{n}"} for n in range(5)))
    times = plan_class_times(guide, stock_of(), 4)
    advice = advise_hours(guide, stock_of(), times, 0.5)
    assert (advice.over, advice.prepare, advice.left) == (20, ("s0", "s1"), ("s3", "s4"))
    assert advise_hours(guide, stock_of(), times, 50 / 60).over == 0
    # One step at home is enough where only it is too much.
    assert advise_hours(guide, stock_of(), times, 40 / 60).prepare == ("s0",)


def test_what_people_queue_for_goes_first_where_the_hours_do_not_suffice():
    """Two people, one gun: an hour of marking first, in the author's order and by the longest path,
    leaves the gun idle for it and ends after 80 min. With the gun's 10 min first it is 70: the
    second marks meanwhile. In 80 min the author's order stands."""
    guide = guide_of({"id": "mark", "time": 60}, {"id": "form", "tools": ["gun"], "parts": ["q"]})
    late = plan_class_times(guide, stock_of(), 2, means=Means({"gun": 1}, end=70))
    assert (_starts(late, "form"), late.end) == ([0, 60], 70)
    stands = plan_class_times(guide, stock_of(), 2, means=Means({"gun": 1}, end=80))
    assert (_starts(stands, "form"), stands.end) == ([60, 70], 80)


def test_tools_at_hand_take_the_place_of_the_usual_count():
    """Twelve people with one gun of the leader's, not the two that the stock would have: twelve
    turns of 10 min. Pens that go around bind only where they do not go round: one for six, so two
    rounds of 10 min; with two of them nobody waits."""
    guide, stock = guide_of({"id": "form", "tools": ["gun"]}), stock_of()
    assert plan_class_times(guide, stock, 12, means=Means({"gun": 1})).end == 120
    assert plan_class_times(guide, stock, 12, means=Means({"gun": 3})).end == 40
    guide = guide_of({"id": "mark", "tools": ["pen"]})
    assert plan_class_times(guide, stock, 12, means=Means({"pen": 1})).end == 20
    assert plan_class_times(guide, stock, 12, means=Means({"pen": 2})).end == 10


def test_advice_tells_what_saves_how_much():
    """Six people, one gun, 10 min each: 60 min. A second gun makes it 30; the marking before it,
    5 min, is a queue's time less when done at home; the gun's own step at home leaves 5 min."""
    guide = guide_of({"id": "mark", "time": 5}, {"id": "form", "tools": ["gun"]})
    stock = stock_of()
    times = plan_class_times(guide, stock, 6)
    assert times.end == 65
    advice = advise_hours(guide, stock, times, 40 / 60)
    assert advice.gains == (
        Gain(GainKind.TOOL, "gun", 30, True),
        Gain(GainKind.STEP, "mark", 5, False),
    )
    assert advise_hours(guide, stock, times, 2).gains == ()


def test_airing_before_the_class_is_told_with_what_it_saves():
    """Foam that airs for two hours after 5 min holds up the work of an hour: 185 min, of which the
    airing at home saves 125. A welcome without a wait is for the class, and no such change."""
    guide = guide_of(
        {"id": "air", "time": 5, "wait": 120, "parts": []},
        {"id": "hello", "time": 10, "parts": []},
        {"id": "mark", "time": 50},
    )
    times = plan_class_times(guide, stock_of(), 2)
    assert times.end == 185
    gains = advise_hours(guide, stock_of(), times, 1).gains
    assert Gain(GainKind.STEP, "air", 125, True) in gains
    assert not any(gain.name == "hello" for gain in gains)


def test_days_that_would_do_are_told():
    """Four steps of 50 min, an hour a day: each has a day of its own, so four days; three hours
    hold three of them a day, so two; where it fits one, nobody asks; a step of 90 min fits no day
    of one hour."""
    guide = guide_of(*({"id": f"s{n}", "time": 50} for n in range(4)))
    times = plan_class_times(guide, stock_of(), 2)
    assert advise_hours(guide, stock_of(), times, 1).days == 4
    assert advise_hours(guide, stock_of(), times, 3).days == 2
    assert advise_hours(guide, stock_of(), times, 4).days is None
    long = guide_of({"id": "glue", "time": 90, "wait": 5})
    assert advise_hours(long, stock_of(), plan_class_times(long, stock_of(), 1), 1).days == 0


def test_advice_says_when_nothing_helps():
    """One step of 40 min in half an hour: preparing cannot help, the step is left over."""
    guide = guide_of({"id": "long", "time": 40})
    advice = advise_hours(guide, stock_of(), plan_class_times(guide, stock_of(), 1), 0.5)
    assert (advice.over, advice.prepare, advice.left) == (10, (), ("long",))


def test_the_demo_class_of_twelve_fits_its_three_hours():
    """The bracer's class of twelve is over within the three hours of its own clock."""
    (file,) = DEMO.guides
    times = plan_class_times(file.guide, DEMO.stock, 12)
    assert times.beforehand == (
        "print-templates",
        "trace-bracers",
        "cut-bracers",
        "roughen-faces",
        "punch-holes",
    )
    assert 150 < times.end <= 180


@st.composite
def _shops(draw: st.DrawFn) -> tuple[Guide, Stock, int]:
    steps = []
    for number in range(draw(st.integers(1, 7))):
        step: dict[str, object] = {
            "id": f"s{number}",
            "time": draw(st.integers(1, 30)),
            "wait": draw(st.sampled_from([0, 0, 15, 60])),
            "hands": draw(st.sampled_from([1, 1, 1, 2])),
            "parts": draw(st.lists(st.sampled_from("pqr"), unique=True, max_size=2)),
            "tools": draw(st.lists(st.sampled_from(["gun", "saw", "pen"]), unique=True)),
        }
        if number and draw(st.booleans()):
            step["needs"] = [f"s{draw(st.integers(0, number - 1))}"]
        steps.append(step)
    tools = {
        name: {"name": name, "shared-by": draw(st.integers(1, 6)), "turns": name != "pen"}
        for name in ("gun", "saw", "pen")
    }
    return guide_of(*steps), Stock.model_validate({"tools": tools}), draw(st.integers(1, 7))


@settings(max_examples=60, deadline=None)
@given(_shops())
def test_tables_hold_and_are_as_long_as_networkx_says(shop):
    """Nobody and no tool is in two places, every wait is kept, and each time table is as long as
    the longest path through its own graph: precedence, then what follows on each person and on
    each tool (the disjunctive graph of Roy and Sussmann, 1964; its longest path is the length of
    a schedule in which nothing could start earlier in the same order)."""
    guide, stock, people = shop
    times = plan_class_times(guide, stock, people)
    assert len(times.slots) == people * len(guide.steps)
    slot_of = {(slot.kit, slot.step): slot for slot in times.slots}
    steps = {step.id: step for step in guide.steps}
    graph = nx.DiGraph()
    graph.add_nodes_from(["start", "end"])
    for (person, name), slot in slot_of.items():
        assert slot.end - slot.start == steps[name].time
        assert len(slot.hands) == len(set(slot.hands)) == min(steps[name].hands, people)
        graph.add_edge("start", (person, name), weight=0)
        graph.add_edge((person, name), "end", weight=steps[name].time)
        for other in depends_on(guide)[name]:
            weight = steps[other].time + (steps[other].wait or 0)
            assert slot_of[person, other].start + weight <= slot.start
            graph.add_edge((person, other), (person, name), weight=weight)
    lanes: dict[tuple[object, ...], list] = {}
    for slot in times.slots:
        for who in slot.hands:
            lanes.setdefault(("person", who), []).append(slot)
        kept = {tool for tool in steps[slot.step].tools if stock.tools[tool].turns}
        assert {tool for tool, _ in slot.tools} == kept
        for tool, unit in slot.tools:
            assert unit < -(-people // stock.tools[tool].shared_by)
            lanes.setdefault((tool, unit), []).append(slot)
    for lane in lanes.values():
        for one, after in pairwise(lane):
            assert one.end <= after.start
            weight = steps[one.step].time
            edge = ((one.kit, one.step), (after.kit, after.step))
            known = graph.get_edge_data(*edge, {"weight": 0})["weight"]
            graph.add_edge(*edge, weight=max(weight, known))
    assert times.end == pytest.approx(nx.dag_longest_path_length(graph))


@settings(max_examples=40, deadline=None)
@given(_shops())
def test_no_table_is_shorter_than_the_published_bounds(shop):
    """A job shop is never shorter than its longest chain (networkx), nor than the work of one
    kind of tool or of all hands shared by as many as there are."""
    guide, stock, people = shop
    times = plan_class_times(guide, stock, people)
    steps = {step.id: step for step in guide.steps}
    assert times.end >= critical_path(guide) - 1e-9
    hands = sum(step.time * min(step.hands, people) for step in guide.steps)
    assert times.end >= hands - 1e-9  # each of `people` has a kit, and two hands
    for tool, entry in stock.tools.items():
        if entry.turns:
            load = sum(step.time for step in guide.steps if tool in step.tools) * people
            assert times.end >= load / -(-people // entry.shared_by) - 1e-9
    alone = plan_class_times(guide, stock, 1)
    assert {slot.step for slot in alone.slots} == set(steps)


def test_same_class_same_table():
    """The same guide and people give the same table."""
    (file,) = DEMO.guides
    tables = [plan_class_times(file.guide, DEMO.stock, 7) for _ in range(2)]
    assert tables[0] == tables[1]
