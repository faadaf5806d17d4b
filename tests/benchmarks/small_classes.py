"""Small classes of seeded variety → how much longer their time tables are than the shortest of all.

./start python tests/benchmarks/small_classes.py [COUNT] [--seed 7] [--list]

Two or three people build a kit each of three or four steps and share one or two heat guns. Each class
is planned in the author's order alone, and with the further tries that a class gets whose hours do
not suffice; and every order of its work is searched for the shortest there is.
The handbook's page on classes states what is found of sixty with seed 7.
"""

import argparse
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from random import Random
from statistics import mean

from layout.times.shops import guide_of, stock_of

from guidegen.buildfile.records.guide import Guide
from guidegen.layout.times.class_records import Means
from guidegen.layout.times.class_times import plan_class_times
from guidegen.layout.times.step_graph import depends_on

CLASSES, SEED = 60, 7
"""Those of the handbook."""
SLACK = 1e-6
"""minutes by which lengths may seem to differ."""

type KitState = tuple[float, tuple[float | None, ...]]
"""Minutes from now until a person is free; and for each step until its wait is over, None before it
is begun, 0 where nothing waits for it."""


@dataclass(frozen=True)
class SmallClass:
    """A class small enough to try every order of its work."""

    guide: Guide
    people: int
    guns: int

    @property
    def means(self) -> Means:
        """What there is; it is to be over at once, so that the plan makes all tries."""
        return Means({"gun": self.guns}, end=0.0)


@dataclass(frozen=True)
class Lengths:
    """minutes until the last hand is taken off."""

    best: float
    author: float
    """In the author's order alone."""
    tried: float
    """Of the shortest of all tries, which a leader gets where the hours do not suffice."""


def small_classes(count: int = CLASSES, seed: int = SEED) -> Iterator[SmallClass]:
    """As many classes as asked for; the first ones of a seed are always the same."""
    random = Random(seed)
    for _ in range(count):
        steps = [
            {
                "id": f"s{number}",
                "parts": [random.choice("pqr")],
                "time": random.choice([5, 10, 15, 20, 30, 45]),
                "wait": random.choice([0, 0, 15, 30, 60]),
                "tools": random.choice([[], ["gun"]]),
            }
            for number in range(random.choice([3, 4]))
        ]
        yield SmallClass(guide_of(*steps), random.choice([2, 3]), random.choice([1, 2]))


def compare(small: SmallClass) -> Lengths:
    """The lengths of a class as it is planned, and of the shortest plan there is."""
    stock, means = stock_of(), small.means
    author = plan_class_times(small.guide, stock, small.people, means=Means(means.tools))
    tried = plan_class_times(small.guide, stock, small.people, means=means)
    return Lengths(shortest(small), author.end, tried.end)


def shortest(small: SmallClass) -> float:
    """Minutes of the shortest of all plans, by an exhaustive search.

    In some best plan nothing could begin earlier as long as the order of all starts stays (a
    semi-active schedule: Baker, Introduction to Sequencing and Scheduling, 1974; from memory). So all
    orders are tried in which each job begins at once and none before the one ahead of it. What is
    left to do depends on what is free and ready when, counted from now; kits are alike, so that
    states that differ by whose kit it is are one. Each state is worked out once.
    """
    steps = small.guide.steps
    place = {step.id: number for number, step in enumerate(steps)}
    needed = [[place[name] for name in depends_on(small.guide)[step.id]] for step in steps]
    later = [
        [n for n, before in enumerate(needed) if number in before] for number in place.values()
    ]

    def moved(kit: KitState, minutes: float) -> KitState:
        free, ready = kit
        waits = tuple(
            None
            if at is None
            else max(0.0, at - minutes)
            if any(ready[after] is None for after in later[number])
            else 0.0
            for number, at in enumerate(ready)
        )
        return max(0.0, free - minutes), waits

    @cache
    def left(kits: tuple[KitState, ...], guns: tuple[float, ...]) -> float:
        """Minutes from now until the last hand is taken off what is not yet begun."""
        found = float("inf")
        for whose, (free, ready) in enumerate(kits):
            for number, step in enumerate(steps):
                waits = [ready[before] for before in needed[number]]
                if ready[number] is not None or any(at is None for at in waits):
                    continue
                hot = "gun" in step.tools
                starts = max([0.0, free, *(at for at in waits if at), *(guns[:1] if hot else ())])
                end = starts + step.time
                done = (*ready[:number], end + (step.wait or 0.0), *ready[number + 1 :])
                others = [kit for other, kit in enumerate(kits) if other != whose]
                after = sorted(
                    (moved(kit, starts) for kit in [*others, (end, done)]),
                    key=lambda kit: (kit[0], [-1.0 if at is None else at for at in kit[1]]),
                )
                busy = sorted([*guns[1:], end] if hot else guns)
                still = tuple(max(0.0, at - starts) for at in busy)
                found = min(found, max(end, starts + left(tuple(after), still)))
        return 0.0 if found == float("inf") else found

    begin: KitState = (0.0, (None,) * len(steps))
    return left((begin,) * small.people, (0.0,) * small.guns)


def main() -> None:
    """Print how good the plans are."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("count", nargs="?", type=int, default=CLASSES)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--list", action="store_true", help="each class in a line")
    asked = parser.parse_args()
    found = [compare(small) for small in small_classes(asked.count, asked.seed)]
    if asked.list:
        for one in found:
            print(f"best {one.best:g} min, author's order {one.author:g}, tried {one.tried:g}")
    for name, lengths in (
        ("author's order", [(one.author, one.best) for one in found]),
        ("all tries", [(one.tried, one.best) for one in found]),
    ):
        hit = sum(length <= best + SLACK for length, best in lengths)
        over = [length / best - 1 for length, best in lengths]
        print(
            f"{name}: the best for {hit} of {len(found)}, "
            f"{mean(over):.1%} longer on average, at worst {max(over):.0%}"
        )


if __name__ == "__main__":
    main()
