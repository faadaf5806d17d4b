"""What screen readers, viewers and printers ask of a drawn PDF: tags, metadata, no scaling.

Written with the drawing itself, so that the file needs no second pass (ISO 32000-1:2008, 14.7 and
14.8). A page of words is tagged line by line, its lines and boxes being artifacts; a page that is
one drawing is a figure with words for it.
"""

from dataclasses import dataclass, field
from hashlib import md5

from reportlab.pdfbase.pdfdoc import (  # type: ignore[import-untyped]
    PDFArray,
    PDFDictionary,
    PDFInfo,
    PDFName,
    PDFObject,
    PDFPage,
    PDFStream,
    PDFString,
    ViewerPreferencesPDFDictionary,
    checkPDFBoolean,
)
from reportlab.pdfgen.canvas import Canvas  # type: ignore[import-untyped]

PDF_VERSION = (1, 7)
"""/PrintScaling came with PDF 1.6."""

TITLE_SIZE, HEADING_SIZES = 24.0, (14.5, 15.5)
"""PDF units; letters of the title, and of headings, on key pages (pictures.templates.key.flow)."""


class _Info(PDFInfo):  # type: ignore[misc]
    """What a file says of itself: no author or date that nobody gave."""

    def format(self, document: object) -> bytes:
        entries = {"Title": self.title, "Creator": self.creator, "Producer": self.producer}
        written = PDFDictionary({name: PDFString(text) for name, text in entries.items()})
        return bytes(written.format(document))


class _Preferences(ViewerPreferencesPDFDictionary):  # type: ignore[misc]
    validate = ViewerPreferencesPDFDictionary.validate | {"PickTrayByPDFSize": checkPDFBoolean}


def say_facts(pdf: Canvas, *, title: str, packet: bytes) -> None:
    """The title, its XMP packet, and that viewers print without scaling, on paper of the size of
    the page (ISO 32000-1:2008, table 150: /PrintScaling /None; /PickTrayByPDFSize)."""
    document = pdf._doc
    # The library begins the identity of a file with the time, or with SOURCE_DATE_EPOCH where that
    # is set: neither is asked for here.
    document.signature = md5(packet, usedforsecurity=False)
    document.info = _Info()
    document.info.title = title
    document.info.creator = document.info.producer = "guidegen"
    wishes = _Preferences()
    wishes["PrintScaling"] = "None"
    wishes["PickTrayByPDFSize"] = wishes["DisplayDocTitle"] = "true"
    document.Catalog.ViewerPreferences = wishes
    about = PDFDictionary({"Type": PDFName("Metadata"), "Subtype": PDFName("XML")})
    document.Catalog.Metadata = PDFStream(about, packet)


@dataclass
class Tags:
    """Elements in reading order, and which of them each piece of a page belongs to."""

    pdf: Canvas
    said: str = ""
    """What the drawing of the page says; empty for a page of words."""
    _roles: list[str] = field(default_factory=list)
    _elements: list[PDFObject] = field(default_factory=list)
    _parents: list[PDFObject] = field(default_factory=list)
    """Elements of each page, in the order of its marks, in the order of pages."""
    _root: PDFDictionary = field(default_factory=lambda: PDFDictionary({}))
    _document: PDFDictionary = field(default_factory=lambda: PDFDictionary({}))
    _titled: bool = False

    def __post_init__(self) -> None:
        for one in (self._root, self._document):
            one.__RefOnly__ = 1

    def begin_page(self, said: str) -> None:
        """Before anything is drawn on a page; `said` is empty for a page of words."""
        self.said, self._roles = said, []
        if said:
            self._begin("Figure")

    def begin_text(self, size: float) -> None:
        """Before words whose letters have `size` PDF units."""
        if self.said:
            return
        role = "H2" if HEADING_SIZES[0] <= size <= HEADING_SIZES[1] else "P"
        if size >= TITLE_SIZE and not self._titled:
            self._titled, role = True, "H1"
        self._begin(role)

    def begin_shape(self) -> None:
        """Before a line or box, which no page of words has anything to say of."""
        if not self.said:
            self.pdf.addLiteral("/Artifact BMC")

    def end_item(self) -> None:
        """After words, a line or a box."""
        if not self.said:
            self.pdf.addLiteral("EMC")

    def end_page(self) -> None:
        """After all that is drawn on a page."""
        if self.said:
            self.pdf.addLiteral("EMC")

    def add_page(self) -> None:
        """The elements of the page that the canvas has just shown."""
        page = self.pdf._doc.Pages.pages[-1]
        marked = [self._element(role, page, number) for number, role in enumerate(self._roles)]
        if self.said:
            box = PDFArray([0, 0, page.pagewidth, page.pageheight])
            marked[0]["Alt"] = PDFString(self.said)
            marked[0]["A"] = PDFDictionary({"O": PDFName("Layout"), "BBox": box})
        page.__NoDefault__ = [*PDFPage.__NoDefault__, "StructParents", "Tabs"]
        page.StructParents, page.Tabs = len(self._parents), PDFName("S")
        self._parents.append(PDFArray([self._refer(one) for one in marked]))
        self._elements += marked

    def finish(self) -> None:
        """Once all pages are there."""
        numbers = [part for pair in enumerate(self._parents) for part in pair]
        document = {
            "Type": PDFName("StructElem"),
            "S": PDFName("Document"),
            "P": self._refer(self._root),
            "K": PDFArray([self._refer(one) for one in self._elements]),
        }
        self._document.dict.update(document)
        root = {
            "Type": PDFName("StructTreeRoot"),
            "K": PDFArray([self._refer(self._document)]),
            "ParentTree": PDFDictionary({"Nums": PDFArray(numbers)}),
            "ParentTreeNextKey": len(self._parents),
        }
        self._root.dict.update(root)
        catalog = self.pdf._doc.Catalog
        catalog.StructTreeRoot = self._root
        catalog.MarkInfo = PDFDictionary({"Marked": "true"})

    def _begin(self, role: str) -> None:
        self.pdf.addLiteral(f"/{role} <</MCID {len(self._roles)}>> BDC")
        self._roles.append(role)

    def _element(self, role: str, page: PDFPage, number: int) -> PDFDictionary:
        element = PDFDictionary(
            {
                "S": PDFName(role),
                "P": self._refer(self._document),
                "Pg": self._refer(page),
                "K": number,
            }
        )
        element.__RefOnly__ = 1
        return element

    def _refer(self, one: PDFObject) -> PDFObject:
        return self.pdf._doc.Reference(one)
