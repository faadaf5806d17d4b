"""PDF bytes in → the same pages with what viewers, printers and archives ask for.

The only module that imports pikepdf. The same input gives the same bytes.
"""

import io

import pikepdf

from guidegen.errors import OutputError


def open_pdf(data: bytes) -> pikepdf.Pdf:
    """A PDF to work on. Raises OutputError."""
    try:
        return pikepdf.open(io.BytesIO(data))
    except pikepdf.PdfError as error:
        raise OutputError(f"a PDF that was just made cannot be read: {error}") from None


def save_pdf(pdf: pikepdf.Pdf) -> bytes:
    """Its bytes, with an identifier that follows from the content."""
    out = io.BytesIO()
    pdf.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
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


def page_count(data: bytes) -> int:
    """How many pages a PDF has. Raises OutputError."""
    with open_pdf(data) as pdf:
        return len(pdf.pages)
