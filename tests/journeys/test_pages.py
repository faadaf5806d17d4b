"""Every kind of page in a browser: accessible, readable without scripts, light, still and quiet."""

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
