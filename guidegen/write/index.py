"""What an output folder was made from, kept beside it, so that nothing is made twice.

The index tells of every file its SHA-256 and of every document a key: a hash of what it was made
from. What is reused is verified first, so a file that was changed or is gone is made anew; a file
whose size and time are those of the last press (`file_stats.py`) counts as unchanged unread.
"""

import hashlib
import json
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass, field
from functools import cached_property
from pathlib import Path

from guidegen.write.marker import MARKER, MAX_BYTES
from guidegen.write.state_folder import state_file


@dataclass(frozen=True)
class Counts:
    """Figures of the closing summary."""

    guides: int = 0
    sizes: int = 0
    pdf_pages: int = 0
    files: int = 0
    size: int = 0
    """Bytes."""


@dataclass(frozen=True)
class Unit:
    """All files of one guide in one language."""

    key: str
    """Hash of all that they came from."""
    pages: int
    """Pages of its PDF files."""
    sizes: int
    gap: str = ""
    """How far its cut plans may be from the best, in words; empty where they are the best."""
    problems: tuple[Mapping[str, object], ...] = ()
    """What is worth knowing about it: the fields of problems, files from the guide's folder."""
    version: str = ""
    """Its version, where all its documents were made; empty for a press that was for looking."""
    date: str = ""
    """Of that version."""
    documents: Mapping[str, Mapping[str, object]] = field(default_factory=dict)
    """What readers take home, by path in the guide's folder: kind, size, paper, pages, note."""


@dataclass(frozen=True)
class Index:
    """Inputs and files of one press."""

    inputs: str = ""
    """Hash of everything that the press read."""
    files: Mapping[str, str] = field(default_factory=dict)
    """SHA-256 of every file by path."""
    counts: Counts = Counts()
    sources: Mapping[str, str] = field(default_factory=dict)
    """Keys of documents by path."""
    units: Mapping[str, Unit] = field(default_factory=dict)
    """Guides by their folder, such as 'lamp' or 'de/lamp'."""

    def text(self) -> str:
        """What is kept beside the output, as JSON: all but its files. The same press, the same."""
        told = asdict(self)
        del told["files"]  # the marker has them
        return json.dumps(told, indent=0, sort_keys=True) + "\n"

    def marker(self) -> str:
        """What lies in the output, where everybody may read it: its files and their sums, and the
        sum of the index, by which the two are known to belong together.
        """
        told = {"files": dict(sorted(self.files.items())), "index": digest(self.text().encode())}
        return json.dumps(told, indent=0) + "\n"

    def under(self, folder: str) -> "Index":
        """What it tells of the files below a guide's folder; nothing of other folders."""
        return self._by_unit.get(folder, Index())

    @cached_property
    def _by_unit(self) -> dict[str, "Index"]:
        """Each guide's part, found once for all: a catalogue has tens of thousands of files."""
        files: dict[str, dict[str, str]] = {folder: {} for folder in self.units}
        sources: dict[str, dict[str, str]] = {folder: {} for folder in self.units}
        for told, parts in ((self.files, files), (self.sources, sources)):
            for name, value in told.items():
                first, _, rest = name.partition("/")
                # Guides of a further language lie one folder deeper: de/lamp.
                for folder in (first, f"{first}/{rest.partition('/')[0]}"):
                    if folder in parts:
                        parts[folder][name] = value
        return {unit: Index(files=files[unit], sources=sources[unit]) for unit in self.units}


@dataclass(frozen=True)
class KeptFiles:
    """Documents in the output folder of the last press."""

    out: Path
    index: Index

    def find(self, path: str, key: str) -> bytes | None:
        """The bytes at `path` where they were made from `key` and nobody changed them."""
        if self.index.sources.get(path) != key or path not in self.index.files:
            return None
        try:
            data = (self.out / path).read_bytes()
        except OSError:
            return None
        return data if digest(data) == self.index.files[path] else None


def save_index(out: Path, index: Index) -> None:
    """Keep the index of what is about to become the folder `out`; without it the next press is
    only slower. To be called while nobody else may write there.
    """
    place = state_file(out, "index")
    new = place.with_name(f"{place.name}.new")
    with suppress(OSError):
        new.unlink(missing_ok=True)
        with new.open("x", encoding="utf-8", newline="\n") as stream:  # never through a link
            stream.write(index.text())
        new.replace(place)


def load_index(out: Path) -> Index:
    """The index of an output folder: an empty one where nothing can be read; with its files alone
    where what is kept beside it is gone, or of another press.
    """
    try:
        data = json.loads(_bounded(out / MARKER))
        if any(".." in str(name).split("/") for name in data["files"]):
            return Index()
        files = _texts(data["files"])
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return Index()
    try:
        if "index" in data:  # older versions had all in the marker
            text = _bounded(state_file(out, "index"))
            if digest(text) != data["index"]:
                return Index(files=files)
            data = json.loads(text)
        return Index(
            str(data["inputs"]),
            files,
            Counts(**data["counts"]),
            _texts(data["sources"]),
            {str(name): _unit(**unit) for name, unit in data["units"].items()},
        )
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return Index(files=files)


def _bounded(path: Path) -> bytes:
    if path.is_symlink() or not path.is_file() or path.stat().st_size > MAX_BYTES:
        raise OSError(f"{path} is no index")
    return path.read_bytes()


def _unit(
    *,
    key: str,
    pages: int,
    sizes: int,
    gap: str,
    problems: list[dict[str, object]],
    version: str = "",
    date: str = "",
    documents: Mapping[str, Mapping[str, object]] | None = None,
) -> Unit:
    about = {str(name): dict(told) for name, told in (documents or {}).items()}
    return Unit(
        str(key), int(pages), int(sizes), str(gap), tuple(problems), str(version), str(date), about
    )


def _texts(values: Mapping[object, object]) -> dict[str, str]:
    return {str(key): str(value) for key, value in values.items()}


def is_whole(out: Path, index: Index, trusted: Collection[str] = ()) -> bool:
    """True where the folder holds the files of its index, unchanged; others' files may be there."""
    return bool(index.files) and is_unchanged(out, index, trusted)


def is_unchanged(out: Path, index: Index, trusted: Collection[str] = ()) -> bool:
    """True where every file of the index is there with the bytes that were written.

    Those that are `trusted` are not read.
    """
    try:
        return all(
            name in trusted or _digest_file(out / name) == sha for name, sha in index.files.items()
        )
    except OSError:
        return False


def _digest_file(path: Path) -> str:
    if path.is_symlink():
        raise OSError(f"{path} is a link")
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def digest(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()
