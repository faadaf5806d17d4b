"""Units of work, each pure and picklable, so that any process may do it: plans, then bytes.

With pipeline.py the one place where stages meet: it decides what is done, this how.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from guidegen.app.jobs.finished import finish
from guidegen.app.jobs.templates import (
    HandoutFile,
    guide_template_files,
    size_template_files,
)
from guidegen.app.measured.offer import offer_of
from guidegen.app.measured.template_pages import sheet_head
from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.on_hand import NOTHING, OnHand
from guidegen.documents import BY_ID
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.buying.materials import list_materials
from guidegen.layout.buying.on_hand import offcut_sheets
from guidegen.layout.buying.shops import with_shops
from guidegen.layout.hours import site_hours
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.nesting.stored_plans import parse_plans, plans_text
from guidegen.layout.paper.frame import printer_margins
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.layout.times.plans import plan_teams
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.compose import draw_guide, draw_size
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.records import SizePictures
from guidegen.pictures.templates.page_map import draw_page_maps
from guidegen.problems import Problem
from guidegen.render.booklets.editions import edition_files
from guidegen.render.lists.licence_text import licence_text
from guidegen.render.lists.materials_csv import materials_csv
from guidegen.render.lists.materials_json import materials_json
from guidegen.render.lists.pack import pack_zip
from guidegen.render.pdf.finish import page_count
from guidegen.render.site.pages import render_guide
from guidegen.render.site.versions import KeptVersion
from guidegen.render.text.document_cache import DocumentCache, Finder, Keeper
from guidegen.render.text.links import ALL_SIZES, DownloadInfo
from guidegen.render.text.living import guide_in_size, plan_in_size
from guidegen.render.text.templates_engine import Theme

type Files = Mapping[str, bytes]


@dataclass(frozen=True)
class PlannedSize:
    """What planning one size gave."""

    plan: SizePlan
    stored: str
    """Text to keep beside the guide, for the next press."""
    problems: tuple[Problem, ...]


@dataclass(frozen=True)
class MadeSize:
    """Everything that was made for one size."""

    pictures: SizePictures
    """For the site's pages; the template pages are only in the PDFs."""
    plan: SizePlan
    """With its template sheets."""
    files: Mapping[str, bytes]
    """By path from out/."""
    downloads: Mapping[str, DownloadInfo]
    """The files that readers take home, by path from out/."""
    keys: Mapping[str, str] = field(default_factory=dict)
    """What its documents were made from, by path from out/."""


def plan_size(
    content: Content,
    file: GuideFile,
    kit: Kit,
    stored: str,
    nesting_seconds: float,
    *,
    templates: bool = True,
    on_hand: OnHand = NOTHING,
    again: bool = False,
) -> PlannedSize:
    """Cut plans, materials and template sheets of one size; without `templates` no sheets.

    `again` searches longer for plans that may not be the best, those that were kept as well.

    What one has is used first.
    """
    kept, kept_problems = parse_plans(stored)
    plans, found, problems = plan_cuts(
        kit,
        content.stock,
        stored=kept,
        seconds=nesting_seconds,
        again=again,
        solve=nesting_seconds > 0,
        source=file.source,
        offcuts=offcut_sheets(on_hand, content.words),
    )
    numbers, _ = size_numbers(file, kit.size, dict(kit.measurements))
    materials = list_materials(
        guide_in_size(file.guide, kit, content.words),
        content.stock,
        kit,
        plans,
        {**numbers.drawn, **kit.names()},
        content.words,
        on_hand,
    )
    materials = with_shops(materials, content.stock, content.site.shops)
    plan = SizePlan(kit, plans, materials)
    if templates:
        plan = with_templates(content, plan)
    return PlannedSize(plan, plans_text(found), (*kept_problems, *problems))


def with_templates(content: Content, plan: SizePlan) -> SizePlan:
    """The plan of a size with its template sheets for the site's papers."""
    if plan.templates:
        return plan
    site = content.site
    sheets = tuple(
        lay_out_templates(plan.kit, paper, margins=printer_margins(site, paper))
        for paper in site.papers
    )
    return replace(plan, templates=sheets)


def gather_plan(content: Content, file: GuideFile, sizes: tuple[SizePlan, ...]) -> GuidePlan:
    """All that was worked out for one guide."""
    stock = content.stock
    teams = plan_teams(file.guide, stock, site_hours(content.site.working_hours))
    return GuidePlan(file, sizes, gather_cautions(file.guide, stock), teams[0], teams)


@dataclass(frozen=True)
class EarlierPress:
    """How documents of an earlier press are found again."""

    folder: str = ""
    """Path from out/ of the language, with a slash at its end; empty for the site's own."""
    stamp: str = ""
    """Hash of guidegen and the theme."""
    finder: Finder | None = None
    keeper: Keeper | None = None

    def cache(self, folder: str) -> DocumentCache:
        """A cache of the documents in one folder of the language."""
        return DocumentCache(f"{self.folder}{folder}", self.stamp, self.finder, self.keeper)


def make_size(
    content: Content, plan: GuidePlan, name: str, theme: Theme, earlier: EarlierPress | None = None
) -> MadeSize:
    """Drawings, booklets, template sheets, materials and pack of the size of this name."""
    size = with_templates(content, plan.of_size(name))
    plan = plan_in_size(plan, size.kit, content.words).with_size(size)
    head = sheet_head(content, plan.file)
    folder = f"{plan.file.id}/{size.size}"
    cache = (earlier or EarlierPress()).cache(f"{folder}/")
    files: dict[str, bytes] = {}
    downloads: dict[str, DownloadInfo] = {}
    finished = finish(plan.file.guide, size.kit, content.stock, content.words, cache)
    pictures = draw_size(size, plan.file.guide, content.stock, content.words, finished.seen)

    def add(name: str, data: bytes, kind: str, paper: str = "", note: str = "") -> None:
        files[f"{folder}/{name}"] = data
        file = HandoutFile(name, data, kind, paper, note)
        downloads[f"{folder}/{name}"] = download_info(file, size.size)

    maps: dict[str, tuple[Drawing, ...]] = {}
    for templates in size.templates:
        maps[templates.paper] = draw_page_maps(templates, size.kit, content.words)
    pictures = replace(pictures, page_maps=maps)
    drawn = draw_guide(plan, {size.size: pictures}, content.stock, content.words)
    for made in edition_files(content, plan, size.size, drawn, theme, cache=cache):
        add(made.name, made.data, made.kind, made.paper)
    for kind, data in (
        ("materials", materials_csv(content, plan, size)),
        ("materials-data", materials_json(content, plan, size)),
    ):
        add(BY_ID[kind].file, data, kind)
    for file in size_template_files(content, plan, size, head, cache):
        add(file.name, file.data, file.kind, file.paper, file.note)
    for kind, data in finished.documents.items():
        add(BY_ID[kind].file, data, kind)
    add(BY_ID["pack"].file, _pack(content, plan, size.size, files), "pack")
    files |= {f"{folder}/{name}": data for name, data in finished.files.items()}
    return MadeSize(pictures, size, files, downloads, _paths(folder, cache))


@dataclass(frozen=True)
class GuideFiles:
    """Files that are for all sizes of a guide, as MadeSize has them."""

    files: Mapping[str, bytes]
    downloads: Mapping[str, DownloadInfo]
    keys: Mapping[str, str]


@dataclass(frozen=True)
class MadePages:
    """Pages and pictures, as MadeSize has its files."""

    files: Mapping[str, bytes]
    keys: Mapping[str, str]


def make_guide_files(
    content: Content, plan: GuidePlan, earlier: EarlierPress | None = None
) -> GuideFiles:
    """Files that are for all sizes of a guide, and what to say about them."""
    from guidegen.render.lists.materials_xlsx import (  # noqa: PLC0415 - its library is large
        materials_xlsx,
    )

    cache = (earlier or EarlierPress()).cache(f"{plan.file.id}/")
    files: dict[str, bytes] = {}
    downloads: dict[str, DownloadInfo] = {}
    head = sheet_head(content, plan.file)
    workbook = HandoutFile(BY_ID["workbook"].file, materials_xlsx(content, plan), "workbook")
    for file in (*guide_template_files(content, plan, head, cache), workbook):
        path = f"{plan.file.id}/{file.name}"
        files[path] = file.data
        downloads[path] = download_info(file, ALL_SIZES)
    return GuideFiles(files, downloads, _paths(plan.file.id, cache))


def _paths(folder: str, cache: DocumentCache) -> dict[str, str]:
    return {f"{folder}/{name}": key for name, key in cache.keys.items()}


def download_info(file: HandoutFile, size: str) -> DownloadInfo:
    """What the site says about a file to take home."""
    pages = page_count(file.data) if file.name.endswith(".pdf") else 0
    return DownloadInfo(file.kind, size, len(file.data), file.paper, pages, file.note)


def make_pages(
    content: Content,
    plan: GuidePlan,
    sizes: Mapping[str, SizePictures],
    downloads: Mapping[str, DownloadInfo],
    theme: Theme,
    *,
    earlier: EarlierPress | None = None,
    versions: Sequence[KeptVersion] = (),
) -> MadePages:
    """The site's pages of one guide, and of its older `versions`."""
    cache = (earlier or EarlierPress()).cache("")
    drawn = draw_guide(plan, sizes, content.stock, content.words)
    offer = offer_of(content, plan.file)
    pages = render_guide(
        content, plan, drawn, theme, downloads, cache=cache, versions=versions, offer=offer
    )
    return MadePages(pages, cache.keys)


def _pack(content: Content, plan: GuidePlan, size: str, files: Mapping[str, bytes]) -> bytes:
    """Everything of one size with its licence, version and checksums."""
    guide = plan.file.guide
    start = len(f"{plan.file.id}/{size}/")
    inside = {path[start:]: data for path, data in files.items()}
    inside["licence.txt"] = licence_text(content, plan, size).encode()
    about = {"guide": plan.file.id, "size": size, "version": guide.version, "date": guide.date}
    return pack_zip(inside, about)
