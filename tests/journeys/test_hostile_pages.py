"""Pages of a hostile folder in a browser that has no policy to save it: nothing of theirs runs."""

import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from journeys.visits import Browsing, Visit
from playwright.sync_api import Page, Request, Route
from render import page_samples
from render.booklets.test_hostile_text import HOSTILE, hostile
from render.page_samples import downloads, home_files, sample, theme
from samples import GUIDE, SITE, STOCK, changed, write_content

from guidegen.app.preview.builder import PreviewBuilder
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.render.site.pages import render_guide

THEMES = Path(__file__).parents[2] / "themes"

type File = Callable[[str], bytes | None]
"""A file of a site by its path; None where there is none."""

HOST = "http://guides.test/"
"""Where the pages seem to be; the test itself answers every request."""

ALARM = """
window.alarms = [];
window.evil = (...words) => { window.alarms.push(["evil", ...words]); };
for (const name of ["alert", "confirm", "prompt", "open", "print"])
  window[name] = (...words) => { window.alarms.push([name, ...words]); };
"""
"""Every attack of the corpus calls evil(); whoever gets to call anything is noted."""


def site_files(evil: str) -> dict[str, bytes]:
    """Every file of a site whose guide, stock and settings have `evil` in all their texts."""
    content, plan, pictures = sample()
    guide = Guide.model_validate(hostile(page_samples.GUIDE, "", evil))
    stock = Stock.model_validate(hostile(page_samples.STOCK, "", evil))
    settings = Site.model_validate(hostile(page_samples.SITE, "", evil))
    file = replace(plan.file, guide=guide)
    content = replace(content, site=settings, stock=stock, guides=(file,))
    plan = replace(plan, file=file, cautions=gather_cautions(guide, stock))
    files = home_files(content, [plan], pictures, theme())
    return files | render_guide(content, plan, pictures, theme(), downloads())


PAGES = (
    "index.html",
    "glossary.html",
    "search.html",
    "404.html",
    "cuff/index.html",
    "cuff/steps.html",
    "cuff/safety.html",
    "cuff/tools.html",
    "cuff/M/index.html",
)
"""Of the site that a stranger's folder becomes."""

KINDS = {
    ".html": "text/html",
    ".css": "text/css",
    ".js": "text/javascript",
    ".svg": "image/svg+xml",
}


def poisoned(text: str, evil: str) -> str:
    """A build file with `evil` behind every text for readers."""

    def poison(value, key):
        if isinstance(value, dict):
            return {name: poison(inner, name.replace("-", "_")) for name, inner in value.items()}
        if isinstance(value, list):
            return [poison(inner, key) for inner in value]
        return hostile(value, key, evil)

    return yaml.safe_dump(
        poison(yaml.safe_load(text), ""), sort_keys=False, default_flow_style=False
    )


def draft_of(folder: Path) -> File:
    """The site of a content folder, each file made when it is asked for."""

    def run[**P, R](job: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R:
        return job(*args, **kwargs)

    return PreviewBuilder(folder, THEMES, run=run).draft().file


def open_all(visit: Visit, pages: Iterable[str], file: File) -> list[str]:
    """Load every page, use what it offers, and return what rang an alarm or asked elsewhere."""

    def answer(route: Route, request: Request) -> None:
        name = request.url.partition("?")[0].removeprefix(HOST)
        data = file(name) if request.url.startswith(HOST) else None
        if data is None:
            route.abort()
        else:
            kind = KINDS.get(Path(name).suffix, "application/octet-stream")
            route.fulfill(body=data, content_type=kind)

    visit.context.add_init_script(ALARM)
    visit.context.route("**/*", answer)
    found: list[str] = []
    for name in pages:
        visit.page.goto(HOST + name)
        use_page(visit.page)
        links = visit.page.eval_on_selector_all(
            "a[href]", "(all) => all.map((one) => one.protocol)"
        )
        assert {link for link in links if link} <= {"http:", "https:", "mailto:"}, links
        found += [f"{name}: {alarm}" for alarm in visit.page.evaluate("window.alarms")]
    found += [url for url in visit.requests if not url.startswith(HOST)]
    return found


def use_page(page: Page) -> None:
    """Type, tick, open and point at everything."""
    for control in page.locator("input:visible:not([type=radio], [type=file])").all()[:6]:
        if control.get_attribute("type") == "checkbox":
            control.check()
        elif control.get_attribute("type") != "range":
            control.fill("25")
    page.evaluate(
        "document.querySelectorAll('details').forEach((one) => { one.open = true; });"
        "document.querySelectorAll('main *, svg *').forEach((one) => {"
        " for (const kind of ['mouseover', 'focus', 'load', 'error'])"
        " one.dispatchEvent(new Event(kind, { bubbles: kind === 'mouseover' })); })"
    )


@pytest.mark.parametrize("evil", HOSTILE, ids=range(len(HOSTILE)))
def test_nothing_of_theirs_runs(browsing: Browsing, evil: str) -> None:
    """Even without its security policy no page runs a word of its author or asks another host."""
    files = site_files(evil)
    with browsing.visit(820, trusting=True) as visit:
        assert open_all(visit, [name for name in files if name.endswith(".html")], files.get) == []
        assert [words for words in visit.complaints if "evil" in words] == []


PAST_CHECKS = (
    "\"'><script>evil()</script><img src=x onerror=evil()></title></style></textarea></svg>"
    "<svg onload=evil()> {{ 7*7 }} ]]> --> `<b onclick=evil()>` &lt;script&gt;evil()&lt;/script&gt;"
)
"""Hostile words that proof does not refuse, since they are words and no links."""


def test_nothing_runs_in_pages_and_drawings_of_a_press(browsing: Browsing, tmp_path: Path) -> None:
    """The same from a folder, as a press reads it, with the drawings that it makes of its texts."""
    guide = changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", "")
    texts = {"guide": guide, "stock": STOCK, "site": SITE}
    write_content(tmp_path, **{name: poisoned(text, PAST_CHECKS) for name, text in texts.items()})
    file = draft_of(tmp_path)
    drawings = re.findall(r"<svg.*?</svg>", (file("cuff/M/index.html") or b"").decode(), re.DOTALL)
    assert sum("evil()" in drawing for drawing in drawings) > 3
    with browsing.visit(820, trusting=True) as visit:
        assert open_all(visit, PAGES, file) == []
        assert visit.complaints == []


def test_the_alarm_rings(browsing: Browsing) -> None:
    """A page that does run a script, a handler or a foreign request is found by the same means."""
    bad = (
        b"<!doctype html><main><p onmouseover='evil(1)'>a</p><img src='https://evil.example/x.png'>"
        b"<script>evil(2)</script></main>"
    )
    with browsing.visit(820, trusting=True) as visit:
        found = open_all(visit, ["index.html"], {"index.html": bad}.get)
    assert len(found) == 3, found


def test_the_policy_stops_what_others_would_let_through(browsing: Browsing, tmp_path: Path) -> None:
    """Were a script to get into a page, the page's own policy would stop it."""
    file = draft_of(write_content(tmp_path))
    text = (file("cuff/index.html") or b"").replace(
        b"<h1>", b"<h1><script>evil(1)</script><img src='https://evil.example/x' onerror='evil(2)'>"
    )
    assert b"evil(1)" in text
    with browsing.visit(820) as visit:
        pages = ["cuff/index.html"]
        found = open_all(visit, pages, lambda name: text if name in pages else file(name))
        assert not [alarm for alarm in found if "['evil" in alarm], found
