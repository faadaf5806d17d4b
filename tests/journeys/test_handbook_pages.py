"""The handbook in a browser: read by all, wide tables and examples included."""

import pytest
from journeys.test_pages import violations
from journeys.visits import Browsing
from playwright.sync_api import Route

from guidegen.app.commands.handbook import handbook_files

HOST = "http://handbook.example/"


@pytest.mark.parametrize(("page", "width"), [("index.html", 1440), ("layers.html", 360)])
def test_chapters_are_read_by_all(browsing: Browsing, page: str, width: int) -> None:
    """axe-core finds nothing, nothing fails to load, and no page is wider than a phone."""
    files = handbook_files()
    kinds = {
        "html": "text/html",
        "css": "text/css",
        "js": "text/javascript",
        "svg": "image/svg+xml",
    }

    def answer(route: Route) -> None:
        name = route.request.url.removeprefix(HOST).partition("?")[0]
        kind = kinds.get(name.rpartition(".")[2], "application/octet-stream")
        route.fulfill(content_type=kind, body=files[name])

    with browsing.visit(width, dark=width < 400) as visit:
        visit.page.route("**/*", answer)
        visit.page.goto(HOST + page)
        assert violations(visit) == []
        assert visit.complaints == []
        assert visit.page.evaluate("document.documentElement.scrollWidth") <= width
