"""What an output folder was made from, kept in it, so that a press without change is known."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path

from guidegen.write.staging import MARKER

MAX_BYTES = 50_000_000
"""Bytes of an index file. Our choice: a thousand guides take about 10 MB."""


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
class Index:
    """Inputs and files of one press."""

    inputs: str = ""
    """Hash of everything that the press read."""
    files: Mapping[str, str] = field(default_factory=dict)
    """SHA-256 of every file by path."""
    counts: Counts = Counts()

    def text(self) -> str:
        """The index as JSON, the same for the same press."""
        return json.dumps(asdict(self), indent=0, sort_keys=True) + "\n"


def load_index(out: Path) -> Index:
    """The index of an output folder; an empty one where there is none that can be read."""
    try:
        path = out / MARKER
        if not path.is_file() or path.stat().st_size > MAX_BYTES:
            return Index()
        data = json.loads(path.read_text(encoding="utf-8"))
        files = {str(key): str(value) for key, value in data["files"].items()}
        return Index(str(data["inputs"]), files, Counts(**data["counts"]))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return Index()


def is_whole(out: Path, index: Index) -> bool:
    """True where the folder holds the files of its index, unchanged, and no others."""
    there = {
        path.relative_to(out).as_posix()
        for path in out.rglob("*")
        if path.is_file() and path.name != MARKER
    }
    return there == set(index.files) and all(
        digest((out / name).read_bytes()) == expected for name, expected in index.files.items()
    )


def digest(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()
