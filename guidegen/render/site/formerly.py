"""Former names of a guide in → small pages that lead from their addresses to where things are now.

A static host cannot redirect, so each old address has a page that does: at once where scripts run,
with the place on the page (#step-glue) kept; without scripts at once too, to the top; and in words.
A document cannot lead on: at its old address stands the document of today once more.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Protocol

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.render.text.links import (
    HOME,
    MOVED,
    THEME_FOLDER,
    guide_page,
    relative,
    safety_page,
    size_page,
    steps_page,
    tools_page,
)
from guidegen.render.text.templates_engine import Engine, Theme

type Move = tuple[str, str]
"""Former path of a file and its path now, from out/."""

DOCUMENTS = (".pdf", ".zip", ".csv", ".xlsx")
"""Endings of what readers take home, and letters and paper link to."""


@dataclass(frozen=True, slots=True)
class MovedView:
    """A page at a former address."""

    language: str
    direction: str
    title: str
    """Of what has moved."""
    href: str
    """Where it is now, from the former address."""
    canonical: str
    """The same in full, where the site knows its address."""
    css: str
    script: str


def moved_guides(file: GuideFile) -> tuple[Move, ...]:
    """Every page that stood in a former folder of a guide."""
    return tuple(move for old in file.guide.formerly.guides for move in _guide_moves(file, old))


def moved_sizes(file: GuideFile) -> tuple[Move, ...]:
    """The pages of former sizes in a guide's own folder."""
    sizes = file.guide.formerly.sizes.items()
    return tuple((size_page(file.id, old), size_page(file.id, new)) for old, new in sizes)


def moved_documents(moves: Iterable[Move], names: Iterable[str]) -> Iterator[Move]:
    """The documents of a folder at its former address, by the `moves` of its first page.

    `names` are all files that there are: a document that stands at an address has it.
    """
    there = frozenset(names)
    former: dict[str, list[str]] = {}
    for old, new in moves:
        if new.endswith(f"/{HOME}"):
            former.setdefault(new.removesuffix(HOME), []).append(old.removesuffix(HOME))
    for name in sorted(there):
        if name.endswith(DOCUMENTS):
            olds = _former_names(name, former)
            yield from ((old, name) for old in olds if old not in there)


def _former_names(name: str, former: Mapping[str, Sequence[str]]) -> list[str]:
    """Addresses that a document had: by the page of its folder, or of the version above it.

    The sizes of an old version have no pages of their own. What lies right below a guide's own
    folder is told from that by the page that the folder above has as well.
    """
    folder = name[: name.rfind("/") + 1]
    above, guide = _above(folder), _above(_above(folder))
    if folder not in former and (above not in former or guide not in former):
        return []
    kept = folder if folder in former else above
    return [old + name.removeprefix(kept) for old in former[kept]]


def _above(folder: str) -> str:
    """The folder in which one lies; both end with a slash, or are empty."""
    return folder[: folder.rstrip("/").rfind("/") + 1]


class Moving(Protocol):
    """What must be known of a guide to lead to it."""

    @property
    def title(self) -> str:
        """As it is called now."""

    @property
    def pages(self) -> tuple[str, ...]:
        """Paths of its pages, from out/."""

    @property
    def moved(self) -> tuple[Move, ...]:
        """Pages of its former folders."""


def former_guides(
    engine: Engine, content: Content, theme: Theme, entries: Sequence[Moving]
) -> dict[str, bytes]:
    """Pages in the former folders of guides, and the script of all such pages, by path."""
    files = {f"{THEME_FOLDER}/{MOVED}": theme.text(MOVED).encode()}
    for entry, moves in free_moves(entries):
        files |= _moved_pages(engine, content, theme, entry.title, moves)
    return files


def free_moves(entries: Sequence[Moving]) -> Iterator[tuple[Moving, list[Move]]]:
    """Guides with the pages of their former folders, where no guide lives now: one that lives
    at an address has it, whatever another one says of its past.
    """
    living = {path.partition("/")[0] for entry in entries for path in entry.pages}
    for entry in entries:
        yield entry, [move for move in entry.moved if move[0].partition("/")[0] not in living]


def former_sizes(content: Content, file: GuideFile, theme: Theme) -> dict[str, bytes]:
    """Pages of former sizes in a guide's own folder, by path from out/."""
    if not (moves := moved_sizes(file)):
        return {}
    return _moved_pages(Engine(theme, content.words), content, theme, file.guide.title, moves)


def _guide_moves(file: GuideFile, old: str) -> Iterator[Move]:
    for page in (guide_page, steps_page, safety_page, tools_page):
        yield page(old), page(file.id)
    for size in file.size_names():
        yield size_page(old, size), size_page(file.id, size)
    for was, now in file.guide.formerly.sizes.items():
        yield size_page(old, was), size_page(file.id, now)


def _moved_pages(
    engine: Engine, content: Content, theme: Theme, title: str, moves: Iterable[Move]
) -> dict[str, bytes]:
    return {move[0]: _moved_page(engine, content, theme, title, move) for move in moves}


def _moved_page(engine: Engine, content: Content, theme: Theme, title: str, move: Move) -> bytes:
    old, new = move
    base = content.site.address
    # The folder is how the site links to first pages, and what stays if a host serves no index.
    page = new.removesuffix("index.html")
    view = MovedView(
        language=content.language,
        direction=content.words.direction,
        title=title,
        href=relative(old, new),
        canonical=base + page if base else relative(old, new),
        css=relative(old, f"{THEME_FOLDER}/site.css"),
        script=_marked(theme, old),
    )
    return engine.render("moved.html.j2", moved=view, root=relative(old, HOME)).encode()


def _marked(theme: Theme, page: str) -> str:
    """Address of the script, another one when it changes."""
    mark = sha256(theme.text(MOVED).encode()).hexdigest()[:8]
    return f"{relative(page, f'{THEME_FOLDER}/{MOVED}')}?{mark}"
