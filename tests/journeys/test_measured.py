"""A reader makes templates to their own measurements on the guide's page."""

import threading
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path

import pytest
from journeys.conftest import _Silent
from journeys.test_pages import violations
from journeys.visits import Browsing, Visit

BODY = {"forearm": 262.0, "wrist": 171.0}
"""mm; of nobody in particular, between two sizes of the bracer."""


@pytest.fixture(autouse=True)
def offered(site: Path) -> None:
    """Nothing is offered where the programs could not be fetched, and no change is at fault."""
    if not (site / "measured.files").is_dir():
        pytest.skip("what templates to measure need could not be fetched")


def _fill(visit: Visit, body: dict[str, float]) -> None:
    for name, mm in body.items():
        visit.page.fill(f'[data-measure="{name}"]', str(mm))


def _saved(visit: Visit) -> bytes:
    with visit.page.expect_download() as download:
        visit.page.click(".measured-file")
    return download.value.path().read_bytes()


def test_templates_to_measure_are_made_on_the_page(browsing: Browsing, address: str) -> None:
    """A doubtful figure is questioned in the page's language, a sound one gives a PDF. All is reached
    by keyboard; after loading nothing is asked for, and only the tab remembers what was typed."""
    with browsing.visit(390) as visit:
        page = visit.page
        page.goto(f"{address}de/mooring-bracer/index.html")
        before = len(visit.requests)
        assert not any("measured.files" in one for one in visit.requests)
        _fill(visit, BODY | {"forearm": 900.0})
        page.focus(".measured-make")
        page.keyboard.press("Enter")
        page.wait_for_selector('.measured-problems [data-code="doubtful-body"]')
        assert "nachgemessen" in page.inner_text(".measured-problems")
        loaded = len(visit.requests)
        assert any("measured.files/core-" in one for one in visit.requests[before:])
        _fill(visit, BODY)
        page.keyboard.press("Tab")
        page.focus(".measured-make")
        page.keyboard.press("Enter")
        page.wait_for_selector(".measured-file:not([hidden])")
        assert page.evaluate("document.activeElement.className") == "measured-file"
        with page.expect_download() as download:
            page.keyboard.press("Enter")
        assert download.value.path().read_bytes().startswith(b"%PDF-1.7")
        assert page.locator(".measured-pieces tbody tr").count() == 6
        assert page.get_attribute(".measured-link", "href") == (
            "#measures=forearm:262,wrist:171&paper=a4"
        )
        # The PDF lies in the page's memory, under an address of its own.
        assert [one for one in visit.requests[loaded:] if one.startswith("http")] == []
        assert page.evaluate("Object.keys(localStorage)") == []
        assert page.evaluate("caches.keys()") == []
        assert violations(visit) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        visit.shoot("measured")
        assert visit.complaints == []


def test_making_can_be_stopped_and_a_link_fills_the_fields(
    browsing: Browsing, address: str
) -> None:
    """Measurements behind the # fill the fields; Stop ends the work and the page goes on."""
    with browsing.visit() as visit:
        page = visit.page
        page.goto(f"{address}mooring-bracer/index.html#measures=forearm:262,wrist:171&paper=a4")
        assert page.input_value('[data-measure="wrist"]') == "171"
        page.click(".measured-make")
        page.wait_for_selector(".measured-stop:not([hidden])")
        page.click(".measured-stop")
        page.wait_for_selector(".measured-stop", state="hidden")
        assert page.inner_text(".measured-state") == "Stopped"
        assert page.is_enabled(".measured-make")
        # Silence is no end either: it is stopped, with a sentence.
        page.evaluate("document.querySelector('.measured').dataset.minutes = 0.0005")
        page.click(".measured-make")
        page.wait_for_selector(".measured-stop", state="hidden")
        assert "nothing happened for" in page.inner_text(".measured-state")


def test_an_old_browser_says_what_to_do_instead(browsing: Browsing, address: str) -> None:
    """One that lacks what the program needs offers no button and names other ways, without an error:
    what it lacks is taken away before any script of the page runs."""
    for lacks in ("window.WebAssembly", "window.Worker", "window.DecompressionStream"):
        with browsing.visit() as visit:
            page = visit.page
            page.add_init_script(f"delete {lacks}")
            page.goto(f"{address}mooring-bracer/index.html#measures=forearm:262,wrist:171&paper=a4")
            page.wait_for_selector(".measured-state:not(:empty)")
            assert "too old for it. Use the size chart" in page.inner_text(".measured-state")
            assert page.is_disabled(".measured-make") and visit.complaints == []


def test_the_program_works_without_a_network_once_it_is_kept(
    browsing: Browsing, site: Path
) -> None:
    """Kept at the reader's wish it makes the same PDF from the saved page, with no host left."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Silent, directory=str(site)))
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05})
    thread.start()
    with browsing.visit(1280) as visit:
        page = visit.page
        page.goto(f"http://127.0.0.1:{server.server_port}/mooring-bracer/index.html")
        _fill(visit, BODY)
        page.click(".measured-make")
        page.wait_for_selector(".measured-file:not([hidden])")
        before = _saved(visit)
        page.click(".measured-keep")
        page.wait_for_selector('.measured-state:has-text("Kept on this device")')
        page.click(".offline-save")
        page.wait_for_selector(".offline.kept")
        server.shutdown()
        server.server_close()
        thread.join()
        page.reload()
        assert page.input_value('[data-measure="wrist"]') == "171.0"
        page.click(".measured-make")
        page.wait_for_selector(".measured-file:not([hidden])")
        assert _saved(visit) == before
        page.click(".measured-nested summary")
        page.wait_for_selector(".measured-drawing:nth-of-type(3) svg")
        visit.shoot("measured without a network")
