"""Whether a box stands in the flow of its page, asked of two values of its style.

WeasyPrint 70 asks a box so some 300,000 times in a booklet, and each time six others whether it
floats, is placed absolutely or runs in a margin. Mended from outside, and only where the library
still is as described; answers stay the same.
"""

from collections.abc import Mapping
from types import ModuleType
from typing import Any, Protocol

ASKED = ("is_floated", "is_absolutely_positioned", "is_running", "is_footnote", "is_note")
"""What the library asks one after the other; a test compares the answers."""

FLOATS = frozenset({"left", "right", "inline-start", "inline-end", "footnote"})

PLACED = ("absolute", "fixed")

IN_MARGINS = ("running()", "note()")


class _Box(Protocol):
    style: Mapping[str, Any]


def mend_normal_flow(boxes: ModuleType) -> None:
    """Mend `weasyprint.formatting_structure.boxes`, once. Another version is left as it is."""
    box = boxes.Box
    names = ("is_in_normal_flow", *ASKED)
    if all(name in vars(box) for name in names) and box.is_in_normal_flow is not is_in_normal_flow:
        long_way = box.is_in_normal_flow
        box.is_in_normal_flow = is_in_normal_flow
        box.is_in_normal_flow.guidegen = long_way


def is_in_normal_flow(box: _Box) -> bool:
    """What stands in place of Box.is_in_normal_flow."""
    style = box.style
    if style["float"] in FLOATS:
        return False
    position = style["position"]
    return position not in PLACED and position[0] not in IN_MARGINS
