"""A pressed site in → how far a reader is from the action: on a phone, at a desk, on paper.

./start python tests/benchmarks/measure_reading.py out slipway-marshal M [--before OLD] [--handouts FOLDER]

A table with what was asked for; `--before` is a site that an older guidegen pressed, measured the
same way, `--handouts` a folder that `guidegen class` wrote. It counts nothing that is not in these
files: run it before and after a change of the theme. Beside the lines stands what they are about.
"""

import argparse
import os
import shutil
import statistics
import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from io import BytesIO
from pathlib import Path

import pypdfium2
from playwright.sync_api import Browser, Page, sync_playwright

PHONE, DESK = {"width": 390, "height": 844}, {"width": 1280, "height": 800}
ZOOMED = {"width": 320, "height": 200}
"""px; what is left of a desk at 400 %."""
LEAST_LETTER = 11
"""px of the smallest letter that is read on a phone. Our choice."""

TO_ACTION = """
() => [...document.querySelectorAll("article.step")].map((step) => {
  const head = step.querySelector(".step-head").getBoundingClientRect();
  return step.querySelector(".action .prose").getBoundingClientRect().top - head.top;
})
"""
"""px from the head of each step to its first action."""

BESIDE = """
() => [...document.querySelectorAll("article.step")].filter((s) => s.querySelector(".pictures")).map((step) => {
  const head = step.querySelector(".step-head").getBoundingClientRect().top;
  const action = step.querySelector(".action .prose").getBoundingClientRect().top - head;
  const seen = [...step.querySelectorAll(".pictures svg, .pictures img")].some((one) => {
    const box = one.getBoundingClientRect();
    return box.bottom - head <= innerHeight && box.height > 0;
  });
  return seen && action < innerHeight;
})
"""
"""For each step with a drawing: head at the top of the window, are action and whole drawing seen?"""

LETTERS = """
() => [...document.querySelectorAll("main .drawing > svg")].map((svg) => {
  const scale = svg.getScreenCTM()?.a ?? 0;
  const letters = [...svg.querySelectorAll("text")].map((text) => parseFloat(getComputedStyle(text).fontSize));
  return letters.length && scale ? Math.min(...letters) * scale : null;
}).filter((size) => size !== null)
"""
"""px of the smallest letter of each drawing that is shown."""

IN_VIEW = """
() => {
  const step = document.querySelector("article.step.now");
  const bar = document.querySelector(".work-bar").getBoundingClientRect();
  return step ? step.querySelector(".action .prose").getBoundingClientRect().top + 40 <= bar.top : null;
}
"""
"""Whether a line of the action is seen above the bar; null for a page of hazards alone."""

CAUTIONS = """
() => {
  const words = (all) => all.reduce((n, one) => n + ((one.innerText ?? "").match(/\\S+/g) ?? []).length, 0);
  const full = [...document.querySelectorAll("section.stage .caution:not(.one-line)")].filter((one) => one.offsetHeight);
  const lines = [...document.querySelectorAll(".step .one-line")];
  const titles = {};
  for (const one of full) {
    const title = one.querySelector(".caution-title")?.textContent.trim() ?? "";
    titles[title] = (titles[title] ?? 0) + 1;
  }
  const share = words([...full, ...lines]) / words([...document.querySelectorAll("section.stage")]);
  return {boxes: full.length, share: Math.round(100 * share), most: Math.max(0, ...Object.values(titles))};
}
"""
"""Cautions in full on the page of the steps, the share of all words in cautions, the most often told."""

MOTIONS = """
() => [...document.querySelectorAll("article.step")].map((s) => !!s.querySelector('.pictures [class*="motion-"]'))
"""

PARTED = """
() => [...document.querySelectorAll(".step-list a")].filter((link) => {
  const laid = /flex|grid/.test(getComputedStyle(link).display);
  const items = [...link.childNodes].filter((one) => one.nodeType !== 3 || one.textContent.trim());
  return laid && items.length > 2;
}).length
"""
"""Names in the contents that are torn into several boxes."""

SMALL_TARGETS = """
() => [...document.querySelectorAll("main button, main input, main select, main summary")].filter((one) => {
  const box = (one.closest("label") ?? one).getBoundingClientRect();
  return box.height && Math.min(box.width, box.height) < 23.9;
}).length
"""
WIDE = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
BAR = """
() => {
  const bar = document.querySelector(".work-bar");
  if (!bar || !["fixed", "sticky"].includes(getComputedStyle(bar).position)) return 0;
  return bar.getBoundingClientRect().height / innerHeight;
}
"""
"""Share of the window that the bar covers; 0 where it scrolls away."""

type Measured = tuple[str, str, str]
"""What, how much, and what was asked for."""


@dataclass(frozen=True)
class ServedGuide:
    """A guide of a pressed site, served at an address."""

    out: Path
    address: str
    guide: str
    size: str

    def opened(self, browser: Browser, view: dict[str, int], page: str) -> Page:
        """A page of the guide, without motion."""
        opened = browser.new_context(viewport=view, reduced_motion="reduce").new_page()  # type: ignore[arg-type]
        opened.set_default_timeout(120_000)
        opened.goto(f"{self.address}{self.guide}/{page}")
        return opened


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


def _share(values: Sequence[bool]) -> str:
    return f"{sum(values)} of {len(values)}, {100 * sum(values) / max(1, len(values)):.0f} %"


def _paper(site: ServedGuide, handouts: str | None) -> Iterator[Measured]:
    asked = {"booklet": "60", "summary": "1", "bench-card": "1"}
    for kind, most in asked.items():
        path = site.out / site.guide / site.size / f"{kind}-a4.pdf"
        if not path.exists():
            yield f"{kind}, A4 pages", "–", most
            continue
        document = pypdfium2.PdfDocument(BytesIO(path.read_bytes()))
        yield f"{kind}, A4 pages", str(len(document)), most
        if kind == "booklet":
            for title, pages in _chapters(document):
                yield f"· {title}", str(pages), "4" if title.startswith("Materials") else ""
    for path in sorted(Path(handouts).glob("*handout*.pdf")) if handouts else ():
        yield f"{path.stem}, sides", str(len(pypdfium2.PdfDocument(path))), "2"


def _chapters(document: pypdfium2.PdfDocument) -> Iterator[tuple[str, int]]:
    """Pages that each chapter begins, up to the head of the next."""
    heads = [
        (mark.get_title(), place.get_index())
        for mark in document.get_toc()
        if mark.level == 0 and (place := mark.get_dest())
    ]
    ends = [*(page for _, page in heads[1:]), len(document)]
    for (title, page), end in zip(heads, ends, strict=True):
        if end > page:
            yield title, end - page


def _phone(site: ServedGuide, browser: Browser) -> Iterator[Measured]:
    overview = site.opened(browser, PHONE, "")
    high = overview.evaluate("document.documentElement.scrollHeight")
    yield "overview at 390, screens", f"{high / PHONE['height']:.1f}", "12"
    steps = site.opened(browser, PHONE, "steps.html")
    size = site.opened(browser, PHONE, f"{site.size}/")
    high = size.evaluate("document.documentElement.scrollHeight")
    yield "page of a size at 390, screens", f"{high / PHONE['height']:.1f}", ""
    px = steps.evaluate(TO_ACTION)
    yield "head of a step to its action at 390, median px", f"{statistics.median(px):.0f}", "500"
    small = [
        letter < LEAST_LETTER - 0.05
        for page in (overview, steps, size)
        for letter in page.evaluate(LETTERS)
    ]
    yield f"drawings with letters under {LEAST_LETTER} px at 390", _share(small), "0"
    targets = sum(page.evaluate(SMALL_TARGETS) for page in (overview, steps, size))
    yield "controls under 24 px at 390", str(targets), "0"
    for page in (overview, steps, size):
        page.evaluate(
            "for (const one of document.querySelectorAll('main details')) one.open = true"
        )
        page.evaluate("document.documentElement.style.fontSize = '200%'")
    wide = max(page.evaluate(WIDE) for page in (overview, steps, size))
    yield "px too wide at 390 with letters of 200 %", str(wide), "0"
    steps = site.opened(browser, PHONE, "steps.html")
    yield "one step at a time at 390 × 844: action in view", _share(_turned(steps)), "90 %"


def _desk(site: ServedGuide, browser: Browser) -> Iterator[Measured]:
    desk = site.opened(browser, DESK, "steps.html")
    found = desk.evaluate(CAUTIONS)
    yield "cautions in full on the page of steps", str(found["boxes"]), "fewer than 87"
    yield "words of steps that are cautions", f"{found['share']} %", "less than 40 %"
    yield "the same caution in full, at most", str(found["most"]), "once a stage"
    px = desk.evaluate(TO_ACTION)
    yield "head of a step to its action at 1280, median px", f"{statistics.median(px):.0f}", "350"
    yield "drawing in view with its action, 1280 × 800", _share(desk.evaluate(BESIDE)), "95 %"
    yield "steps with a motion drawn", _share(desk.evaluate(MOTIONS)), "80 %"
    yield "names in the contents torn into boxes", str(desk.evaluate(PARTED)), "0"
    pages = len(pypdfium2.PdfDocument(desk.pdf(format="A4")))
    yield "steps page printed, A4 pages", str(pages), "35"
    zoomed = site.opened(browser, ZOOMED, "steps.html")
    zoomed.get_by_role("button", name="One step at a time").click()
    yield "bar of work at 400 % zoom", f"{100 * zoomed.evaluate(BAR):.0f} %", "20 %"


def _turned(page: Page) -> list[bool]:
    page.get_by_role("button", name="One step at a time").click()
    seen = []
    following = page.locator('[data-work="next"]')
    while True:
        found = page.evaluate(IN_VIEW)
        if found is not None:
            seen.append(found)
        if following.is_disabled():
            return seen
        following.click()


def measured(
    out: str, guide: str, size: str, browser: Browser, handouts: str | None
) -> list[Measured]:
    """Every figure of one guide, in the order of the table."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=out)) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        site = ServedGuide(Path(out), f"http://127.0.0.1:{server.server_port}/", guide, size)
        rows = list(_paper(site, handouts))
        try:
            for part in (_phone, _desk):
                rows += part(site, browser)
        finally:
            server.shutdown()
    return rows


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("out")
    parser.add_argument("guide")
    parser.add_argument("size")
    parser.add_argument("--before", help="site of an older guidegen")
    parser.add_argument("--handouts", help="folder of a class")
    asked = parser.parse_args()
    browsers = ("chromium", "chromium-browser", "google-chrome")
    path = next(found for name in browsers if (found := shutil.which(name)))
    # As root, which containers often are, it runs only without its sandbox.
    arguments = ["--no-sandbox"] if os.geteuid() == 0 else []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=arguments)
        at = (asked.guide, asked.size, browser)
        before = measured(asked.before, *at, None) if asked.before else []
        now = measured(asked.out, *at, asked.handouts)
        browser.close()
    old = {what: value for what, value, _ in before}
    print("| figure | before | now | asked |")
    print("| --- | ---: | ---: | ---: |")
    for what, value, most in now:
        print(f"| {what} | {old.get(what, '–')} | {value} | {most} |")


if __name__ == "__main__":
    main()
