"""Pages of a hostile guide in a browser that has no policy to save it: nothing of theirs runs."""

from dataclasses import replace
from pathlib import Path

import pytest
from journeys.visits import Browsing, Visit
from render.page_samples import GUIDE, SITE, STOCK, downloads, home_files, sample, theme
from render.test_hostile_text import HOSTILE, hostile

from guidegen.buildfile.guide import Guide
from guidegen.buildfile.site import Site
from guidegen.buildfile.stock import Stock
from guidegen.layout.schedule import gather_cautions
from guidegen.render.site import render_guide

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
    guide = Guide.model_validate(hostile(GUIDE, "", evil))
    stock = Stock.model_validate(hostile(STOCK, "", evil))
    settings = Site.model_validate(hostile(SITE, "", evil))
    file = replace(plan.file, guide=guide)
    content = replace(content, site=settings, stock=stock, guides=(file,))
    plan = replace(plan, file=file, cautions=gather_cautions(guide, stock))
    files = home_files(content, [plan], pictures, theme())
    return files | render_guide(content, plan, pictures, theme(), downloads())


def open_all(visit: Visit, files: dict[str, bytes]) -> list[str]:
    """Load every page, use what it offers, and return what rang an alarm or asked elsewhere."""
    kinds = {
        ".html": "text/html",
        ".css": "text/css",
        ".js": "text/javascript",
        ".svg": "image/svg+xml",
    }

    def answer(route, request):
        name = request.url.partition("?")[0].removeprefix(HOST)
        if request.url.startswith(HOST) and name in files:
            kind = kinds.get(Path(name).suffix, "application/octet-stream")
            route.fulfill(body=files[name], content_type=kind)
        else:
            route.abort()

    visit.context.add_init_script(ALARM)
    visit.context.route("**/*", answer)
    found: list[str] = []
    page = visit.page
    for name in sorted(name for name in files if name.endswith(".html")):
        page.goto(HOST + name)
        for control in page.locator("input:visible:not([type=radio], [type=file])").all()[:6]:
            if control.get_attribute("type") == "checkbox":
                control.check()
            else:
                control.fill("25")
        page.evaluate(
            "document.querySelectorAll('details').forEach((one) => { one.open = true; });"
            "document.querySelectorAll('main *').forEach((one) =>"
            " one.dispatchEvent(new MouseEvent('mouseover', { bubbles: true })))"
        )
        links = page.eval_on_selector_all("a", "(all) => all.map((one) => one.protocol)")
        assert set(links) <= {"http:", "https:", "mailto:"}, set(links)
        found += [f"{name}: {alarm}" for alarm in page.evaluate("window.alarms")]
    found += [url for url in visit.requests if not url.startswith(HOST)]
    return found


@pytest.mark.parametrize("evil", HOSTILE, ids=range(len(HOSTILE)))
def test_nothing_of_theirs_runs(browsing: Browsing, evil: str) -> None:
    """Even without its security policy no page runs a word of its author or asks another host."""
    with browsing.visit(820, trusting=True) as visit:
        assert open_all(visit, site_files(evil)) == []
        assert [words for words in visit.complaints if "evil" in words] == []


def test_the_alarm_rings(browsing: Browsing) -> None:
    """A page that does run a script, a handler or a foreign request is found by the same means."""
    bad = (
        b"<!doctype html><main><p onmouseover='evil(1)'>a</p><img src='https://evil.example/x.png'>"
        b"<script>evil(2)</script></main>"
    )
    with browsing.visit(820, trusting=True) as visit:
        found = open_all(visit, {"index.html": bad})
    assert len(found) == 3, found


def test_the_policy_stops_what_others_would_let_through(browsing: Browsing) -> None:
    """Were a script to get into a page, the page's own policy would stop it."""
    files = site_files("plain")
    text = files["cuff/index.html"].replace(
        b"<h1>", b"<h1><script>evil(1)</script><img src='https://evil.example/x' onerror='evil(2)'>"
    )
    with browsing.visit(820) as visit:
        found = open_all(visit, {**files, "cuff/index.html": text})
        assert not [alarm for alarm in found if "evil'" in alarm or "['evil" in alarm], found
