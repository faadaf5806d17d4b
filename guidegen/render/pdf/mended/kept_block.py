"""A block of a page as WeasyPrint laid it out in → how much room it needs, and copies of it.

Most copies are for a trial, such as one height of balanced columns, and nobody looks into them: a
copy waits, and what is in it is copied when somebody asks for it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

type Theirs = Any
"""What the library hands over: boxes, its context, its classes."""

type Laid = tuple[Theirs, Theirs, dict[str, Any], list[float], bool, int | None]
"""The library's: box, where it goes on, what follows, margins that meet, and two more."""

type Moves = tuple[tuple[float, float], ...]
"""px to the right and downward, one move after another: sums are rounded as the library's are."""


@dataclass(frozen=True)
class KeptBlock:
    """How a block came out, whole."""

    origin: object
    """The children that it was made from: Python gives the id of a dead list to the next."""
    result: Laid
    dx: float
    dy: float
    """px from where it was asked for to where it came out."""
    left: Mapping[Theirs, tuple[Theirs, float, float]]
    """Boxes in it that are placed at the end of the page, such as the marks of a list, by what
    stands for them: as they were left, and where they stood from where it was asked for."""
    placeholder: type[Any]
    """The library's class of what stands for a box that is placed at the end of the page."""
    waiting: type[Any]
    """The class of its copies, of `waiting_class`."""

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
        if type(box) is self.waiting:
            kept = box.waits.kept
            return float(box.position_y - kept.dy + kept.takes)
        lowest = end_of(box)
        for child in box.children or ():
            if type(child) is not self.placeholder:
                lowest = max(lowest, self._lowest(child))
            elif child._layout_done:
                lowest = max(lowest, self._lowest(child._box))
        return lowest

    @cached_property
    def _stand_ins(self) -> tuple[Theirs, ...]:
        """What stands in it for boxes that are placed later: the library may leave others."""
        within = set(self._placeholders(self.result[0])) if self.left else ()
        return tuple(one for one in self.left if one in within)

    def _placeholders(self, box: Theirs) -> list[Theirs]:
        if type(box) is self.placeholder:
            return [box, *self._placeholders(box._box)] if box._layout_done else [box]
        within = box.waits.left.values() if type(box) is self.waiting else box.children or ()
        return [one for child in within for one in self._placeholders(child)]

    @cached_property
    def pages(self) -> tuple[str, str]:
        """The kinds of page that it begins and ends on."""
        pages: tuple[str, str] = self.result[0].page_values()
        return pages

    def moved(self, x: float, y: float, absolute_boxes: list[Theirs]) -> Laid:
        """A copy asked for at another place; what in it is placed later is added to that list."""
        made, resume_at, next_page, margins, *others = self.result
        left: dict[Theirs, Theirs] = {}
        for stand_in in self._stand_ins:
            box, right, down = self.left[stand_in]
            own = left[stand_in] = self.placeholder(box.copy())
            own.position_x, own.position_y = x + right, y + down
        absolute_boxes.extend(left.values())
        copied = object.__new__(self.waiting)
        copied.__dict__.update(made.__dict__)
        copied.waits = Waiting(self, left)
        copied.move(x + self.dx - made.position_x, y + self.dy - made.position_y)
        return (copied, resume_at, dict(next_page), list(margins), *others)

    def copied(self, box: Theirs, left: Mapping[Theirs, Theirs], moves: Moves) -> Theirs:
        """A box in it with all in that box, moved; what is placed later is taken of `left`."""
        if box in left:
            return left[box]
        if type(box) is self.placeholder:
            own = self.placeholder(box._box)
            own.set_laid_out_box(self.copied(box._box, left, moves))
            return own
        own = object.__new__(type(box))
        values = own.__dict__
        values.update(box.__dict__)
        for right, down in moves:
            values["position_x"] += right
            values["position_y"] += down
        if "column_positions" in values:
            for right, _ in moves:
                own.column_positions = [place + right for place in own.column_positions]
        if type(box) is self.waiting:
            own.waits = Waiting(
                box.waits.kept,
                {key: self.copied(one, left, moves) for key, one in box.waits.left.items()},
                box.waits.moves + moves,
            )
        elif own.children:
            own.children = [self.copied(child, left, moves) for child in own.children]
        # The library loads and empties the layout of a text while it draws.
        if layout := values.get("pango_layout"):
            own.pango_layout = object.__new__(type(layout))
            own.pango_layout.__dict__.update(layout.__dict__)
        return own


@dataclass(slots=True)
class Waiting:
    """What a copy needs to know until its content is copied."""

    kept: KeptBlock
    left: Mapping[Theirs, Theirs]
    """Boxes that are placed later, by what stands for them in the kept block."""
    moves: Moves = ()
    """Where it was moved, without those boxes, which are moved at once."""


def waiting_class(block_box: type[Any]) -> type[Any]:
    """The class of copies that wait, for the library's class of blocks."""

    class WaitingBlock(block_box):  # type: ignore[misc]
        """A block that becomes an ordinary one as soon as somebody asks for what is in it."""

        waits: Waiting

        @property
        def children(self) -> list[Theirs]:
            self.settle()
            return self.children

        @children.setter
        def children(self, children: list[Theirs]) -> None:
            del self.waits
            self.__class__ = block_box
            self.children = children

        def settle(self) -> None:
            """Become an ordinary block."""
            waits = self.waits
            made = waits.kept.result[0]
            self.children = [
                waits.kept.copied(child, waits.left, waits.moves) for child in made.children
            ]

        def copy(self) -> Theirs:
            self.settle()
            return self.copy()

        def move(self, right: float, down: float) -> None:
            """Move it without the boxes that are placed later."""
            self.position_x += right
            self.position_y += down
            self.waits.moves += ((right, down),)

        def translate(self, dx: float = 0, dy: float = 0, ignore_floats: bool = False) -> None:
            if ignore_floats:
                self.settle()
                self.translate(dx, dy, ignore_floats)
            elif dx or dy:
                self.move(dx, dy)
                for one in self.waits.left.values():
                    one.translate(dx, dy)

        def page_values(self) -> tuple[str, str]:
            return self.waits.kept.pages

    return WaitingBlock


def end_of(box: Theirs) -> float:
    """Where a box ends with its margin, px from the top of the page."""
    end: float = box.position_y + box.margin_height()
    return end
