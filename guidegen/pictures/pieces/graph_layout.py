"""Names and the pairs that join them → boxes in columns; the same input gives the same picture."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

type Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class NameGroup:
    """Names that hang together, in columns from left to right."""

    columns: tuple[tuple[str, ...], ...]


def group_names(names: Sequence[str], pairs: Sequence[Pair], widest: int) -> list[NameGroup]:
    """Groups of joined names, largest first; names without a partner form groups of one.

    A pair leads from its first name to its second. Each group starts at the name to which the
    fewest pairs lead, the most joined of those; the next column holds its neighbours, and so on
    (breadth first). Groups that would need more than `widest` columns wrap their last ones.
    Order within a column follows the order of the neighbours in the column before.
    """
    near: dict[str, list[str]] = {name: [] for name in names}
    for first, second in pairs:
        if first != second and first in near and second in near:
            near[first].append(second)
            near[second].append(first)
    groups: list[NameGroup] = []
    seen: set[str] = set()
    for name in names:
        if name in seen:
            continue
        members = _reach(name, near)
        seen.update(members)
        led = Counter(second for first, second in pairs if first != second)
        # The last key is the order of the file, so that of equals the author's first one leads.
        start = min(members, key=lambda n: (led[n], -len(set(near[n])), members.index(n)))
        groups.append(NameGroup(_columns(start, near, widest)))
    groups.sort(key=lambda group: -sum(len(column) for column in group.columns))
    return groups


def _reach(start: str, near: dict[str, list[str]]) -> list[str]:
    """All names joined to `start`, directly or not, nearest first."""
    order = [start]
    # The list grows while it is gone through: each name brings its own neighbours behind it.
    for name in order:
        order.extend(other for other in dict.fromkeys(near[name]) if other not in order)
    return order


def _columns(start: str, near: dict[str, list[str]], widest: int) -> tuple[tuple[str, ...], ...]:
    columns: list[list[str]] = [[start]]
    placed = {start}
    while True:
        following = [
            other
            for name in columns[-1]
            for other in dict.fromkeys(near[name])
            if other not in placed
        ]
        following = list(dict.fromkeys(following))
        if not following:
            break
        placed.update(following)
        columns.append(following)
    # What is too far to the right goes under the last column that fits: its lines get longer, but
    # no name is left out.
    while len(columns) > widest:
        last = columns.pop()
        columns[-1].extend(last)
    return tuple(tuple(column) for column in columns)
