"""What a site of 100,000 guides takes: pressing, edits, storing, serving. Prints tables.

    python tests/benchmarks/simulate_large_site.py

Every figure follows from ASSUMED and a seeded chance, so it is the same on any machine. What one
guide takes was measured on one machine, by bench_guide.py and bench_catalogue.py; how many guides,
edits, readers and losses there are is assumed. None of it is a trial at this size.
"""

import heapq
import random
from collections import OrderedDict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from math import exp, log


@dataclass(frozen=True)
class Assumed:
    """What the figures rest on."""

    guides: int = 100_000
    press: float = 105.0
    """CPU seconds of one guide in three sizes, all documents of the demo's site. Measured."""
    spread: float = 0.8
    """Standard deviation of the logarithm of that: one guide in six takes more than twice as long
    as the middle one. Assumed."""
    edit: float = 104.0
    """CPU seconds of a press after one step of that guide was edited: every booklet shows it, and
    booklets in all their forms are nearly all of the work. Measured."""
    neighbour: float = 0.016
    """CPU seconds that each other guide of a shard adds to it. Measured: by how much the press
    after an edit grows from a catalogue of 10 guides to one of 1000."""
    files: int = 200
    """Files of a guide. Measured."""
    megabytes: float = 22.6
    """Of all its files. Measured."""
    changed_files: int = 52
    """Files that differ after one step was edited. Measured."""
    changed_megabytes: float = 18.6
    """Of these files. Measured."""
    edits: int = 500
    """A day. Assumed."""
    lost: float = 0.01
    """Share of jobs whose worker is lost half way. Assumed."""
    popularity: float = 0.9
    """Exponent of Zipf's law by which readers choose guides. Breslau and others, Web caching and
    Zipf-like distributions, INFOCOM 1999: 0.64 to 0.83 for caches of web pages; from memory."""
    visits: int = 300_000
    """Guides opened in a day. Assumed."""
    seed: int = 1


ASSUMED = Assumed()


def guide_times(assumed: Assumed = ASSUMED) -> list[float]:
    """CPU seconds to press each guide."""
    chance = random.Random(assumed.seed)
    middle = log(assumed.press) - assumed.spread**2 / 2
    return [exp(chance.gauss(middle, assumed.spread)) for _ in range(assumed.guides)]


def press_all(workers: int, assumed: Assumed = ASSUMED) -> float:
    """Hours until all guides are pressed: each worker takes the next guide when it is free."""
    chance = random.Random(assumed.seed + workers)
    free = [0.0] * workers
    end = 0.0
    for took in guide_times(assumed):
        start = heapq.heappop(free)
        if chance.random() < assumed.lost:
            start += took / 2  # what the lost worker had done; another one begins anew
        heapq.heappush(free, start + took)
        end = max(end, start + took)
    return end / 3600


def edit_shown(shards: int, assumed: Assumed = ASSUMED) -> float:
    """CPU seconds from an edit of one guide to its new files, where its shard is pressed alone."""
    neighbours = assumed.guides / shards - 1
    return assumed.edit + neighbours * assumed.neighbour


def busy_day(shards: int, workers: int, assumed: Assumed = ASSUMED) -> tuple[float, float]:
    """Minutes that an edit waits for its files: middle and worst of a day's edits.

    Edits come at seeded moments of ten hours; a shard is pressed by one worker at a time, and
    edits that meet a shard at work are pressed together afterwards.
    """
    chance = random.Random(assumed.seed + shards)
    edits = sorted(
        (chance.uniform(0, 36_000), chance.randrange(shards)) for _ in range(assumed.edits)
    )
    free, shard_free = [0.0] * workers, dict.fromkeys(range(shards), 0.0)
    begun: dict[int, float] = {}
    waits = []
    for moment, shard in edits:
        if begun.get(shard, 0.0) > moment:  # the press that waits for this shard takes it along
            waits.append(shard_free[shard] - moment)
            continue
        start = max(moment, heapq.heappop(free), shard_free[shard])
        end = start + edit_shown(shards, assumed)
        heapq.heappush(free, end)
        begun[shard], shard_free[shard] = start, end
        waits.append(end - moment)
    waits.sort()
    return waits[len(waits) // 2] / 60, waits[-1] / 60


def served_by_cache(share: float, assumed: Assumed = ASSUMED) -> float:
    """Share of visits that a cache of `share` of all guides answers; the longest unused one goes."""
    chance = random.Random(assumed.seed)
    weights = list(accumulate(1 / n**assumed.popularity for n in range(1, assumed.guides + 1)))
    room = max(1, round(assumed.guides * share))
    cache: OrderedDict[int, None] = OrderedDict()
    hits = 0
    for guide in chance.choices(range(assumed.guides), cum_weights=weights, k=assumed.visits):
        if guide in cache:
            hits += 1
            cache.move_to_end(guide)
        else:
            cache[guide] = None
            if len(cache) > room:
                cache.popitem(last=False)
    return hits / assumed.visits


def tables(assumed: Assumed = ASSUMED) -> Iterator[str]:
    """The figures as Markdown."""
    yield "| workers | whole site pressed in |\n| ---: | ---: |\n" + "".join(
        f"| {workers:,} | {_hours(press_all(workers, assumed))} |\n" for workers in (16, 128, 1024)
    )
    yield (
        "| shards | guides in each | CPU for one edit | files made within (half of edits) "
        "| (all edits) |\n| ---: | ---: | ---: | ---: | ---: |\n"
        + "".join(_shard_row(shards, assumed) for shards in (16, 128, 1024, 8192))
    )
    total = assumed.guides * assumed.megabytes / 1e6
    yield (
        "| store | |\n| --- | ---: |\n"
        f"| files | {assumed.guides * assumed.files / 1e6:.1f} million |\n"
        f"| bytes | {total:.1f} TB |\n"
        f"| files sent after one edit | {assumed.changed_files} |\n"
        f"| bytes sent for a day of {assumed.edits} edits | "
        f"{assumed.edits * assumed.changed_megabytes / 1000:.1f} GB |\n"
    )
    yield "| cache | answers |\n| ---: | ---: |\n" + "".join(
        f"| {share:.1%} of guides, {total * share * 1000:,.0f} GB "
        f"| {served_by_cache(share, assumed):.0%} of visits |\n"
        for share in (0.001, 0.01, 0.1)
    )


def _shard_row(shards: int, assumed: Assumed) -> str:
    middle, worst = busy_day(shards, 16, assumed)
    cpu = edit_shown(shards, assumed)
    return (
        f"| {shards:,} | {assumed.guides / shards:,.0f} | {cpu:,.0f} s "
        f"| {middle:,.1f} min | {worst:,.1f} min |\n"
    )


def _hours(hours: float) -> str:
    return f"{hours / 24:.1f} days" if hours > 48 else f"{hours:.1f} hours"


if __name__ == "__main__":
    print("\n".join(tables()))
