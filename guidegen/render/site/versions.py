"""Old versions of a guide in → a page for each: a banner, what has changed since, its files.

The page is made anew with each press, in the theme of today; the files are those of that time.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan
from guidegen.pictures.records import GuidePictures
from guidegen.render.site.formerly import Move
from guidegen.render.site.frame import guide_frame, render_page, site_links
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.links import ALL_SIZES, DownloadInfo, guide_page, version_page
from guidegen.render.text.living import plan_for_all
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.downloads import SizeDownloads, size_downloads
from guidegen.render.views.guide import ChangeView, change_views
from guidegen.render.views.report import SinceView, since_views
from guidegen.render.views.scene import Scene
from guidegen.words import msg


@dataclass(frozen=True)
class KeptVersion:
    """What is still there of a version that was published once."""

    version: str
    date: str
    """Of that version, as its author wrote it."""
    folder: str
    """Name of its folder in the guide's own."""
    documents: Mapping[str, DownloadInfo]
    """Files that readers took home, by path in that folder."""
    former: str = ""
    """The guide's name at that time, where it had another one."""


@dataclass(frozen=True, slots=True)
class OldVersionView:
    """The page of an old version."""

    version: str
    date: str
    newest: str
    newest_date: str
    href: str
    """Of the guide as it is now."""
    changes: tuple[ChangeView, ...]
    """All that came after it, newest first."""
    since: SinceView | None
    """What to print again; None where the log does not tell of this version."""
    files: tuple[SizeDownloads, ...]


def old_version_view(scene: Scene, kept: KeptVersion, guide_href: str) -> OldVersionView:
    """What the page of an old version shows; links of the `scene` begin there."""
    guide, changes = scene.guide, change_views(scene)
    since = next((one for one in since_views(scene) if one.version == kept.version), None)
    if since is not None:
        changes = tuple(change for change in changes if change.version in since.newer)
    else:
        changes = tuple(change for change in changes if change.date > kept.date)
    return OldVersionView(
        kept.version,
        kept.date,
        guide.version,
        guide.date,
        guide_href,
        changes,
        since,
        _files(scene, kept),
    )


def since_with_files(scene: Scene, versions: Sequence[KeptVersion]) -> tuple[SinceView, ...]:
    """What holders of an older version must know, with the way to the files of that version."""
    guide = scene.plan.file.id
    pages = {one.version: scene.links.file(version_page(guide, one.folder)) for one in versions}
    return tuple(replace(view, files=pages.get(view.version, "")) for view in since_views(scene))


def _files(scene: Scene, kept: KeptVersion) -> tuple[SizeDownloads, ...]:
    """Files by the sizes that the guide had at that time, those for all sizes last."""
    start = f"{scene.plan.file.id}/{kept.folder}/"
    documents = {start + name: info for name, info in kept.documents.items()}
    own = [size.size for size in scene.plan.sizes]
    sizes = {info.size for info in documents.values()} - {ALL_SIZES}
    words = scene.words
    order = sorted(sizes, key=lambda size: (own.index(size) if size in own else len(own), size))
    captions = {size: words.say("Size {size}", size=size) for size in order}
    if len(order) == 1:
        captions = dict.fromkeys(order, words.say("Files"))
    captions[ALL_SIZES] = words.say("All sizes")
    views = (
        SizeDownloads(caption, size_downloads(scene, documents, size), size)
        for size, caption in captions.items()
    )
    return tuple(view for view in views if view.files)


def version_pages(
    content: Content,
    plan: GuidePlan,
    pictures: GuidePictures,
    theme: Theme,
    versions: Sequence[KeptVersion],
    *,
    cache: DocumentCache | None = None,
) -> dict[str, bytes]:
    """Pages of old versions by path from out/.

    They are neither searched nor in the list of pages, and search engines are told of the guide
    as it is now.
    """
    if not versions:
        return {}
    engine = Engine(theme, content.words, cache, lengths=True)
    guide, said = plan.file.id, plan_for_all(plan, content.words)
    files = {}
    for kept in versions:
        path = version_page(guide, kept.folder)
        scene = Scene(content, said, pictures, site_links(content, said, path))
        title = content.words.say(
            "{guide}: version {version}", guide=scene.guide.title, version=kept.version
        )
        page = guide_frame(scene, theme, path, title, msg("Build guide"))
        address = content.site.address
        canonical = address + guide_page(guide).removesuffix("index.html") if address else ""
        # An old version may lack a language, so the way to others is from the guide's own page.
        page = replace(page, block=None, languages=(), canonical=canonical)
        home = scene.links.file(guide_page(guide))
        view = old_version_view(scene, kept, home)
        files[path] = render_page(engine, "version.html.j2", page, old=view)
    return files


def former_versions(guide: str, versions: Sequence[KeptVersion]) -> Iterator[Move]:
    """Former addresses of versions that were published when the guide had another name."""
    for kept in versions:
        if kept.former:
            yield version_page(kept.former, kept.folder), version_page(guide, kept.folder)
