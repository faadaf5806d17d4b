"""What steps need stands before them, and no steps wait for each other."""

from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.yaml.tree import Trail
from guidegen.problems import Problem

MOST = 20
"""Circles that are told of one guide. Our choice: each one hides others."""

type Needs = dict[int, dict[int, int]]
"""For each step the steps that it names, each with its place in that list."""


def check_needs(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Steps that are needed come earlier; circles are told as a whole, with all their steps."""
    steps = file.guide.steps
    numbers = {step.id: number for number, step in reversed(list(enumerate(steps)))}
    needs: Needs = {number: {} for number in range(len(steps))}
    for number, step in enumerate(steps):
        for index, need in enumerate(step.needs):
            if need in numbers:
                needs[number].setdefault(numbers[need], index)
    in_circles: set[tuple[int, int]] = set()
    for circle in _circles(needs):
        pairs = [*zip(circle, [*circle[1:], circle[0]], strict=True)]
        in_circles |= set(pairs)
        words = ", ".join(f'"{steps[a].title}" needs "{steps[b].title}"' for a, b in pairs)
        trail: Trail = ("steps", circle[0], "needs", needs[circle[0]][pairs[0][1]])
        yield file.source.problem("needs-cycle", trail, f"steps wait for each other: {words}")
    for number, named in needs.items():
        for other, index in named.items():
            if other >= number and (number, other) not in in_circles:
                message = f'"{steps[other].id}" must come before this step, but stands after it'
                yield file.source.problem("wrong-order", ("steps", number, "needs", index), message)


def _circles(needs: Needs) -> Iterator[list[int]]:
    """Circles of steps, each needing the next one, from the earliest step on."""
    graph = {number: dict(named) for number, named in needs.items()}
    for _ in range(MOST):
        try:
            TopologicalSorter(graph).prepare()
        except CycleError as error:
            found: list[int] = error.args[1]
            circle = found[:0:-1]  # the library goes from what is needed to what needs it
            first = circle.index(min(circle))
            circle = [*circle[first:], *circle[:first]]
            yield circle
            del graph[circle[0]][circle[1 % len(circle)]]
        else:
            return
