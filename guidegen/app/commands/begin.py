"""A folder's name in → a first site in it, commented and ready to press; nothing is overwritten."""

import os
import re
import shlex
import shutil
from dataclasses import dataclass
from pathlib import Path

from guidegen.app.jobs.schemas import write_site_schemas
from guidegen.errors import OutputError, UsageError

STARTER = Path(__file__).parents[2] / "starter"
"""The files that are written, as they are; its guide and its stock are for foam."""

CRAFTS = Path(__file__).parents[2] / "crafts"
"""Stock and guide of other crafts, in a folder for each, in the place of those for foam."""

FOAM = "foam"

START = "GUIDEGEN_START"
"""Environment variable with the path of the script that runs guidegen in a checkout."""


@dataclass(frozen=True)
class Begun:
    """What `begin` wrote."""

    folder: Path
    files: tuple[str, ...]
    """Paths in the folder, with forward slashes."""

    @property
    def guide(self) -> str:
        """Path of the first guide's build file in the folder."""
        return next(name for name in self.files if name.endswith("/guide.yaml"))

    def summary(self) -> str:
        """The closing words: what to read, what to type next."""
        content = self.folder.as_posix()
        # Who began in the folder at hand is there already.
        away = [f"  cd {typed(content)}"] if content != "." else []
        start = os.environ.get(START)
        called = f"{typed(start)} guidegen" if start else "guidegen"
        return "\n".join(
            [
                *(f"wrote {content}/{name}" for name in self.files),
                f"\nread {content}/{self.guide}, then",
                *away,
                f"  {called} show      to see each change in the browser",
                f"  {called} press     to make the site in out/",
            ]
        )


def typed(path: str, system: str = os.name) -> str:
    """A path as it is typed: on Windows single quotes mean nothing to `cmd`."""
    if system != "nt":
        return shlex.quote(path)
    return f'"{path}"' if re.search(r"[^\w./:-]", path) else path


def starter_files(craft: str = FOAM) -> dict[str, Path]:
    """The files of a first site for a craft, by their path in it."""

    def below(folder: Path) -> dict[str, Path]:
        paths = (path for path in sorted(folder.rglob("*")) if path.is_file())
        return {path.relative_to(folder).as_posix(): path for path in paths}

    files = below(STARTER)
    if craft == FOAM:
        return files
    # The guide for foam and its stock stay behind; what is about the site is the same for all.
    kept = {name: path for name, path in files.items() if "/" not in name}
    return dict(sorted({**kept, **below(CRAFTS / craft)}.items()))


def begin(folder: Path, craft: str = FOAM) -> Begun:
    """Write the first site. Raises UsageError where the folder has files, OutputError."""
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise UsageError(f"{folder} is not a folder; nothing was written")
    try:
        if folder.is_dir() and any(folder.iterdir()):
            raise UsageError(f"{folder} has files in it; choose a new folder. Nothing was written")
        files = starter_files(craft)
        for name, path in files.items():
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, target)
    except OSError as error:
        raise OutputError(f"cannot write in {folder}: {error.strerror}") from None
    write_site_schemas(folder)
    return Begun(folder, tuple(files))
