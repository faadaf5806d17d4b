"""A content folder in → one page of words: what a site of it ships, and under which licence."""

import textwrap
from collections.abc import Iterator
from pathlib import Path

from guidegen.app.jobs.opening import open_content
from guidegen.shipped import SHIPPED

WIDTH = 88
"""Letters of a line. Our choice: a terminal's width, with room."""


def licences_words(content: Path) -> str:
    """What is in `out/` after a press, by whom, under which licence, and what that asks for.

    Guides are named where the folder is there; what is wrong in them is proof's to tell. Raises
    UsageError as `open_content`.
    """
    return "\n".join(_lines(content)) + "\n"


def _lines(content: Path) -> Iterator[str]:
    yield "What a pressed site ships, and under which licence"
    yield ""
    yield "Yours"
    guides = _guides(content)
    yield from guides
    if not guides:
        yield from _wrapped(f"no guide can be read in {content}")
    yield from _wrapped(
        "The licence of a guide covers its texts, drawings, photos, templates and documents. It "
        "stands on the guide's page, in its booklets and in its packs. A theme of your own is "
        "under the licence that you give it."
    )
    yield ""
    yield "Hazard and precaution statements (H and P)"
    yield from _wrapped(
        "Regulation (EC) No 1272/2008, (c) European Union, CC BY 4.0. The credit stands by itself "
        "wherever statements stand; no guide's licence covers them."
    )
    yield ""
    yield "Safety signs"
    yield from _wrapped(
        "Drawings of guidegen's own with the meaning of the signs of ISO 7010, under guidegen's "
        "licence; the standard has the registered originals."
    )
    for one in SHIPPED:
        yield ""
        yield f"{one.name}: {one.licence}"
        yield from _wrapped(one.purpose)
        yield from _wrapped(f"{one.holder} {one.source}".rstrip())
        yield from _wrapped("files: " + (", ".join(one.files) or "inside documents alone"))
        yield from _wrapped(f"text: {one.text}")
    yield ""
    yield "What you have to do"
    yield from _wrapped(
        "Publish out/ as it is: every text lies beside its files, and licences.html, linked from "
        "the foot of each page, names them all. Whoever takes a folder out of it takes the text "
        "along. Part of the search program is under the GPL: search.files/search-licence.txt "
        "names the places of its source, and has to stay. A site without search.files/ works, "
        "and cannot be searched."
    )
    yield from _wrapped(
        "Libraries that make the site and are not in it: guidegen/handbook/reference/libraries.md."
    )


def _guides(content: Path) -> list[str]:
    """A line for each guide that can be read: its folder, licence and author."""
    if not content.is_dir():
        return []
    opened = open_content(content, languages=())
    if opened.content is None:
        return []
    return [
        f"  {file.id}: {file.guide.licence}, {file.guide.author}" for file in opened.content.guides
    ]


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent="  ",
        subsequent_indent="  ",
        break_on_hyphens=False,
        break_long_words=False,
    )
