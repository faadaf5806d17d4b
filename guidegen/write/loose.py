"""Bytes in → a file beside the output that comes to its place later, by another process.

So what workers make does not pass through the process that leads them: it is written once, hashed
where it was made, and moved.
"""

import hashlib
import os
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from guidegen.errors import OutputError

_NUMBERS = count()


@dataclass(frozen=True, slots=True)
class LooseFile:
    """A file that has no place yet."""

    path: Path
    sha: str
    """SHA-256 of its bytes."""
    size: int
    """Bytes."""

    def read(self) -> bytes:
        """What is in it. Raises OutputError."""
        try:
            return self.path.read_bytes()
        except OSError as error:
            raise _lost(error) from None


def set_down(folder: Path, data: bytes) -> LooseFile:
    """Write bytes into a folder on the disk of the output, which is there. Raises OutputError."""
    path = folder / f"{os.getpid()}-{next(_NUMBERS)}"
    try:
        with path.open("xb") as stream:  # never through a link
            stream.write(data)
    except OSError as error:
        raise _lost(error) from None
    return LooseFile(path, hashlib.sha256(data).hexdigest(), len(data))


def _lost(error: OSError) -> OutputError:
    return OutputError(f"cannot write beside the output: {error.strerror}; it is as it was")
