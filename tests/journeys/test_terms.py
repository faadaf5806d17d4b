"""Words of the trade: their meaning beside the word, as WCAG 2.2, success criterion 1.4.13 asks."""

import re

from axe_playwright_python.sync_playwright import Axe
from journeys.visits import Browsing

PAGE = "quay-lamp/index.html"
MEANING = re.compile("^Bevel: ")


def test_meaning_is_told_by_keyboard(browsing: Browsing, address: str) -> None:
    """Focus shows the meaning and describes the link with it; Escape hides it and focus stays."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address + PAGE)
        link, note = page.locator("a.to-term").first, page.locator("[role=tooltip]")
        assert not note.is_visible()
        link.focus()
        assert MEANING.match(note.inner_text())
        assert link.get_attribute("aria-describedby") == note.get_attribute("id")
        assert link.get_attribute("title") is None
        box = note.bounding_box()
        assert box and box["x"] >= 0 and box["x"] + box["width"] <= 360
        visit.shoot("term-360")
        page.keyboard.press("Escape")
        assert not note.is_visible()
        assert link.evaluate("(link) => link === document.activeElement")
        assert visit.complaints == []


def test_meaning_stays_under_the_pointer(browsing: Browsing, address: str) -> None:
    """The pointer may move onto the meaning; away from both, it goes."""
    with browsing.visit(1440) as visit:
        page = visit.page
        page.goto(address + PAGE)
        link, note = page.locator("a.to-term").first, page.locator("[role=tooltip]")
        link.hover()
        note.wait_for(state="visible")
        note.hover()
        page.wait_for_timeout(400)
        assert note.is_visible()
        found = Axe().run(page, context="main")
        assert found.violations_count == 0, found.generate_report()
        page.mouse.move(2, 2)
        note.wait_for(state="hidden")


def test_first_tap_explains_and_the_second_follows(browsing: Browsing, address: str) -> None:
    """On a touch screen the link is still there: a second tap leads to the glossary."""
    with browsing.visit(360, touch=True) as visit:
        page = visit.page
        page.goto(address + PAGE)
        link, note = page.locator("a.to-term").first, page.locator("[role=tooltip]")
        link.tap()
        note.wait_for(state="visible")
        assert page.url.endswith(PAGE)
        page.locator("h1").tap()
        assert not note.is_visible()
        link.tap()
        link.tap()
        page.wait_for_url("**/glossary.html*#term-bevel")


def test_without_a_script_the_title_tells(browsing: Browsing, address: str) -> None:
    """The link leads to the glossary, and its title holds the meaning."""
    with browsing.visit(820, scripts=False) as visit:
        visit.page.goto(address + PAGE)
        link = visit.page.locator("a.to-term").first
        assert MEANING.match(link.get_attribute("title") or "")
        assert (link.get_attribute("href") or "").endswith("glossary.html#term-bevel")
