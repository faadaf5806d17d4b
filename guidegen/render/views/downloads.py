"""Files that readers take home in → rows with what they are, how many pages and how large."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.documents import BY_ID
from guidegen.quantities import capital, file_size_words
from guidegen.render.text.links import ALL_SIZES, DownloadInfo
from guidegen.render.views.scene import Scene
from guidegen.render.views.templates import paper_title
from guidegen.words import msg


@dataclass(frozen=True, slots=True)
class DownloadView:
    """One file."""

    title: str
    paper: str
    """As readers call it; empty where it has none."""
    kind: str
    pages: str
    bytes: str
    href: str
    note: str


@dataclass(frozen=True, slots=True)
class SizeDownloads:
    """All files of one size."""

    caption: str
    files: tuple[DownloadView, ...]
    size: str = ""
    """Empty for files that serve all sizes."""


def size_downloads(
    scene: Scene, downloads: Mapping[str, DownloadInfo], size: str
) -> tuple[DownloadView, ...]:
    """The files of one size, templates first; of a kind, the usual ones before others."""
    kinds = list(BY_ID)

    at_home = scene.content.site.papers

    def rank(item: tuple[str, DownloadInfo]) -> tuple[int, bool, bool, str]:
        path, info = item
        print_shop = bool(info.paper) and info.paper not in at_home
        return kinds.index(info.kind), print_shop, _variant(path) != "", path

    mine = sorted(((p, info) for p, info in downloads.items() if info.size == size), key=rank)
    return tuple(_download_view(scene, path, info) for path, info in mine)


def all_downloads(scene: Scene, downloads: Mapping[str, DownloadInfo]) -> tuple[SizeDownloads, ...]:
    """The files of every size that has any, then those that serve all sizes."""
    several = len(scene.plan.sizes) > 1
    captions = {
        plan.size: scene.words.say("Size {size}", size=plan.size)
        if several
        else scene.words.say("Files")
        for plan in scene.plan.sizes
    }
    views = (
        SizeDownloads(
            caption, size_downloads(scene, downloads, size), "" if size == ALL_SIZES else size
        )
        for size, caption in {**captions, ALL_SIZES: scene.words.say("All sizes")}.items()
    )
    return tuple(view for view in views if view.files)


VARIANTS = {
    "templates-both-hands-": msg("both hands"),
    "templates-card-": msg("for card"),
    "templates-all-sizes-": msg("all sizes"),
}
"""What tells files of one kind apart, by how their names begin."""


def _variant(path: str) -> str:
    name = path.rpartition("/")[2]
    return next((words for start, words in VARIANTS.items() if name.startswith(start)), "")


def _title(scene: Scene, path: str, info: DownloadInfo) -> str:
    title, variant = scene.words.say(BY_ID[info.kind].title), _variant(path)
    if not variant:
        return title
    return scene.words.say(
        "{document}: {variant}", document=title, variant=scene.words.say(variant)
    )


def _download_view(scene: Scene, path: str, info: DownloadInfo) -> DownloadView:
    document = BY_ID[info.kind]
    return DownloadView(
        title=_title(scene, path, info),
        paper=paper_title(info.paper),
        kind=scene.words.say(document.format),
        pages=scene.words.many("{n} page", "{n} pages", info.pages) if info.pages else "",
        bytes=file_size_words(info.bytes, scene.words) if info.bytes else "",
        href=scene.links.file(path),
        note=capital(scene.words.say(info.note)) if info.note else "",
    )
