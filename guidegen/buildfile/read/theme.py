"""A theme's folder in → its files, over those of the theme that it builds on."""

import stat
from pathlib import Path

from guidegen.errors import UsageError
from guidegen.problems import did_you_mean

BASE_THEME = "workshop"
"""A theme that lacks a file takes this one's: so a small theme overrides what it names only."""
MAX_FILE = 2_000_000
"""Bytes of one file of a theme. Our choice."""


def read_theme(folder: Path, name: str) -> dict[str, bytes]:
    """Files of the theme `name` by path with forward slashes. Raises UsageError."""
    if not (folder / name).is_dir():
        names = sorted(p.name for p in folder.iterdir() if p.is_dir()) if folder.is_dir() else []
        raise UsageError(f'there is no theme "{name}" in {folder}{did_you_mean(name, names)}')
    files: dict[str, bytes] = {}
    for theme in dict.fromkeys((BASE_THEME, name)):
        files.update(_files(folder / theme))
    return files


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
