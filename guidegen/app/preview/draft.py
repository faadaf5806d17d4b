"""One state of a site whose files are made when they are asked for, each once."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from threading import RLock

from guidegen.app.jobs.guides import Files
from guidegen.errors import OutputError
from guidegen.pictures.records import SizePictures
from guidegen.problems import Problem
from guidegen.render.text.links import HOME
from guidegen.write.search_index import FOLDER as SEARCH_FOLDER
from guidegen.write.search_index import index_pages


@dataclass(frozen=True)
class Late:
    """Files whose names are known only once they are made."""

    prefix: str
    endings: tuple[str, ...]
    """Empty for any."""
    make: Callable[[], Files]

    def may_hold(self, path: str) -> bool:
        """Whether a file of this path may be among them."""
        return path.startswith(self.prefix) and (not self.endings or path.endswith(self.endings))

    def inside(self, folder: str) -> "Late":
        """The same, with everything in a folder."""
        return Late(
            folder + self.prefix,
            self.endings,
            lambda: {folder + path: data for path, data in self.make().items()},
        )


@dataclass(frozen=True)
class Later:
    """A language that is planned once somebody reads in it."""

    folder: str
    begin: Callable[[], "PageMakers"]


type PageMakers = tuple[Mapping[str, Callable[[], bytes]], list[Late]]
"""What makes pages, by path from out/, and what makes files beside them."""


class SizesWhenAsked(Mapping[str, SizePictures]):
    """Drawings of sizes, each drawn when a page first shows it."""

    def __init__(self, draw: Callable[[str], SizePictures], sizes: tuple[str, ...]) -> None:
        self._draw, self._sizes = draw, sizes
        self._drawn: dict[str, SizePictures] = {}

    def __getitem__(self, size: str) -> SizePictures:
        if size not in self._drawn:
            if size not in self._sizes:
                raise KeyError(size)
            self._drawn[size] = self._draw(size)
        return self._drawn[size]

    def __contains__(self, size: object) -> bool:
        return size in self._sizes

    def __iter__(self) -> Iterator[str]:
        return iter(self._sizes)

    def __len__(self) -> int:
        return len(self._sizes)


class WhenAsked[V](Mapping[str, V]):
    """Values that are all made when the first of them is asked for."""

    def __init__(self, make: Callable[[], Mapping[str, V]]) -> None:
        self._make = make

    @cached_property
    def _made(self) -> Mapping[str, V]:
        return self._make()

    def __getitem__(self, key: str) -> V:
        return self._made[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._made)

    def __len__(self) -> int:
        return len(self._made)


@dataclass
class Draft:
    """One state of the site."""

    problems: tuple[Problem, ...]
    """Warnings and advice."""
    _makers: dict[str, Callable[[], bytes]]
    _late: list[Late]
    """In the order in which they are tried, the cheapest first."""
    _later: list[Later] = field(default_factory=list)
    _made: dict[str, bytes] = field(default_factory=dict)
    _lock: RLock = field(default_factory=RLock)

    def file(self, path: str) -> bytes | None:
        """A file by its path from out/; None where there is none. Raises ContentError."""
        with self._lock:
            self._begin([one for one in self._later if path.startswith(one.folder)])
            if path not in self._made and path in self._makers:
                self._made[path] = self._makers[path]()
            if path in self._made:
                return self._made[path]
        for late in [late for late in self._late if late.may_hold(path)]:
            files = late.make()  # without the lock: pages are read while documents are made
            with self._lock:
                self._made.update(files)
                if late in self._late:
                    self._late.remove(late)
            if path in files:
                return files[path]
        return self._made.get(path)

    def _begin(self, languages: list[Later]) -> None:
        """Plan what is read in these languages from now on."""
        for one in languages:
            self._later.remove(one)
            makers, late = one.begin()
            self._makers.update({one.folder + path: make for path, make in makers.items()})
            self._late += [entry.inside(one.folder) for entry in late]
            self._late.sort(key=lambda entry: bool(entry.endings))

    def add_search(self, folders: tuple[str, ...]) -> None:
        """Make the index for searching once somebody searches; `folders` are those of languages.

        Whoever only writes and reads waits for no index.
        """

        def make() -> Files:
            with self._lock:
                self._begin([*self._later])
            pages = [path for path in self._makers if path.endswith(".html")]
            for path in (*(f"{folder}{HOME}" for folder in folders), *pages):
                self.file(path)  # a home page is made with its neighbours
            with self._lock:
                read = {path: data for path, data in self._made.items() if path.endswith(".html")}
            files, failure = index_pages(read)
            if failure:
                raise OutputError(f"no index for searching: {failure}")
            return files

        self._late.insert(0, Late(f"{SEARCH_FOLDER}/", (), make))
