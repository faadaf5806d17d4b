"""Sizes and bins in → which size goes into which bin, if they all fit (one-dimensional packing)."""

from collections.abc import Sequence

_SLACK = 1e-6
"""Amount by which sums of floats may seem not to fit."""

STEPS_FOR_BIN = 3000
"""Subsets looked at to fill one bin. Our choice: milliseconds."""

DEEPEST = 400
"""Sizes up to which branch and bound is tried: it goes one call deeper for each."""


class Steps:
    """A bound on work that several searches share."""

    def __init__(self, most: int) -> None:
        self.left = most

    def spend(self) -> bool:
        """True while there is work left to spend."""
        self.left -= 1
        return self.left >= 0


def first_fit(sizes: Sequence[float], room: Sequence[float]) -> list[int] | None:
    """For each size, in the order given, the first bin with room for it; None where there is none.

    With sizes from large to small this is first-fit decreasing (Johnson, 1973).
    """
    rest = list(room)
    bins = []
    for size in sizes:
        for number, left in enumerate(rest):
            if size <= left + _SLACK:
                rest[number] -= size
                bins.append(number)
                break
        else:
            return None
    return bins


def fullest_fit(sizes: Sequence[float], room: Sequence[float]) -> list[int] | None:
    """Bins for sizes (large to small), each bin in turn filled as full as it gets; None if too few.

    The largest size left goes in first, then the subset that leaves least (minimum bin slack;
    Gupta and Ho, 1999), as far as a bounded search finds it.
    """
    waiting: dict[float, list[int]] = {}
    for number, size in enumerate(sizes):
        waiting.setdefault(size, []).append(number)
    bins = [-1] * len(sizes)
    for bin_, left in enumerate(room):
        # The largest that is left must go somewhere, and no bin will ever be emptier than this
        # one.
        seed = next((size for size in waiting if size <= left + _SLACK), None)
        if seed is None:
            continue
        counts = {size: len(numbers) - (size == seed) for size, numbers in waiting.items()}
        for size in (seed, *_fullest(counts, left - seed)):
            bins[waiting[size].pop()] = bin_
            if not waiting[size]:
                del waiting[size]
    return None if waiting else bins


def _fullest(counts: dict[float, int], room: float) -> list[float]:
    """Sizes, each at most as often as it is there, that leave the least of `room`."""
    sizes = list(counts)
    best_left, best = room, list[float]()
    steps = Steps(STEPS_FOR_BIN)

    def fill(index: int, left: float, chosen: list[float]) -> None:
        nonlocal best_left, best
        if left < best_left - _SLACK:
            best_left, best = left, list(chosen)
        # A bin without rest cannot be filled better.
        if best_left <= _SLACK or index == len(sizes) or not steps.spend():
            return
        size = sizes[index]
        # A length of 0 takes no room: all of them go in at once, and nothing is divided by it.
        most = min(counts[size], int((left + _SLACK) / size)) if size > 0 else counts[size]
        for count in range(most, -1, -1):
            fill(index + 1, left - count * size, chosen + [size] * count)
            if best_left <= _SLACK:
                return

    fill(0, room, [])
    return best


def exact_fit(
    sizes: Sequence[float], room: Sequence[float], steps: Steps
) -> tuple[list[int] | None, bool]:
    """Bins for sizes (large to small) or None, and whether that answer is certain.

    Depth first over the bins of each size. Bins with the same rest are the same; equal sizes go
    into bins in order; rests too small for any size are waste, and too much waste ends a branch.
    """
    slack = sum(room) - sum(sizes)
    if slack < -_SLACK:
        return None, True
    if len(sizes) > DEEPEST:
        return None, False
    rest = list(room)
    bins: list[int] = []

    def place(number: int) -> bool:
        if number == len(sizes):
            return True
        if not steps.spend():
            return False
        # Rests below the smallest size stay empty. More of them than there is room to spare, and
        # the sizes to come cannot all fit.
        if sum(left for left in rest if left < sizes[-1] - _SLACK) > slack + _SLACK:
            return False
        size = sizes[number]
        tried: set[float] = set()
        # Equal lengths are alike: trying them in another order of bins would repeat the same
        # packing.
        for bin_ in range(bins[-1] if number and sizes[number - 1] == size else 0, len(rest)):
            left = round(rest[bin_], 6)
            if size > left + _SLACK or left in tried:
                continue
            tried.add(left)
            rest[bin_] -= size
            bins.append(bin_)
            if place(number + 1):
                return True
            bins.pop()
            rest[bin_] += size
        return False

    found = place(0)
    # A search that ran out of steps has not shown that there is no packing.
    return (bins if found else None), found or steps.left >= 0
