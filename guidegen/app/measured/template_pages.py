"""A kit's template sheets in → their PDF out: of a size for press, of a body for fit and pages.

Imports no more than that takes: a reader's browser loads it.
"""

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import TemplateSet
from guidegen.pictures.templates.pages import draw_template_pages
from guidegen.pictures.templates.strip import SheetHead
from guidegen.render.pdf.template_pdf import render_template_pdf


def sheet_head(content: Content, file: GuideFile) -> SheetHead:
    """What stands in the title block of every template page."""
    guide, site = file.guide, content.site
    return SheetHead(
        title=guide.title,
        version=guide.version,
        date=guide.date,
        owner=site.publisher,
        author=guide.author,
        approver=guide.approved_by or content.words.say("not yet"),
        licence=guide.licence,
        address=f"{site.address}{file.id}/" if site.address else "",
        lang=content.words,
    )


def template_pdf(
    content: Content, file: GuideFile, templates: TemplateSet, kit: Kit, head: SheetHead
) -> bytes:
    """True-scale pages of one set as PDF."""
    pages = draw_template_pages(templates, kit, head, material_names(content))
    title = content.words.say(
        "{guide}, size {size}: templates", guide=file.guide.title, size=kit.size
    )
    return render_template_pdf(pages, templates, title, content.words)


def material_names(content: Content) -> dict[str, str]:
    """Names of materials by id."""
    return {name: entry.name for name, entry in content.stock.materials.items()}
