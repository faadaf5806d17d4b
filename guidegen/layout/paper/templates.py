"""A kit and a paper in → template sheets out: every template in true size on few pages.

Templates that fit are whole on one page. Larger ones lie on virtual sheets that are printed as
overlapping pages, turned and shifted so that they touch the fewest; small ones fill the gaps.
"""

from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.arrangement import arrange
from guidegen.layout.paper.frame import OVERLAP, Margins
from guidegen.layout.paper.items import collect_items
from guidegen.layout.paper.recording import record_sheets
from guidegen.layout.records import TemplateSet


def lay_out_templates(
    kit: Kit,
    paper: str,
    *,
    both_sides: bool = False,
    margins: Margins | None = None,
    overlap: float = OVERLAP,
) -> TemplateSet:
    """Template sheets of a kit for one paper or roll.

    A pair is drawn once, as its left, unless `both_sides`. `overlap` is rounded up to whole
    cells of 2.5 mm; with 0 pages are joined edge to edge, for templates of card. Raises
    UsageError for an unknown paper, and for a piece that would need more pages than one sheet
    can have.
    """
    margins = margins or Margins()
    items = collect_items(kit, both_sides=both_sides)
    sheets = arrange(items, paper, margins, overlap, kit.size)
    return record_sheets(sheets, paper, margins, overlap, both_sides=both_sides)
