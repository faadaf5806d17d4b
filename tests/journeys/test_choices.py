"""Units and size: chosen once, kept on all pages and in the address."""

import pytest
from journeys.visits import WIDTHS, Browsing

GUIDE = "mooring-bracer/index.html"


@pytest.mark.parametrize("width", [WIDTHS[0], WIDTHS[-1]])
def test_unit_is_kept_and_travels_in_links(browsing: Browsing, address: str, width: int) -> None:
    """Inches chosen on one page are shown on the next, and by whoever opens a copied address."""
    with browsing.visit(width) as visit:
        page = visit.page
        page.goto(address + GUIDE)
        first = page.locator(".sizes td").first
        assert "mm" in first.inner_text() and "in" in first.inner_text()
        page.get_by_label("Lengths in").select_option("in")
        assert "mm" not in first.inner_text()
        page.locator(".sizes a", has_text="M").click()
        page.wait_for_selector("body.size")
        visit.unfold()
        facts = page.locator(".piece-facts .length").first
        assert facts.inner_text().endswith("in")
        assert page.locator(".inches").first.is_hidden()
        assert page.locator("svg text.dimension").first.inner_html().endswith("\u2033")
        copied = page.url
        assert "unit=in" in copied
        assert visit.complaints == []
    with browsing.visit(width) as visit:
        visit.page.goto(copied)
        visit.unfold()
        assert visit.page.get_by_label("Lengths in").input_value() == "in"
        assert visit.page.locator(".piece-facts .length").first.inner_text().endswith("in")
        visit.page.get_by_label("Lengths in").select_option("")
        assert visit.page.locator(".inches").first.is_visible()
        assert "mm" in visit.page.locator(".piece-facts .length").first.inner_text()


def test_size_is_kept(browsing: Browsing, address: str) -> None:
    """Whoever opened size M finds it marked, chosen for saving, and behind the way to buy."""
    with browsing.visit(820) as visit:
        page = visit.page
        page.goto(address + "mooring-bracer/M/index.html")
        page.goto(address + GUIDE)
        assert "size=M" in page.url
        assert page.locator("tr.chosen").get_attribute("data-for-size") == "M"
        page.wait_for_selector(".offline:not([hidden])")
        assert page.locator(".offline select").input_value() == "M"
        page.get_by_role("link", name="Buy what it needs").click()
        page.wait_for_url("**/mooring-bracer/M/index.html*")


def test_choices_of_links_are_checked(browsing: Browsing, address: str) -> None:
    """A unit or size that does not exist is as none."""
    with browsing.visit(820) as visit:
        visit.page.goto(f"{address}{GUIDE}?unit=%3Cb%3E&size=../../x")
        assert visit.page.get_by_label("Lengths in").input_value() == ""
        assert visit.page.locator("tr.chosen").count() == 0
        assert visit.complaints == []
