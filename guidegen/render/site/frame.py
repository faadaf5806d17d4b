"""Content and page → the frame around it: menus, addresses, title block."""

import base64
import hashlib
import re
from dataclasses import dataclass, replace
from urllib.parse import urlsplit

from markupsafe import Markup

from guidegen.buildfile.read.content import Content
from guidegen.errors import ContentError
from guidegen.layout.records import GuidePlan
from guidegen.problems import Place, Problem
from guidegen.render.fonts.webfonts import FIRST_FACES, web_fonts
from guidegen.render.site.icons import ICON, MANIFEST, card_file
from guidegen.render.site.languages import gaps_language, other_languages
from guidegen.render.text.links import (
    FEED,
    GLOSSARY,
    HOME,
    LICENCES,
    MISSING,
    SEARCH,
    THEME_FOLDER,
    SiteLinks,
    described_things,
    guide_page,
    relative,
    safety_page,
    size_page,
    steps_page,
    tools_page,
)
from guidegen.render.text.markdown import plain_text
from guidegen.render.text.script_words import script_words
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.report import guide_report, page_report
from guidegen.render.views.scene import LinkView, PageView, Scene, title_block
from guidegen.shipped import SHIPPED

STYLES = "site.css"
STYLE_SHEETS = (
    "tokens.css",
    "home.css",
    STYLES,
    "tables.css",
    "steps.css",
    "cautions.css",
    "pieces.css",
    "measured.css",
    "work.css",
    "room.css",
    "print.css",
    "shopping.css",
    "own.css",
)
"""Files of a theme that make up the style sheet, in this order: a later rule wins."""
SCRIPT = "site.js"
SCRIPTS = (
    "say.js",
    SCRIPT,
    "units.js",
    "finder.js",
    "have.js",
    "work.js",
    "progress.js",
    "layers.js",
    "edges.js",
    "terms.js",
    "zoom.js",
    "turn.js",
    "filter.js",
    "offline.js",
)
"""Files of a theme that make up the script, in this order."""
LOST = "lost.js"
"""Stands in the page for addresses that do not exist."""
MEASURED_SCRIPT = "measured.js"
"""Loaded by pages of guides whose templates readers may make to their measurements."""
SEARCH_SCRIPT = "search.js"
"""Loaded by the page for searching alone."""
TOUCH = "icon-touch.png"


LOADED = (STYLES, SCRIPT, SEARCH_SCRIPT, MEASURED_SCRIPT, ICON)
"""What pages load of the theme."""

_CSS_COMMENT = re.compile(r"""("(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*')|/\*.*?\*/""", re.DOTALL)
"""A comment; or a string, which may hold what looks like one, and stays."""
_SCRIPT_COMMENT = re.compile(r"^[ \t]*//.*$", re.MULTILINE)
"""A comment that has its line to itself; others may stand in a string."""


def theme_files(theme: Theme) -> dict[str, bytes]:
    """Style sheet, script, icon and fonts of the site with their licences, by path from out/."""
    files = {f"{THEME_FOLDER}/{name}": _asset_text(theme, name).encode() for name in LOADED}
    texts = {one.text: one.data for one in SHIPPED if one.text.startswith(f"{THEME_FOLDER}/")}
    return files | texts | web_fonts()


def _asset_text(theme: Theme, name: str) -> str:
    """What a page loads under `name`: style sheet and script have several files as sources."""
    parts = {STYLES: STYLE_SHEETS, SCRIPT: SCRIPTS}
    text = "\n".join(theme.text(part) for part in parts.get(name, (name,)))
    # In a template literal that spans lines an indent is part of the text.
    literal = any(line.count("`") % 2 for line in text.splitlines())
    if name not in {STYLES, SCRIPT} or (name == SCRIPT and literal):
        return text
    return _without_notes(text, _CSS_COMMENT if name == STYLES else _SCRIPT_COMMENT)


def _without_notes(text: str, comment: re.Pattern[str]) -> str:
    """A text without what is for those who read the sources: comments, indents, empty lines.

    They are a third of what would be sent.
    """
    said = comment.sub(lambda found: found[1] if found.lastindex else "", text)
    return "\n".join(line for line in map(str.strip, said.splitlines()) if line) + "\n"


def asset_addresses(theme: Theme, path: str) -> dict[str, str]:
    """Addresses of style sheet, script and icon from page `path`, by path from out/.

    Hosts cache for long: a changed file gets another address.
    """
    addresses = {}
    for name in LOADED:
        mark = hashlib.sha256(_asset_text(theme, name).encode()).hexdigest()[:8]
        file = f"{THEME_FOLDER}/{name}"
        addresses[file] = f"{relative(path, file)}?{mark}"
    return addresses


def site_page(content: Content, theme: Theme, path: str, title: str, description: str) -> PageView:
    """The frame of a page that belongs to no guide."""
    site = content.site
    assets = asset_addresses(theme, path)

    def asset(name: str) -> str:
        return assets[f"{THEME_FOLDER}/{name}"]

    return PageView(
        path=path,
        title=title,
        description=plain_text(description),
        language=content.language,
        site=site.title,
        root=relative(path, HOME),
        css=asset(STYLES),
        script=asset(SCRIPT),
        icon=asset(ICON),
        touch=relative(path, f"{THEME_FOLDER}/{TOUCH}"),
        manifest=relative(path, MANIFEST),
        card=site.address + card_file() if site.address else "",
        card_alt=site.title,
        trail=(),
        menu=(),
        glossary=relative(path, GLOSSARY) if content.stock.terms and path != GLOSSARY else "",
        canonical=site.address + path.removesuffix("index.html") if site.address else "",
        feed=relative(path, FEED),
        search=relative(path, SEARCH) if path != SEARCH else "",
        licences=relative(path, LICENCES) if path != LICENCES else "",
        said=script_words(content.words),
        direction=content.words.direction,
        languages=other_languages(content, path),
        gaps=gaps_language(content, path),
        fonts=tuple(relative(path, f"{THEME_FOLDER}/{name}") for name in FIRST_FACES),
        report=page_report(content, path),
    )


@dataclass(frozen=True, slots=True)
class FinderView:
    """The script of the page for addresses that do not exist, where nobody knows its depth."""

    code: Markup
    sum: str
    """As a security policy lets scripts in a page run (CSP Level 3, 6.7.3)."""
    sign: str
    """Path of a file that the folder of the site has, and no other."""


def site_root(content: Content) -> str:
    """Path of the site on its host, with a slash at both ends; empty where nothing tells it."""
    site = content.site
    return urlsplit(site.address).path if site.address else site.path or ""


def root_finder(content: Content, theme: Theme) -> FinderView | None:
    """The script that finds the site; None where its path is known."""
    if site_root(content):
        return None
    code = _without_notes(theme.text(LOST), _SCRIPT_COMMENT).strip()
    if "</" in code:
        raise ContentError(
            [
                Problem(
                    "theme-template", Place(f"themes/{theme.name}/{LOST}"), "", '"</" in a script'
                )
            ]
        )
    digest = base64.b64encode(hashlib.sha256(code.encode()).digest()).decode()
    sign = asset_addresses(theme, MISSING)[f"{THEME_FOLDER}/{STYLES}"]
    return FinderView(Markup(code), f"sha256-{digest}", sign)  # noqa: S704 - a file of the theme


def missing_page(content: Content, theme: Theme) -> PageView:
    """The frame of the page for addresses that do not exist.

    A host shows it at any depth, where relative addresses would lead astray: once the site knows
    its address or path, they begin at the root of the host. Else a script finds the site.
    """
    page = site_page(content, theme, MISSING, content.words.say("There is no such page"), "")
    page = replace(page, canonical="")
    root = site_root(content)
    if not root:
        return page
    return replace(
        page,
        root=root,
        css=root + page.css,
        script=root + page.script,
        icon=root + page.icon,
        touch=root + page.touch,
        manifest=root + page.manifest,
        glossary=root + page.glossary if page.glossary else "",
        search=root + page.search,
        licences=root + page.licences,
        feed=root + page.feed,
        fonts=tuple(root + font for font in page.fonts),
    )


def guide_frame(scene: Scene, theme: Theme, path: str, title: str, kind: str) -> PageView:
    """The frame of a page of a guide; `kind` is the document type of its title block."""
    guide, file = scene.guide, scene.plan.file
    page = site_page(scene.content, theme, path, title, f"{title}. {guide.summary}")
    home = guide_page(file.id)
    trail = [LinkView(guide.title, relative(path, home))] if path != home else []
    size = next((s.size for s in scene.plan.sizes if path == size_page(file.id, s.size)), "")
    return replace(
        page,
        trail=tuple(trail),
        menu=guide_menu(scene, path),
        block=title_block(scene, kind),
        guide=file.id,
        sizes=tuple(size.size for size in scene.plan.sizes),
        size=size,
        report=guide_report(scene, path, size),
        card=(scene.content.site.address or "") + card_file(file.id),
        card_alt=scene.words.say("{guide}: all its pieces", guide=guide.title),
    )


def guide_menu(scene: Scene, path: str) -> tuple[LinkView, ...]:
    """Pages of the guide in the order of work; the current one has no address."""
    guide, words = scene.plan.file.id, scene.words
    pages = [(words.say("Overview"), guide_page(guide), "")]
    pages += [
        (
            words.say("Size {size}", size=size.size)
            if len(scene.plan.sizes) > 1
            else words.say("Materials and templates"),
            size_page(guide, size.size),
            size.size,
        )
        for size in scene.plan.sizes
    ]
    pages += [
        (words.say("Safety"), safety_page(guide), ""),
        (words.say("Steps"), steps_page(guide), ""),
        (words.say("Tools"), tools_page(guide), ""),
    ]
    return tuple(
        LinkView(name, "" if target == path else relative(path, target), size)
        for name, target, size in pages
    )


def render_page(engine: Engine, template: str, page: PageView, **views: object) -> bytes:
    """One page as UTF-8 bytes."""
    return engine.keep(page.path, template, page=page, **views)


def site_links(content: Content, plan: GuidePlan | None, path: str, *here: str) -> SiteLinks:
    """Links of a page on which things of the schemes `here` are described."""
    guide = plan.file.id if plan else ""
    return SiteLinks(path, described_things(content, plan), guide, frozenset(here))


def size_words(scene: Scene, size: str) -> str:
    """'size M', or the guide's only size in words."""
    if len(scene.plan.sizes) > 1:
        return scene.words.say("size {size}", size=size)
    return scene.words.say("one size")
