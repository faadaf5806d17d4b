"""A theme's folder in → its files, over those of the theme that it builds on.

Themes come with guidegen. Others stand by name in a folder of themes; and a site's own folder
`theme/` beside site.yaml is laid over the one that the site names, file by file.
"""

import stat
from pathlib import Path

from guidegen.buildfile.read.file_names import leads_out
from guidegen.errors import UsageError
from guidegen.problems import did_you_mean

BASE_THEME = "workshop"
"""A theme that lacks a file takes this one's: so a small theme overrides what it names only."""
OWN_THEME = "theme"
"""Folder beside site.yaml of what the site itself changes. `own.css` alone is a theme."""
MAX_FILE = 2_000_000
"""Bytes of one file of a theme. Our choice."""


def shipped_themes() -> Path:
    """Where the themes of guidegen stand: in the package, or beside it in a checkout."""
    package = Path(__file__).parents[2]
    inside = package / "themes"
    return inside if inside.is_dir() else package.parent / "themes"


def own_theme(content: Path) -> Path | None:
    """The folder of a site's own changes, if it has one. Raises UsageError for one elsewhere.

    A guide may be called theme: what has a guide.yaml is no theme.
    """
    folder = content / OWN_THEME
    if not folder.is_dir() or (folder / "guide.yaml").exists():
        return None
    if leads_out(folder, content):
        raise UsageError(f"{folder} leads out of the content folder")
    return folder


def read_theme(folder: Path, name: str, own: Path | None = None) -> dict[str, bytes]:
    """Files of the theme `name` by path with forward slashes. Raises UsageError.

    Themes of `folder` come before those of the same name that come with guidegen; files of `own`
    before both.
    """
    places = list(dict.fromkeys((folder, shipped_themes())))
    files: dict[str, bytes] = {}
    for theme in dict.fromkeys((BASE_THEME, name)):
        found = next((place / theme for place in places if (place / theme).is_dir()), None)
        if found is None:
            names = sorted({one.name for place in places for one in _themes(place)})
            raise UsageError(f'there is no theme "{theme}" in {folder}{did_you_mean(theme, names)}')
        files.update(_files(found))
    return files | _files(own) if own is not None else files


def _themes(place: Path) -> list[Path]:
    return [path for path in place.iterdir() if path.is_dir()] if place.is_dir() else []


def _files(folder: Path) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_dir() or any(part.startswith(".") for part in path.relative_to(folder).parts):
            continue
        if not path.resolve().is_relative_to(folder.resolve()):
            raise UsageError(f"{path} leads out of the theme's folder")
        info = path.stat()
        if not stat.S_ISREG(info.st_mode) or info.st_size > MAX_FILE:
            raise UsageError(f"{path} is not an ordinary file of at most {MAX_FILE / 1e6:g} MB")
        files[name] = path.read_bytes()
    return files
