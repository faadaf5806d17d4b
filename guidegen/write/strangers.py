"""Files in an output folder that guidegen did not write → they stay, whatever is pressed.

A host's name file, a page that proves whose site it is, the folder of a version control: such
things are put beside the pages by hand, and only their owner may take them away.
"""

import os
import shutil
import stat
from collections.abc import Collection, Iterable, Iterator
from pathlib import Path

from guidegen.errors import OutputError
from guidegen.write.marker import recorded_files


def strangers_in(folder: Path, own: Collection[str]) -> list[str]:
    """Paths of what is not in `own`, links among it; empty folders end in a slash. Sorted.

    Folders that hold own files are not strangers, even where those files are gone.
    """
    own_folders = {name[:at] for name in own for at, letter in enumerate(name) if letter == "/"}
    return sorted(_strangers(os.fspath(folder), "", set(own), own_folders))


def _strangers(path: str, start: str, own: set[str], own_folders: set[str]) -> Iterator[str]:
    waiting = [(path, start)]
    while waiting:
        path, start = waiting.pop()
        empty = True
        with os.scandir(path) as entries:
            for entry in entries:
                empty = False
                if entry.is_dir(follow_symlinks=False):
                    waiting.append((entry.path, f"{start}{entry.name}/"))
                elif start + entry.name not in own:
                    yield start + entry.name
        if empty and start and start[:-1] not in own_folders:
            yield start


def carry_over(names: Iterable[str], source: Path, target: Path, taken: Collection[str]) -> None:
    """Put strangers of one folder into another as well: the same file under both names.

    `taken` are the new folder's own files in lower case. Raises OutputError for a name that it
    wants for itself, and for what cannot be taken along.
    """
    for name in names:
        if name.rstrip("/").casefold() in taken or not _is_free(target, name):
            raise OutputError(
                f'"{name}" in {source} is not from guidegen, but the new output has a file of '
                "this name; move or rename it. Nothing was written"
            )
        try:
            _carry(name, source, target)
        except OSError as error:
            raise OutputError(
                f'"{name}" in {source} is not from guidegen and cannot be taken along '
                f"({error.strerror}); move it. Nothing was written"
            ) from None


def left_by_older(out: Path) -> list[Path]:
    """Folders beside `out` that a killed press of an older version has left: .out.new, .out.old.

    They are told and never touched: only what is in them shows whose they are.
    """
    beside = [out.parent / f".{out.name}.{end}" for end in ("new", "old")]
    return [folder for folder in beside if folder.is_dir() and _looks_pressed(folder)]


def _looks_pressed(folder: Path) -> bool:
    """Whether a marker or one of a site's own folders is there; others have no dot in theirs."""
    if recorded_files(folder) is not None:
        return True
    return any(any(folder.glob(form)) for form in ("theme.files", "*/sign.files", "*/guide.files"))


def save_late(source: Path, target: Path) -> None:
    """Bring home what was put into an old output at the moment when it was exchanged."""
    own = recorded_files(source)
    for name in strangers_in(source, own) if own is not None else ():
        if _is_free(target, name):
            _carry(name, source, target)


def _is_free(target: Path, name: str) -> bool:
    """Whether nothing stands at the name, and no file where one of its folders would be."""
    parts = name.rstrip("/").split("/")
    for end in range(1, len(parts)):
        path = target.joinpath(*parts[:end])
        if path.is_symlink() or (path.exists() and not path.is_dir()):
            return False
    return not os.path.lexists(target / name)


def _carry(name: str, source: Path, target: Path) -> None:
    old, new = source / name, target / name
    folders = [*reversed(Path(name).parents)][1:] + ([Path(name)] if name.endswith("/") else [])
    for folder in folders:
        if not (target / folder).is_dir():
            (target / folder).mkdir()
            shutil.copystat(source / folder, target / folder)
    if name.endswith("/"):
        return
    mode = old.lstat().st_mode
    if stat.S_ISLNK(mode):
        new.symlink_to(old.readlink())
        return
    if not stat.S_ISREG(mode):
        raise OSError(0, "it is no ordinary file")
    try:
        os.link(old, new)  # its content cannot differ, and takes no room
    except OSError:
        shutil.copy2(old, new)
