"""Plans in → template files beside the usual ones: both hands, card, large papers, cutters."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import TypedDict, Unpack

from guidegen.app.measured.template_pages import material_names, template_pdf
from guidegen.buildfile.read.content import Content
from guidegen.geometry.pieces.records import Kit, Side
from guidegen.layout.paper.frame import printer_margins
from guidegen.layout.paper.nested_templates import lay_out_nested
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.pictures.machines.lines import draw_piece_for_machine, draw_sheet_for_machine
from guidegen.pictures.machines.records import LASER_NOTE, SHEET_NOTE
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.templates.nested_pages import draw_nested_pages
from guidegen.pictures.templates.strip import SheetHead
from guidegen.render.lists.pack import pack_zip
from guidegen.render.pdf.nested_pdf import render_nested_pdf
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.svg import svg_file
from guidegen.words import msg


@dataclass(frozen=True)
class HandoutFile:
    """One file to take home."""

    name: str
    data: bytes
    kind: str
    paper: str = ""
    note: str = ""


class LayOut(TypedDict, total=False):
    """How template sheets differ from the usual ones."""

    both_sides: bool
    overlap: float


def size_template_files(
    content: Content, plan: GuidePlan, size: SizePlan, head: SheetHead, cache: DocumentCache
) -> Iterator[HandoutFile]:
    """Templates of a size on all papers, for both hands, for card; for cutters."""
    kit = size.kit
    shown = _shown(content, plan, (kit,), head)

    def lay_out(name: str, paper: str, note: str = "", **how: Unpack[LayOut]) -> HandoutFile:
        def make() -> bytes:
            kept = (one for one in size.templates if one.paper == paper and not how)
            templates = next(kept, None) or lay_out_templates(
                kit, paper, margins=printer_margins(content.site, paper), **how
            )
            return template_pdf(content, plan.file, templates, kit, head)

        data = cache.make(f"{name}-{paper}.pdf", [*shown, paper, repr(how)], make)
        return HandoutFile(f"{name}-{paper}.pdf", data, "templates", paper, note)

    for paper in (*content.site.papers, *content.site.template_papers):
        yield lay_out("templates", paper)
    paper = content.site.papers[0]
    if any(piece.side is Side.RIGHT for piece in kit.pieces):
        note = msg("right-hand templates printed mirrored, so that none is flipped")
        yield lay_out("templates-both-hands", paper, note, both_sides=True)
    plain = next((one for one in size.templates if one.paper == paper), None)
    if plain is None or len(plain.pages) > len(plain.sheets):  # else no pages are joined
        note = msg("on card: pages join edge to edge, without glue tabs")
        yield lay_out("templates-card", paper, note, overlap=0)
    cutters = cache.make(
        "cutters.zip",
        [*shown, repr(size.cut_plans), LASER_NOTE],
        lambda: _cutters(content, plan, size),
    )
    yield HandoutFile("cutters.zip", cutters, "cutters", "", LASER_NOTE)


def _shown(
    content: Content, plan: GuidePlan, kits: tuple[Kit, ...], head: SheetHead
) -> tuple[str, ...]:
    """All that template pages show, as texts that tell everything of the records."""
    about = (
        plan.file.id,
        plan.file.guide.title,
        content.language,
        sorted(content.site.printer_margins.items()),
    )
    return repr(kits), repr(head), repr(material_names(content)), repr(about)


def guide_template_files(
    content: Content, plan: GuidePlan, head: SheetHead, cache: DocumentCache
) -> Iterator[HandoutFile]:
    """All sizes of a guide over one another, each a layer that a viewer can switch."""
    if len(plan.kits) < 2:
        return
    shown = _shown(content, plan, plan.kits, head)
    for paper in content.site.papers:
        name = f"templates-all-sizes-{paper}.pdf"
        make = partial(_nested_pdf, content, plan, head, paper)
        note = msg("every size a layer; the first page switches them")
        data = cache.make(name, [*shown, paper], make)
        yield HandoutFile(name, data, "templates", paper, note)


def _nested_pdf(content: Content, plan: GuidePlan, head: SheetHead, paper: str) -> bytes:
    sets = lay_out_nested(plan.kits, paper, margins=printer_margins(content.site, paper))
    pages = draw_nested_pages(sets, plan.kits, head, material_names(content))
    title = content.words.say("{guide}, all sizes: templates", guide=plan.file.guide.title)
    sizes = [kit.size for kit in plan.kits]
    return render_nested_pdf(pages, sets[0], sizes, title, content.words)


def _cutters(content: Content, plan: GuidePlan, size: SizePlan) -> bytes:
    """SVG and DXF in mm of every piece and of every sheet of the cut plans."""
    notes = [content.words.say(note) for note in (LASER_NOTE, SHEET_NOTE)]
    from guidegen.render.lists.dxf import write_dxf  # noqa: PLC0415 - its library is large

    files = {"read-first.txt": "".join(f"{note}\n" for note in notes).encode()}
    for name, drawing in _machine_drawings(content, size):
        files[f"svg/{name}.svg"] = svg_file(drawing).encode()
        files[f"dxf/{name}.dxf"] = write_dxf(drawing, sheet=name.startswith("sheet-"))
    about = {"guide": plan.file.id, "size": size.size, "version": plan.file.guide.version}
    return pack_zip(files, about)


def _machine_drawings(content: Content, size: SizePlan) -> Iterator[tuple[str, Drawing]]:
    kit = size.kit
    for piece in kit.pieces:
        yield f"piece-{piece.key}", draw_piece_for_machine(piece, kit, content.words)
    pieces = {piece.key: piece for piece in kit.pieces}
    names = material_names(content)
    for cut_plan in size.cut_plans:
        for number, sheet in enumerate(cut_plan.sheets, start=1):
            material = names.get(cut_plan.material, cut_plan.material)
            drawing = draw_sheet_for_machine(sheet, pieces, kit, number, material, content.words)
            yield f"sheet-{cut_plan.material}-{number}", drawing
