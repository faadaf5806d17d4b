"""Blocks of a page, laid out once and moved where WeasyPrint lays them out again.

WeasyPrint 70 lays out a block each time that something around it is tried: for each height of
balanced columns, for columns that were only measured, for a page that turned out too short. In a
booklet that is 4 times for each block on the average, and more than half of the time of a layout. A
block that came out whole comes out the same wherever it has the same width and room enough, so it
is kept until its page is done, and copied to its new place. Whatever else it could depend on
(floats beside it, footnotes, boxes that leave it) keeps it from being kept.

Mended from outside, and only where the library still is as described.
"""

from collections.abc import Callable
from copy import copy
from dataclasses import dataclass
from types import ModuleType
from typing import Any

type Laid = tuple[Any, Any, dict[str, Any], list[float], bool, int | None]
"""The library's: box, where it goes on, what follows, margins that meet, and two more."""

SLACK = 1e-9
"""Share of a page that the library lets a block run over, against rounding."""

type LayOut = Callable[..., Laid]


@dataclass(slots=True)
class _Kept:
    """How a block came out."""

    origin: object
    """The children that it was made from: Python gives the id of a dead list to the next."""
    result: Laid
    dx: float
    dy: float
    """From where it was asked for to where it came out."""
    takes: float | None = None
    """Height of all in it below where it was asked for; None before one asks."""
    content: float = 0.0
    """The same to the end of its own content."""

    def measure(self, placeholder: type) -> float:
        """How much room it needs, looked up in its boxes once."""
        if self.takes is None:
            made = self.result[0]
            asked = made.position_y - self.dy
            self.takes = _lowest(made, placeholder) - asked
            self.content = made.content_box_y() + made.height - asked
        return self.takes


class _Memory:
    """The blocks of one document, while its current page and the next one are set."""

    def __init__(self) -> None:
        self.version = -1
        self.page: int | None = None
        self.now: dict[object, _Kept] = {}
        self.before: dict[object, _Kept] = {}

    def turn(self, page: int | None, version: int) -> None:
        """Forget what no page can ask for any more."""
        if version != self.version:
            self.now, self.before, self.version = {}, {}, version
        if page != self.page:
            self.now, self.before, self.page = {}, self.now, page


class _Watch:
    """What happens inside of a block and must keep it from being kept."""

    def __init__(self) -> None:
        self.leaving = 0
        """Boxes taken out of the flow to another page or its margins, columns filled to the end of
        a page, tables with columns of their own look."""
        self.texts = 0
        """Texts that were put in anew, as numbers of pages became known."""


_WATCH = _Watch()
"""One for a process, which lays out one document at a time. Counts only rise."""


def mend_blocks(block: ModuleType, layout: ModuleType, targets: ModuleType) -> None:
    """Mend `weasyprint.layout.block`, `weasyprint.layout` and `weasyprint.css.targets`, once.

    Another version of them is left as it is.
    """
    names = ("block_level_layout", "columns_layout", "boxes", "AbsolutePlaceholder")
    context = getattr(layout, "LayoutContext", None)
    item = getattr(targets, "CounterLookupItem", None)
    if (
        hasattr(block, "guidegen")
        or not all(hasattr(block, name) for name in names)
        or not hasattr(context, "add_running_element")
        or item is None
    ):
        return
    block.columns_layout = _counted(block.columns_layout)  # type: ignore[attr-defined]
    context.add_running_element = _counted(context.add_running_element)  # type: ignore[union-attr]
    _watch_texts(item)
    block.block_level_layout = _kept(block)  # type: ignore[attr-defined]
    block.guidegen = True  # type: ignore[attr-defined]


def _counted[**P, R](call: Callable[P, R]) -> Callable[P, R]:
    def counted(*args: P.args, **kwargs: P.kwargs) -> R:
        _WATCH.leaving += 1
        return call(*args, **kwargs)

    return counted


def _watch_texts(item: Any) -> None:  # noqa: ANN401 - a class of the library
    make_item = item.__init__

    def make_watched(lookup: Any, parse_again: Callable[..., None], *others: object) -> None:  # noqa: ANN401
        def again(*args: object) -> None:
            _WATCH.texts += 1
            parse_again(*args)

        make_item(lookup, again, *others)

    item.__init__ = make_watched


def _kept(block: ModuleType) -> LayOut:
    """`block_level_layout`, asked once for each block, width and surroundings of a page."""
    lay_out: LayOut = block.block_level_layout
    block_box, any_box = block.boxes.BlockBox, block.boxes.Box
    placeholder = block.AbsolutePlaceholder

    def block_level_layout(  # noqa: PLR0913, PLR0917 - the library's order of arguments
        context: Any,  # noqa: ANN401
        box: Any,  # noqa: ANN401
        bottom_space: float,
        skip_stack: object,
        containing_block: Any,  # noqa: ANN401
        page_is_empty: bool = True,
        absolute_boxes: list[object] | None = None,
        fixed_boxes: list[object] | None = None,
        adjoining_margins: list[float] | None = None,
        *others: object,
    ) -> Laid:
        absolute_boxes = [] if absolute_boxes is None else absolute_boxes
        fixed_boxes = [] if fixed_boxes is None else fixed_boxes
        margins = [] if adjoining_margins is None else adjoining_margins

        def anew() -> Laid:
            lists = (absolute_boxes, fixed_boxes, margins)
            return lay_out(
                context, box, bottom_space, skip_stack, containing_block, page_is_empty, *lists, *others
            )

        def outside() -> tuple[int, ...]:
            return (
                len(absolute_boxes),
                len(fixed_boxes),
                len(context.broken_out_of_flow),
                _WATCH.leaving,
                _WATCH.texts,
            )

        x, y = box.position_x, box.position_y
        shapes = context.excluded_shapes
        if (
            skip_stack is not None
            or any(others)
            or type(box) is not block_box
            or box.is_flex_item
            or box.is_column
            or not isinstance(containing_block, any_box)
            or context.footnotes
            or context.current_page_footnotes
            or any(_end(shape) > y for shape in shapes)
        ):
            return anew()
        memory = _memory_of(context)
        key = (
            id(box.children),
            id(box.style),
            containing_block.width,
            containing_block.height,
            containing_block.style["direction"],
            containing_block.is_for_root_element,
            tuple(margins),
            page_is_empty and (context.current_page > 1, context.forced_break),
            context.in_column,
        )
        kept = memory.now.get(key) or memory.before.get(key)
        if kept is not None:
            end = context.page_bottom - bottom_space
            if y + kept.measure(placeholder) <= end:
                memory.now[key] = kept
                return _moved(kept, x, y, placeholder)
            if (
                y + kept.content > end * (1 + SLACK)
                and not page_is_empty
                and not containing_block.is_monolithic()
                and block.avoid_page_break(box.style["break_inside"], context)
            ):
                # It may not be torn apart, so it goes to the next page or column.
                return None, None, {"break": "any", "page": box.page_values()[0]}, [], False, None
        before, beside = outside(), len(shapes)
        result = anew()
        made = result[0]
        if (
            made is not None
            and result[1] is None
            and outside() == before
            # A float that ends within the block is in nobody's way below it.
            and all(_end(shape) <= made.position_y + made.margin_height() for shape in shapes[beside:])
        ):
            told = (made, None, dict(result[2]), list(result[3]), *result[4:])
            memory.now[key] = _Kept(box.children, told, made.position_x - x, made.position_y - y)
        return result

    return block_level_layout


def _memory_of(context: Any) -> _Memory:  # noqa: ANN401 - the library's
    memory: _Memory | None = getattr(context, "guidegen_blocks", None)
    if memory is None:
        memory = context.guidegen_blocks = _Memory()
    memory.turn(context.current_page, _WATCH.texts)
    return memory


def _end(box: Any) -> float:  # noqa: ANN401 - the library's
    """Where a box ends with its margin."""
    end: float = box.position_y + box.margin_height()
    return end


def _lowest(box: Any, placeholder: type) -> float:  # noqa: ANN401 - the library's
    """Where the lowest of a box and of all in it ends."""
    lowest = _end(box)
    for child in box.children or ():
        inner = child._box if type(child) is placeholder else child
        if hasattr(inner, "margin_height"):
            lowest = max(lowest, _lowest(inner, placeholder))
    return lowest


def _moved(kept: _Kept, x: float, y: float, placeholder: type) -> Laid:
    """A copy of a block at another place."""
    made, resume_at, next_page, margins, *others = kept.result
    copied = _copied(made, placeholder)
    copied.translate(x + kept.dx - made.position_x, y + kept.dy - made.position_y)
    return (copied, resume_at, dict(next_page), list(margins), *others)


def _copied(box: Any, placeholder: type) -> Any:  # noqa: ANN401 - the library's box
    """A box with all in it; what stands in another place stays told from what does not."""
    if type(box) is placeholder:
        own = box.copy()
        own.set_laid_out_box(_copied(box._box, placeholder))
        return own
    own = box.copy()
    if own.children:
        own.children = [_copied(child, placeholder) for child in own.children]
    layout = own.__dict__.get("pango_layout")
    if layout is not None:
        # The library loads and empties it while it draws.
        own.pango_layout = copy(layout)
    return own
