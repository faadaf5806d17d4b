"""An output that tests write and look at."""

from pathlib import Path

from guidegen.write.staging import MARKER, staging


def publish(out: Path, **files: str) -> None:
    """Write an output of texts, each named without its ending."""
    with staging(out) as stage:
        for name, text in files.items():
            stage.write(f"{name}.txt", text.encode())


def files_of(out: Path) -> dict[str, str]:
    """Texts of an output by name, without the marker."""
    return {p.name: p.read_text() for p in sorted(out.iterdir()) if p.name != MARKER}


def nothing_left_beside(out: Path) -> bool:
    """Whether the folder of an output holds nothing else."""
    return {p.name for p in out.parent.iterdir()} <= {out.name}
