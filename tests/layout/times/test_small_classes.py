"""Small classes: the search for the shortest plan is exhaustive, and plans are near it."""

from itertools import islice, permutations

from benchmarks.small_classes import SmallClass, compare, shortest, small_classes

from guidegen.layout.times.step_graph import depends_on

SAMPLE = 10
"""Of the sixty classes of the handbook: a second of work."""


def _of_all_orders(small: SmallClass) -> float:
    """The shortest of all orders of jobs, each begun as soon as its person, its waits and a gun let
    it: no state, no symmetry, only every permutation."""
    steps, needed = small.guide.steps, depends_on(small.guide)
    jobs = [(kit, step) for kit in range(small.people) for step in steps]
    best = float("inf")
    for order in permutations(jobs):
        ready: dict[tuple[int, str], float] = {}
        free, guns = [0.0] * small.people, [0.0] * small.guns
        for kit, step in order:
            if any((kit, other) not in ready for other in needed[step.id]):
                break
            at = max([free[kit], *(ready[kit, other] for other in needed[step.id])])
            if "gun" in step.tools:
                gun = guns.index(min(guns))
                at = max(at, guns[gun])
                guns[gun] = at + step.time
            free[kit] = at + step.time
            ready[kit, step.id] = free[kit] + (step.wait or 0.0)
        else:
            best = min(best, max(free))
    return best


def test_the_search_finds_what_all_permutations_find():
    """For pairs of people with three steps, 720 orders each, the search by states tells the same
    shortest length as all orders one after the other."""
    tiny = [s for s in small_classes(40) if (s.people, len(s.guide.steps)) == (2, 3)]
    assert len(tiny) >= 5
    assert {small.guns for small in tiny} == {1, 2}
    for small in tiny:
        assert shortest(small) == _of_all_orders(small)


def test_plans_of_a_sample_are_never_better_than_the_best_and_near_it():
    """Of ten classes no plan is shorter than the shortest; the further tries make none longer, and
    find the shortest more often than the author's order does: bounds that hold with room to spare."""
    found = [compare(small) for small in islice(small_classes(), SAMPLE)]
    assert all(one.best <= one.tried <= one.author for one in found)
    hits = [sum(length == one.best for one, length in pairs) for pairs in (
        [(one, one.author) for one in found], [(one, one.tried) for one in found],
    )]  # fmt: skip
    assert hits[0] < hits[1] and hits[1] >= SAMPLE // 2
    assert sum(one.tried / one.best - 1 for one in found) / SAMPLE < 0.15
