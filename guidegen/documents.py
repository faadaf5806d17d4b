"""The files that readers take home: one table, from which everything about them follows.

What a document is called, which are made unasked, which are kept for a shed without network, which
are tagged and by what standard they are judged is said here and nowhere else: downloads, the list
for offline use, the help of the command line, the table in the handbook, the preview and the tests
of accessibility read it. How one is made stands in render/booklets; one page with nothing of its
own to work out needs a template of its edition's name, and no maker.
"""

from dataclasses import dataclass
from enum import StrEnum

from guidegen.marks import msg


class Edition(StrEnum):
    """A form in which a guide's booklet is made, as `editions` in site.yaml names it."""

    SCREEN = "screen"
    SUMMARY = "summary"
    CHECKLIST = "checklist"
    BENCH_CARD = "bench-card"
    FOLD = "fold"
    LARGE_PRINT = "large-print"
    PRINT_SHOP = "print-shop"
    ARCHIVE = "archive"


class Standard(StrEnum):
    """What checkers of others hold a file to."""

    ACCESSIBLE = "PDF/UA-1"
    """ISO 14289-1: tagged for those who listen."""
    PRESS = "PDF/X-4"
    """ISO 15930-7."""
    ARCHIVE = "PDF/A-3u"
    """ISO 19005-3."""


FOLDED_SHEETS = 20
"""Sheets that a hand folds and a stapler holds. Common practice, no source: 80 pages of 80 g/m²."""


@dataclass(frozen=True, slots=True)
class Document:
    """One kind of file."""

    id: str
    title: str
    """Name for readers."""
    format: str
    """What kind of file it is, for readers."""
    file: str
    """Its name: with {paper}, and with {half} for the paper that a folded page has."""
    edition: Edition | None = None
    """The form of the booklet; None for what is made for every guide."""
    heading: str = ""
    """Document type in the title block (ISO 7200); of editions that lie on one page."""
    purpose: str = ""
    """What it is for, in the handbook; of editions."""
    usual: bool = True
    """Made where site.yaml does not choose."""
    most_pages: int = 0
    """Made unasked for booklets of at most so many pages; 0 for any."""
    offline: bool = False
    """Kept on a device with the size one chooses: what is printed or read at the bench. Archives
    and files for machines hold the same again."""
    standard: Standard | None = None
    all_sizes: bool = False
    """One file for all sizes of a guide."""
    sure: bool = True
    """False where some guides have none."""


DOCUMENTS = (
    Document(
        "templates",
        msg("Template sheets"),
        msg("PDF, true scale: print at 100 %"),
        "templates-{paper}.pdf",
        offline=True,
        standard=Standard.ACCESSIBLE,
    ),
    Document(
        "booklet",
        msg("Build booklet"),
        msg("PDF"),
        "booklet-{paper}.pdf",
        Edition.SCREEN,
        purpose="To read or to print. Tagged for screen readers (PDF/UA-1), with bookmarks, page "
        "numbers in cross references, and QR codes where the site has an `address`.",
        offline=True,
        standard=Standard.ACCESSIBLE,
    ),
    Document(
        "summary",
        msg("Summary on one page"),
        msg("PDF"),
        "summary-{paper}.pdf",
        Edition.SUMMARY,
        heading=msg("Summary"),
        purpose="The guide on one page: sizes, shopping, steps with times, the gravest cautions.",
        offline=True,
        standard=Standard.ACCESSIBLE,
    ),
    Document(
        "checklist",
        msg("Checklist to tick off"),
        msg("PDF"),
        "checklist-{paper}.pdf",
        Edition.CHECKLIST,
        heading=msg("Checklist"),
        purpose="Boxes to tick for materials, tools, pieces and steps.",
        offline=True,
        standard=Standard.ACCESSIBLE,
    ),
    Document(
        "bench-card",
        msg("Bench card to pin up"),
        msg("PDF"),
        "bench-card-{paper}.pdf",
        Edition.BENCH_CARD,
        heading=msg("Bench card"),
        purpose="One page to pin up: hazards, protection, first aid and the emergency line.",
        offline=True,
        standard=Standard.ACCESSIBLE,
    ),
    Document(
        "booklet-fold",
        msg("Booklet to fold and staple"),
        msg("PDF: both sides, flip on the short edge"),
        "booklet-{half}-fold-{paper}.pdf",
        Edition.FOLD,
        purpose="Half as large, two pages on a sheet, to fold and staple. The first leaf tells "
        "how, and tries whether the printer turns the paper over the right edge.",
        # Of the booklet: its text takes twice as many half pages, and a sheet holds four of them.
        most_pages=2 * FOLDED_SHEETS,
    ),
    Document(
        "booklet-large-print",
        msg("Build booklet in large print"),
        msg("PDF, text of 18 point and more"),
        "booklet-large-print-{paper}.pdf",
        Edition.LARGE_PRINT,
        purpose="No text under 18 pt, no italics. Letters inside drawings are smaller: what "
        "they say stands below each in words.",
        usual=False,
        standard=Standard.ACCESSIBLE,
    ),
    Document(
        "booklet-print-shop",
        msg("Build booklet for a print shop"),
        msg("PDF/X-4 with bleed and crop marks"),
        "booklet-print-shop-{paper}.pdf",
        Edition.PRINT_SHOP,
        purpose="PDF/X-4 with 3 mm bleed and crop marks, and an output intent.",
        usual=False,
        standard=Standard.PRESS,
    ),
    Document(
        "booklet-archive",
        msg("Build booklet to keep"),
        msg("PDF/A-3u with the guide's source files inside"),
        "booklet-archive-{paper}.pdf",
        Edition.ARCHIVE,
        purpose="PDF/A-3u with the guide's own files attached: it can be built again from the "
        "booklet alone.",
        usual=False,
        standard=Standard.ARCHIVE,
    ),
    Document(
        "materials",
        msg("Materials list"),
        msg("CSV, for a spreadsheet"),
        "materials.csv",
        offline=True,
    ),
    Document(
        "workbook",
        msg("Materials of all sizes"),
        msg("XLSX: a spreadsheet that calculates, and compares"),
        "materials.xlsx",
        all_sizes=True,
    ),
    Document("materials-data", msg("Materials list for programs"), msg("JSON"), "materials.json"),
    Document(
        "cutters",
        msg("Outlines for cutting machines"),
        msg("ZIP of SVG and DXF files in mm"),
        "cutters.zip",
    ),
    Document(
        "all-sides",
        msg("The finished thing from all sides"),
        msg("SVG picture, a dozen views"),
        "all-sides.svg",
        offline=True,
        sure=False,
    ),
    Document(
        "model",
        msg("Model of the finished thing"),
        msg("glTF, in metres: programs for models turn it"),
        "model.glb",
        sure=False,
    ),
    Document("pack", msg("Everything of this size"), msg("ZIP archive with checksums"), "pack.zip"),
)
"""In the order in which readers need them."""

BY_ID = {document.id: document for document in DOCUMENTS}

BY_EDITION = {document.edition: document for document in DOCUMENTS if document.edition}


def of_standard(standard: Standard) -> tuple[Edition, ...]:
    """Editions that are held to a standard."""
    return tuple(edition for edition, known in BY_EDITION.items() if known.standard is standard)
