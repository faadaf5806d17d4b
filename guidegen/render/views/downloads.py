"""Files that readers take home in → rows with what they are, how many pages and how large."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.render.text.links import ALL_SIZES, DownloadInfo
from guidegen.render.text.views_words import capital, file_size_words
from guidegen.render.views.scene import Scene
from guidegen.render.views.templates import paper_title
from guidegen.words import msg

_KINDS = {
    "templates": (msg("Template sheets"), msg("PDF, true scale: print at 100 %")),
    "booklet": (msg("Build booklet"), msg("PDF")),
    "summary": (msg("Summary on one page"), msg("PDF")),
    "checklist": (msg("Checklist to tick off"), msg("PDF")),
    "booklet-fold": (
        msg("Booklet to fold and staple"),
        msg("PDF: both sides, flip on the short edge"),
    ),
    "booklet-large-print": (
        msg("Build booklet in large print"),
        msg("PDF, type of 18 point and more"),
    ),
    "booklet-print-shop": (
        msg("Build booklet for a print shop"),
        msg("PDF/X-4 with bleed and crop marks"),
    ),
    "booklet-archive": (
        msg("Build booklet to keep"),
        msg("PDF/A-3u with the guide's source files inside"),
    ),
    "materials": (msg("Materials list"), msg("CSV, for a spreadsheet")),
    "workbook": (
        msg("Materials of all sizes"),
        msg("XLSX: a spreadsheet that calculates, and compares"),
    ),
    "materials-data": (msg("Materials list for programs"), msg("JSON")),
    "cutters": (msg("Outlines for cutting machines"), msg("ZIP of SVG and DXF files in mm")),
    "pack": (msg("Everything of this size"), msg("ZIP archive with checksums")),
}
"""Kinds in the order in which readers need them: name, and what kind of file it is."""


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


def size_downloads(
    scene: Scene, downloads: Mapping[str, DownloadInfo], size: str
) -> tuple[DownloadView, ...]:
    """The files of one size, templates first."""
    kinds = list(_KINDS)

    def rank(item: tuple[str, DownloadInfo]) -> tuple[int, str]:
        path, info = item
        return (kinds.index(info.kind) if info.kind in kinds else len(kinds), path)

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
        SizeDownloads(caption, size_downloads(scene, downloads, size))
        for size, caption in {**captions, ALL_SIZES: scene.words.say("All sizes")}.items()
    )
    return tuple(view for view in views if view.files)


def _download_view(scene: Scene, path: str, info: DownloadInfo) -> DownloadView:
    title, kind = _KINDS.get(info.kind, (info.kind.capitalize(), path.rpartition(".")[2].upper()))
    return DownloadView(
        title=scene.words.say(title),
        paper=paper_title(info.paper),
        kind=scene.words.say(kind),
        pages=scene.words.many("{n} page", "{n} pages", info.pages) if info.pages else "",
        bytes=file_size_words(info.bytes, scene.words) if info.bytes else "",
        href=scene.links.file(path),
        note=capital(scene.words.say(info.note)) if info.note else "",
    )
