"""A pressed site in → how far a reader is from the action: on a phone, at a desk, on paper.

./start python tests/benchmarks/measure_reading.py out slipway-marshal M

It counts nothing that a press has not written: run it before and after a change of the theme.
"""

import io
import os
import shutil
import statistics
import sys
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pypdfium2
from playwright.sync_api import Browser, Page, sync_playwright

PHONE, DESK = {"width": 390, "height": 844}, {"width": 1280, "height": 800}
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
"""px of the smallest letter of each drawing."""

IN_VIEW = """
() => {
  const step = document.querySelector("article.step.now");
  const bar = document.querySelector(".work-bar").getBoundingClientRect();
  return step ? step.querySelector(".action .prose").getBoundingClientRect().top + 40 <= bar.top : null;
}
"""
"""Whether a line of the action is seen above the bar; null for a page of hazards alone."""


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


def _share(values: list[bool]) -> str:
    return f"{sum(values)} of {len(values)}"


def _steps(browser: Browser, address: str) -> None:
    phone = browser.new_context(viewport=PHONE, reduced_motion="reduce").new_page()
    phone.goto(address)
    px = phone.evaluate(TO_ACTION)
    print(
        f"head of step to first action at 390: median {statistics.median(px):.0f} px, most {max(px):.0f}"
    )
    print(
        f"steps page at 390: {phone.evaluate('document.documentElement.scrollHeight') / 844:.0f} screens"
    )
    _letters(phone)
    print(f"one step at a time at 390: action in view {_share(_turned(phone))}")
    desk = browser.new_context(viewport=DESK, reduced_motion="reduce").new_page()
    desk.goto(address)
    px = desk.evaluate(TO_ACTION)
    print(f"head of step to first action at 1280: median {statistics.median(px):.0f} px")
    print(f"drawing in view with its action at 1280 × 800: {_share(desk.evaluate(BESIDE))}")
    pages = len(pypdfium2.PdfDocument(desk.pdf(format="A4")))
    print(f"steps page printed: {pages} A4 pages")


def _letters(page: Page) -> None:
    sizes = page.evaluate(LETTERS)
    small = sum(size < LEAST_LETTER - 0.05 for size in sizes)
    print(f"drawings with letters under {LEAST_LETTER} px at 390: {small} of {len(sizes)}")


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


def _paper(out: Path, guide: str, size: str) -> None:
    for kind in ("booklet", "summary", "checklist", "bench-card"):
        path = out / guide / size / f"{kind}-a4.pdf"
        if path.exists():
            document = pypdfium2.PdfDocument(io.BytesIO(path.read_bytes()))
            print(f"{path.name} of {size}: {len(document)} pages")
            if kind == "booklet":
                _chapters(document)


def _chapters(document: pypdfium2.PdfDocument) -> None:
    """Pages from the head of each chapter to that of the next."""
    heads = [
        (mark.get_title(), place.get_index())
        for mark in document.get_toc()
        if mark.level == 0 and (place := mark.get_dest())
    ]
    ends = [*(page for _, page in heads[1:]), len(document)]
    for (title, page), end in zip(heads, ends, strict=True):
        print(f"  {title}: {end - page} pages")


def main(folder: str, guide: str, size: str) -> None:
    """Print every figure of one guide."""
    out = Path(folder)
    _paper(out, guide, size)
    browsers = ("chromium", "chromium-browser", "google-chrome")
    path = next(found for name in browsers if (found := shutil.which(name)))
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=folder)) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        address = f"http://127.0.0.1:{server.server_port}/{guide}/"
        with sync_playwright() as playwright:
            # As root, which containers often are, it runs only without its sandbox.
            arguments = ["--no-sandbox"] if os.geteuid() == 0 else []
            browser = playwright.chromium.launch(executable_path=path, args=arguments)
            overview = browser.new_context(viewport=PHONE).new_page()
            overview.goto(address)
            high = overview.evaluate("document.documentElement.scrollHeight")
            print(f"overview at 390: {high / 844:.1f} screens")
            _letters(overview)
            _steps(browser, f"{address}steps.html")
            browser.close()
        server.shutdown()


if __name__ == "__main__":
    main(*sys.argv[1:])
