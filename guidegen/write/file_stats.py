"""What the files of an output folder looked like when a press had written them → which of them need
not be read again.

Size and time of a file tell that it was not touched, at a thousandth of what it takes to read it.
They are kept beside the folder, not in it: they differ from press to press.
"""

import json
import os
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from stat import S_ISREG

from guidegen.errors import OutputError
from guidegen.write.state_folder import make_state_folder, older_file, state_file

MAX_BYTES = 200_000_000
"""Bytes of the file. Our choice, as for the index."""
FRESH = 2_000_000_000
"""Nanoseconds: a file as young as this when it was noted is read all the same, since one more
change might have the same time. FAT keeps times to two seconds, which is the coarsest we know of.
"""

type FileSignature = tuple[int, int]
"""Bytes and time of the last change, in nanoseconds."""


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


def note_seen(stage: Path, out: Path) -> None:
    """Remember how the files of `stage` look, which is about to become the folder `out`.

    To be called while nobody else may write there.
    """
    noted = time.time_ns()
    place, older = state_file(out, "seen"), older_file(out, "seen")
    new = place.with_name(f"{place.name}.new")
    if not (_is_ours(place) and _is_ours(new)):
        return  # a file of that name which somebody else made is not ours to replace
    with suppress(OSError, OutputError):  # only the next press is slower without
        looks = {name: _look(entry.stat(follow_symlinks=False)) for name, entry in files_in(stage)}
        make_state_folder(out)
        new.unlink(missing_ok=True)
        with new.open("x", encoding="utf-8") as stream:  # never through a link
            json.dump({"noted": noted, "files": looks}, stream)
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
        place = state_file(out, "seen")
        if not os.path.lexists(place):
            place = older_file(out, "seen")
        if place.is_symlink() or place.stat().st_size > MAX_BYTES:
            return frozenset()
        data = json.loads(place.read_text(encoding="utf-8"))
        before, latest = data["files"], int(data["noted"]) - FRESH
        return frozenset(
            name
            for name, entry in files_in(out)
            if name in before and _is_same(entry.stat(follow_symlinks=False), before[name], latest)
        )
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return frozenset()


def _is_same(now: os.stat_result, before: list[object], latest: int) -> bool:
    return [*_look(now)] == before and now.st_mtime_ns < latest and S_ISREG(now.st_mode)


def _look(found: os.stat_result) -> FileSignature:
    return found.st_size, found.st_mtime_ns
