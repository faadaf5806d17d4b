"""PDF bytes in → the same pages with what viewers, printers and archives ask for.

The only module that imports pikepdf. The same input gives the same bytes.
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass

import pikepdf

from guidegen.errors import OutputError
from guidegen.units import POINTS_PER_MM

MARK_WIDTH = 0.25
"""PDF units; width of marks for folding and cutting. Common practice, no source: a hairline."""


def open_pdf(data: bytes) -> pikepdf.Pdf:
    """A PDF to work on. Raises OutputError."""
    try:
        return pikepdf.open(io.BytesIO(data))
    except pikepdf.PdfError as error:
        raise OutputError(f"a PDF that was just made cannot be read: {error}") from None


def save_pdf(pdf: pikepdf.Pdf) -> bytes:
    """Its bytes, with an identifier that follows from the content."""
    out = io.BytesIO()
    pdf.save(
        out,
        # /PrintScaling came with PDF 1.6.
        min_version="1.7",
        deterministic_id=True,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
    )
    return out.getvalue()


def ask_true_scale(data: bytes, *, title: str, language: str) -> bytes:
    """Ask viewers to print without scaling, on paper of the page's own size.

    ISO 32000-1:2008, table 150: /PrintScaling /None; /PickTrayByPDFSize chooses the paper.
    """
    with open_pdf(data) as pdf:
        wishes = pdf.Root.get("/ViewerPreferences", pikepdf.Dictionary())
        wishes.PrintScaling = pikepdf.Name("/None")
        wishes.PickTrayByPDFSize = True
        wishes.DisplayDocTitle = True
        pdf.Root.ViewerPreferences = wishes
        pdf.Root.Lang = pikepdf.String(language)
        pdf.docinfo["/Title"] = title
        for entry in ("/Author", "/Subject", "/Keywords", "/CreationDate", "/ModDate", "/Trapped"):
            # What a writer put in unasked; a date would change from press to press.
            if entry in pdf.docinfo:
                del pdf.docinfo[entry]
        return save_pdf(pdf)


def finish_tags(data: bytes) -> bytes:
    """Complete the tags of a document: scopes of header cells, links that print.

    ISO 14289-1:2014, 7.5 asks that header cells tell what they head, 7.18.1 that annotations are
    not hidden from print; WeasyPrint leaves both out.
    """
    with open_pdf(data) as pdf:
        root = pdf.Root.get("/StructTreeRoot")
        if root is not None:
            _set_scopes(root)
        for page in pdf.pages:
            for annotation in page.get("/Annots", pikepdf.Array()):
                annotation["/F"] = int(annotation.get("/F", 0)) | PRINT_FLAG
        return save_pdf(pdf)


PRINT_FLAG = 4
"""Bit 3 of an annotation's flags: it is printed (ISO 32000-1:2008, table 165)."""


def _set_scopes(root: pikepdf.Object) -> None:
    """Header cells inside a table's head are for columns, all others for rows."""
    waiting: list[tuple[pikepdf.Object, bool]] = [(root, False)]
    while waiting:
        element, in_head = waiting.pop()
        kind = str(element.get("/S", ""))
        in_head = (in_head or kind == "/THead") and kind != "/TBody"
        if kind == "/TH":
            attributes = element.get("/A", pikepdf.Dictionary(O=pikepdf.Name("/Table")))
            attributes["/Scope"] = pikepdf.Name("/Column" if in_head else "/Row")
            element["/A"] = attributes
        kids = element.get("/K", pikepdf.Array())
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            if isinstance(kid, pikepdf.Dictionary):
                waiting.append((kid, in_head))


def page_count(data: bytes) -> int:
    """How many pages a PDF has. Raises OutputError."""
    with open_pdf(data) as pdf:
        return len(pdf.pages)


@dataclass(frozen=True, slots=True)
class Switch:
    """A field on a page that shows one layer alone, or all."""

    page: int
    """From 0."""
    box: tuple[float, float, float, float]
    """Left, bottom, right, top in PDF units."""
    shows: int | None
    """Number of the layer; None shows all."""


def add_layers(data: bytes, layers: Sequence[tuple[str, str]], switches: Sequence[Switch]) -> bytes:
    """Make marked content into layers (ISO 32000-1:2008, 8.11), all of them on.

    `layers` are names in the content and titles for readers; all pages may use all of them.
    Switches are links that set the layers' state (12.6.4.12).
    """
    with open_pdf(data) as pdf:
        groups = [
            pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=pikepdf.String(title)))
            for _, title in layers
        ]
        pdf.Root.OCProperties = pikepdf.Dictionary(
            OCGs=pikepdf.Array(groups),
            D=pikepdf.Dictionary(
                Name=pikepdf.String("Sizes"),
                BaseState=pikepdf.Name.ON,
                ON=pikepdf.Array(groups),
                Order=pikepdf.Array(groups),
            ),
        )
        names = {f"/{name}": group for (name, _), group in zip(layers, groups, strict=True)}
        for page in pdf.pages:
            page.obj.Resources = pikepdf.Dictionary(
                {**dict(page.obj.Resources.items()), "/Properties": pikepdf.Dictionary(names)}
            )
        for switch in switches:
            _add_switch(pdf, switch, groups)
        return save_pdf(pdf)


def _add_switch(pdf: pikepdf.Pdf, switch: Switch, groups: Sequence[pikepdf.Object]) -> None:
    on = [group for number, group in enumerate(groups) if switch.shows in (None, number)]
    off = [group for number, group in enumerate(groups) if switch.shows not in (None, number)]
    state = [pikepdf.Name.ON, *on]
    if off:
        state = [pikepdf.Name.OFF, *off, *state]
    link = pikepdf.Dictionary(
        Type=pikepdf.Name.Annot,
        Subtype=pikepdf.Name.Link,
        Rect=pikepdf.Array(list(switch.box)),
        Border=pikepdf.Array([0, 0, 0]),
        A=pikepdf.Dictionary(
            S=pikepdf.Name.SetOCGState, State=pikepdf.Array(state), PreserveRB=True
        ),
    )
    page = pdf.pages[switch.page].obj
    if "/Annots" not in page:
        page.Annots = pikepdf.Array()
    page.Annots.append(pdf.make_indirect(link))


@dataclass(frozen=True, slots=True)
class Placed:
    """A page of another PDF where it lies on a sheet, not scaled; mm from the lower left corner."""

    source: int
    """Which PDF, from 0."""
    page: int
    """Which of its pages, from 0."""
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class SheetSide:
    """One side of a sheet of paper, in mm."""

    width: float
    height: float
    placed: tuple[Placed, ...] = ()
    marks: tuple[tuple[float, float, float, float], ...] = ()
    """Thin lines, each from (x, y) to (x, y)."""


def place_pages(
    sources: Sequence[bytes], sides: Sequence[SheetSide], *, title: str, language: str
) -> bytes:
    """A PDF of sheets on which pages of `sources` lie, to print on both sides at true scale.

    Viewers are asked to turn the paper over its short edge (ISO 32000-1:2008, table 150, /Duplex).
    Raises OutputError for a source that cannot be read.
    """
    made = pikepdf.new()
    forms: dict[tuple[int, int], pikepdf.Object] = {}
    for number, data in enumerate(sources):
        with open_pdf(data) as pdf:
            for index, page in enumerate(pdf.pages):
                forms[number, index] = made.copy_foreign(page.as_form_xobject())
    for side in sides:
        box = [0, 0, side.width * POINTS_PER_MM, side.height * POINTS_PER_MM]
        page = made.add_blank_page(page_size=(box[2], box[3]))
        page.obj.Resources = pikepdf.Dictionary(
            XObject=pikepdf.Dictionary(
                {f"/P{n}": forms[p.source, p.page] for n, p in enumerate(side.placed)}
            )
        )
        page.obj.Contents = made.make_stream(_side_content(side))
    made.Root.Lang = pikepdf.String(language)
    made.docinfo["/Title"] = title
    made.Root.ViewerPreferences = pikepdf.Dictionary(
        PrintScaling=pikepdf.Name("/None"),
        Duplex=pikepdf.Name.DuplexFlipShortEdge,
        PickTrayByPDFSize=True,
        DisplayDocTitle=True,
    )
    return save_pdf(made)


def _side_content(side: SheetSide) -> bytes:
    lines = [
        f"q 1 0 0 1 {_points(p.x)} {_points(p.y)} cm /P{n} Do Q" for n, p in enumerate(side.placed)
    ]
    lines += [f"{MARK_WIDTH} w 0 G"] if side.marks else []
    lines += [
        f"{_points(x)} {_points(y)} m {_points(to_x)} {_points(to_y)} l S"
        for x, y, to_x, to_y in side.marks
    ]
    return "\n".join(lines).encode()


def _points(mm: float) -> str:
    """PDF units, to a thousandth."""
    return f"{mm * POINTS_PER_MM + 0.0:.3f}"
