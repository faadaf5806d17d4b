"""A finished folder in → it takes the place of the old one, whole, in one step where possible."""

import ctypes
import os
import sys
from pathlib import Path

from guidegen.errors import OutputError

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
"""Flag of renameat2(2), Linux 3.15: both names change places at one instant."""


def swap_in(new: Path, old: Path, aside: Path) -> None:
    """Put folder `new` where `old` is; what was there ends in `aside`.

    All three lie on the same disk. On Linux both names are exchanged at one instant; elsewhere,
    and on file systems that cannot, by two renames, and `recover` mends a kill between them.
    Raises OutputError; the old folder is then where it was.
    """
    try:
        if not old.exists():
            new.rename(old)
        elif _exchange(new, old):
            new.rename(aside)
        else:
            old.rename(aside)
            try:
                new.rename(old)
            except OSError:
                aside.rename(old)
                raise
    except OSError as error:
        raise OutputError(f"cannot put {old} in place: {error.strerror}; it is as it was") from None


def recover(old: Path, aside: Path) -> None:
    """Mend what a kill between two renames left: the old folder comes back to its name."""
    if aside.exists() and not old.exists():
        aside.rename(old)


def _exchange(first: Path, second: Path) -> bool:
    """Exchange two names at one instant; False where the system cannot."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    done = renameat2(
        _AT_FDCWD, os.fsencode(first), _AT_FDCWD, os.fsencode(second), _RENAME_EXCHANGE
    )
    return bool(done == 0)
