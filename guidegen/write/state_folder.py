"""An output folder in → where guidegen keeps what is its own about it: one hidden folder beside.

In it stand, by the name of the output: the lock, the index of the last press, how its files looked,
and while a press runs the folder that is being written. All lie on the disk of the output, so that
a folder can take its place in one step.
"""

import stat
from contextlib import suppress
from pathlib import Path

from guidegen.errors import OutputError
from guidegen.write.marker import MARKER, recorded_files

STATE = MARKER
"""Name of the folder."""
INSIDE = f"{MARKER}.inside"
"""Its name in another output, whose own marker has the usual one: a site below a site."""


def _folder(out: Path) -> Path:
    """The folder for a resolved output."""
    usual = out.parent / STATE
    nested = not usual.is_symlink() and usual.is_file() and recorded_files(out.parent) is not None
    return out.parent / INSIDE if nested else usual


def state_file(out: Path, kind: str) -> Path:
    """Where something of `kind` about the output lies: lock, index, seen, side."""
    out = out.resolve()
    return _folder(out) / f"{out.name}.{kind}"


def older_file(out: Path, kind: str) -> Path:
    """Where versions before had it: a hidden file beside the output."""
    out = out.resolve()
    return out.parent / f".{out.name}.{kind}"


def make_state_folder(out: Path) -> None:
    """Make the folder. Raises OutputError where something else has its name, OSError."""
    folder = _folder(out.resolve())
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise OutputError(f"{folder} is not from guidegen; move or rename it. Nothing was written")
    folder.mkdir(parents=True, exist_ok=True)


def clear_state(out: Path) -> None:
    """Remove what is of no use to the next press: the lock where no index is kept, an empty folder.

    To be called when the lock is free again: on some systems an open file cannot be removed.
    """
    with suppress(OSError):
        if not state_file(out, "index").exists():
            state_file(out, "lock").unlink(missing_ok=True)
            state_file(out, "seen").unlink(missing_ok=True)
    with suppress(OSError):
        state_file(out, "lock").parent.rmdir()  # fails, as it should, where anything is in it


def clear_older(out: Path) -> None:
    """Remove the lock of a version before, an empty file. To be called under the new lock."""
    path = older_file(out, "lock")
    with suppress(OSError):
        looks = path.lstat()
        if stat.S_ISREG(looks.st_mode) and looks.st_size == 0:
            path.unlink()
