"""Documents of a press that has not ended → a folder that keeps them for the next one.

A press publishes all of its files or none. What a stopped one has made is not lost with it: each
document lies here under its key, a hash of all that it was made from, as soon as it is made, and
the press that ends well removes them.
"""

import hashlib
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from guidegen.write.state_folder import state_file

_KEY = re.compile(r"[0-9a-f]{64}")
_SUM = hashlib.sha256().digest_size


@dataclass(frozen=True, slots=True)
class BegunPress:
    """What presses that were stopped have left."""

    folder: Path

    def find(self, key: str) -> bytes | None:
        """The document that was made from `key`; None where it is not whole, or not there."""
        try:
            data = (self.folder / key).read_bytes()
        except OSError:
            return None
        said, document = data[:_SUM], data[_SUM:]
        return document if hashlib.sha256(document).digest() == said else None

    def keep(self, key: str, document: bytes) -> None:
        """Keep a document; where that cannot be, as on another machine, it is made again."""
        new = self.folder / f"{key}.{os.getpid()}"
        with suppress(OSError):
            with new.open("xb") as stream:  # never through a link
                stream.write(hashlib.sha256(document).digest() + document)
            new.replace(self.folder / key)

    @property
    def count(self) -> int:
        """How many documents are kept."""
        return sum(1 for path in self._files() if _KEY.fullmatch(path.name))

    def clear(self) -> None:
        """Remove what is kept, and the folder where nothing else lies in it."""
        for path in self._files():
            if _KEY.match(path.name):
                with suppress(OSError):
                    path.unlink()
        with suppress(OSError):
            self.folder.rmdir()

    def _files(self) -> list[Path]:
        try:
            return list(self.folder.iterdir())
        except OSError:
            return []


@contextmanager
def begun_press(out: Path, *, afresh: bool) -> Iterator[BegunPress]:
    """Where documents for the folder `out` are kept until they are published; empty if `afresh`.

    Where the block ends well nothing is left; where Ctrl-C ends it, the exception gets a note that
    tells how to go on. To be called while nobody else may write there.
    """
    begun = BegunPress(state_file(out, "begun"))
    if afresh:
        begun.clear()
    # A folder that cannot be made is done without.
    with suppress(OSError):
        begun.folder.mkdir(exist_ok=True)
    try:
        yield begun
    except KeyboardInterrupt as stop:
        if count := begun.count:
            made = f"{count} documents were" if count != 1 else "one document was"
            stop.add_note(f"{made} made and kept: the next press goes on from there")
        raise
    else:
        begun.clear()
    finally:
        with suppress(OSError):
            begun.folder.rmdir()  # fails, as it should, where anything is in it
