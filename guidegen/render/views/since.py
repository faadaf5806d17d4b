"""The change log in → what has changed since the version that a reader has printed."""

import re
from dataclasses import dataclass

from guidegen.render.text.links import guide_page
from guidegen.render.text.qr import CodeView, code_view
from guidegen.render.views.scene import LinkView, Scene


@dataclass(frozen=True, slots=True)
class SinceView:
    """What holders of an older version must know."""

    version: str
    """Theirs."""
    anchor: str
    """Id of the place on the guide's page to which the code of their booklet leads."""
    newer: tuple[str, ...]
    """Versions after it, newest first; none for the newest."""
    reprint: tuple[LinkView, ...]
    """Pieces whose templates must be printed again."""


def since_anchor(version: str) -> str:
    """The id of a version's place: booklets in print lead to it, so it stays as it is."""
    return "since-" + re.sub(r"[^A-Za-z0-9.]+", "-", version).strip("-")


def since_views(scene: Scene) -> tuple[SinceView, ...]:
    """Every version that was told, newest first; the guide's own stands there without a log."""
    guide = scene.guide
    changes = sorted(guide.changes, key=lambda change: change.date, reverse=True)
    told = dict.fromkeys(change.version for change in changes)
    versions = [*({} if guide.version in told else {guide.version: None}), *told]
    views = []
    for index, version in enumerate(versions):
        newer = versions[:index]
        parts = {name for change in changes if change.version in newer for name in change.parts}
        links = tuple(
            LinkView(part.label, scene.links.to("piece", name), part.name)
            for name, part in guide.parts.items()
            if name in parts
        )
        views.append(SinceView(version, since_anchor(version), tuple(newer), links))
    return tuple(views)


def since_code(scene: Scene) -> CodeView | None:
    """The code of a booklet that leads to what has changed since; None without an address."""
    address = scene.content.site.address
    if not address:
        return None
    page = guide_page(scene.plan.file.id).removesuffix("index.html")
    return code_view(f"{address}{page}#{since_anchor(scene.guide.version)}")
