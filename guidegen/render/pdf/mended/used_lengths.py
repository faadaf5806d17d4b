"""Margins, paddings, borders and sizes of boxes, worked out once for each set of values.

WeasyPrint 70 works out the lengths of a box each time that it tries to lay it out: twenty values,
one by one, for a tenth of the time of a layout. They follow from the values of its style and from
the size of what holds it alone, and most boxes of a document share them with others. Mended from
outside, and only where the library still is as described; pages keep their bytes.
"""

from collections.abc import Callable, Mapping
from operator import itemgetter
from types import ModuleType
from typing import Any, Protocol

SIDES = ("top", "right", "bottom", "left")

LENGTHS = (
    *(f"{kind}_{side}" for kind in ("margin", "padding") for side in SIDES),
    *(f"border_{side}_width" for side in SIDES),
    *(f"{most}{axis}" for axis in ("width", "height") for most in ("", "min_", "max_")),
)
"""What is worked out of a style, and set on the box under the same names."""

READ = (*LENGTHS, "box_sizing")
"""All of a style that it follows from, where borders do not collapse; a test compares."""

MOST = 50_000
"""Sets that are kept. Our choice: those of a booklet, some megabytes."""


class _Style(Protocol):
    guidegen_lengths: Mapping[object, dict[str, object]]
    """By the size of what holds a box; not there before one is asked for."""

    def __getitem__(self, key: str) -> Any: ...  # noqa: ANN401 - a value of any kind


class _Box(Protocol):
    style: _Style
    width: object
    height: object


type _Resolve = Callable[[_Box, object], None]


def mend_used_lengths(
    percent: ModuleType, boxes: ModuleType, users: tuple[ModuleType, ...]
) -> None:
    """Mend `weasyprint.layout.percent` and the modules of `users` that use it, once.

    Another version of them is left as it is.
    """
    modules = (percent, *users)
    if hasattr(percent, "guidegen") or not all(
        hasattr(module, "resolve_percentages") for module in modules
    ):
        return
    resolve = _kept(percent.resolve_percentages, percent.check_math, boxes)
    for module in modules:
        module.resolve_percentages = resolve  # type: ignore[attr-defined]
    percent.guidegen = True  # type: ignore[attr-defined]


def _kept(resolve: _Resolve, is_formula: Callable[[object], object], boxes: ModuleType) -> _Resolve:
    """`resolve`, asked once for each set of values and size of what holds the box."""
    read = itemgetter(*READ)
    known: dict[object, dict[str, object]] = {}
    box_class, page_class = boxes.Box, boxes.PageBox

    def find(box: _Box, size: tuple[object, ...]) -> dict[str, object] | None:
        style = box.style
        if style["border_collapse"] == "collapse":
            return None
        values = read(style)
        is_page = isinstance(box, page_class)
        key = (values, size, is_page)
        lengths = known.get(key)
        if lengths is None:
            resolve(box, size)
            # A formula may follow from more of a style, its size of letters for one.
            if any(map(is_formula, values)):
                return None
            if len(known) >= MOST:
                known.clear()
            lengths = known[key] = {name: box.__dict__[name] for name in LENGTHS}
        if not is_page:
            style.guidegen_lengths = {**getattr(style, "guidegen_lengths", {}), size: lengths}
        return lengths

    def resolve_percentages(box: _Box, containing_block: Any) -> None:  # noqa: ANN401 - a box or two lengths
        if isinstance(containing_block, box_class):
            size = (containing_block.width, containing_block.height)
        else:
            size = tuple(containing_block)
        lengths: dict[str, object] | None
        try:
            # The library changes copies of a style, and none that it has laid out a box by.
            lengths = box.style.guidegen_lengths[size]
        except (AttributeError, KeyError):
            lengths = find(box, size)
        if lengths is None:
            resolve(box, containing_block)
        else:
            box.__dict__.update(lengths)

    resolve_percentages.guidegen = resolve  # type: ignore[attr-defined]
    return resolve_percentages
