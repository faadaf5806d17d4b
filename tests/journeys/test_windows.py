"""Every kind of page in windows of all widths: none scrolls sideways, hides words or crowds targets."""

import pytest
from journeys.small_site import ALL, GERMAN, HARBOUR, KINDS
from journeys.visits import HEIGHTS, Browsing

TOO_WIDE = """
() => {
  const room = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= room) return [];
  return [...document.querySelectorAll("body *")]
    .filter((one) => one.getBoundingClientRect().right > room + 1)
    .map((one) => one.outerHTML.slice(0, 120)).slice(0, 5);
}
"""
"""Elements that make a page scroll sideways."""


CUT_OFF = """
() => [...document.querySelectorAll("main *, .top *, .menu *, .foot *")]
  .filter((one) => {
    const style = getComputedStyle(one);
    return one.checkVisibility() && !one.closest("svg") && one.textContent.trim()
      && style.clipPath === "none" && !one.closest(".vh, .skip")
      && ["hidden", "clip"].includes(style.overflowX)
      && (one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1);
  })
  .map((one) => one.outerHTML.slice(0, 120))
"""
"""Elements whose words do not fit into them and are hidden."""


def test_phones_enlarge_steps_to_twice_the_size(browsing: Browsing, address: str) -> None:
    """Letters of 32 px on a phone 390 px wide: a step by itself does not scroll sideways, and its bar
    stands at the end of the page and hides nothing."""
    with browsing.visit(390) as visit:
        reader = visit.context.new_cdp_session(visit.page)
        reader.send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
        visit.page.goto(address + KINDS["steps"])
        visit.page.get_by_role("button", name="One step at a time").click()
        assert visit.page.evaluate(TOO_WIDE) == []
        bar = visit.page.locator(".work-bar")
        assert bar.evaluate("(one) => getComputedStyle(one).position") == "static"


@pytest.mark.parametrize("zoom", [2, 4])
def test_the_bar_of_a_step_takes_at_most_a_fifth(
    browsing: Browsing, address: str, zoom: int
) -> None:
    """Zoomed at a desk of 1280 × 800: what of the bar covers the step is at most a fifth of the window."""
    with browsing.visit(1280 // zoom) as visit:
        visit.page.set_viewport_size({"width": 1280 // zoom, "height": 800 // zoom})
        visit.page.goto(address + KINDS["steps"])
        visit.page.get_by_role("button", name="One step at a time").click()
        covered = visit.page.locator(".work-bar").evaluate(
            "(one) => getComputedStyle(one).position === 'static' ? 0"
            " : one.getBoundingClientRect().height / innerHeight"
        )
        assert covered <= 0.2


SMALL_TARGETS = """
() => {
  const box = (one) => {
    const control = one.matches("label input") ? one.closest("label") : one;
    return control.getBoundingClientRect();
  };
  const all = [...document.querySelectorAll("a[href], button, input, select, summary, textarea")]
    .filter((one) => one.checkVisibility() && !one.closest(".skip"));
  // A link in a sentence takes the height of its line: WCAG 2.5.8 leaves it out.
  const inSentence = (one) => one.matches("a")
    && [...one.parentElement.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
  const small = (one) => Math.min(box(one).width, box(one).height) < 24;
  const middle = (one) => {
    const { left, top, width, height } = box(one);
    return [left + width / 2, top + height / 2];
  };
  // A small target counts as large enough where a circle of 24 px around it meets no other target.
  const near = (one, other) => {
    const [x, y] = middle(one);
    if (small(other)) return Math.hypot(x - middle(other)[0], y - middle(other)[1]) < 24;
    const { left, right, top, bottom } = box(other);
    return Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom)) < 12;
  };
  return all
    .filter((one) => small(one) && !inSentence(one)
      && all.some((other) => other !== one && !one.closest("label")?.contains(other)
        && near(one, other)))
    .map((one) => `${one.outerHTML.slice(0, 120)} ${box(one).width}×${box(one).height}`);
}
"""
"""Targets of less than 24 × 24 CSS px without room around them (WCAG 2.2, 2.5.8)."""


LONGEST = GERMAN | {kind: path for kind, path in KINDS.items() if f"{kind} in German" not in GERMAN}
"""Pages in German, whose words are longer; in English those that are not translated."""


def test_pages_fit_every_window(browsing: Browsing, address: str) -> None:
    """Each page is laid out anew in five windows, with all that folds open, as it is at a desk.

    At 320 CSS px none scrolls sideways (WCAG 2.2, 1.4.10 Reflow). At 200 % none does so or hides
    words (1.4.4): zoomed, which lays a window of 1280 px out in 640, or in text alone, where the
    reader's own setting makes letters of 16 px 32 px large, at a desk and on a phone. What is tapped
    is at least 24 × 24 CSS px or stands free, on a phone and at a desk (2.5.8).
    """
    with browsing.visit(1440) as visit:
        reader = visit.context.new_cdp_session(visit.page)

        def at(width: int, letters: int = 16) -> None:
            sizes = {"standard": letters, "fixed": letters * 13 // 16}
            reader.send("Page.setFontSizes", {"fontSizes": sizes})
            visit.page.set_viewport_size({"width": width, "height": HEIGHTS.get(width, 900)})

        for kind, path in LONGEST.items():

            def ask(question: str, kind: str = kind) -> None:
                assert visit.page.evaluate(question) == [], (kind, visit.page.viewport_size)

            at(1440)
            visit.page.goto(address + path)
            ask(SMALL_TARGETS)
            for width, letters in ((1280, 32), (640, 16), (390, 32)):
                at(width, letters)
                ask(TOO_WIDE)
                ask(CUT_OFF)
            at(360)
            ask(SMALL_TARGETS)
            at(320)
            ask(TOO_WIDE)


@pytest.mark.parametrize("kind", [kind for kind in ALL if kind.startswith("steps")])
def test_a_step_by_itself_reflows_at_320_px(browsing: Browsing, address: str, kind: str) -> None:
    """One step at a time does not scroll sideways at 320 CSS px (WCAG 2.2, 1.4.10 Reflow)."""
    with browsing.visit(320) as visit:
        visit.page.goto(address + ALL[kind])
        visit.page.locator(".work-start button").click()
        assert visit.page.evaluate(TOO_WIDE) == []


@pytest.mark.parametrize("pages", [KINDS, GERMAN, HARBOUR], ids=["English", "German", "harbour"])
def test_every_language_and_theme_reflows_at_320_px(
    browsing: Browsing, address: str, pages: dict[str, str]
) -> None:
    """No page scrolls sideways where it is opened in 320 CSS px (WCAG 2.2, 1.4.10 Reflow), all
    that is folded there opened as well."""
    with browsing.visit(320) as visit:
        for kind, path in pages.items():
            visit.page.goto(address + path)
            assert visit.page.evaluate(TOO_WIDE) == [], kind
            visit.unfold()
            assert visit.page.evaluate(TOO_WIDE) == [], kind


def test_what_is_too_wide_and_what_is_cut_off_are_seen(browsing: Browsing) -> None:
    """Words that run out of a window and words that their box hides are found, and no others."""
    held = '<p style="width:9em;overflow-x:{}">unbreakablewordsthatrunoutoftheirbox</p>'
    with browsing.visit(320) as visit:
        for style, found in (("auto", [False, False]), ("hidden", [False, True])):
            visit.page.set_content(f"<main>{held.format(style)}</main>")
            asked = [bool(visit.page.evaluate(one)) for one in (TOO_WIDE, CUT_OFF)]
            assert asked == found, style
        visit.page.set_content('<main><p style="width:400px">wide</p></main>')
        assert "wide" in visit.page.evaluate(TOO_WIDE)[-1]
