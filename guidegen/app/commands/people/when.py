"""When a class is, as options say it: apart, since every command reads the options of all.

Imports little.
"""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class WhenTold:
    """The options that say when a class is."""

    hours: float | None = None
    start: str = ""
    end: str = ""
    breaks: tuple[str, ...] = ()
    days: tuple[str, ...] = ()
    """Such as 'Saturday 9:30-16:00'."""
    file: Path | None = None
    """YAML file of days."""
