"""PDF bytes in → the same pages with what viewers and screen readers ask for."""

import pikepdf

from guidegen.render.pdf.finish.base import open_pdf, save_pdf


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
        if "/ID" in pdf.trailer:
            del pdf.trailer["/ID"]  # the writer's follows from such a date; a new one is made
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
