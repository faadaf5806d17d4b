"""The handbook in a browser: read by all, wide tables and examples included."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache

import pytest
from journeys.test_pages import violations
from journeys.test_windows import TOO_WIDE
from journeys.visits import Browsing, Visit
from playwright.sync_api import Route

from guidegen.app.commands.handbook import handbook_files

HOST = "http://handbook.example/"
KINDS = {"html": "text/html", "css": "text/css", "js": "text/javascript", "svg": "image/svg+xml"}
"""Media types by the ending of a file."""


@cache
def files() -> dict[str, bytes]:
    """The handbook's site."""
    return handbook_files()


def answer(route: Route) -> None:
    """What a host of the handbook would send."""
    name = route.request.url.removeprefix(HOST).partition("?")[0]
    kind = KINDS.get(name.rpartition(".")[2], "application/octet-stream")
    route.fulfill(content_type=kind, body=files()[name])


@contextmanager
def opened(browsing: Browsing, width: int) -> Iterator[Visit]:
    """A browser to which the handbook is at HOST."""
    with browsing.visit(width, dark=width < 400) as visit:
        visit.page.route("**/*", answer)
        yield visit


@pytest.mark.parametrize(("page", "width"), [("index.html", 1440), ("layers.html", 360)])
def test_chapters_are_read_by_all(browsing: Browsing, page: str, width: int) -> None:
    """axe-core finds nothing, and nothing fails to load."""
    with opened(browsing, width) as visit:
        visit.page.goto(HOST + page)
        assert violations(visit) == []
        assert visit.complaints == []


def test_every_chapter_reflows_at_320_px(browsing: Browsing) -> None:
    """No chapter scrolls sideways (WCAG 2.2, 1.4.10 Reflow): its tables and examples do by themselves."""
    with opened(browsing, 320) as visit:
        for page in files():
            if page.endswith(".html"):
                visit.page.goto(HOST + page)
                assert visit.page.evaluate(TOO_WIDE) == [], page
