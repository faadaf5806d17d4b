"""A finished folder in → it takes the place of the old one, whole, in one step where possible."""

import ctypes
import os
import sys
import time
from pathlib import Path

from guidegen.errors import OutputError

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
"""Flag of renameat2(2), Linux 3.15: both names change places at one instant."""
PAUSES = (0.05, 0.2, 0.5, 1.0)
"""s between tries to rename a folder of which a file is open. Our choice."""


def swap_in(new: Path, old: Path, aside: Path) -> None:
    """Put folder `new` where `old` is; what was there ends in `aside`.

    All three lie on the same disk. On Linux both names are exchanged at one instant; elsewhere,
    and on file systems that cannot, by two renames, and `recover` mends a kill between them.
    Raises OutputError; the old folder is then where it was.
    """
    try:
        if not old.exists():
            _rename(new, old)
        elif _exchange(new, old):
            new.rename(aside)
        else:
            _rename(old, aside)
            try:
                _rename(new, old)
            except OSError:
                _rename(aside, old)
                raise
    except OSError as error:
        used = "; a program has a file of it open: close it" if _in_use(error) else ""
        raise OutputError(
            f"cannot put {old} in place: {error.strerror}{used}; it is as it was"
        ) from None


def _rename(old: Path, new: Path) -> None:
    """Rename a folder. On Windows none can be renamed while a file in it is open, by a viewer or,
    for a moment, by what looks for viruses: so it is tried again. Raises OSError.
    """
    for pause in PAUSES:
        try:
            old.rename(new)
        except PermissionError as error:
            if not _in_use(error):
                raise
            time.sleep(pause)
        else:
            return
    old.rename(new)


def _in_use(error: OSError) -> bool:
    """Whether Windows refused since a file is open: access denied, or a sharing violation."""
    return getattr(error, "winerror", None) in {5, 32}


def recover(old: Path, aside: Path) -> None:
    """Mend what a kill between two renames left: the old folder comes back to its name."""
    if aside.exists() and not old.exists():
        _rename(aside, old)


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
