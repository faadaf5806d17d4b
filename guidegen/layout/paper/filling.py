"""Paper and templates in some order → as many as go on it, each as low as it goes, out."""

from collections.abc import Mapping, Sequence
from typing import Protocol, Self

from guidegen.layout.paper.items import PaperItem, Turned
from guidegen.layout.paper.raster import Mask
from guidegen.layout.paper.sheets import PackedItem


class OpenPaper(Protocol):
    """Cells that may be covered: of a page (CellField), or of several (gaps.py)."""

    @property
    def most_free(self) -> int:
        """A mask with more cells than this has no place."""
        ...

    def lowest(self, mask: Mask) -> tuple[int, int] | None:
        """The lowest, then leftmost position (x, y) where a mask covers no set cell."""
        ...

    def with_mask(self, mask: Mask, x: int, y: int) -> Self:
        """The same with the mask's cells covered as well."""
        ...


class Filling:
    """Paper with some templates on it, and what follows from laying one more.

    What follows is found once: orders of templates that differ somewhere lay the same ones in the
    same order here, most of the time. Nine of ten places of a large kit are told by that.
    """

    __slots__ = ("_after", "_angles", "_before", "_paper", "covered", "laid")

    def __init__(
        self,
        paper: OpenPaper,
        angles: Mapping[int, tuple[float, ...]],
        laid: tuple[PackedItem, ...] = (),
        before: "Filling | None" = None,
    ) -> None:
        self._paper, self._angles, self._before = paper, angles, before
        self.laid = laid
        self.covered = sum(one.turned.mask.count for one in laid)
        """Cells of all that lies here."""
        self._after: dict[int, Filling | None] = {}

    def add(self, item: PaperItem) -> "Filling | None":
        """This with one more item at its lowest place; None where it has none."""
        key = id(item)
        if key not in self._after:
            self._after[key] = None if self._lacks_room(key) else self._put(item)
        return self._after[key]

    def add_all(self, items: Sequence[PaperItem]) -> "tuple[Filling, list[PaperItem]]":
        """This with all items that go on it in their order, and the rest of them."""
        filled, rest = self, []
        for item in items:
            more = filled.add(item)
            if more is None:
                rest.append(item)
            else:
                filled = more
        return filled, rest

    def _lacks_room(self, key: int) -> bool:
        """Whether an item is known to have found no place when less lay here."""
        before = self._before
        while before is not None:
            if before._after.get(key, before) is None:
                return True
            before = before._before
        return False

    def _put(self, item: PaperItem) -> "Filling | None":
        place = place_item(item, self._angles[id(item)], self._paper)
        if place is None:
            return None
        laid = PackedItem(item, *place)
        paper = self._paper.with_mask(laid.turned.mask, laid.x, laid.y)
        return Filling(paper, self._angles, (*self.laid, laid), self)


def place_item(
    item: PaperItem, angles: Sequence[float], paper: OpenPaper
) -> tuple[Turned, int, int] | None:
    """The lowest place for an item on paper, at the angle that keeps its top lowest."""
    best: tuple[int, int, int, Turned] | None = None
    room = paper.most_free
    for angle in angles:
        turned = item.turned(angle)
        # Every angle covers about as many cells, so one that has too many ends the search.
        if turned.mask.count > room:
            return None
        spot = paper.lowest(turned.mask)
        if spot is None:
            continue
        x, y = spot
        # By its top, not its foot: pages fill from below, and a low top leaves the most in one
        # piece.
        if best is None or (y + turned.mask.height, x) < (best[0], best[1]):
            best = (y + turned.mask.height, x, y, turned)
    return (best[3], best[1], best[2]) if best else None
