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
