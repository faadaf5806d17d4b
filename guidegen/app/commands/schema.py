"""A site, or any folder → JSON Schemas in it, and how its build files come to use them."""

from dataclasses import dataclass
from pathlib import Path

from guidegen.app.jobs.schemas import (
    all_schemas,
    without_schema,
    write_schemas,
    write_site_schemas,
)


@dataclass(frozen=True)
class WrittenSchemas:
    """What was written, and what to do next."""

    paths: tuple[Path, ...]
    hints: tuple[str, ...]
    """For people: beside the list of files, which programs may read."""


def write_for(content: Path, to: Path | None) -> WrittenSchemas:
    """Write the schemas of a site, or plain ones into a folder. Raises OutputError, UsageError."""
    if to is not None:
        return WrittenSchemas(tuple(write_schemas(to, all_schemas())), ())
    paths = tuple(write_site_schemas(content))
    hints = [
        f"for your editor, make this the first line of {name}:\n  {line}"
        for name, line in without_schema(content).items()
    ]
    kept = "your build files name them; guidegen show keeps them up to date"
    return WrittenSchemas(paths, tuple(hints or [kept]))
