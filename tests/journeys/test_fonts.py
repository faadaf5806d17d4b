"""Letters of pages: from a disc, late, or not at all, a drawing stays readable."""

import time
from pathlib import Path

import pytest
from journeys.small_site import KINDS
from journeys.visits import Browsing, Visit
from playwright.sync_api import Route

OURS = '[...document.fonts].filter((face) => face.status === "loaded").map((face) => face.family)'

WIDTHS = """
() => [...document.querySelectorAll("main .drawing text")].map((text) => text.getBBox().width)
"""

LEAST_LETTERS = """
() => [...document.querySelectorAll("main .drawing > svg")].flatMap((svg) => {
  const scale = svg.getScreenCTM()?.a ?? 0;
  const sizes = [...svg.querySelectorAll("text")].map((one) => parseFloat(getComputedStyle(one).fontSize));
  return scale && sizes.length ? [Math.min(...sizes) * scale] : [];
})
"""

SIDEWAYS = "document.documentElement.scrollWidth - innerWidth"


def _ours(visit: Visit) -> set[str]:
    return {name.strip('"') for name in visit.page.evaluate(OURS)}


@pytest.mark.parametrize("width", [320, 1280])
def test_a_site_reads_from_a_disc(browsing: Browsing, site: Path, width: int) -> None:
    """Opened as files, pages have their own letters, no complaint and nothing that stands out."""
    with browsing.visit(width) as visit:
        for path in KINDS.values():
            visit.page.goto((site / path).as_uri())
            assert {"Barlow Condensed", "Atkinson Hyperlegible"} <= _ours(visit), path
            assert visit.page.evaluate(SIDEWAYS) <= 0, path
        assert visit.complaints == []
        visit.page.goto(f"{(site / 'search.html').as_uri()}?q=craft knife")
        visit.page.wait_for_selector(".things li")
        assert "knife" in visit.page.locator(".found a").first.inner_text()


def test_late_letters_never_garble_a_drawing(browsing: Browsing, address: str) -> None:
    """Faces that come a second late are waited for; without them words keep nearly their width."""
    path = f"{address}mooring-bracer/M/index.html"

    def late(route: Route) -> None:
        time.sleep(1)
        route.continue_()

    with browsing.visit(390) as visit:
        visit.page.route("**/*-faces.css", late)
        visit.page.goto(path)
        assert {"Barlow Condensed", "Atkinson Hyperlegible"} <= _ours(visit)
        right = visit.page.evaluate(WIDTHS)
    with browsing.visit(390) as visit:
        visit.page.route("**/*-faces.css", lambda route: route.abort())
        visit.page.goto(path)
        assert "Barlow Condensed" not in _ours(visit)
        other = visit.page.evaluate(WIDTHS)
        assert visit.page.evaluate(SIDEWAYS) <= 0
    assert len(right) == len(other) > 50
    assert sum(other) != sum(right)  # ours are in use where they come
    assert 0.85 < sum(other) / sum(right) < 1.1


def test_labels_of_drawings_are_read_on_a_phone(browsing: Browsing, address: str) -> None:
    """At 390 px the smallest letter of every drawing has 11 px, and no page scrolls sideways.

    Both figures are our choice: a common phone, and letters as small as a phone's own.
    """
    with browsing.visit(390) as visit:
        for path in KINDS.values():
            if path.endswith("index.html") and path.count("/") == 0:
                continue  # on the first page a kit is a picture of the guide, to be tapped
            visit.page.goto(address + path)
            sizes = visit.page.evaluate(LEAST_LETTERS)
            assert min(sizes, default=11) >= 10.95, (path, sorted(sizes)[:3])
            assert visit.page.evaluate(SIDEWAYS) <= 0, path
