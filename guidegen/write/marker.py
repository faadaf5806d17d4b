"""An output folder in → the files in it that guidegen wrote; all others belong to somebody else."""

import json
from collections.abc import Iterable
from pathlib import Path

MARKER = ".guidegen"
"""File in the output by which guidegen knows its own folder, and its own files in it."""
MAX_BYTES = 200_000_000
"""Bytes of that file. Our choice: a thousand guides take about 20 MB."""


def marker_text(names: Iterable[str]) -> str:
    """What the marker of a folder says that is not pressed again: which files are guidegen's."""
    return json.dumps({"files": dict.fromkeys(sorted(names), "")}, indent=0) + "\n"


def recorded_files(folder: Path) -> frozenset[str] | None:
    """Paths of the files that guidegen wrote there, the marker among them.

    None where the folder has no marker, or one that does not tell: an empty one made by hand
    says nothing about the thesis beside it.
    """
    try:
        path = folder / MARKER
        if path.is_symlink() or not path.is_file() or path.stat().st_size > MAX_BYTES:
            return None
        files = json.loads(path.read_text(encoding="utf-8"))["files"]
        return frozenset(map(str, dict(files))) | {MARKER}
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None
