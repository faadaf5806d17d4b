"""Blocks of a page, laid out once and moved where WeasyPrint lays them out again.

WeasyPrint 70 lays out a block each time that something around it is tried: for each height of
balanced columns, for columns that were only measured, for a page that turned out too short. In a
booklet that is 4 times for each block on the average, and more than half of the time of a layout. A
block that came out whole comes out the same wherever it has the same width and room enough, so it
is kept until its page is done, and copied to its new place. Whatever else it could depend on
(floats beside it, footnotes, boxes that leave it) keeps it from being kept.

Mended from outside, and only where the library still is as described.
"""

from collections.abc import Callable, Iterable
from types import ModuleType
from typing import Any

from guidegen.render.pdf.mended.kept_block import (
    KeptBlock,
    Laid,
    Theirs,
    end_of,
    waiting_class,
)

SLACK = 1e-9
"""Share of a page that the library lets a block run over, against rounding."""

type _LayOut = Callable[..., Laid]


class _Memory:
    """The blocks of one document, while its current page and the next one are set."""

    def __init__(self) -> None:
        self.version = -1
        self.page: int | None = None
        self.now: dict[object, KeptBlock] = {}
        self.before: dict[object, KeptBlock] = {}

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
        """Boxes put into the margins of a page; columns, which end where their page does; tables
        whose columns have a look of their own, for which these point at the very cells."""
        self.texts = 0
        """Texts that were put in anew, as numbers of pages became known."""


_WATCH = _Watch()
"""One for a process, which lays out one document at a time. Counts only rise."""


def mend_blocks(block: ModuleType, layout: ModuleType, targets: ModuleType) -> None:
    """Mend `weasyprint.layout.block`, `weasyprint.layout` and `weasyprint.css.targets`, once.

    Another version of them is left as it is.
    """
    names = (
        "block_level_layout",
        "columns_layout",
        "table_layout",
        "remove_placeholders",
        "_add_break_values",
        "boxes",
        "AbsolutePlaceholder",
    )
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
    block.table_layout = _counted(  # type: ignore[attr-defined]
        block.table_layout, lambda _, table, *__: bool(table.column_groups)
    )
    context.add_running_element = _counted(context.add_running_element)  # type: ignore[union-attr]
    _watch_texts(item)
    waiting = waiting_class(block.boxes.BlockBox)
    block.remove_placeholders = _removing_at_once(block.remove_placeholders, waiting)  # type: ignore[attr-defined]
    block._add_break_values = _unasked(block._add_break_values, waiting)  # type: ignore[attr-defined]
    block.block_level_layout = _kept(block, waiting)  # type: ignore[attr-defined]
    block.guidegen = True  # type: ignore[attr-defined]


def _counted[**P, R](
    call: Callable[P, R], counts: Callable[..., bool] = lambda *_: True
) -> Callable[P, R]:
    """A function, each call noted that `counts`, asked with the same."""

    def counted(*args: P.args, **kwargs: P.kwargs) -> R:
        _WATCH.leaving += counts(*args)
        return call(*args, **kwargs)

    return counted


def _watch_texts(item: Theirs) -> None:
    make_item = item.__init__

    def make_watched(lookup: Theirs, parse_again: Callable[..., None], *others: object) -> None:
        def again(*args: object) -> None:
            _WATCH.texts += 1
            parse_again(*args)

        make_item(lookup, again, *others)

    item.__init__ = make_watched


def _removing_at_once(remove: Callable[..., None], waiting: type[Any]) -> Callable[..., None]:
    """`remove_placeholders`, which needs not look into a copy to know what is left in it."""

    def remove_placeholders(
        context: Theirs, boxes: Iterable[Theirs], absolute: list[Theirs], fixed: list[Theirs]
    ) -> None:
        others = []
        for box in boxes:
            if type(box) is not waiting:
                others.append(box)
                continue
            for one in box.waits.left.values():
                if one in absolute:
                    absolute.remove(one)
        remove(context, others, absolute, fixed)

    return remove_placeholders


def _unasked(values: Callable[..., list[str]], waiting: type[Any]) -> Callable[..., list[str]]:
    """`_add_break_values`, asked of a kept block in place of its copy."""

    def add_break_values(box: Theirs, side: str) -> list[str]:
        return values(box.waits.kept.result[0] if type(box) is waiting else box, side)

    return add_break_values


def _kept(block: ModuleType, copies: type[Any]) -> _LayOut:
    """`block_level_layout`, asked once for each block, width and surroundings of a page."""
    lay_out: _LayOut = block.block_level_layout
    placeholder: type[Any] = block.AbsolutePlaceholder

    def block_level_layout(  # noqa: PLR0917 - the library's order of arguments
        context: Theirs,
        box: Theirs,
        bottom_space: float,
        skip_stack: object,
        containing_block: Theirs,
        page_is_empty: bool = True,
        absolute_boxes: list[Any] | None = None,
        fixed_boxes: list[Any] | None = None,
        adjoining_margins: list[float] | None = None,
        *others: object,
    ) -> Laid:
        absolute_boxes = [] if absolute_boxes is None else absolute_boxes
        fixed_boxes = [] if fixed_boxes is None else fixed_boxes
        margins = [] if adjoining_margins is None else adjoining_margins

        def anew() -> Laid:
            lists = (absolute_boxes, fixed_boxes, margins)
            return lay_out(
                context,
                box,
                bottom_space,
                skip_stack,
                containing_block,
                page_is_empty,
                *lists,
                *others,
            )

        def outside() -> tuple[int, ...]:
            return (
                0 if fixed_boxes is absolute_boxes else len(fixed_boxes),
                len(context.broken_out_of_flow),
                _WATCH.leaving,
                _WATCH.texts,
            )

        x, y = box.position_x, box.position_y
        shapes = context.excluded_shapes
        if (
            skip_stack is not None
            or any(others)
            or not _stands_alone(block.boxes, context, box, containing_block)
        ):
            return anew()
        memory = _memory_of(context)
        key = (
            *_surroundings(box, containing_block),
            tuple(margins),
            page_is_empty and (context.current_page > 1, context.forced_break),
            context.in_column,
        )
        kept = memory.now.get(key) or memory.before.get(key)
        if kept is not None:
            end = context.page_bottom - bottom_space
            if y + kept.takes <= end:
                memory.now[key] = kept
                return kept.moved(x, y, absolute_boxes)
            if (
                y + kept.content > end * (1 + SLACK)
                and not page_is_empty
                and not containing_block.is_monolithic()
                and block.avoid_page_break(box.style["break_inside"], context)
            ):
                # It may not be torn apart, so it goes to the next page or column.
                return None, None, {"break": "any", "page": box.page_values()[0]}, [], False, None
        before, beside, waiting = outside(), len(shapes), len(absolute_boxes)
        result = anew()
        made = result[0]
        left = absolute_boxes[waiting:]
        if (
            made is not None
            and result[1] is None
            and outside() == before
            # A float that ends within the block is in nobody's way below it.
            and all(end_of(shape) <= end_of(made) for shape in shapes[beside:])
            and all(one.style["position"] == "absolute" for one in left)
        ):
            memory.now[key] = _as_kept(box, result, left, (placeholder, copies), (x, y))
        return result

    return block_level_layout


def _stands_alone(boxes: Theirs, context: Theirs, box: Theirs, around: Theirs) -> bool:
    """Whether a block depends on nothing but what is in its key: no float reaches it, no note."""
    return (
        type(box) is boxes.BlockBox
        and not box.is_flex_item
        and not box.is_column
        and isinstance(around, boxes.Box)
        and not context.footnotes
        and not context.current_page_footnotes
        and all(end_of(shape) <= box.position_y for shape in context.excluded_shapes)
    )


def _surroundings(box: Theirs, around: Theirs) -> tuple[object, ...]:
    """What is in a block, and of its containing block all that it is laid out by."""
    return (
        id(box.children),
        id(box.style),
        around.width,
        around.height,
        around.style["direction"],
        around.is_for_root_element,
    )


def _as_kept(
    box: Theirs,
    result: Laid,
    left: list[Any],
    classes: tuple[type[Any], type[Any]],
    at: tuple[float, float],
) -> KeptBlock:
    """What came out of a block that stood `at`, with the boxes that it `left` to be placed."""
    made, x, y = result[0], *at
    told = (made, None, dict(result[2]), list(result[3]), *result[4:])
    places = {
        one: (one._box.copy(), one._box.position_x - x, one._box.position_y - y) for one in left
    }
    start = (made.position_x - x, made.position_y - y)
    return KeptBlock(box.children, told, *start, places, *classes)


def _memory_of(context: Theirs) -> _Memory:
    memory: _Memory | None = getattr(context, "guidegen_blocks", None)
    if memory is None:
        memory = context.guidegen_blocks = _Memory()
    memory.turn(context.current_page, _WATCH.texts)
    return memory
