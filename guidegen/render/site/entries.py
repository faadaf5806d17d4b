"""One guide in → what the lists of the whole site say of it: first page, feed, list of pages.

It is kept beside the guide's pages, so that a change of one guide of a thousand reads, plans and
draws that one alone.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan
from guidegen.pictures.records import GuidePictures
from guidegen.render.site.formerly import Move, moved_guides
from guidegen.render.site.frame import site_links
from guidegen.render.site.lists import FeedEntry, feed_entries
from guidegen.render.site.things import Thing, guide_things
from guidegen.render.site.versions import KeptVersion, former_versions
from guidegen.render.text.links import HOME, PICTURE_FOLDER, guide_page, guide_pages
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.guide import (
    FactsView,
    change_views,
    cover_drawing,
    cover_photo,
    facts_view,
)
from guidegen.render.views.photos import PhotoView
from guidegen.render.views.scene import DrawingView, LinkView, Scene

LATEST = 8
"""Changes that the first page shows, and so the most of one guide that can be among them."""


@dataclass(frozen=True)
class CardView:
    """A guide on the home page."""

    title: str
    href: str
    version: str
    date: str
    facts: FactsView
    photo: PhotoView | None
    drawing: DrawingView | None
    words: str
    """All that a reader may look for: names of parts and materials, level and sizes as well."""


@dataclass(frozen=True)
class ListedChange:
    """A change of a guide, as the first page tells it."""

    date: str
    title: str
    """Of the guide."""
    html: str


@dataclass(frozen=True)
class GuideEntry:
    """A guide in the lists of its site, in one language."""

    title: str
    date: str
    """Of its version."""
    card: str
    """HTML: the guide with its picture."""
    row: str
    """HTML: the same in a line or two, for a site of many guides."""
    changes: tuple[ListedChange, ...]
    """The newest first."""
    feed: tuple[FeedEntry, ...]
    pages: tuple[str, ...]
    """Paths from out/."""
    things: tuple[Thing, ...]
    """All that its pages describe, for those who look it up."""
    moved: tuple[Move, ...] = ()
    """Pages of its former folders, and where they are now."""

    def text(self) -> bytes:
        """The entry as JSON."""
        return json.dumps(asdict(self), ensure_ascii=False, indent=0).encode() + b"\n"


def entry_file(guide: str) -> str:
    """Where the entry of a guide is kept."""
    return f"{guide}/{PICTURE_FOLDER}/entry.json"


def read_entry(text: bytes) -> GuideEntry:
    """An entry as it was kept. Raises ValueError, KeyError or TypeError where it is none."""
    data = json.loads(text)
    changes = tuple(ListedChange(**change) for change in data.pop("changes"))
    feed = tuple(FeedEntry(**one) for one in data.pop("feed"))
    pages = tuple(data.pop("pages"))
    things = tuple(Thing(**one | {"also": tuple(one["also"])}) for one in data.pop("things"))
    moved = tuple((str(old), str(new)) for old, new in data.pop("moved"))
    return GuideEntry(changes=changes, feed=feed, pages=pages, things=things, moved=moved, **data)


def guide_entry(engine: Engine, scene: Scene, versions: Sequence[KeptVersion]) -> GuideEntry:
    """What the site's lists say of a guide; the links of the `scene` begin at the first page."""
    guide = scene.guide
    card = _card(scene)
    link = LinkView(guide.title, card.href)
    changes = tuple(
        ListedChange(
            change.date,
            guide.title,
            engine.render("home-change.html.j2", guide=link, change=change),
        )
        for change in change_views(scene)[:LATEST]
    )
    return GuideEntry(
        title=guide.title,
        date=guide.date,
        card=engine.render("home-card.html.j2", card=card),
        row=engine.render("home-row.html.j2", card=card),
        changes=changes,
        feed=feed_entries(scene.content, scene.plan),
        pages=guide_pages(scene.plan.file.id, [size.size for size in scene.plan.sizes]),
        things=guide_things(scene),
        moved=(
            *moved_guides(scene.plan.file),
            *former_versions(scene.plan.file.id, versions),
        ),
    )


def site_entries(
    content: Content,
    plans: Sequence[GuidePlan],
    pictures: Mapping[str, GuidePictures],
    theme: Theme,
    versions: Sequence[KeptVersion] = (),
) -> tuple[GuideEntry, ...]:
    """The entries of several guides. `pictures` by id of the guide; `versions` are of them all."""
    engine = Engine(theme, content.words, lengths=True)
    return tuple(
        guide_entry(
            engine,
            Scene(content, plan, pictures[plan.file.id], site_links(content, plan, HOME)),
            versions,
        )
        for plan in plans
    )


def _card(scene: Scene) -> CardView:
    photo = cover_photo(scene)
    return CardView(
        title=scene.guide.title,
        href=scene.links.file(guide_page(scene.plan.file.id)),
        version=scene.guide.version,
        date=scene.guide.date,
        facts=facts_view(scene),
        photo=photo,
        drawing=None if photo else cover_drawing(scene),
        words=_card_words(scene),
    )


def _card_words(scene: Scene) -> str:
    guide = scene.guide
    words = [guide.title, guide.summary, scene.words.say(guide.level)]
    for part in guide.parts.values():
        words += [part.name, *part.also]
    stock = scene.content.stock.materials
    for line in (line for size in scene.plan.sizes for line in size.materials.lines):
        words += [line.name, *(stock[line.material].also if line.material in stock else ())]
    words += [size.size for size in scene.plan.sizes]
    return " ".join(dict.fromkeys(words))
