"""Fonts of the library in → the folder in which it laid them, removed when the process ends.

WeasyPrint 70 lays the fonts of documents in a folder among those for passing files, and removes it
when the record of the fonts is collected. Ours is kept for all documents of a process, which may
end without collecting it, or so late that what would remove the folder is gone. Workers of a press
are ended at once: what they leave is removed by their pool (`app/workers/local.py`).
"""

import os
from multiprocessing.util import Finalize
from typing import Protocol
from weakref import ref


class _Fonts(Protocol):
    _folder: object

    def __del__(self) -> None: ...


def remove_at_end(fonts: _Fonts) -> None:
    """Remove the folder of a `FontConfiguration` when this process ends, a worker or another."""
    Finalize(None, _remove, (ref(fonts), os.getpid()), exitpriority=1)


def _remove(fonts: ref[_Fonts], process: int) -> None:
    kept = fonts()
    # A worker may be a copy of the process that made it: the folder is that one's.
    if kept is not None and os.getpid() == process:
        kept.__del__()
        kept._folder = None
