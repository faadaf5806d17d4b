"""The last press and this one → addresses that were published and lead nowhere any more.

Readers hold paper with codes and links for years; so whoever renames or deletes is told once, by
the press that does it, where `formerly` keeps the address alive.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from pathlib import Path

from guidegen.buildfile.read.fingerprint import KEPT_VERSIONS
from guidegen.problems import Place, Problem
from guidegen.render.text.links import HOME, steps_page

_STEP = re.compile(r'\sid="step-([a-z0-9]+(?:-[a-z0-9]+)*)"')
_NAME_END = "-name"
"""Ends the id of a step's heading, which no link leads to."""


def lost_pages(before: Iterable[str], now: Collection[str]) -> tuple[str, ...]:
    """Pages that were there and are not: a folder with a slash where none of its pages is left.

    Of a translated page nothing is said where the same page of the first language went too.
    """
    pages = {name for name in now if name.endswith(".html")}
    alive = {name[: at + 1] for name in pages for at, mark in enumerate(name) if mark == "/"}
    found: dict[str, None] = {}
    for name in sorted(before):
        if name.endswith(".html") and name not in pages:
            ends = [at + 1 for at, mark in enumerate(name) if mark == "/"]
            found[next((name[:end] for end in ends if name[:end] not in alive), name)] = None
    return tuple(one for one in found if one.partition("/")[2] not in found)


def step_ids(page: str) -> frozenset[str]:
    """Ids under which steps can be reached on a page of steps, former ones as well."""
    found = set(_STEP.findall(page))
    headings = {one for one in found if one.removesuffix(_NAME_END) in found - {one}}
    return frozenset(found - headings)


def lost_addresses(
    folders: tuple[Path, Path],
    before: Collection[str],
    now: Collection[str],
    guides: Mapping[str, str],
    content: str,
) -> Iterator[Problem]:
    """What the new output has no longer of the old one: names are paths from there.

    `folders` are the old output and the new one. `guides` are those that were made anew: build
    file by id, as authors see it; `content` is the folder of the site.
    """
    out, stage = folders
    for lost in lost_pages(before, now):
        guide, _, rest = lost.rstrip("/").partition("/")
        known = rest and f"{guide}/{HOME}" in now
        place = Place(guides.get(guide, f"{content}/{guide}/guide.yaml") if known else content)
        cure = _cure_in_guide(rest) if known else _guide_cure(guide, before)
        message = f"{lost} was published with the last press and is gone: links to it are dead"
        yield Problem("lost-address", place, "", message, cure)
    for guide, file in sorted(guides.items()):
        page = steps_page(guide)
        if page not in before or page not in now:
            continue
        gone = _ids(out / page) - _ids(stage / page)
        for step in sorted(gone):
            message = f"{page}#step-{step} was published with the last press and is gone"
            cure = f"write formerly: {{steps: {{{step}: the id it has now}}}}, or put it back"
            yield Problem("lost-address", Place(file), "steps", message, cure)


def _cure_in_guide(name: str) -> str:
    if "." in name and not name.endswith(".html"):  # sizes have no dot, folders of versions have
        return f"put its folder {name} in {KEPT_VERSIONS} back"
    return _size_cure(name)


def _size_cure(size: str) -> str:
    return f"write formerly: {{sizes: {{{size}: the size it is now}}}}, or put it back"


def _guide_cure(guide: str, before: Collection[str]) -> str:
    if steps_page(guide) not in before:
        return "put it back, or let your host lead its readers on"
    return f"write formerly: {{guides: [{guide}]}} in the guide that took its place, or put it back"


def _ids(page: Path) -> frozenset[str]:
    try:
        return step_ids(page.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return frozenset()
