"""Where one stands in → the site that commands work on, and where its output goes."""

from pathlib import Path

from guidegen.errors import UsageError

CONTENT = "content"
"""Folder of a site's content where other things stand beside it, as in a checkout of guidegen."""


def find_site(given: Path | None, start: Path | None = None) -> Path:
    """The content folder: the one that is given, or the nearest one from `start` upwards.

    A content folder holds site.yaml, and may be called content/ in the folder that one looks in.
    Raises UsageError where there is none, also before anything is written beside it.
    """
    if given is not None:
        if not given.is_dir():
            raise UsageError(f'there is no content folder "{given}"')
        inner = given / CONTENT
        return inner if not _is_site(given) and _is_site(inner) else given
    here = (start or Path.cwd()).absolute()
    for folder in (here, *here.parents):
        for found in (folder, folder / CONTENT):
            if _is_site(found):
                return found.relative_to(here) if found.is_relative_to(here) else found
    raise UsageError(
        f"there is no site.yaml in {here} or above it; `guidegen begin FOLDER` begins a site, "
        "`--site FOLDER` names one"
    )


def out_folder(content: Path) -> Path:
    """Where a press writes unless told otherwise: `out` beside site.yaml, or beside content/."""
    named = content.name == CONTENT
    return (content.parent if named else content) / "out"


def theme_folder(content: Path, given: Path | None = None) -> Path:
    """Where themes stand by name: the folder that is given, or one beside the content or in it.

    Raises UsageError for a folder that is given and is not there.
    """
    if given is not None:
        if not given.is_dir():
            raise UsageError(f'there is no folder "{given}"')
        return given
    return (content.parent if content.name == CONTENT else content) / "themes"


def _is_site(folder: Path) -> bool:
    return (folder / "site.yaml").is_file()
