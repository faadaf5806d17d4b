"""The sites that journeys walk through, on one host: two guides of the demo in English and German,
one of them in two sizes, the other with photos; and in harbour/ that one again in another theme.
"""

import shutil
from pathlib import Path

from journeys.camera import camera_photo
from quick_press import quick_options
from samples import changed

from guidegen.app.commands.press import press
from guidegen.progress import Silent

ROOT = Path(__file__).parents[2]

KINDS = {
    "home": "index.html",
    "glossary": "glossary.html",
    "missing": "404.html",
    "search": "search.html",
    "licences": "licences.html",
    "guide": "mooring-bracer/index.html",
    "size": "mooring-bracer/M/index.html",
    "steps": "mooring-bracer/steps.html",
    "safety": "mooring-bracer/safety.html",
    "tools": "mooring-bracer/tools.html",
    "guide in one size": "quay-lamp/index.html",
    "one size": "quay-lamp/one-size/index.html",
}
"""A page of every kind."""

GERMAN = {
    f"{kind} in German": f"de/{path}" for kind, path in KINDS.items() if "one size" not in kind
}
"""The same in German, where one text is not translated."""

HARBOUR = {
    f"{kind} in harbour": f"harbour/{path.replace('mooring-bracer/M', 'quay-lamp/one-size')}".replace(
        "mooring-bracer", "quay-lamp"
    )
    for kind, path in KINDS.items()
    if "one size" not in kind
}
"""The same in the second theme, of the guide in one size."""

ALL = KINDS | GERMAN | HARBOUR

ERRATUM = """\
changes:
  - {version: "1.2", date: 2026-12-02, text: The window of the wall was too low., parts: [wall]}
"""


def write_small_content(folder: Path) -> Path:
    """The content folder: bracer in sizes S and M, lamp in one size, one paper."""
    for name in ("mooring-bracer", "quay-lamp", "translated"):
        shutil.copytree(ROOT / "content" / name, folder / name)
    for name in ("stock.yaml", "stock.de.yaml", "site.de.yaml"):
        shutil.copy(ROOT / "content" / name, folder)
    site = (ROOT / "content" / "site.yaml").read_text(encoding="utf-8")
    site = changed(site, "papers: [a4, letter]\n", "papers: [a4]\n")
    site = changed(site, "template-papers: [a0]\n", "")
    site = changed(site, "translated-editions: [screen]\n", "translated-editions: [checklist]\n")
    (folder / "site.yaml").write_text(site, encoding="utf-8")
    _change(folder / "mooring-bracer", {"  L: {forearm: 300, wrist: 180}\n": ""})
    _with_photos(folder / "quay-lamp")
    return folder


def _change(guide: Path, edits: dict[str, str]) -> None:
    path = guide / "guide.yaml"
    text = path.read_text(encoding="utf-8")
    for old, new in edits.items():
        text = changed(text, old, new)
    path.write_text(text, encoding="utf-8")


def _with_photos(guide: Path) -> None:
    """A photo on the cover, one at a step, and an erratum."""
    _change(
        guide,
        {
            'version: "1.1"\n': 'version: "1.2"\n',
            "level: first build\n": "level: first build\n"
            "picture: {file: lit.jpg, alt: The lamp lit, caption: On the quay}\n",
            "    title: Cut the foam\n": "    title: Cut the foam\n"
            "    picture: {file: cutting.jpg, alt: A knife held upright at a ruler}\n",
            "changes:\n": ERRATUM,
        },
    )
    (guide / "lit.jpg").write_bytes(camera_photo(7))
    (guide / "cutting.jpg").write_bytes(camera_photo(8, (1200, 1600)))


def press_small_site(folder: Path) -> Path:
    """Press it into `folder`/out, with the one booklet that is made soonest."""
    content = write_small_content(folder / "content")
    made = _press(content, folder / "made")
    site = (content / "site.yaml").read_text(encoding="utf-8")
    site = changed(site, "theme: workshop\n", "theme: harbour\n")
    site = changed(site, "languages: [en, de]\n", "languages: [en]\n")
    (content / "site.yaml").write_text(site, encoding="utf-8")
    _press(content, made / "harbour", "quay-lamp")
    made.rename(folder / "out")
    return folder / "out"


def _press(content: Path, out: Path, *guides: str) -> Path:
    press(quick_options(content, out, *guides), Silent())  # the other core has tests to run
    return out
