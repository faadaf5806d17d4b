"""The preview in a browser: what an author sees while they write."""

import threading
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from journeys.visits import Browsing
from samples import GUIDE, SITE, changed, unplaced, write_content

from guidegen.app.commands.show import ShowOptions, showing

THEMES = Path(__file__).parents[2] / "themes"
SMALL = unplaced(changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", ""))
SITE_OF_ONE = SITE + "papers: [a4]\n"


@dataclass
class Preview:
    """A running preview of a small guide."""

    content: Path
    address: str
    said: list[str]

    def write(self, guide: str) -> None:
        """Save the guide as an editor does."""
        new = self.content / "cuff" / "guide.yaml.new"
        new.write_text(guide, encoding="utf-8")
        new.replace(self.content / "cuff" / "guide.yaml")


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[Preview]:
    """The preview, its presses in a thread as the command has them in its main one."""
    content = write_content(tmp_path / "content", site=SITE_OF_ONE, guide=SMALL)
    said: list[str] = []
    stop = threading.Event()
    with showing(ShowOptions(content, THEMES, port=0), said.append) as (address, changed, press):

        def run() -> None:
            while not stop.is_set():
                if changed.wait(0.1):
                    changed.clear()
                    press()

        press()
        thread = threading.Thread(target=run)
        thread.start()
        try:
            yield Preview(content, address, said)
        finally:
            stop.set()
            thread.join()


def test_an_edit_is_seen_in_the_open_page(browsing: Browsing, preview: Preview) -> None:
    """A changed text comes into the open page by itself, where the reader was."""
    with browsing.visit(1440) as visit:
        page = visit.page
        page.goto(preview.address + "cuff/steps.html")
        place = page.url
        page.wait_for_timeout(300)
        for minutes in (2, 3):
            words = f"Warm it for {minutes} minutes and bend it."
            preview.write(changed(SMALL, "Warm it and bend it.", words))
            page.get_by_text(words).wait_for()
        assert page.url == place
        assert visit.complaints == []


def test_an_error_lies_over_the_last_good_page(browsing: Browsing, preview: Preview) -> None:
    """A slip is told with its place over the page as it was, and goes away once it is cured."""
    with browsing.visit(820) as visit:
        page = visit.page
        page.goto(preview.address + "cuff/steps.html")
        preview.write(changed(SMALL, "material: foam-5", "material: foam-12"))
        panel = page.get_by_role("alert")
        panel.wait_for()
        assert 'guide.yaml:21:15  parts.cuff.material: no material "foam-12"' in panel.inner_text()
        assert "last good version" in panel.inner_text()
        assert page.get_by_text("Warm it and bend it.").is_visible()
        visit.shoot("show-error")
        page.goto(preview.address)
        panel.wait_for()
        assert page.get_by_role("heading", name="Test cuff").is_visible()
        page.get_by_role("button", name="Hide").click()
        assert panel.count() == 0
        preview.write(changed(SMALL, "Test cuff", "Cured cuff"))
        page.get_by_role("heading", name="Cured cuff").wait_for()
        assert panel.count() == 0
        assert visit.complaints == []


def test_links_and_documents_work(browsing: Browsing, tmp_path: Path, preview: Preview) -> None:
    """A page that is reached by links is of the same version, with documents to open."""
    with browsing.visit(820) as visit:
        page = visit.page
        page.goto(preview.address)
        page.get_by_role("link", name="Test cuff").first.click()
        page.get_by_role("link", name="Materials and templates").or_(
            page.get_by_role("navigation", name="Pages of this guide").get_by_role("link").nth(1)
        ).first.click()
        answer = visit.context.request.get(
            f"{preview.address}cuff/M/materials.csv", timeout=120_000
        )
        assert answer.ok and "Contact cement" in answer.text()
        missing = visit.context.request.get(f"{preview.address}cuff/X/")
        assert missing.status == 404


def test_search_finds_what_was_just_written(browsing: Browsing, preview: Preview) -> None:
    """The index is made once somebody searches, from the pages as they are."""
    with browsing.visit(820) as visit:
        page = visit.page
        preview.write(changed(SMALL, "Warm it and bend it.", "Warm it over a quillwort."))
        page.goto(preview.address + "cuff/steps.html")
        page.get_by_text("quillwort").wait_for()
        page.get_by_role("link", name="Search").click()
        page.get_by_label("Words in guides").fill("quillwort")
        found = page.locator(".found a").first
        found.wait_for()
        visit.shoot("show-search")
        found.click()
        page.wait_for_url("**/cuff/steps.html*")
        page.get_by_text("quillwort").wait_for()
        assert visit.complaints == []


def test_a_preview_keeps_nothing(browsing: Browsing, preview: Preview) -> None:
    """A preview says that it saves nothing; a worker of a pressed site goes away with what it kept."""
    with browsing.visit(820) as visit:
        page = visit.page
        page.goto(preview.address + "cuff/index.html")
        page.get_by_text("Saving for offline: not in the preview").wait_for()
        assert page.locator(".offline").is_hidden()
        # As a pressed site at the same address would have left it.
        gone = page.evaluate(
            """async () => {
              await (await caches.open("guidegen-shell-old")).put("/x", new Response("old"));
              await (await caches.open("other")).put("/x", new Response("not ours"));
              await navigator.serviceWorker.register("/worker.js");
              const until = Date.now() + 20000;
              while ((await navigator.serviceWorker.getRegistrations()).length && Date.now() < until)
                await new Promise((done) => setTimeout(done, 50));
              const left = await navigator.serviceWorker.getRegistrations();
              return [left.length, await caches.keys()];
            }"""
        )
        assert gone == [0, ["other"]]
        answer = visit.context.request.get(preview.address + "cuff/offline.json")
        assert answer.status == 404
