"""Drawings of one size → one drawing on which they lie side by side, each as it was."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import batched

from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.records import (
    Circle,
    Drawing,
    Group,
    Item,
    Lettering,
    Path,
    Rectangle,
)


def side_by_side(
    drawings: Sequence[Drawing], width: float, height: float = 0.0
) -> Iterator[Drawing]:
    """Drawings in rows from the upper left of pages `width` mm wide, as many as are needed.

    Pages are `height` mm high; as high as their rows for 0, as on a roll. All drawings have the
    size of the first; where a page is no larger than that, they stay as they are.
    """
    first = drawings[0]
    columns = int(width // first.width)
    rows = int(height // first.height) if height else -(-len(drawings) // max(columns, 1))
    if columns * rows < 2:
        yield from drawings
        return
    high = height or rows * first.height
    for batch in batched(drawings, columns * rows):
        items: list[Item] = []
        for number, drawing in enumerate(batch):
            row, column = divmod(number, columns)
            dx, dy = column * first.width, high - (row + 1) * first.height
            items += [_moved(item, dx, dy, f"{number}-") for item in drawing.items]
        yield replace(first, width=width, height=high, items=tuple(items))


def _moved(item: Item, dx: float, dy: float, name: str) -> Item:
    """The same elsewhere; `name` begins its id, which stays the only one of the page."""
    match item:
        case Path():
            frame = Frame(1.0, dx, dy)
            return replace(item, runs=tuple(frame.run(run) for run in item.runs))
        case Rectangle():
            return _box(item, dx, dy)
        case Circle(centre=(x, y)):
            return replace(item, centre=(x + dx, y + dy))
        case Lettering(at=(x, y)):
            return replace(item, at=(x + dx, y + dy))
        case Group():
            return replace(
                item,
                items=tuple(_moved(one, dx, dy, name) for one in item.items),
                id=name + item.id if item.id else "",
                clip=_box(item.clip, dx, dy) if item.clip else None,
            )


def _box(box: Rectangle, dx: float, dy: float) -> Rectangle:
    return replace(box, x=box.x + dx, y=box.y + dy)
