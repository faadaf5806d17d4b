"""The page for addresses that do not exist, as a host shows it: at any depth, under any path."""

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest
from journeys.visits import Browsing
from playwright.sync_api import Route, expect
from render.page_samples import home_files, sample, theme

HOST = "http://club.example"
TYPES = {"css": "text/css", "js": "text/javascript", "html": "text/html", "svg": "image/svg+xml"}


@cache
def site_files(**settings: str) -> dict[str, bytes]:
    """Pages of no guide of the sample site."""
    content, plan, pictures = sample()
    content = replace(content, site=content.site.model_copy(update=settings))
    return home_files(content, [plan], pictures, theme())


def host(files: dict[str, bytes], path: str) -> Callable[[Route], None]:
    """A host that holds a site under a path, and shows 404.html for all that it has not."""

    def answer(route: Route) -> None:
        name = route.request.url.removeprefix(HOST).partition("?")[0]
        data = files.get(name.removeprefix(path) or "index.html") if name.startswith(path) else None
        kind = TYPES.get(name.rpartition(".")[2], "application/octet-stream")
        if data is None:
            route.fulfill(status=404, content_type="text/html", body=files["404.html"])
        else:
            route.fulfill(content_type=kind, body=data)

    return answer


@pytest.mark.parametrize("path", ["/", "/guides/"])
@pytest.mark.parametrize("address", ["nothing", "cuff/nothing/here.html", "a/b/c/d/"])
def test_the_site_is_found_from_any_depth(browsing: Browsing, path: str, address: str) -> None:
    """Without address and path in site.yaml the page has its looks, and its links lead home."""
    with browsing.visit() as visit:
        visit.page.route("**/*", host(site_files(), path))
        visit.page.goto(HOST + path + address)
        expect(visit.page.locator(".top")).to_have_css("display", "flex")
        link = visit.page.get_by_role("link", name="the list of guides")
        assert link.evaluate("(one) => one.href") == f"{HOST}{path}index.html"
        assert visit.page.locator("a.skip").get_attribute("href") == "#main"


def test_it_reads_well_without_scripts(browsing: Browsing) -> None:
    """Nobody finds the site then, and the page says what to do by hand."""
    with browsing.visit(scripts=False) as visit:
        visit.page.route("**/*", host(site_files(), "/guides/"))
        visit.page.goto(f"{HOST}/guides/a/b/c")
        assert visit.page.get_by_role("heading", name="There is no such page").is_visible()
        assert visit.page.get_by_text("take parts off the end of the address").is_visible()


def test_a_path_is_enough(browsing: Browsing) -> None:
    """With a path in site.yaml the page needs no script, and asks for nothing that is not there."""
    with browsing.visit(scripts=False) as visit:
        files = site_files(path="/guides/")
        visit.page.route("**/*", host(files, "/guides/"))
        visit.page.goto(f"{HOST}/guides/a/b/c")
        expect(visit.page.locator(".top")).to_have_css("display", "flex")
        assert b"<script data-sign" not in files["404.html"]


def test_no_other_host_is_asked(ask_script: Callable[..., list[list[str]]]) -> None:
    """Folders above an address are of its host, also where it has empty parts; and they are few."""
    paths = ["/guides/a/b.html", "//evil.example/a", "/" + "a/" * 99]
    first, second, third = ask_script("lost.js", "script.foldersAbove(item)", paths)
    assert first == ["/guides/a/", "/guides/", "/"]
    assert second == ["/"]
    assert len(third) == 21
