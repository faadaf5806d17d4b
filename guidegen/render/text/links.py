"""Where every page lies under out/, and how one page leads to another.

Addresses are relative, so that the site works on any host, in any folder and from a disc. Folders
of our own have a dot in their names: no guide or size can be called the same.
"""

import hashlib
import posixpath
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Protocol
from urllib.parse import quote

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.translate.commonmark import PLACES
from guidegen.geometry.fastening.places import piece_of
from guidegen.layout.records import GuidePlan
from guidegen.render.text.markdown import Resolver, Target
from guidegen.shipped import MEASURED_FILES, SEARCH_FILES, THEME_FILES

HOME = "index.html"
GLOSSARY = "glossary.html"
MISSING = "404.html"
"""What most hosts show for an address that they do not have."""
SEARCH = "search.html"
THINGS = "things.js"
"""All that readers may look up by name, for the page of searching."""
LICENCES = "licences.html"
"""What the site ships, and under which licence."""
MEASURED_INDEX = f"{MEASURED_FILES}/index.json"
"""Tells pages where the program lies that makes templates to measure."""
INDEX_FOLDER = SEARCH_FILES
"""The index for searching, in the folder of the site's first language."""
FEED = "feed.xml"
SITEMAP = "sitemap.xml"
THEME_FOLDER = THEME_FILES
"""Style sheets, scripts and fonts."""
PICTURE_FOLDER = "guide.files"
"""A guide's own pictures, in its folder."""
AROUND = "all-sides.svg"
"""The finished thing from a dozen sides, in the folder of a size."""
SIGN_FOLDER = "sign.files"
"""ISO 7010 signs, in a guide's folder."""


MOVED = "moved.js"
"""Script of the theme that leads on from former addresses, with the place on the page."""


def guide_page(guide: str) -> str:
    """First page of a guide."""
    return f"{guide}/index.html"


def steps_page(guide: str) -> str:
    """All steps on one page."""
    return f"{guide}/steps.html"


def safety_page(guide: str) -> str:
    """All cautions on one page."""
    return f"{guide}/safety.html"


def tools_page(guide: str) -> str:
    """Tools, materials and techniques, with the steps that need them."""
    return f"{guide}/tools.html"


def size_page(guide: str, size: str) -> str:
    """Materials, cut plans, pieces and downloads of one size."""
    return f"{guide}/{size}/index.html"


def version_folder(version: str) -> str:
    """Name of the folder of an old version in its guide's: 1.0, or version.spring.

    It always has a dot, which no size has, and never an ending that a file has.
    """
    name = re.sub(r"[^A-Za-z0-9.]+", "-", version).strip("-.")[:60].rstrip("-.")
    return name if re.fullmatch(r"[0-9]+(\.[0-9]+)+", name) else f"version.{name or 'none'}"


def version_page(guide: str, folder: str) -> str:
    """Page of an old version: its files, and what has changed since."""
    return f"{guide}/{folder}/index.html"


def all_sides(guide: str, size: str) -> str:
    """The finished thing in one size, from a dozen sides."""
    return f"{guide}/{size}/{AROUND}"


def guide_pages(guide: str, sizes: Iterable[str]) -> tuple[str, ...]:
    """All pages of a guide."""
    own = [size_page(guide, size) for size in sizes]
    return (guide_page(guide), *own, safety_page(guide), steps_page(guide), tools_page(guide))


def drawing_file(svg: str) -> str:
    """A drawing that is handed to the maker of a booklet: named by what it shows."""
    return f"drawing.files/{hashlib.sha256(svg.encode()).hexdigest()[:20]}.svg"


def sign_file(guide: str, code: str) -> str:
    """An ISO 7010 sign."""
    return f"{guide}/{SIGN_FOLDER}/{code}.svg"


def picture_file(guide: str, name: str) -> str:
    """A picture of the guide's own."""
    return f"{guide}/{PICTURE_FOLDER}/{name}"


def relative(origin: str, path: str) -> str:
    """The address of `path` as written in page `origin`, both from out/; an anchor may follow."""
    path, mark, anchor = path.partition("#")
    if path == origin and mark:
        return f"#{anchor}"
    folder = posixpath.dirname(origin) or "."
    return quote(posixpath.relpath(path, folder), safe="/") + mark + anchor


def anchor(scheme: str, name: str) -> str:
    """Id of an element that describes a piece, step, material, tool, caution or term."""
    return f"{scheme}-{name}"


class Links(Protocol):
    """Leads from where a text stands to things and files."""

    def to(self, scheme: str, name: str) -> str:
        """Address of a thing; empty where it has no place."""

    def file(self, path: str) -> str:
        """Address of a file under out/."""


type Things = frozenset[tuple[str, str]]
"""(scheme, name) of all that some page or chapter describes."""


def described_things(content: Content, plan: GuidePlan | None) -> Things:
    """What has a place to lead to: a link to anything else would be dead."""
    found = {("term", name) for name in content.stock.terms}
    if plan is None:
        return frozenset(found)
    guide = plan.file.guide
    found |= {("piece", piece.part) for kit in plan.kits for piece in kit.pieces}
    found |= {("step", step.id) for step in guide.steps}
    found |= {("process", step.process) for step in guide.steps if step.process}
    found |= {("caution", name) for step in plan.cautions for name in step.cautions}
    for size in plan.sizes:
        found |= {("material", line.material) for line in size.materials.lines}
        found |= {("tool", tool.tool) for tool in size.materials.tools}
    return frozenset(found)


@dataclass(frozen=True)
class SiteLinks:
    """Links of one page of the site."""

    page: str
    """Path of the page, from out/."""
    things: Things
    """All that is described somewhere."""
    guide: str = ""
    """Guide that the page belongs to; empty for the site's own pages."""
    here: frozenset[str] = frozenset()
    """Schemes whose things are described on this page."""

    def to(self, scheme: str, name: str) -> str:
        """Address of a thing: on this page where it is described here, else on its own page."""
        if (scheme, name) not in self.things:
            return ""
        mark = f"#{anchor(scheme, name)}"
        if scheme in self.here:
            return mark
        if scheme == "term":
            return relative(self.page, GLOSSARY + mark)
        pages = {
            "piece": guide_page(self.guide),
            "step": steps_page(self.guide),
            "material": tools_page(self.guide),
            "tool": tools_page(self.guide),
            "process": tools_page(self.guide),
            "caution": safety_page(self.guide),
        }
        return relative(self.page, pages[scheme] + mark)

    def file(self, path: str) -> str:
        """Address of a file under out/."""
        return relative(self.page, path)


PAGED = frozenset({"piece", "step", "caution"})
"""Schemes of references whose page a booklet prints: the others are found by the alphabet."""


@dataclass(frozen=True)
class BookletLinks:
    """Links inside one booklet: all is in the same document."""

    things: Things
    """All that the booklet describes."""

    def to(self, scheme: str, name: str) -> str:
        """The anchor of a thing; empty where the booklet does not describe it."""
        return f"#{anchor(scheme, name)}" if (scheme, name) in self.things else ""

    def file(self, path: str) -> str:
        """Name under which the booklet's maker is given a file."""
        return quote(path, safe="/")


def resolver(
    content: Content, file: GuideFile | None, links: Links, *, paper: bool = False
) -> Resolver:
    """Resolves references of a guide's texts through `links`; on `paper` most name their page.

    On pages a term's link tells the meaning as its title.
    """
    names = _names(content, file)

    def resolve(scheme: str, name: str) -> Target | None:
        if scheme in PLACES and file is not None:
            scheme, name = "piece", piece_of(file.guide, scheme, name)
        title = names.get((scheme, name))
        if title is None:
            return None
        if scheme == "term" and not paper:
            title = f"{title}: {content.stock.terms[name].meaning}"
        paged = paper and scheme in PAGED
        return Target(links.to(scheme, name), title, "ref" if paper else f"to-{scheme}", paged)

    return resolve


def _names(content: Content, file: GuideFile | None) -> Mapping[tuple[str, str], str]:
    stock = content.stock
    names = {("material", key): item.name for key, item in stock.materials.items()}
    names |= {("tool", key): item.name for key, item in stock.tools.items()}
    names |= {("caution", key): item.title for key, item in stock.cautions.items()}
    names |= {("term", key): item.term for key, item in stock.terms.items()}
    if file is not None:
        names |= {("piece", key): item.name for key, item in file.guide.parts.items()}
        names |= {("step", step.id): step.title for step in file.guide.steps}
    return names


ALL_SIZES = "all-sizes"
"""What stands for the size of files that serve every size."""


@dataclass(frozen=True, slots=True)
class DownloadInfo:
    """A file that readers take home. The key of a mapping of these is its path from out/."""

    kind: str
    """booklet, templates, materials, pack, or another word that the page prints."""
    size: str
    bytes: int
    paper: str = ""
    """Name of the paper; empty where it has none."""
    pages: int = 0
    """Pages of a PDF; 0 for other files."""
    note: str = field(default="")
    """What else to say about it."""
