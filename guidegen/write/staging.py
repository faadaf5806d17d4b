"""Files one by one in → a new output folder beside the old one, published only when complete."""

import hashlib
import os
import shutil
import stat
from collections.abc import Collection, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath

from filelock import FileLock, Timeout

from guidegen.buildfile.read.file_names import unkeepable_part
from guidegen.errors import OutputError, PressLocked
from guidegen.write.loose import LooseFile
from guidegen.write.marker import MARKER, marker_text, recorded_files
from guidegen.write.state_folder import (
    clear_older,
    clear_state,
    make_state_folder,
    older_file,
    state_file,
)
from guidegen.write.strangers import carry_over, save_late, strangers_in
from guidegen.write.swap import recover, swap_in

__all__ = ["MARKER", "Staging", "staging"]


class Staging:
    """The folder that is being written. Make it with `staging`."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._seen: dict[str, str] = {}
        self.sums: dict[str, str] = {}
        """SHA-256 of every file written, by name."""
        self.size = 0
        """Their bytes together."""
        # The mode of a new folder tells the umask; to ask the system is to set it for a moment.
        self._umask = 0o777 & ~stat.S_IMODE(folder.stat().st_mode)

    @property
    def folder(self) -> Path:
        """Where the files lie until they are published: to be read only."""
        return self._folder

    @property
    def names(self) -> Collection[str]:
        """All that was written, in lower case: systems differ in whether they tell cases apart."""
        return self._seen.keys()

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

    def loose(self) -> Path:
        """A folder on the same disk for files that come to their place later; what is left there
        goes when the output is published. Raises OutputError."""
        folder = self._folder.with_name("loose")
        try:
            folder.mkdir(exist_ok=True)
        except OSError as error:
            raise _not_beside(self._folder, error) from None
        return folder

    def place(self, name: str, file: LooseFile) -> None:
        """Put a file that was laid down there to its place. Raises OutputError."""
        target = self._take(name)
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            file.path.replace(target)
        except OSError as error:
            raise _not_written(name, error) from None
        self.sums[name] = file.sha
        self.size += file.size

    def keep(self, name: str, source: Path, sha: str) -> None:
        """Take over a file of the old output, whose SHA-256 is known. Raises OutputError."""
        target = self._take(name)
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            try:
                # The old name goes when the folders are exchanged. Under another umask than
                # last time the file is made anew, so that all follow the same.
                if stat.S_IMODE(source.stat().st_mode) & 0o777 != 0o666 & ~self._umask:
                    raise OSError
                os.link(source, target)
            except OSError:
                shutil.copyfile(source, target)
            self.size += target.stat().st_size
        except OSError as error:
            raise _not_written(name, error) from None
        self.sums[name] = sha

    def repeat(self, name: str, written: str) -> None:
        """Give a file that is written a second name, of the same bytes. Raises OutputError."""
        source, target = self._folder.joinpath(written), self._take(name)
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            try:
                os.link(source, target)
            except OSError:
                shutil.copyfile(source, target)
        except OSError as error:
            raise _not_written(name, error) from None
        self.sums[name] = self.sums[written]

    def _take(self, name: str) -> Path:
        """Where a file comes to lie, once its name is one that every system can keep."""
        path = PurePosixPath(name)
        if path.is_absolute() or not path.parts or ".." in path.parts or "\\" in name:
            raise OutputError(f'"{name}" is not a name for a file of the site')
        if part := unkeepable_part(name):
            raise OutputError(f'"{name}" cannot be a file on every system: rename "{part}"')
        other = self._seen.setdefault(name.casefold(), name)
        if other != name:
            raise OutputError(f'"{other}" and "{name}" differ only in capital letters')
        return self._folder.joinpath(*path.parts)


def _not_written(name: str, error: OSError) -> OutputError:
    return OutputError(f"cannot write {name}: {error.strerror}; the old output is as it was")


SIDE_MARK = "made-by-guidegen"
"""File in the folder beside the output that says whose it is."""


@contextmanager
def staging(out: Path) -> Iterator[Staging]:
    """A folder beside `out` to write into; it becomes `out` when the block ends well.

    With an exception in the block, or a kill at any moment, `out` stays as it was. What others
    have put into `out` is there afterwards too. Only one staging of the same `out` at a time: a
    second one raises PressLocked. Raises OutputError.
    """
    out = out.resolve()
    side, older = state_file(out, "side"), older_file(out, "side")
    new, aside = side / "new", side / "old"
    with _locked(out):
        _refuse_foreign_side(side)
        _refuse_foreign_side(older)
        try:
            recover(out, aside)
            recover(out, older / "old")
            _end_side(older, out)
            own = recorded_files(out) or frozenset()
            _begin_side(side, out)
            stage = Staging(new)
            yield stage
            if MARKER not in stage.sums:
                stage.write(MARKER, marker_text(stage.sums).encode())
            # As late as can be: somebody may put a file there while pages are made.
            if out.is_dir():
                carry_over(strangers_in(out, own), out, new, stage.names)
            swap_in(new, out, aside)
        finally:
            _end_side(side, out)


@contextmanager
def _locked(out: Path) -> Iterator[None]:
    """Alone with a folder that may be replaced. Raises PressLocked or OutputError."""
    lock = FileLock(_lock_file(out))
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        _refuse_foreign(out)
        make_state_folder(out)
        lock.acquire(timeout=0)
        if not state_file(out, "lock").exists():
            # Another press has just ended and cleared it away: what we hold locks nobody out.
            raise Timeout(lock.lock_file)
    except Timeout:
        lock.release()
        raise PressLocked(f"another press is writing {out}; wait for it or stop it") from None
    except OSError as error:
        raise _not_beside(out, error) from None
    try:
        clear_older(out)
        yield
    finally:
        lock.release()
        clear_state(out)


def _begin_side(side: Path, out: Path) -> None:
    """An empty folder side/new, whatever a press that was killed has left in side."""
    try:
        _end_side(side, out)
        side.mkdir()
        (side / SIDE_MARK).touch()
        (side / "new").mkdir()
    except OSError as error:
        raise _not_beside(out, error) from None


def _end_side(side: Path, out: Path) -> None:
    """Remove the side folder, which is known to be ours; late strangers in it come home first."""
    for folder in (side / "new", side / "old"):
        if folder.is_dir() and out.is_dir():
            with suppress(OSError):
                save_late(folder, out)
        shutil.rmtree(folder, ignore_errors=True)
    shutil.rmtree(side, ignore_errors=True)


def _refuse_foreign_side(side: Path) -> None:
    """Only a folder that guidegen has marked may be emptied."""
    if not os.path.lexists(side):
        return
    plain = side.is_dir() and not side.is_symlink()
    if not plain or (any(side.iterdir()) and not (side / SIDE_MARK).is_file()):
        raise OutputError(f"{side} is not from guidegen; move or rename it. Nothing was written")


def _lock_file(out: Path) -> Path:
    """Where the lock lies: an empty file, which may be made but never emptied."""
    path = state_file(out, "lock")
    if path.is_symlink() or (path.exists() and not (path.is_file() and path.stat().st_size == 0)):
        raise OutputError(f"{path} is not from guidegen; move or rename it. Nothing was written")
    return path


def _not_beside(out: Path, error: OSError) -> OutputError:
    return OutputError(f"cannot write beside {out}: {error.strerror}")


def _refuse_foreign(out: Path) -> None:
    """A folder with other things in it must not be swapped away by a mistyped option."""
    if out.is_symlink() or (out.exists() and not out.is_dir()):
        raise OutputError(f"{out} is not a folder; nothing was written")
    if out.is_dir() and any(out.iterdir()) and recorded_files(out) is None:
        if (out / MARKER).is_file():
            raise OutputError(
                f"{out} holds files that guidegen did not make, or an older version did: its "
                f"{MARKER} does not list them. Take out what is yours and remove the folder, or "
                "choose another one; nothing was written"
            )
        raise OutputError(
            f"{out} holds files that guidegen did not make; choose another folder or empty it"
        )
    if out.exists() and not os.access(out.parent, os.W_OK):
        raise OutputError(f"no permission to write in {out.parent}")
    if out.exists() and not os.access(out, os.W_OK):
        raise OutputError(f"{out} is read-only; nothing was written")
