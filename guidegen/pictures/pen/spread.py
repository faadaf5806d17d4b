"""Wanted levels of labels in → levels that keep a distance out."""


def spread_levels(wanted: list[float], distance: float) -> list[float]:
    """The levels nearest to `wanted` (rising) of which no two are closer than `distance` mm.

    Neighbours that come too close form a block around their common middle; blocks that then touch
    join: the least-squares answer, by pooling (Ayer and others, 1955).
    """
    blocks: list[tuple[float, int]] = []
    for number, level in enumerate(wanted):
        # With the distance taken off, levels have only to rise.
        total, count = level - number * distance, 1
        # A block whose mean lies above the next one's breaks the order: both become one, whose
        # mean may break it with the block before in turn.
        while blocks and blocks[-1][0] / blocks[-1][1] > total / count:
            earlier, members = blocks.pop()
            total, count = total + earlier, count + members
        blocks.append((total, count))
    levels: list[float] = []
    for total, count in blocks:
        first = len(levels)
        levels.extend(total / count + (first + i) * distance for i in range(count))
    return levels
