"""A drawn PDF in → the same pages with tags that a screen reader follows.

Pages of words are tagged line by line; a page that is one drawing is a figure with words for it.
"""

from collections.abc import Iterator, Sequence

import pikepdf

from guidegen.render.pdf.completed_tags import PRINT_FLAG
from guidegen.render.pdf.finish.base import open_pdf, save_pdf

TITLE_SIZE, HEADING_SIZES = 24.0, (14.5, 15.5)
"""PDF units; letters of the title, and of headings, on key pages (pictures.template_key)."""

_BEGIN_PATH = frozenset({"m", "re"})
_PAINT = frozenset({"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"})


def add_tags(data: bytes, words: Sequence[str], *, packet: bytes) -> bytes:
    """Tag every page (ISO 32000-1:2008, 14.7 and 14.8).

    `words` has for each page what its drawing says; an empty text is for a page of words, whose
    lines are tagged in the order in which they are drawn, its lines and boxes being artifacts.
    `packet` is the XMP metadata. Raises OutputError.
    """
    with open_pdf(data) as pdf:
        root = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.StructTreeRoot))
        document = pdf.make_indirect(
            pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=pikepdf.Name.Document, P=root)
        )
        tree = _Tree(pdf, document)
        for page, said in zip(pdf.pages, words, strict=True):
            tree.add_page(page, said)
        document.K = pikepdf.Array(tree.elements)
        root.K = pikepdf.Array([document])
        root.ParentTree = pdf.make_indirect(pikepdf.Dictionary(Nums=pikepdf.Array(tree.parents)))
        root.ParentTreeNextKey = len(tree.parents) // 2
        pdf.Root.StructTreeRoot = root
        pdf.Root.MarkInfo = pikepdf.Dictionary(Marked=True)
        pdf.Root.Metadata = pdf.make_stream(packet)
        pdf.Root.Metadata.Type = pikepdf.Name.Metadata
        pdf.Root.Metadata.Subtype = pikepdf.Name.XML
        return save_pdf(pdf)


class _Tree:
    """Elements in reading order, and which of them each piece of a page belongs to."""

    def __init__(self, pdf: pikepdf.Pdf, document: pikepdf.Object) -> None:
        self._pdf, self._document = pdf, document
        self.elements: list[pikepdf.Object] = []
        self.parents: list[object] = []
        """Number and object by turns, as a number tree has them (7.9.7)."""
        self._titled = False

    def add_page(self, page: pikepdf.Page, said: str) -> None:
        page.contents_coalesce()
        if said:
            content, roles = page.obj.Contents.read_bytes(), ["Figure"]
            content = b"/Figure <</MCID 0>> BDC\n" + content + b"\nEMC"
        else:
            content, roles = self._tag_lines(page)
        page.obj.Contents = self._pdf.make_stream(content)
        marked = [self._element(role, page, number) for number, role in enumerate(roles)]
        if said:
            marked[0].Alt = pikepdf.String(said)
            marked[0].A = pikepdf.Dictionary(
                O=pikepdf.Name.Layout, BBox=pikepdf.Array(list(page.mediabox))
            )
        page.obj.StructParents = self._own(pikepdf.Array(marked))
        page.obj.Tabs = pikepdf.Name.S
        for link in page.obj.get("/Annots", pikepdf.Array()):
            self._add_link(page, link)

    def _tag_lines(self, page: pikepdf.Page) -> tuple[bytes, list[str]]:
        roles: list[str] = []
        made: list[tuple[list[pikepdf.Object], pikepdf.Operator]] = []
        for block in _blocks(page):
            kind = str(block[0][1])
            if kind == "BT":
                role = self._role(block)
                mark = pikepdf.Dictionary(MCID=len(roles))
                made.append(([pikepdf.Name(f"/{role}"), mark], pikepdf.Operator("BDC")))
                roles.append(role)
            elif kind in _BEGIN_PATH:
                made.append(([pikepdf.Name.Artifact], pikepdf.Operator("BMC")))
            made.extend(block)
            if kind == "BT" or kind in _BEGIN_PATH:
                made.append(([], pikepdf.Operator("EMC")))
        return pikepdf.unparse_content_stream(made), roles

    def _role(self, block: Sequence[tuple[list[pikepdf.Object], pikepdf.Operator]]) -> str:
        size = max((float(o[1]) for o, operator in block if str(operator) == "Tf"), default=0.0)
        if size >= TITLE_SIZE and not self._titled:
            self._titled = True
            return "H1"
        return "H2" if HEADING_SIZES[0] <= size <= HEADING_SIZES[1] else "P"

    def _element(self, role: str, page: pikepdf.Page, kid: object) -> pikepdf.Object:
        element = self._pdf.make_indirect(
            pikepdf.Dictionary(
                Type=pikepdf.Name.StructElem,
                S=pikepdf.Name(f"/{role}"),
                P=self._document,
                Pg=page.obj,
                K=kid,
            )
        )
        self.elements.append(element)
        return element

    def _add_link(self, page: pikepdf.Page, link: pikepdf.Object) -> None:
        kid = pikepdf.Dictionary(Type=pikepdf.Name.OBJR, Obj=link, Pg=page.obj)
        element = self._element("Link", page, kid)
        element.Alt = link.get("/Contents", pikepdf.String(""))
        link.StructParent = self._own(element)
        link.F = int(link.get("/F", 0)) | PRINT_FLAG

    def _own(self, owner: pikepdf.Object) -> int:
        number = len(self.parents) // 2
        self.parents += [number, owner]
        return number


def _blocks(
    page: pikepdf.Page,
) -> Iterator[list[tuple[list[pikepdf.Object], pikepdf.Operator]]]:
    """The instructions of a page: texts and paths whole, all others one by one."""
    block: list[tuple[list[pikepdf.Object], pikepdf.Operator]] = []
    for instruction in pikepdf.parse_content_stream(page):
        operands, operator = list(instruction.operands), instruction.operator
        block.append((operands, operator))
        first, kind = str(block[0][1]), str(operator)
        ends = {"ET"} if first == "BT" else _PAINT if first in _BEGIN_PATH else {kind}
        if kind in ends:
            yield block
            block = []
