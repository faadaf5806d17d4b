"""Numbers in → their text in a drawn PDF out, as ReportLab has it, in less time.

ReportLab 5.1 goes through the digits of each number one by one where its own accelerator is not
there, as with most. Mended from outside, and only there; files keep their bytes.
"""

from bisect import bisect_right
from functools import lru_cache
from types import ModuleType

MOST = 30_000
"""Numbers that are kept. Our choice: those of a set of template sheets, some 4 MB."""

_LEAST = (10.0, 1e2, 1e3, 1e4, 1e5, 1e6)
_FORMATS = ("%.6f", "%.5f", "%.4f", "%.3f", "%.2f", "%.1f", "%.0f")
"""Of numbers below each of these, and of all others: seven digits."""


def numbers_text(*numbers: object) -> str:
    """Numbers, or those of one sequence, with spaces between."""
    if len(numbers) == 1 and isinstance(numbers[0], (list, tuple)):
        numbers = tuple(numbers[0])
    return " ".join([_number(one) for one in numbers])


@lru_cache(maxsize=MOST)
def _number(value: float) -> str:
    size = abs(value)
    if size <= 1e-7:
        return "0"
    text = _FORMATS[bisect_right(_LEAST, size)] % value
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return text[1:] if text.startswith("0") and len(text) > 1 else text


def mend_numbers(accelerators: ModuleType, *users: ModuleType) -> None:
    """Have the modules of ReportLab that use its own function use this one."""
    slow = getattr(accelerators, "_py_fp_str", None)
    for user in users:
        if slow is not None and getattr(user, "fp_str", None) is slow:
            user.fp_str = numbers_text  # type: ignore[attr-defined]
