"""Units of work, each pure and picklable, so that any process may do it: plans, then bytes.

With pipeline.py the one place where stages meet: it decides what is done, this how.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.buildfile.records import Content, GuideFile
from guidegen.buildfile.sizes import size_numbers
from guidegen.buildfile.stock import Stock
from guidegen.geometry.records import Kit
from guidegen.jobs_templates import (
    HandoutFile,
    guide_template_files,
    size_template_files,
    template_pdf,
)
from guidegen.layout.cutplan import plan_cuts
from guidegen.layout.materials import list_materials
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.layout.schedule import gather_cautions, plan_time
from guidegen.layout.stored_plans import parse_plans, plans_text
from guidegen.layout.teams import plan_teams
from guidegen.layout.templates import lay_out_templates
from guidegen.pictures.compose import draw_guide, draw_size
from guidegen.pictures.page_map import draw_page_maps
from guidegen.pictures.records import GuidePictures, SizePictures
from guidegen.pictures.template_strip import SheetHead
from guidegen.problems import Problem
from guidegen.render.editions import edition_files
from guidegen.render.links import ALL_SIZES, DownloadInfo
from guidegen.render.materials_csv import materials_csv
from guidegen.render.materials_json import materials_json
from guidegen.render.materials_xlsx import materials_xlsx
from guidegen.render.pack import pack_zip
from guidegen.render.pdf_finish import page_count
from guidegen.render.site import render_guide
from guidegen.render.templates_engine import Theme

type Files = Mapping[str, bytes]
type Downloads = Mapping[str, DownloadInfo]


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
    files: Mapping[str, bytes]
    """By path from out/."""
    downloads: Mapping[str, DownloadInfo]
    """The files that readers take home, by path from out/."""


def plan_size(
    content: Content, file: GuideFile, kit: Kit, stored: str, nesting_seconds: float
) -> PlannedSize:
    """Cut plans, materials and template sheets of one size."""
    kept, kept_problems = parse_plans(stored)
    plans, found, problems = plan_cuts(
        kit,
        content.stock,
        stored=kept,
        seconds=nesting_seconds,
        solve=nesting_seconds > 0,
        source=file.source,
    )
    numbers, _ = size_numbers(file, kit.size, dict(kit.measurements))
    materials = list_materials(
        file.guide, content.stock, kit, plans, numbers.names(), content.words
    )
    templates = tuple(lay_out_templates(kit, paper) for paper in content.site.papers)
    plan = SizePlan(kit.size, plans, materials, templates)
    return PlannedSize(plan, plans_text(found), (*kept_problems, *problems))


def gather_plan(
    stock: Stock, file: GuideFile, kits: tuple[Kit, ...], sizes: tuple[SizePlan, ...]
) -> GuidePlan:
    """All that was worked out for one guide."""
    return GuidePlan(
        file,
        kits,
        sizes,
        gather_cautions(file.guide, stock),
        plan_time(file.guide, stock),
        plan_teams(file.guide, stock),
    )


def make_size(content: Content, plan: GuidePlan, index: int, theme: Theme) -> MadeSize:
    """Drawings, booklets, template sheets, materials and pack of the size at `index`."""
    kit, size, guide = plan.kits[index], plan.sizes[index], plan.file.guide
    pictures = draw_size(kit, size, guide, content.stock, content.words)
    head = sheet_head(content, plan)
    folder = f"{plan.file.id}/{size.size}"
    files: dict[str, bytes] = {}
    downloads: dict[str, DownloadInfo] = {}

    def add(name: str, data: bytes, kind: str, paper: str = "", note: str = "") -> None:
        files[f"{folder}/{name}"] = data
        file = HandoutFile(name, data, kind, paper, note)
        downloads[f"{folder}/{name}"] = download_info(file, size.size)

    maps: dict[str, tuple[str, ...]] = {}
    for templates in size.templates:
        maps[templates.paper] = draw_page_maps(templates, kit, content.words)
        data = template_pdf(content, plan, templates, kit, head)
        add(f"templates-{templates.paper}.pdf", data, "templates", templates.paper)
    pictures = replace(pictures, page_maps=maps)
    drawn = draw_guide(plan, {size.size: pictures}, content.stock, content.words)
    for made in edition_files(content, plan, size.size, drawn, theme):
        add(made.name, made.data, made.kind, made.paper)
    add("materials.csv", materials_csv(content, plan, size), "materials")
    add("materials.json", materials_json(content, plan, size), "materials-data")
    for file in size_template_files(content, plan, kit, size, head):
        add(file.name, file.data, file.kind, file.paper, file.note)
    add("pack.zip", _pack(content, plan, size.size, files), "pack")
    return MadeSize(pictures, files, downloads)


def make_guide_files(content: Content, plan: GuidePlan) -> tuple[Files, Downloads]:
    """Files that are for all sizes of a guide, and what to say about them."""
    files: dict[str, bytes] = {}
    downloads: dict[str, DownloadInfo] = {}
    workbook = HandoutFile("materials.xlsx", materials_xlsx(content, plan), "workbook")
    for file in (*guide_template_files(content, plan, sheet_head(content, plan)), workbook):
        path = f"{plan.file.id}/{file.name}"
        files[path] = file.data
        downloads[path] = download_info(file, ALL_SIZES)
    return files, downloads


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
) -> tuple[GuidePictures, dict[str, bytes]]:
    """The site's pages of one guide, and all its drawings."""
    drawn = draw_guide(plan, sizes, content.stock, content.words)
    return drawn, render_guide(content, plan, drawn, theme, downloads)


def sheet_head(content: Content, plan: GuidePlan) -> SheetHead:
    """What stands in the title block of every template page."""
    guide, site = plan.file.guide, content.site
    return SheetHead(
        title=guide.title,
        version=guide.version,
        date=guide.date,
        owner=site.publisher,
        author=guide.author,
        approver=guide.approved_by or guide.author,
        licence=guide.licence,
        address=f"{site.address}{plan.file.id}/" if site.address else "",
        lang=content.words,
    )


def _pack(content: Content, plan: GuidePlan, size: str, files: Mapping[str, bytes]) -> bytes:
    """Everything of one size with its licence, version and checksums."""
    guide = plan.file.guide
    line = content.words.say(
        "Size {size}, version {version} of {date}",
        size=size,
        version=guide.version,
        date=guide.date,
    )
    licence = content.words.say("Licence: {licence}", licence=guide.licence)
    words = (
        f"{guide.title}\n{line}\n{guide.author}, {content.site.publisher}\n\n"
        f"{licence}\n\n{guide.licence_words.strip()}\n"
    )
    start = len(f"{plan.file.id}/{size}/")
    inside = {path[start:]: data for path, data in files.items()}
    inside["licence.txt"] = words.encode()
    about = {"guide": plan.file.id, "size": size, "version": guide.version, "date": guide.date}
    return pack_zip(inside, about)
