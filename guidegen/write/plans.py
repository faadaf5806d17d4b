"""Cut plans found ↔ files beside the guide, so that the next press reuses them."""

from contextlib import suppress
from pathlib import Path

MAX_BYTES = 20_000_000
"""Bytes of one file of plans. Our choice: a plan of 500 pieces takes about 100 kB."""


def plan_file(guide_folder: Path, size: str) -> Path:
    """Where the plans of one size lie."""
    return guide_folder / "plans" / f"{size}.json"


def load_plans(path: Path) -> str:
    """The text of a plan file; empty where there is none that can be read."""
    with suppress(OSError, UnicodeDecodeError):
        if not _is_link(path) and path.is_file() and path.stat().st_size <= MAX_BYTES:
            return path.read_text(encoding="utf-8")
    return ""


def save_plans(path: Path, text: str) -> str:
    """Write a plan file in one step. What went wrong in words; empty when it is saved."""
    if _is_link(path):
        return f"cannot keep the cut plans in {path}: it is a link that may lead out of the guide"
    beside = path.with_name(f".{path.name}.new")
    try:
        path.parent.mkdir(exist_ok=True)
        beside.write_text(text, encoding="utf-8", newline="\n")
        beside.replace(path)
    except OSError as error:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        return f"cannot keep the cut plans in {path}: {error.strerror}"
    return ""


def _is_link(path: Path) -> bool:
    """True where a stranger's guide could lead reading or writing to another folder."""
    return path.is_symlink() or path.parent.is_symlink()
