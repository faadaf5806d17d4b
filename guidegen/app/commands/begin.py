"""A folder's name in → a first site in it, commented and ready to press; nothing is overwritten."""

import shlex
import shutil
from dataclasses import dataclass
from pathlib import Path

from guidegen.app.jobs.schemas import write_site_schemas
from guidegen.errors import OutputError, UsageError

STARTER = Path(__file__).parents[2] / "starter"
"""The files that are written, as they are."""


@dataclass(frozen=True)
class Begun:
    """What `begin` wrote."""

    folder: Path
    files: tuple[str, ...]
    """Paths in the folder, with forward slashes."""

    def summary(self) -> str:
        """The closing words: what to read, what to type next."""
        content = self.folder.as_posix()
        folder = shlex.quote(content)
        return "\n".join(
            [
                *(f"wrote {content}/{name}" for name in self.files),
                f"\nread {content}/first-cuff/guide.yaml, then",
                f"  cd {folder}",
                "  guidegen show      to see each change in the browser",
                "  guidegen press     to make the site in out/",
            ]
        )


def begin(folder: Path) -> Begun:
    """Write the first site. Raises UsageError where the folder has files, OutputError."""
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise UsageError(f"{folder} is not a folder; nothing was written")
    try:
        if folder.is_dir() and any(folder.iterdir()):
            raise UsageError(f"{folder} has files in it; choose a new folder. Nothing was written")
        names = tuple(
            path.relative_to(STARTER).as_posix()
            for path in sorted(STARTER.rglob("*"))
            if path.is_file()
        )
        for name in names:
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(STARTER / name, target)
    except OSError as error:
        raise OutputError(f"cannot write in {folder}: {error.strerror}") from None
    write_site_schemas(folder)
    return Begun(folder, names)
