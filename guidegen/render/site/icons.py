"""The theme's icon and cards in → PNG pictures for telephones and for previews of links out."""

import json
from collections.abc import Mapping

from markupsafe import Markup

from guidegen.buildfile.read.content import Content
from guidegen.render.fonts.fonts import font_css
from guidegen.render.site.raster import page_picture
from guidegen.render.text.document_cache import DocumentCache, hash_parts
from guidegen.render.text.links import HOME, THEME_FOLDER, picture_file
from guidegen.render.text.svg import svg_file
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.guide import facts_view
from guidegen.render.views.scene import Scene

ICON = "icon.svg"
ICONS: Mapping[str, tuple[int, float]] = {
    "icon-192.png": (192, 0.9),
    "icon-512.png": (512, 0.9),
    "icon-mask.png": (512, 0.62),
    "icon-touch.png": (180, 0.8),
}
"""Pixels of each picture of the icon, and the share of its width that the drawing takes. A mask may
cut all outside a circle of 0.8 (W3C, Web Application Manifest, icon masks): a square inside that
circle has sides of 0.56; ours has empty corners."""
MANIFEST = "site.webmanifest"
CARD = "card.png"
CARD_SIZE = (1200, 630)
"""Pixels of a preview, 1.91 : 1 as the pages that show them cut it (common practice)."""


def icon_files(theme: Theme, cache: DocumentCache) -> dict[str, bytes]:
    """PNG pictures of the theme's icon, by path from out/."""
    svg = theme.text(ICON).encode()
    return {
        f"{THEME_FOLDER}/{name}": _kept_picture(
            cache, f"{THEME_FOLDER}/{name}", _icon_page(*size), {ICON: svg}, size[0]
        )
        for name, size in ICONS.items()
    }


def _kept_picture(
    cache: DocumentCache, path: str, html: str, files: Mapping[str, bytes], width: int
) -> bytes:
    """The picture of a page at `path`: found, or drawn."""
    parts = [html, str(width)]
    for name, data in files.items():
        parts += [name, hash_parts([data])]
    return cache.make(path, parts, lambda: page_picture(html, files, width))


def _icon_page(pixels: int, share: float) -> str:
    side = pixels * share
    edge = (pixels - side) / 2
    return (
        f"<style>@page {{ size: {pixels}px {pixels}px; margin: 0 }} body {{ margin: 0 }} "
        f"img {{ position: absolute; left: {edge}px; top: {edge}px; width: {side}px }}</style>"
        f'<img src="{ICON}" alt="">'
    )


def manifest(content: Content) -> bytes:
    """What a telephone asks before it keeps the site among its programs (W3C, Web Application
    Manifest)."""
    site = content.site
    icons = [
        {"src": f"{THEME_FOLDER}/{ICON}", "sizes": "any", "type": "image/svg+xml"},
        *(
            {
                "src": f"{THEME_FOLDER}/{name}",
                "sizes": f"{size}x{size}",
                "type": "image/png",
                "purpose": "maskable" if "mask" in name else "any",
            }
            for name, (size, _) in ICONS.items()
        ),
    ]
    members = {
        "id": "./",
        "name": site.title,
        "short_name": site.title[:24],
        "description": site.tagline or "",
        "lang": content.language,
        "dir": content.words.direction,
        "start_url": HOME,
        "scope": "./",
        "display": "minimal-ui",
        "background_color": "#ffffff",
        "theme_color": "#ffffff",
        "icons": icons,
    }
    return json.dumps(members, ensure_ascii=False, indent=1, sort_keys=True).encode() + b"\n"


def guide_card(engine: Engine, scene: Scene) -> bytes:
    """The preview of a guide: its name, what it takes, and its kit as a drawing."""
    kit = scene.plan.usual.size
    drawings = scene.pictures.sizes.get(kit)
    # At three quarters where the finished thing can be shown, else all its pieces.
    finished = drawings.finished if drawings else ()
    shown = finished[len(finished) // 2] if finished else drawings.kit if drawings else None
    files = {"kit.svg": svg_file(shown).encode()} if shown else {}
    return _card(
        engine,
        card_file(scene.plan.file.id),
        files,
        title=scene.guide.title,
        words=scene.guide.summary,
        facts=facts_view(scene),
        site=scene.content.site.title,
    )


def site_card(engine: Engine, content: Content) -> bytes:
    """The preview of the site itself."""
    return _card(
        engine,
        card_file(),
        {},
        title=content.site.title,
        words=content.site.tagline or "",
        facts=None,
        site=content.site.publisher,
    )


def _card(engine: Engine, path: str, files: Mapping[str, bytes], **views: object) -> bytes:
    html = engine.render("card.html.j2", fonts=Markup(font_css()), drawn=bool(files), **views)  # noqa: S704 - rules of ours
    return _kept_picture(engine.cache, path, html, files, CARD_SIZE[0])


def card_file(guide: str = "") -> str:
    """Where the preview of a guide lies, or that of the site."""
    return picture_file(guide, CARD) if guide else f"{THEME_FOLDER}/{CARD}"
