"""The site that journeys walk through: two guides of the demo, one of them in two sizes."""

import shutil
from pathlib import Path

from samples import changed

from guidegen.pipeline import PressOptions, press
from guidegen.progress import Silent

ROOT = Path(__file__).parents[2]

KINDS = {
    "home": "index.html",
    "glossary": "glossary.html",
    "missing": "404.html",
    "search": "search.html",
    "guide": "mooring-bracer/index.html",
    "size": "mooring-bracer/M/index.html",
    "steps": "mooring-bracer/steps.html",
    "safety": "mooring-bracer/safety.html",
    "tools": "mooring-bracer/tools.html",
    "guide in one size": "quay-lamp/index.html",
    "one size": "quay-lamp/one-size/index.html",
}
"""A page of every kind."""


def write_small_content(folder: Path) -> Path:
    """The content folder: bracer in sizes S and M, lamp in one size, one paper."""
    for name in ("mooring-bracer", "quay-lamp"):
        shutil.copytree(ROOT / "content" / name, folder / name)
    shutil.copy(ROOT / "content" / "stock.yaml", folder)
    site = (ROOT / "content" / "site.yaml").read_text(encoding="utf-8")
    site = changed(site, "papers: [a4, letter]\n", "papers: [a4]\n")
    site = changed(site, "template-papers: [a0]\n", "")
    site = changed(site, "languages: [en, de]\n", "languages: [en]\n")
    (folder / "site.yaml").write_text(site, encoding="utf-8")
    guide = folder / "mooring-bracer" / "guide.yaml"
    text = guide.read_text(encoding="utf-8")
    text = changed(text, "  L: {forearm: 300, wrist: 180}\n", "")
    guide.write_text(text, encoding="utf-8")
    return folder


def press_small_site(folder: Path) -> Path:
    """Press it into `folder`/out, with the one booklet that is made in no time."""
    options = PressOptions(
        content=write_small_content(folder / "content"),
        out=folder / "out",
        themes=ROOT / "themes",
        nesting_seconds=0,
        editions=("summary",),
    )
    press(options, Silent())
    return folder / "out"
