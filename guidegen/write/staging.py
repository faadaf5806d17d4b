"""Files one by one in → a new output folder beside the old one, published only when complete."""

import hashlib
import os
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from filelock import FileLock, Timeout

from guidegen.errors import OutputError, PressLocked
from guidegen.write.swap import recover, swap_in

_RESERVED = {"con", "prn", "aux", "nul", *(f"com{n}" for n in range(1, 10))} | {
    f"lpt{n}" for n in range(1, 10)
}
"""Names that Windows keeps for devices, with any ending (Microsoft, Naming Files)."""


class Staging:
    """The folder that is being written. Make it with `staging`."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._seen: dict[str, str] = {}
        self.sums: dict[str, str] = {}
        """SHA-256 of every file written, by name."""
        self.size = 0
        """Their bytes together."""

    @property
    def folder(self) -> Path:
        """Where the files lie until they are published: to be read only."""
        return self._folder

    def write(self, name: str, data: bytes) -> None:
        """Write one file; `name` has forward slashes. Raises OutputError."""
        target = self._take(name)
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
        except OSError as error:
            raise _not_written(name, error) from None
        self.sums[name] = hashlib.sha256(data).hexdigest()
        self.size += len(data)

    def keep(self, name: str, source: Path, sha: str) -> None:
        """Take over a file of the old output, whose SHA-256 is known. Raises OutputError."""
        target = self._take(name)
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            try:
                os.link(source, target)  # the old name goes when the folders are exchanged
            except OSError:
                shutil.copyfile(source, target)
            self.size += target.stat().st_size
        except OSError as error:
            raise _not_written(name, error) from None
        self.sums[name] = sha

    def _take(self, name: str) -> Path:
        """Where a file comes to lie, once its name is one that every system can keep."""
        path = PurePosixPath(name)
        if path.is_absolute() or not path.parts or ".." in path.parts or "\\" in name:
            raise OutputError(f'"{name}" is not a name for a file of the site')
        for part in path.parts:
            if part.split(".")[0].lower() in _RESERVED or part.endswith((" ", ".")):
                raise OutputError(f'"{name}" cannot be a file on every system: rename "{part}"')
        other = self._seen.setdefault(name.casefold(), name)
        if other != name:
            raise OutputError(f'"{other}" and "{name}" differ only in capital letters')
        return self._folder.joinpath(*path.parts)


def _not_written(name: str, error: OSError) -> OutputError:
    return OutputError(f"cannot write {name}: {error.strerror}; the old output is as it was")


@contextmanager
def staging(out: Path) -> Iterator[Staging]:
    """A folder beside `out` to write into; it becomes `out` when the block ends well.

    With an exception in the block, or a kill at any moment, `out` stays as it was. Only one
    staging of the same `out` at a time: a second one raises PressLocked. Raises OutputError.
    """
    out = out.resolve()
    new, aside = out.parent / f".{out.name}.new", out.parent / f".{out.name}.old"
    lock = FileLock(out.parent / f".{out.name}.lock")
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        _refuse_foreign(out)
        lock.acquire(timeout=0)
    except Timeout:
        raise PressLocked(f"another press is writing {out}; wait for it or stop it") from None
    except OSError as error:
        raise OutputError(f"cannot write beside {out}: {error.strerror}") from None
    try:
        recover(out, aside)
        shutil.rmtree(new, ignore_errors=True)
        try:
            new.mkdir()
            new.chmod(stat.S_IRWXU | stat.S_IRGRP | stat.S_IXGRP | stat.S_IROTH | stat.S_IXOTH)
        except OSError as error:
            raise OutputError(f"cannot write beside {out}: {error.strerror}") from None
        yield Staging(new)
        swap_in(new, out, aside)
    finally:
        shutil.rmtree(new, ignore_errors=True)
        lock.release()


def _refuse_foreign(out: Path) -> None:
    """A folder with other things in it must not be swapped away by a mistyped option."""
    if out.is_symlink() or (out.exists() and not out.is_dir()):
        raise OutputError(f"{out} is not a folder; nothing was written")
    if out.is_dir() and any(out.iterdir()) and not (out / MARKER).is_file():
        raise OutputError(
            f"{out} holds files that guidegen did not make; choose another folder or empty it"
        )
    if out.exists() and not os.access(out.parent, os.W_OK):
        raise OutputError(f"no permission to write in {out.parent}")
    if out.exists() and not os.access(out, os.W_OK):
        raise OutputError(f"{out} is read-only; nothing was written")


MARKER = ".guidegen"
"""File in the output by which guidegen knows its own folder again."""
