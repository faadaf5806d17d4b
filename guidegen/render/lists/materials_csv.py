"""Size plan in → its materials list as CSV bytes out."""

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.render.lists.csv_text import csv_bytes
from guidegen.render.views.material_rows import COLUMNS, material_rows


def materials_csv(content: Content, plan: GuidePlan, size: SizePlan) -> bytes:
    """One row for each pack to buy, then the lengths to cut, then the tools."""
    rows = material_rows(size.materials, plan.file.guide, content.site.currency)
    return csv_bytes(COLUMNS, rows, content.words)
