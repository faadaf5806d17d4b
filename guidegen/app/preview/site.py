"""Drafts and what is wrong with them in → the last good state, told to everybody who waits."""

import secrets
from dataclasses import dataclass, field
from threading import Condition

from guidegen.app.preview.draft import Draft
from guidegen.errors import GuidegenError


@dataclass(frozen=True)
class News:
    """What a browser is told."""

    version: str
    """Another one for every state."""
    faults: str
    """Why the newest content is not shown; empty where it is."""


@dataclass
class LiveSite:
    """What is shown now. Safe to use from several threads."""

    closed: bool = False
    _draft: Draft | None = None
    _faults: str = ""
    _number: int = 0
    _watched: str = ""
    # A page of an earlier run must not take this run's first state for its own.
    _run: str = field(default_factory=lambda: secrets.token_hex(4))
    _changed: Condition = field(default_factory=Condition)

    @property
    def news(self) -> News:
        """The state now."""
        with self._changed:
            return News(f"{self._run}-{self._number}", self._faults)

    @property
    def is_good(self) -> bool:
        """Whether there is any version to show."""
        return self._draft is not None

    def show(self, draft: Draft) -> None:
        """Show a new version. The page that was asked for last is made before it is told.

        Raises ContentError where that page cannot be made; the last version then stays.
        """
        if self._watched:
            draft.file(self._watched)
        with self._changed:
            self._draft, self._faults = draft, ""
            self._tell()

    def tell_faults(self, faults: str) -> None:
        """Tell why a new version cannot be shown; the last good one stays."""
        with self._changed:
            self._faults = faults
            self._tell()

    def close(self) -> None:
        """End all waiting."""
        with self._changed:
            self.closed = True
            self._changed.notify_all()

    def file(self, path: str) -> bytes | None:
        """A file of the version that is shown; None where there is none or it cannot be made."""
        draft = self._draft
        if draft is None:
            return None
        try:
            data = draft.file(path)
        except GuidegenError as error:
            self.tell_faults(str(error))
            return None
        if data is not None and path.endswith(".html"):
            self._watched = path
        return data

    def wait(self, seen: str, seconds: float) -> News:
        """The state as soon as it is another than `seen`, or after some seconds."""
        with self._changed:
            self._changed.wait_for(lambda: self.closed or self.news.version != seen, seconds)
            return self.news

    def _tell(self) -> None:
        self._number += 1
        self._changed.notify_all()
