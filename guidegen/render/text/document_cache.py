"""What a document is made from in → its bytes: found where the last press left them, or made.

A key is a hash of everything that a document shows, and of what sets it: the same key means the
same bytes. So a changed step makes the booklets anew that show it, and leaves all others alone.
"""

import hashlib
from collections.abc import Callable, Iterable
from typing import Protocol


class Finder(Protocol):
    """Where documents of an earlier press can be found."""

    def find(self, path: str, key: str) -> bytes | None:
        """The bytes that were made for `path` from `key`, verified; None where there are none."""


class Keeper(Protocol):
    """Where documents lie until the press that makes them ends."""

    def find(self, key: str) -> bytes | None:
        """What a press that was stopped has made from `key`, verified."""

    def keep(self, key: str, document: bytes) -> None:
        """Keep a document for the next press, in case this one is stopped."""


class DocumentCache:
    """Makes the documents of one folder, and notes what each came from."""

    def __init__(
        self,
        folder: str = "",
        stamp: str = "",
        finder: Finder | None = None,
        keeper: Keeper | None = None,
    ) -> None:
        """`folder` is a path from out/ that ends in a slash; `stamp` is guidegen's own hash."""
        self._folder = folder
        self._stamp = stamp
        self._finder = finder
        self._keeper = keeper
        self.keys: dict[str, str] = {}
        """Key of every document by its name in the folder."""
        self.found = 0
        """How many were found."""

    def make(self, name: str, parts: Iterable[str | bytes], make: Callable[[], bytes]) -> bytes:
        """The document `name`, which is made from nothing but `parts`."""
        key = hash_parts([self._stamp, *parts])
        self.keys[name] = key
        if self._finder is not None:
            data = self._finder.find(self._folder + name, key)
            if data is not None:
                self.found += 1
                return data
        return self._kept(key, make)

    def once(self, parts: Iterable[str | bytes], make: Callable[[], bytes]) -> bytes:
        """What several documents of a press are made from, such as those of two languages: no
        document itself, and not kept for the next press.
        """
        return self._kept(hash_parts([self._stamp, *parts]), make)

    def _kept(self, key: str, make: Callable[[], bytes]) -> bytes:
        """What was made from `key` in this press or a stopped one, else made and kept."""
        if self._keeper is None:
            return make()
        data = self._keeper.find(key)
        if data is None:
            data = make()
            self._keeper.keep(key, data)
        return data


def hash_parts(parts: Iterable[str | bytes]) -> str:
    """SHA-256 in hex of texts and bytes, each told apart from the next."""
    summary = hashlib.sha256()
    for part in parts:
        data = part.encode() if isinstance(part, str) else part
        summary.update(f"{len(data)} ".encode())
        summary.update(data)
    return summary.hexdigest()
