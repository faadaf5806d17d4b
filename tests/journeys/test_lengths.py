"""Lengths in texts and drawings follow the reader's unit, and fit where they stand."""

import re

from journeys.visits import Browsing

SIZE = "quay-lamp/one-size/index.html"
STEPS = "mooring-bracer/steps.html"

CROWDED = """
() => [...document.querySelectorAll(".drawing svg:has([data-said])")].flatMap((svg) => {
  const sheet = svg.getBoundingClientRect();
  return [...svg.querySelectorAll("text")].filter((text) => {
    const box = text.getBoundingClientRect();
    return box.width && (box.left < sheet.left - 1 || box.right > sheet.right + 1);
  }).map((text) => text.textContent);
})
"""
"""Words that leave their drawing."""


def test_drawings_and_texts_follow_the_unit(browsing: Browsing, address: str) -> None:
    """Numbers, lettering, names and notes of drawings, materials, steps: all in inches, and back."""
    with browsing.visit(1440) as visit:
        page = visit.page
        page.goto(address + SIZE)
        page.reload()  # a font that came too late for the first view, and is narrower, is there now
        plan = page.locator(".sheets svg").nth(1)
        name = plan.locator("title").first.evaluate("(one) => one.parentElement.textContent")
        before = plan.evaluate("(one) => one.outerHTML")
        assert "500" in name
        page.get_by_label("Lengths in").select_option("in")
        said = plan.evaluate("(one) => one.textContent")
        assert "dimensions in inches" in said and "19 11/16\u2033" in said
        assert not re.search(r"\d\s?mm\b", said)
        assert page.locator(".lengths").inner_text().count("in") > 3
        page.locator(".lengths svg").first.scroll_into_view_if_needed()
        assert page.evaluate(CROWDED) == []
        page.get_by_label("Lengths in").select_option("cm")
        assert "50\u00a0cm" in plan.evaluate("(one) => one.textContent")
        page.get_by_label("Lengths in").select_option("")
        after = re.sub(
            r' data-said="[^"]*"| style="[^"]*"', "", plan.evaluate("(one) => one.outerHTML")
        )
        assert after == before
        assert visit.complaints == []


def test_lengths_in_running_texts(browsing: Browsing, address: str) -> None:
    """What an author typed in mm is read in inches; what is sold keeps its name beside."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(f"{address}{STEPS}?unit=in")
        said = page.locator(".prose").all_inner_texts()
        assert any("holes of 3/16\u00a0in" in words for words in said)
        assert not any(re.search(r"\d\s?mm\b", words) for words in said)
        visit.shoot("steps-inches-360")


def test_edges_stand_beside_enlarged_templates(browsing: Browsing, address: str) -> None:
    """A touch opens a template sheet; a touch on an edge marks its length beside it."""
    with browsing.visit(360, touch=True) as visit:
        page = visit.page
        page.goto(address + SIZE)
        visit.unfold()
        page.locator(".maps svg").first.click(position={"x": 5, "y": 5})
        beside = page.locator("dialog .zoom-edges")
        assert beside.get_by_role("heading").count() >= 1
        line = page.locator("dialog .edge").first
        piece, edge = line.get_attribute("data-piece"), line.get_attribute("data-edge")
        x, y = line.locator("path").evaluate(
            "(one) => { const at = one.getPointAtLength(one.getTotalLength() / 3)"
            ".matrixTransform(one.getScreenCTM()); return [at.x, at.y]; }"
        )
        page.touchscreen.tap(x, y)
        item = beside.locator(f'[data-piece="{piece}"][data-edge="{edge}"]')
        assert item.get_by_role("button").get_attribute("aria-pressed") == "true"
        assert re.search(r"\d+\smm", item.inner_text())
        assert "pointed" in line.get_attribute("class")
        visit.shoot("template-enlarged-360")
        page.keyboard.press("Escape")
        assert beside.get_by_role("heading").count() == 0
        assert visit.complaints == []


def test_ticked_materials_are_not_paid_again(browsing: Browsing, address: str) -> None:
    """A tick takes a material's cost from its shop and from the sum; without it all is as before."""
    with browsing.visit(820) as visit:
        page = visit.page
        page.goto(address + SIZE)
        row = page.locator("table.buy tr[data-need]").first
        cost, shop = row.locator("[data-column=cost]"), page.locator("tr.shop td").first
        before = (cost.inner_text(), shop.inner_text())
        row.get_by_role("checkbox").check()
        assert cost.inner_text() == "€0"
        assert shop.inner_text() != before[1]
        assert page.locator(".have-sum").inner_text().startswith("With what you have: €")
        page.reload()
        assert cost.inner_text() == "€0"
        row.get_by_role("checkbox").uncheck()
        assert (cost.inner_text(), shop.inner_text()) == before
        assert page.locator(".have-sum").inner_text() == ""
        assert visit.complaints == []
