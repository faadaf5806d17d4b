"""Every kind of page in a browser: accessible, light, still, quiet, and at home on small screens."""

import gzip
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from journeys.small_site import ALL, GERMAN, HARBOUR, KINDS
from journeys.visits import HEIGHTS, WIDTHS, Browsing, Visit
from playwright.sync_api import Route

AXE = Axe()
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
"""Sets of rules of axe-core: WCAG 2.2 levels A and AA, and what its makers find good practice."""

FIRST_VIEW = 155_000
"""Bytes of a guide's first view, compressed, with fonts: the most that we allow."""

PACKED = {".woff2", ".webp", ".avif", ".jpg", ".png"}
"""Endings of files that are compressed already."""


COLOURS = "color-contrast"
"""The rule that takes three quarters of the time of all where it is asked of each word of a page."""

ONE_OF_EACH = """
(known) => {
  const seen = new Set(known);
  const fresh = [];
  const under = (one) => {
    const style = getComputedStyle(one);
    const clear = style.backgroundColor === "rgba(0, 0, 0, 0)" && style.backgroundImage === "none";
    const own = `${style.opacity} ${clear ? "" : style.backgroundColor + style.backgroundImage}`;
    return clear && one.parentElement ? own + under(one.parentElement) : own;
  };
  for (const one of document.querySelectorAll("body *:not(svg *)")) {
    one.removeAttribute("data-one-of-each");
    const words = [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
    if (!words || !one.checkVisibility()) continue;
    const { color, fontSize, fontWeight } = getComputedStyle(one);
    const look = [color, fontSize, fontWeight, under(one)].join();
    if (seen.has(look)) continue;
    one.setAttribute("data-one-of-each", "");
    seen.add(look);
    fresh.push(look);
  }
  return fresh;
}
"""
"""Marks one element of each look that is not known yet, and tells these looks: contrast depends on
colours, ground and size of letters alone."""

LOOKS: set[str] = set()
"""What pages of this run have been asked for already: most of a page looks as the last one does."""


@dataclass(frozen=True)
class Asked:
    """The rules that a page is asked for."""

    structure: bool = True
    colours: bool = True


EVERYTHING = Asked()


def violations(
    visit: Visit, asked: Asked = EVERYTHING, looks: set[str] | None = None
) -> list[tuple[str, str, str]]:
    """What axe-core finds on the page: rule, first element, why. Words that look like one of
    `looks` are not asked for their contrast; those that had none wrong are added."""
    if not visit.page.evaluate("Boolean(window.axe)"):
        visit.page.evaluate(AXE.axe_script)
    found: list[dict[str, Any]] = []
    if asked.structure:
        rules = {"runOnly": RULES, "rules": {COLOURS: {"enabled": False}}}
        found += _told(visit, None, rules)
    looks = set() if looks is None else looks
    fresh = visit.page.evaluate(ONE_OF_EACH, [*looks]) if asked.colours else []
    if fresh:
        rules = {"runOnly": {"type": "rule", "values": [COLOURS]}}
        pale = _told(visit, {"include": [["[data-one-of-each]"]]}, rules)
        found += pale
        looks.update([] if pale else fresh)
    return [
        (item["id"], item["nodes"][0]["html"][:200], item["nodes"][0]["failureSummary"])
        for item in found
    ]


def _told(visit: Visit, where: object, rules: dict[str, object]) -> list[dict[str, Any]]:
    told: list[dict[str, Any]] = visit.page.evaluate(
        "([where, options]) => axe.run(where ?? document, options).then((told) => told.violations)",
        [where, {"resultTypes": ["violations"], **rules}],
    )
    return told


def asked_of(kind: str) -> Asked:
    """What a page of this kind can break by itself: German words are longer, in the colours of the
    English page; the second theme is the first in other colours."""
    return Asked(structure=kind not in HARBOUR, colours=kind not in GERMAN)


@pytest.mark.parametrize("kind", ALL)
def test_axe_finds_nothing(browsing: Browsing, address: str, kind: str) -> None:
    """axe-core finds no violation on a page of any kind, in either language and theme.

    In light as wide as a desk and in dark as wide as a phone; in German, which brings no colours of
    its own and longer words, on a phone alone.
    """
    ways = (("light", 1440), ("dark", 360))[kind in GERMAN :]
    with browsing.visit(ways[0][1]) as visit:
        visit.page.goto(address + ALL[kind])
        for scheme, width in ways:
            visit.page.set_viewport_size({"width": width, "height": HEIGHTS[width]})
            visit.page.emulate_media(color_scheme=scheme)
            assert violations(visit, asked_of(kind), LOOKS) == [], (scheme, width)
            visit.shoot(f"{kind.replace(' ', '-')}-{scheme}-{width}")


@pytest.mark.parametrize("kind", [kind for kind in ALL if kind.startswith("steps")])
def test_axe_finds_nothing_in_the_work_view(browsing: Browsing, address: str, kind: str) -> None:
    """The view of one step at a time has no violation either, in light and in dark."""
    with browsing.visit(820) as visit:
        visit.page.goto(address + ALL[kind])
        visit.page.locator(".work-start button").click()
        for scheme in ("light", "dark"):
            visit.page.emulate_media(color_scheme=scheme)
            assert violations(visit, asked_of(kind), LOOKS) == [], scheme
            visit.shoot(f"work-view-{kind.replace(' ', '-')}-{scheme}-820")


def test_the_checker_sees_colours_and_structure(browsing: Browsing) -> None:
    """A page that breaks a rule of each kind is found by the rules that look for it."""
    bad = "<html lang=en><title>t</title><main><p style='color:#ccc;background:#fff'>pale</p><img src=x></main>"
    with browsing.visit(820) as visit:
        visit.page.set_content(bad)
        told = {
            name: {rule for rule, *_ in violations(visit, asked_of(name))}
            for name in ("home", "home in German", "home in harbour")
        }
    with browsing.visit(820) as visit:
        visit.page.set_content(bad)
        known: set[str] = set()
        again = [{rule for rule, *_ in violations(visit, EVERYTHING, known)} for _ in range(2)]
    assert COLOURS in again[0] & again[1] and not known  # what is wrong is told each time
    assert {COLOURS, "image-alt"} <= told["home"]
    assert "image-alt" in told["home in German"] and COLOURS not in told["home in German"]
    assert told["home in harbour"] == {COLOURS}


def test_pages_read_without_scripts(browsing: Browsing, address: str) -> None:
    """Without scripts a page shows all its words, and no control that would do nothing."""
    with browsing.visit(360, scripts=False) as visit:
        for kind, path in KINDS.items():
            visit.page.goto(address + path)
            main = visit.page.locator("main")
            assert len(main.inner_text()) > 30, kind
            assert main.locator("button:visible, input:visible, select:visible").count() == 0, kind


SETTLED = """
() => document.fonts.ready
  .then(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
"""
"""Waits until fonts are there and the page is drawn with them."""


def weight(site: Path, url: str) -> int:
    """Bytes of a file as a host sends it: compressed with gzip unless it is packed already."""
    path = unquote(urlsplit(url).path).lstrip("/")
    file = site / (path if path and not path.endswith("/") else f"{path}index.html")
    data = file.read_bytes()
    return len(data) if file.suffix in PACKED else len(gzip.compress(data, 6))


@pytest.mark.parametrize("width", WIDTHS)
def test_first_view_of_a_guide_is_light(
    browsing: Browsing, address: str, site: Path, width: int
) -> None:
    """All that the first view of a guide loads, fonts included, weighs at most 150 kB."""
    for kind in ("guide", "guide in one size"):
        with browsing.visit(width) as visit:
            visit.page.goto(address + KINDS[kind])
            visit.page.evaluate(SETTLED)
            weights = {url: weight(site, url) for url in dict.fromkeys(visit.requests)}
            print(f"first view, {kind}, {width} px: {sum(weights.values())} bytes")
            assert sum(weights.values()) <= FIRST_VIEW, weights


SHIFTS = """
window.shifts = [];
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) if (!entry.hadRecentInput) window.shifts.push(entry.value);
}).observe({ type: "layout-shift", buffered: true });
"""
"""Notes every layout shift (Layout Instability, W3C draft) that no input of the reader caused."""


STILL = 0.02
"""Score of all shifts of a page: a fifth of what the web calls good (0.1). Our
letters take the place of those of the system, as wide as they, and move lines by a hair."""


def come_late(route: Route) -> None:
    """Send a script only once the page has been drawn without it."""
    time.sleep(0.15)
    route.continue_()


@pytest.mark.parametrize(
    ("width", "kinds"), [(360, KINDS), (820, GERMAN), (1440, HARBOUR)], ids=WIDTHS
)
def test_pages_come_still_and_quiet(
    browsing: Browsing, address: str, width: int, kinds: dict[str, str]
) -> None:
    """While a page, its fonts, photos and scripts come, nothing moves that has been shown.

    No page asks another host for anything, sets a cookie or has a complaint.
    """
    with browsing.visit(width) as visit:
        visit.context.add_init_script(SHIFTS)
        visit.context.route("**/*.js*", come_late)
        for kind, path in kinds.items():
            visit.page.goto(address + path)
            visit.page.evaluate(SETTLED)
            assert sum(visit.page.evaluate("window.shifts")) < STILL, kind
        assert [url for url in visit.requests if not url.startswith(address)] == []
        assert visit.context.cookies() == []
        assert visit.complaints == []


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


def test_a_step_by_itself_reflows_at_320_px(browsing: Browsing, address: str) -> None:
    """One step at a time does not scroll sideways at 320 CSS px (WCAG 2.2, 1.4.10 Reflow)."""
    with browsing.visit(320) as visit:
        visit.page.goto(address + KINDS["steps"])
        visit.page.get_by_role("button", name="One step at a time").click()
        assert visit.page.evaluate(TOO_WIDE) == []


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


def test_high_contrast_and_forced_colours(browsing: Browsing, address: str) -> None:
    """With more contrast asked for, soft greys become ink; forced colours keep drawings visible."""
    with browsing.visit() as visit:
        page = visit.page
        page.goto(address + KINDS["guide"])
        page.emulate_media(contrast="more")
        ink, soft = page.evaluate(
            "['--ink', '--soft'].map((n) => getComputedStyle(document.body).getPropertyValue(n))"
        )
        assert ink == soft
        page.emulate_media(contrast="no-preference", forced_colors="active")
        visit.shoot("guide-forced-colours")
        assert page.locator("main svg").first.is_visible()
