"""Names of files and folders → whether every system can keep them, and where they lead."""

import os
from pathlib import Path

DEVICE_NAMES = frozenset(
    {"con", "prn", "aux", "nul"} | {f"{kind}{n}" for kind in ("com", "lpt") for n in range(10)}
)
"""Names that Windows keeps for devices; Microsoft, "Naming Files, Paths, and Namespaces" (the
page lists COM1 to COM9 and LPT1 to LPT9; 0 is left out here as well). From memory."""


def unkeepable_part(name: str) -> str:
    """The first part of a path with forward slashes that Windows cannot keep; empty for none.

    Devices keep their names with any ending; a name must not end in a blank or a full stop.
    """
    for part in name.split("/"):
        if part.partition(".")[0].rstrip(" ").casefold() in DEVICE_NAMES or part.endswith(
            (" ", ".")
        ):
            return part
    return ""


def leads_out(path: Path, folder: Path) -> bool:
    """Whether links take a path out of a folder, or to itself."""
    try:
        return not path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return True


def stands(name: str, folder: Path) -> bool:
    """Whether a file, or a link, has this very name in a folder; the name has forward slashes.

    Windows and macOS open "shield.svg" where "Shield.svg" lies; the server that presses the same
    site would not. So names are compared with what the folder lists.
    """
    place = folder
    for part in name.split("/"):
        try:
            if part not in os.listdir(place):  # noqa: PTH208 - names alone are wanted
                return False
        except OSError:
            return False
        place = place / part
    return True
