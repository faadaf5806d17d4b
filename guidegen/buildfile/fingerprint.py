"""Everything that a press reads → one hash, so that a press without change can be told at once."""

import hashlib
from collections.abc import Iterable, Iterator
from importlib.metadata import distributions
from pathlib import Path

READ = (".yaml", ".md", ".svg", ".png", ".jpg", ".jpeg", ".webp", ".icc")
"""Endings of the files of a content folder that a press may read."""


def content_fingerprint(content: Path, more: Iterable[str]) -> str:
    """Hash of a content folder without its kept plans, of guidegen itself, and of `more` words."""
    summary = hashlib.sha256()
    for word in (*more, *_versions()):
        summary.update(word.encode() + b"\0")
    package = Path(__file__).parents[1]
    for folder, endings in ((package, (".py", ".po")), (content, READ)):
        for path in _files(folder, endings):
            _add(summary, path, folder)
    return summary.hexdigest()


def plans_fingerprint(content: Path) -> str:
    """Hash of what is kept beside the guides: cut plans, and originals of translations."""
    summary = hashlib.sha256()
    for pattern in ("*/plans/*.json", "*/translated/*.json", "translated/*.json"):
        for path in sorted(content.glob(pattern)):
            _add(summary, path, content)
    return summary.hexdigest()


def _files(folder: Path, endings: tuple[str, ...]) -> Iterator[Path]:
    for path in sorted(folder.rglob("*")):
        if path.suffix.lower() in endings and path.is_file():
            yield path


def _add(summary: "hashlib._Hash", path: Path, folder: Path) -> None:
    """A file's name in its folder and its bytes, so that two checkouts agree.

    One that cannot be read counts by its name: reading tells why.
    """
    summary.update(path.relative_to(folder).as_posix().encode("utf-8", "surrogateescape") + b"\0")
    try:
        with path.open("rb") as stream:
            summary.update(hashlib.file_digest(stream, "sha256").digest())
    except OSError:
        return


def _versions() -> list[str]:
    """Names and versions of the installed libraries: a new one may draw or set otherwise."""
    return sorted(f"{d.metadata['Name']} {d.version}" for d in distributions())
