"""Edges of pieces: name and length by pointing, tapping and keys."""

import re

from journeys.visits import Browsing

SIZE = "mooring-bracer/M/index.html"


def test_line_and_length_show_one_another(browsing: Browsing, address: str) -> None:
    """A tap on a line marks its length, a second one lets go; a key on a length marks its line."""
    with browsing.visit(360, touch=True) as visit:
        page = visit.page
        page.goto(address + SIZE)
        visit.unfold()
        piece = page.locator("#piece-bracer")
        line = piece.locator(".edge[data-edge=top]")
        item = piece.locator(".edges [data-edge=top]")
        assert re.match(r"top\s+274\smm", item.inner_text())
        button = item.get_by_role("button")
        line.locator("path").dispatch_event("click")
        assert "pointed" in item.get_attribute("class")
        assert button.get_attribute("aria-pressed") == "true"
        line.locator("path").dispatch_event("click")
        assert button.get_attribute("aria-pressed") == "false"
        assert "pointed" not in item.get_attribute("class")
        button.focus()
        assert "pointed" in line.get_attribute("class")
        page.keyboard.press("Enter")
        assert button.get_attribute("aria-pressed") == "true"
        visit.shoot("edges-360")
        box = button.bounding_box()
        assert box and min(box["width"], box["height"]) >= 24
        assert visit.complaints == []


def test_pointer_finds_the_line(browsing: Browsing, address: str) -> None:
    """A mouse on the end of a line, beside its name, marks the length."""
    with browsing.visit(1440) as visit:
        page = visit.page
        page.goto(address + SIZE)
        piece = page.locator("#piece-bracer")
        line = piece.locator(".edge[data-edge=top] path")
        line.scroll_into_view_if_needed()
        x, y = line.evaluate(
            "(line) => { const at = line.getPointAtLength(line.getTotalLength() / 4)"
            ".matrixTransform(line.getScreenCTM()); return [at.x, at.y]; }"
        )
        page.mouse.move(x, y)
        assert "pointed" in piece.locator(".edges [data-edge=top]").get_attribute("class")
        visit.shoot("edges-1440")


def test_lengths_read_without_a_script(browsing: Browsing, address: str) -> None:
    """Without a script the list stands below the drawing, without buttons."""
    with browsing.visit(820, scripts=False) as visit:
        visit.page.goto(address + SIZE)
        edges = visit.page.locator("#piece-bracer .edges")
        assert "274" in edges.inner_text()
        assert edges.locator("button").count() == 0
