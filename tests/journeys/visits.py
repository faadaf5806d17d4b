"""Visits of a browser to pages, with everything noted that a page asks for and complains of."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page, Request, sync_playwright

WIDTHS = (360, 820, 1440)
"""CSS px: a phone, a tablet, a desk. Our choice of common viewports."""

HEIGHTS = {360: 740, 820: 1180, 1440: 900}

NAMES = ("chromium", "chromium-browser", "google-chrome")
"""What systems call the browser."""


ALL_PICTURES = """
() => Promise.all([...document.images].map((one) => {
  one.loading = "eager";
  return one.decode().catch(() => null);
}))
"""
"""Waits for pictures, also for those that are loaded once one comes near them."""


@dataclass
class Visit:
    """One profile with one page, and what it did."""

    page: Page
    context: BrowserContext
    requests: list[str] = field(default_factory=list)
    """Address of everything that was asked for."""
    name: str = ""
    """For the names of pictures."""
    touch: bool = False
    """Whether the device is used by fingers."""
    complaints: list[str] = field(default_factory=list)
    """Errors and warnings of the console, exceptions of scripts, failed requests, dialogs."""

    def unfold(self) -> None:
        """Open all that a small window shows folded."""
        self.page.evaluate(
            "document.querySelectorAll('details').forEach((one) => { one.open = true; })"
        )

    def shoot(self, name: str) -> None:
        """Keep a picture of the whole page where GUIDEGEN_SCREENSHOTS names a folder."""
        if folder := os.environ.get("GUIDEGEN_SCREENSHOTS"):
            self.page.evaluate(ALL_PICTURES)
            # JPEG, since Chromium takes seconds to pack a long page as PNG.
            path = Path(folder) / f"{name}.jpg"
            self.page.screenshot(path=path, full_page=True, type="jpeg", quality=70)


@dataclass(frozen=True)
class Browsing:
    """A running browser."""

    browser: Browser

    @contextmanager
    def visit(
        self,
        width: int = 1440,
        *,
        dark: bool = False,
        scripts: bool = True,
        trusting: bool = False,
        scale: float = 1,
        touch: bool = False,
    ) -> Iterator[Visit]:
        """A profile of its own. `trusting` runs pages as if they had no security policy."""
        context = self.browser.new_context(
            viewport={"width": width, "height": HEIGHTS.get(width, 900)},
            color_scheme="dark" if dark else "light",
            java_script_enabled=scripts,
            bypass_csp=trusting,
            device_scale_factor=scale,
            has_touch=touch,
            locale="en-GB",
            reduced_motion="reduce",
        )
        context.set_default_timeout(60_000)  # a busy machine is slow, not broken
        try:
            visit = Visit(context.new_page(), context, touch=touch)
            _listen(visit)
            yield visit
        finally:
            context.close()


def _listen(visit: Visit) -> None:
    page, told = visit.page, visit.complaints
    visit.context.on("request", lambda request: visit.requests.append(request.url))
    page.on(
        "console",
        lambda line: told.append(line.text) if line.type in {"error", "warning"} else None,
    )
    page.on("pageerror", lambda error: told.append(str(error)))
    page.on("requestfailed", lambda request: told.extend(_failure(request)))
    page.on("dialog", lambda dialog: (told.append(dialog.message), dialog.dismiss()))


def _failure(request: Request) -> list[str]:
    """What went wrong; nothing where the page was left before all of it was there."""
    why = request.failure or ""
    return [] if why == "net::ERR_ABORTED" else [f"failed: {request.url} {why}"]


@contextmanager
def open_browser() -> Iterator[Browsing]:
    """Chromium without a window."""
    path = next((found for name in NAMES if (found := shutil.which(name))), None)
    assert path, "these tests need Chromium; ./start pytest says how to have it"
    # As root, which containers often are, it runs only without its sandbox.
    arguments = ["--no-sandbox"] if os.geteuid() == 0 else []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=arguments)
        try:
            yield Browsing(browser)
        finally:
            browser.close()
