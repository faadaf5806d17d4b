"""Files of a version that was published ↔ a folder beside the guides that keeps them for years.

Each folder has a list of its files with their sums: what was changed since is seen. A file of out/
gets a second name rather than a copy where the disk can do that, so it takes no room twice.
"""

import json
import os
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from guidegen.buildfile.read.file_names import leads_out, unkeepable_part
from guidegen.buildfile.read.fingerprint import KEPT_VERSIONS, VERSION_FILE
from guidegen.write.index import digest

MAX_LIST = 10_000_000
"""Bytes of a list. Our choice: a thousand files take 200 kB."""
MAX_FILES = 10_000
"""Files of a version. Our choice: above any kit."""

type FileFacts = Mapping[str, object]
"""What a list tells of a file: sha256, bytes, and what it is for readers."""


def versions_folder(content: Path, unit: str) -> Path:
    """Where the versions of a guide are kept; `unit` is its folder in out/, such as de/lamp."""
    return content / KEPT_VERSIONS / unit


def save_version(
    place: Path, about: Mapping[str, str], files: Mapping[str, tuple[Path, FileFacts]]
) -> str:
    """Keep files in the new folder `place`, which takes the place of an older one whole.

    What went wrong in words; empty when they are kept.
    """
    root = place.parents[len(place.parts) - 1 - place.parts.index(KEPT_VERSIONS) - 1]
    if root.is_symlink() or leads_out(place.parent, root.parent):
        return f"cannot keep it in {place}: a link leads out of the site"
    new, old = place.with_name(f"{place.name}.new"), place.with_name(f"{place.name}.old")
    told = {name: facts for name, (_, facts) in sorted(files.items())}
    try:
        for left in (new, old):  # by a press that was killed
            shutil.rmtree(left, ignore_errors=True)
        new.mkdir(parents=True)
        for name, (source, _) in files.items():
            target = new / name
            target.parent.mkdir(parents=True, exist_ok=True)
            _copy(source, target)
        text = json.dumps({**about, "files": told}, indent=1, ensure_ascii=False) + "\n"
        (new / VERSION_FILE).write_text(text, encoding="utf-8", newline="\n")
        if place.exists():
            place.rename(old)
        new.rename(place)
    except OSError as error:
        with suppress(OSError):
            if old.exists() and not place.exists():
                old.rename(place)
        return f"cannot keep it in {place}: {error.strerror}"
    finally:
        for left in (new, old):
            shutil.rmtree(left, ignore_errors=True)
    return ""


def _copy(source: Path, target: Path) -> None:
    try:
        os.link(source, target)
    except OSError:
        shutil.copyfile(source, target)


def load_version(place: Path) -> tuple[dict[str, str], dict[str, dict[str, object]]]:
    """What the list of a version tells of it and of each file. Raises ValueError, in words.

    Names lead to files below `place` alone.
    """
    path = place / VERSION_FILE
    try:
        if path.stat().st_size > MAX_LIST:
            raise ValueError(f"it is larger than {MAX_LIST / 1e6:g} MB")
        data = json.loads(path.read_text(encoding="utf-8"))
        files = {str(name): dict(facts) for name, facts in data.pop("files").items()}
        about = {str(name): str(value) for name, value in data.items()}
    except (OSError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise ValueError(f"it cannot be read: {error}") from None
    if len(files) > MAX_FILES:
        raise ValueError(f"it lists more than {MAX_FILES} files")
    for name in files:
        parts = name.split("/")
        if not all(parts) or {".", ".."} & set(parts) or "\\" in name or unkeepable_part(name):
            raise ValueError(f'"{name}" is no name of a file in it')
    return about, files


def is_kept(place: Path, name: str, sha: object) -> bool:
    """Whether a file of a version is there as it was published."""
    path = place / name
    try:
        return not leads_out(path, place) and digest(path.read_bytes()) == sha
    except OSError:
        return False
