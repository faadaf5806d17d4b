"""Pages by keyboard: every control is reached, is seen when it is, and menus are skipped."""

import pytest
from journeys.small_site import KINDS
from journeys.visits import Browsing

FOCUSED = """
() => {
  const one = document.activeElement;
  const style = getComputedStyle(one);
  const { left, right, top, bottom } = one.getBoundingClientRect();
  const x = Math.min(Math.max((left + right) / 2, 0), innerWidth - 1);
  const y = Math.min(Math.max((top + bottom) / 2, 0), innerHeight - 1);
  return {
    name: one.outerHTML.slice(0, 120),
    body: one === document.body,
    ring: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
    seen: right > 0 && bottom > 0 && left < innerWidth && top < innerHeight
      && Boolean(document.elementFromPoint(x, y)),
  };
}
"""
"""What has the focus, whether a ring shows it, and whether it is on the screen."""

FOCUSABLE = """
() => [...document.querySelectorAll("a[href], button:enabled, input:enabled, select, summary,"
  + "textarea, [tabindex='0']")].filter((one) => one.checkVisibility()).length
"""


@pytest.mark.parametrize("kind", ["home", "guide", "size", "steps", "safety", "tools"])
def test_keyboard_reaches_everything(browsing: Browsing, address: str, kind: str) -> None:
    """Tab leads from the skip link through every control, each with a ring and on the screen."""
    with browsing.visit(820) as visit:
        page = visit.page
        page.goto(address + KINDS[kind])
        names: list[str] = []
        # Radio buttons of a group are one stop, so there may be fewer stops than controls.
        for _ in range(page.evaluate(FOCUSABLE) + 2):
            page.keyboard.press("Tab")
            focused = page.evaluate(FOCUSED)
            if focused["body"]:
                break
            assert focused["ring"] and focused["seen"], focused
            names.append(focused["name"])
        assert 'class="skip"' in names[0]
        radios = page.locator("input[type=radio]:visible").count()
        assert len(names) >= page.evaluate(FOCUSABLE) - radios
        page.keyboard.press("Shift+Tab")
        assert not page.evaluate(FOCUSED)["body"]


def test_skip_link_leads_to_the_content(browsing: Browsing, address: str) -> None:
    """The first stop of the keyboard skips the menus."""
    with browsing.visit() as visit:
        visit.page.goto(address + KINDS["guide"])
        visit.page.keyboard.press("Tab")
        visit.page.keyboard.press("Enter")
        assert visit.page.evaluate("document.activeElement.id") == "main"
