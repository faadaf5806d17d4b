"""Time tables of classes against the best plan there is, and against the critical path.

The best plan of a small class is found by trying every order of its jobs: a schedule in which each
job of a list starts as early as the jobs before it leave room is active for some list, and one of
the active ones is the best (Giffler and Thompson, Operations Research 8, 1960).
"""

from itertools import permutations

import networkx as nx
import pytest
from layout.times.shops import guide_of, stock_of

from guidegen.layout.times.class_records import Means
from guidegen.layout.times.class_times import plan_class_times
from guidegen.layout.times.step_graph import depends_on

CASES = [
    # Two people, one gun; long marking after the gun's step, or before it.
    (2, 1, [("form", "p", 10, True), ("mark", "p", 25, False)], 45, 45),
    (2, 1, [("mark", "p", 25, False), ("form", "p", 10, True)], 45, 45),
    # Other work to do while the gun is taken.
    (3, 1, [("form", "p", 10, True), ("mark", "q", 10, False)], 30, 30),
    (2, 1, [("mark", "q", 5, False), ("form", "p", 20, True), ("trim", "p", 5, False)], 45, 50),
    (2, 1, [("form", "p", 20, True), ("bend", "q", 5, True), ("trim", "q", 30, False)], 60, 80),
    (3, 2, [("form", "p", 20, True), ("trim", "q", 15, False)], 40, 40),
]
"""People, guns, and steps: name, part, minutes, whether with the gun; then minutes of the best plan
and of ours, which keeps to the author's order: the worst of these is a third longer than need be."""


def _best(people, guns, steps, needed):
    """Length of the shortest of all schedules, from every order of jobs on one more resource."""
    jobs = [(kit, number) for kit in range(people) for number in range(len(steps))]
    best = float("inf")
    for order in permutations(jobs):
        done, free, units = {}, [0.0] * people, [0.0] * guns
        for kit, number in order:
            name, _, minutes, hot = steps[number]
            if any((kit, other) not in done for other in needed[name]):
                break
            at = max([free[kit], *(done[kit, other] for other in needed[name])])
            if hot:
                unit = min(range(guns), key=lambda one: units[one])
                at = max(at, units[unit])
                units[unit] = at + minutes
            free[kit] = done[kit, name] = at + minutes
        else:
            best = min(best, max(free))
    return best


@pytest.mark.parametrize(("people", "guns", "steps", "best", "ours"), CASES)
def test_small_classes_are_near_the_best_plan(people, guns, steps, best, ours):
    """The best of all orders is as long as told, and so is our plan; neither is shorter than the
    critical path of one kit, which networkx finds, nor than what the guns have to do."""
    guide = guide_of(
        *({"id": name, "parts": [part], "time": minutes, "tools": ["gun"] if hot else []}
          for name, part, minutes, hot in steps)
    )  # fmt: skip
    needed = depends_on(guide)
    end = plan_class_times(guide, stock_of(), people, means=Means({"gun": guns})).end
    assert (_best(people, guns, steps, needed), end) == (best, ours)
    graph = nx.DiGraph()
    for name, _, minutes, _ in steps:
        graph.add_edge(name, "end", weight=minutes)
        for other in needed[name]:
            graph.add_edge(other, name, weight=next(one[2] for one in steps if one[0] == other))
    hot = sum(minutes for _, _, minutes, gun in steps if gun) * people / guns
    assert ours >= best >= max(nx.dag_longest_path_length(graph), hot)
