"""The handbook that comes with guidegen → a site: shown in a browser, or written to a folder."""

import webbrowser
from collections.abc import Callable
from functools import partial
from pathlib import Path
from threading import Event

from guidegen.app.commands.show import PORT, PORTS
from guidegen.app.jobs.languages import theme_words
from guidegen.app.preview.draft import Draft
from guidegen.app.preview.server import serving
from guidegen.app.preview.site import LiveSite
from guidegen.buildfile.read.theme import read_theme, shipped_themes
from guidegen.errors import OutputError, UsageError
from guidegen.problems import did_you_mean
from guidegen.render.site.handbook import ENDING, INDEX, handbook_site, page_of
from guidegen.render.text.templates_engine import Theme
from guidegen.write.search_index import add_search_index
from guidegen.write.staging import staging

HANDBOOK = Path(__file__).parents[2] / "handbook"
"""The chapters, as they are read in a checkout too."""
THEME = "workshop"


def handbook_files() -> dict[str, bytes]:
    """All files of the handbook's site but the index for searching, by path."""
    chapters = {
        path.relative_to(HANDBOOK).as_posix(): path.read_text("utf-8")
        for path in sorted(HANDBOOK.rglob(f"*{ENDING}"))
    }
    pictures = {
        path.relative_to(HANDBOOK).as_posix(): path.read_bytes()
        for path in sorted(HANDBOOK.rglob("*.svg"))
    }
    theme = Theme(THEME, read_theme(shipped_themes(), THEME, HANDBOOK / "look"))
    return handbook_site(chapters, pictures, theme, theme_words(theme, "en"))


def chapter_page(name: str | None) -> str:
    """Page of a chapter, named as its file without folder and ending; without a name of the index.

    Raises UsageError for a name that no chapter has.
    """
    if name is None:
        return page_of(INDEX)
    names = [path.stem for path in HANDBOOK.glob(f"*/*{ENDING}")]
    if name not in names:
        raise UsageError(f'the handbook has no chapter "{name}"{did_you_mean(name, names)}')
    return page_of(name + ENDING)


def write_handbook(out: Path, chapter: str | None) -> str:
    """Write the site to a folder. The closing words, with the page of `chapter`.

    Raises OutputError, PressLocked, and UsageError for an unknown chapter.
    """
    page = chapter_page(chapter)
    with staging(out) as stage:
        for path, data in sorted(handbook_files().items()):
            stage.write(path, data)
        if failure := add_search_index(stage):
            raise OutputError(f"no index for searching: {failure}")
    return f"open {out / page}"


def show_handbook(
    chapter: str | None, port: int | None, say: Callable[[str], None], *, open_it: bool
) -> None:
    """Show the site on this machine until Ctrl-C; `open_it` opens a browser at `chapter`.

    Raises UsageError for an unknown chapter and where no port is free.
    """
    page = chapter_page(chapter)
    site = LiveSite()
    draft = Draft((), {path: partial(_same, data) for path, data in handbook_files().items()}, [])
    draft.add_search(("",))
    site.show(draft)
    first, tries = (PORT, PORTS) if port is None else (port, 1)
    with serving(site, first, tries) as address:
        at = address + (page if chapter else "")
        say(f"the handbook is at {at} (Ctrl-C ends)")
        if open_it:
            webbrowser.open(at)
        Event().wait()


def _same(data: bytes) -> bytes:
    return data
