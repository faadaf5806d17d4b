"""Order and time of steps against graph algorithms of networkx (networkx.org, BSD licence).

Longest path of a weighted directed acyclic graph, as in the critical path method: Kelley and
Walker, "Critical-Path Planning and Scheduling", Eastern Joint Computer Conference, 1959 (cited
from memory).
"""

from itertools import pairwise
from pathlib import Path

import networkx as nx
import pytest
from demo_content import read_demo
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.tree import Source
from guidegen.checks.steps.cycles import check_needs
from guidegen.layout.times.plans import plan_team, plan_time
from guidegen.layout.times.step_graph import depends_on
from guidegen.words import ENGLISH

ROOT = Path(__file__).parent.parent.parent
PARTS = "pqrs"
STOCK = Stock.model_validate({"processes": {"w": {"name": "W", "how": "w", "wait": 30}}})


def guide_of(steps: list[dict[str, object]]) -> Guide:
    """A guide with these steps."""
    plain = {"title": "t", "stage": "gluing", "text": "t"}
    part = {"material": "m", "shape": "disc"}
    return Guide.model_validate(
        {
            "title": "t", "version": "1", "date": "2026-01-01", "author": "a", "licence": "l",
            "licence-words": "w", "summary": "s", "overview": "o",
            "parts": {name: {**part, "name": name, "label": name} for name in PARTS},
            "steps": [{**plain, **step} for step in steps],
        }
    )  # fmt: skip


STEPS = st.lists(
    st.fixed_dictionaries(
        {
            "parts": st.lists(st.sampled_from(PARTS), max_size=3, unique=True),
            "time": st.integers(0, 90),
        },
        optional={"wait": st.integers(0, 500), "process": st.just("w")},
    ),
    min_size=1,
    max_size=12,
)
"""Steps in any number, on any parts, with any waits."""


@st.composite
def guides(draw: st.DrawFn) -> Guide:
    """Guides whose steps stand in an order that works."""
    steps = draw(STEPS)
    for number, step in enumerate(steps):
        step["id"] = f"s{number}"
        if number:
            earlier = st.integers(0, number - 1).map("s{}".format)
            step["needs"] = draw(st.lists(earlier, max_size=2, unique=True))
    return guide_of(steps)


def graph_of(guide: Guide, stock: Stock) -> nx.DiGraph:
    """Every pair of steps of which the second waits for the first, written down one by one.

    They share a part, or one of them concerns everything, or the second names the first. An edge
    is as long as the first step takes with its wait; the last step leads to an end.
    """
    graph = nx.DiGraph()
    steps = guide.steps
    for number, step in enumerate(steps):
        length = step.time + step_wait(step, stock)
        graph.add_edge(step.id, "end of all", length=length)
        for later in steps[number + 1 :]:
            shared = set(step.parts) & set(later.parts)
            if shared or not step.parts or not later.parts or step.id in later.needs:
                graph.add_edge(step.id, later.id, length=length)
    return graph


def check_times(guide: Guide, stock: Stock) -> None:
    """Compare all times of a guide with its graph."""
    graph = graph_of(guide, stock)
    steps = {step.id: step for step in guide.steps}
    minutes = nx.dag_longest_path_length(graph, weight="length")
    line = plan_time(guide, stock)
    assert sorted(slot.step for slot in line.slots) == sorted(steps)
    starts = {slot.step: slot.start for slot in line.slots}
    for first, then, data in graph.edges(data=True):
        if then in starts:
            assert starts[then] >= starts[first] + data["length"] - 1e-9
    for first, then in pairwise(line.slots):
        assert then.start >= first.start + steps[first.step].time - 1e-9  # one person, one step
    assert line.elapsed >= max(minutes, line.hands_on) - 1e-9
    crowd = plan_team(guide, Stock(processes=stock.processes), len(steps))
    assert crowd.elapsed == pytest.approx(minutes)  # enough people, no rule of rooms
    assert plan_team(guide, Stock(processes=stock.processes), 1).elapsed == line.elapsed
    # Never idle while anything is ready: not slower than all work and the longest chain together.
    assert line.elapsed <= line.hands_on + minutes + 1e-9


@settings(max_examples=150, deadline=None)
@given(guides())
def test_times_agree_with_the_longest_path(guide):
    """With enough people the longest chain decides; one person keeps all waits and needs no more
    than all work and that chain after each other."""
    check_times(guide, STOCK)


@settings(max_examples=100, deadline=None)
@given(guides())
def test_what_steps_depend_on_is_the_whole_order(guide):
    """The few dependencies that are kept imply every pair that must keep its order."""
    kept = nx.DiGraph()
    kept.add_nodes_from(step.id for step in guide.steps)
    for name, earlier in depends_on(guide).items():
        kept.add_edges_from((other, name) for other in earlier)
    wanted = graph_of(guide, STOCK)
    wanted.remove_node("end of all")
    assert nx.transitive_closure(kept).edges == nx.transitive_closure(wanted).edges


def test_the_demo():
    """The guides of the demo as well."""
    content = read_demo()
    assert content.guides
    for file in content.guides:
        check_times(file.guide, content.stock)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.lists(st.integers(0, 7), max_size=3), min_size=1, max_size=8))
def test_circles_are_found(needs):
    """Steps that wait for each other are reported exactly where networkx finds a cycle, and every
    circle that is told is one."""
    steps = [
        {
            "id": f"s{n}",
            "title": f"s{n}",
            "time": 1,
            "needs": [f"s{m}" for m in named if m < len(needs)],
        }
        for n, named in enumerate(needs)
    ]
    guide = guide_of(steps)
    file = GuideFile("g", guide, Source("g.yaml", ()))
    content = Content(
        Site(title="t", publisher="p"), Source("s", ()), Stock(), Source("k", ()), (file,), ENGLISH
    )
    found = [*check_needs(content, file)]
    graph = nx.DiGraph((step.id, need) for step in guide.steps for need in step.needs)
    circles = [problem for problem in found if problem.code == "needs-cycle"]
    assert bool(circles) is not nx.is_directed_acyclic_graph(graph)
    for problem in circles:
        pairs = [
            part.split('" needs "')
            for part in problem.message.split('"', 1)[1].rstrip('"').split('", "')
        ]
        assert all(graph.has_edge(a, b) for a, b in pairs)
        assert [b for _, b in pairs] == [a for a, _ in [*pairs[1:], pairs[0]]]
    late = {(p.path, p.message) for p in found if p.code == "wrong-order"}
    backward = [(a, b) for a, b in graph.edges if int(b[1:]) >= int(a[1:])]
    assert len(late) <= len(backward)
    if not circles:
        assert len(late) == len(backward)
