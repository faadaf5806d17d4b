"""What the files of an output folder looked like when a press had written them → which of them need
not be read again.

Size and time of a file tell that it was not touched, at a thousandth of what it takes to read it.
They are kept beside the folder, not in it: they differ from press to press. With them stands what
the press was made from, so that one without change reads nothing else of what the last one left.
"""

import hashlib
import json
import os
import time
from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from stat import S_ISREG
from typing import Any

from guidegen.errors import OutputError
from guidegen.write.state_folder import make_state_folder, older_file, state_file

MAX_BYTES = 200_000_000
"""Bytes of the file. Our choice, as for the index."""
FRESH = 2_000_000_000
"""Nanoseconds: a file as young as this when it was noted is read all the same, since one more
change might have the same time. FAT keeps times to two seconds, which is the coarsest we know of.
"""

type FileSignature = tuple[int, int] | tuple[int, int, str]
"""Bytes and time of the last change, in nanoseconds; of a file that was fresh its SHA-256 too."""


def files_in(folder: Path) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Every file, link or other thing below a folder that is no folder, with its path there."""
    waiting = [("", os.fspath(folder))]
    while waiting:
        start, path = waiting.pop()
        with os.scandir(path) as entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    waiting.append((f"{start}{entry.name}/", entry.path))
                else:
                    yield start + entry.name, entry


def note_seen(
    stage: Path,
    out: Path,
    sums: Mapping[str, str] | None = None,
    inputs: str = "",
    counts: Mapping[str, int] | None = None,
) -> None:
    """Remember how the files of `stage` look, which is about to become the folder `out`; with their
    SHA-256, a hash of all `inputs` and what the press counted.

    To be called while nobody else may write there.
    """
    noted, sums = time.time_ns(), sums or {}
    place, older = state_file(out, "seen"), older_file(out, "seen")
    new = place.with_name(f"{place.name}.new")
    if not (_is_ours(place) and _is_ours(new)):
        return  # a file of that name which somebody else made is not ours to replace
    with suppress(OSError, OutputError):  # only the next press is slower without
        looks: dict[str, FileSignature] = {}
        for name, entry in files_in(stage):
            size, changed = _look(entry.stat(follow_symlinks=False))
            fresh = changed >= noted - FRESH and name in sums
            looks[name] = (size, changed, sums[name]) if fresh else (size, changed)
        told = {"noted": noted, "inputs": inputs, "counts": dict(counts or {}), "files": looks}
        make_state_folder(out)
        new.unlink(missing_ok=True)
        with new.open("x", encoding="utf-8") as stream:  # never through a link
            stream.write(json.dumps(told))
        new.replace(place)
        if _is_ours(older):
            older.unlink(missing_ok=True)


_FIRST = '{"noted": '
"""How the file begins."""


def _is_ours(place: Path) -> bool:
    """Whether nothing stands there, or a file that this module wrote, or a link to nowhere."""
    try:
        if place.is_symlink() or not place.exists():
            return True
        with place.open(encoding="utf-8") as stream:
            return stream.read(len(_FIRST)) in {_FIRST, ""}
    except (OSError, ValueError):
        return False


def untouched(out: Path) -> frozenset[str]:
    """Paths of the files that look as they did; of none where nothing was noted."""
    try:
        data = _noted(out)
        before, latest = data["files"], int(data["noted"]) - FRESH
        return frozenset(
            name
            for name, entry in files_in(out)
            if name in before
            and _is_same(now := entry.stat(follow_symlinks=False), before[name])
            and now.st_mtime_ns < latest
        )
    except _DAMAGED:
        return frozenset()


def counts_of_same(out: Path, inputs: str) -> dict[str, int] | None:
    """What the last press counted where it was made from the same `inputs` and each of its files is
    as it wrote it; None where that is not known from the note alone."""
    try:
        data = _noted(out)
        before, latest = data["files"], int(data["noted"]) - FRESH
        if not inputs or data.get("inputs") != inputs or not before:
            return None
        left = len(before)
        for name, entry in files_in(out):
            if (look := before.get(name)) is not None:
                now = entry.stat(follow_symlinks=False)
                if not _is_same(now, look):
                    return None
                if now.st_mtime_ns >= latest and _digest(entry.path) != look[2]:
                    return None
                left -= 1
        return (
            {str(name): int(count) for name, count in data["counts"].items()} if not left else None
        )
    except (*_DAMAGED, IndexError):
        return None


_DAMAGED = (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError)
"""What reading a note may end in, whatever stands there."""


def _noted(out: Path) -> dict[str, Any]:
    """The note of a folder. Raises one of _DAMAGED."""
    place = state_file(out, "seen")
    if not os.path.lexists(place):
        place = older_file(out, "seen")
    if place.is_symlink() or place.stat().st_size > MAX_BYTES:
        raise OSError(f"{place} is no note")
    data = json.loads(place.read_bytes())
    if not isinstance(data, dict):
        raise TypeError(type(data))
    return data


def _is_same(now: os.stat_result, before: list[object]) -> bool:
    return [now.st_size, now.st_mtime_ns] == before[:2] and S_ISREG(now.st_mode)


def _look(found: os.stat_result) -> tuple[int, int]:
    return found.st_size, found.st_mtime_ns


def _digest(path: str) -> str:
    with open(path, "rb", buffering=0) as stream:  # noqa: PTH123 - of hundreds of files
        return hashlib.file_digest(stream, "sha256").hexdigest()
