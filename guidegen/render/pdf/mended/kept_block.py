"""A block of a page as WeasyPrint laid it out in → how much room it needs, and copies of it."""

from copy import copy
from dataclasses import dataclass
from functools import cached_property
from typing import Any

type Theirs = Any
"""What the library hands over: boxes, its context, its classes."""

type Laid = tuple[Theirs, Theirs, dict[str, Any], list[float], bool, int | None]
"""The library's: box, where it goes on, what follows, margins that meet, and two more."""


@dataclass(frozen=True)
class KeptBlock:
    """How a block came out, whole."""

    origin: object
    """The children that it was made from: Python gives the id of a dead list to the next."""
    result: Laid
    dx: float
    dy: float
    """px from where it was asked for to where it came out."""
    left: dict[Theirs, tuple[Theirs, float, float]]
    """Boxes in it that are placed at the end of the page, such as the marks of a list, by what
    stands for them: as they were left, and where they stood from where it was asked for."""
    placeholder: type[Any]
    """The library's class of what stands for a box that is placed at the end of the page."""

    # The boxes may be moved after this, but only all at once.
    @cached_property
    def takes(self) -> float:
        """px below where it was asked for that all in it needs."""
        return self._lowest(self.result[0]) - self._asked

    @cached_property
    def content(self) -> float:
        """px below where it was asked for to the end of its own content."""
        made = self.result[0]
        content: float = made.content_box_y() + made.height - self._asked
        return content

    @property
    def _asked(self) -> float:
        asked: float = self.result[0].position_y - self.dy
        return asked

    def _lowest(self, box: Theirs) -> float:
        """Where the lowest of a box and of all in it ends; what has no place yet has no end."""
        lowest = end_of(box)
        for child in box.children or ():
            if type(child) is not self.placeholder:
                lowest = max(lowest, self._lowest(child))
            elif child._layout_done:
                lowest = max(lowest, self._lowest(child._box))
        return lowest

    def moved(self, x: float, y: float, absolute_boxes: list[Theirs]) -> Laid:
        """A copy asked for at another place; what in it is placed later is added to that list."""
        made, resume_at, next_page, margins, *others = self.result
        left: dict[Theirs, Theirs] = {}
        copied = self._copied(made, left)
        copied.translate(x + self.dx - made.position_x, y + self.dy - made.position_y)
        for stand_in, own in left.items():
            _, right, down = self.left[stand_in]
            own.position_x, own.position_y = x + right, y + down
        absolute_boxes.extend(left[one] for one in self.left if one in left)
        return (copied, resume_at, dict(next_page), list(margins), *others)

    def _copied(self, box: Theirs, left: dict[Theirs, Theirs]) -> Theirs:
        """A box with all in it; what is placed later is put in `left`, as it was."""
        if box in self.left:
            own = left[box] = self.placeholder(self.left[box][0].copy())
            return own
        own = box.copy()
        if type(box) is self.placeholder:
            own.set_laid_out_box(self._copied(box._box, left))
            return own
        if own.children:
            own.children = [self._copied(child, left) for child in own.children]
        # The library loads and empties the layout of a text while it draws.
        if layout := own.__dict__.get("pango_layout"):
            own.pango_layout = copy(layout)
        return own


def end_of(box: Theirs) -> float:
    """Where a box ends with its margin, px from the top of the page."""
    end: float = box.position_y + box.margin_height()
    return end
