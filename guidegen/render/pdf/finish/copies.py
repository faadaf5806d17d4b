"""PDF bytes in → copies of the document for archives and for print shops."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import pikepdf

from guidegen.render.pdf.attachments import Attached
from guidegen.render.pdf.finish.base import open_pdf, save_pdf
from guidegen.render.pdf.finish.sheets import Marks, mark_content
from guidegen.units import POINTS_PER_MM

DEVICE_SPACES = {1: "/DeviceGray", 3: "/DeviceRGB", 4: "/DeviceCMYK"}
"""Colour space of a device by its number of inks or lights (ISO 32000-1:2008, 8.6.4)."""

SCREEN_ENTRIES = (
    "/StructTreeRoot", "/MarkInfo", "/Outlines", "/PageMode", "/Names", "/Dests", "/OpenAction",
    "/AA", "/AcroForm", "/ViewerPreferences",
)  # fmt: skip
"""Entries of a catalog that only screens use."""


@dataclass(frozen=True, slots=True)
class Intent:
    """For which device the colours of a document are meant (ISO 32000-1:2008, 14.11.5)."""

    profile: bytes
    """ICC profile of the device."""
    components: int
    """Inks or lights: 1, 3 or 4."""
    name: str
    """What the condition is called."""


def seal_archive(
    data: bytes,
    *,
    packet: bytes,
    info: Mapping[str, str],
    intent: Intent,
    files: Sequence[Attached],
) -> bytes:
    """Turn a tagged PDF into an archive copy after ISO 19005-3 (PDF/A-3), with files attached.

    Sources are attached files of the whole document with the relationship Source (6.8). `packet`
    is its XMP metadata, `info` the same words for the information dictionary; '/ModDate' dates the
    attached files. Raises OutputError.
    """
    with open_pdf(data) as pdf:
        _describe(pdf, packet, info)
        _set_intent(pdf, intent, pikepdf.Name.GTS_PDFA1)
        _drop_empty_resources(pdf)
        specs = pikepdf.Array()
        for file in files:
            spec = pikepdf.AttachedFileSpec(
                pdf,
                file.data,
                filename=file.name,
                description=file.description,
                mime_type=file.media_type,
                mod_date=info["/ModDate"],
                relationship=pikepdf.Name.Source,
            )
            pdf.attachments[file.name] = spec
            specs.append(pdf.attachments[file.name].obj)
        if files:
            pdf.Root.AF = specs
        return save_pdf(pdf)


def _drop_empty_resources(pdf: pikepdf.Pdf) -> None:
    """Take out lists of resources that hold nothing: checkers of archives read every one."""
    for thing in pdf.objects:
        if isinstance(thing, pikepdf.Dictionary | pikepdf.Stream) and "/Resources" in thing:
            for kind in ("/Pattern", "/Shading", "/XObject", "/ExtGState"):
                if kind in thing.Resources and not thing.Resources[kind].keys():
                    del thing.Resources[kind]


def _describe(pdf: pikepdf.Pdf, packet: bytes, info: Mapping[str, str]) -> None:
    """Give a PDF its metadata, and nothing else of the kind."""
    for key in list(pdf.docinfo.keys()):
        del pdf.docinfo[key]
    for key, words in info.items():
        pdf.docinfo[key] = pikepdf.Name(words) if words.startswith("/") else pikepdf.String(words)
    pdf.Root.Metadata = pdf.make_stream(packet)
    pdf.Root.Metadata.Type = pikepdf.Name.Metadata
    pdf.Root.Metadata.Subtype = pikepdf.Name.XML


def _set_intent(pdf: pikepdf.Pdf, intent: Intent, kind: pikepdf.Name) -> None:
    profile = pdf.make_stream(intent.profile)
    profile.N = intent.components
    pdf.Root.OutputIntents = pikepdf.Array(
        [
            pikepdf.Dictionary(
                Type=pikepdf.Name.OutputIntent,
                S=kind,
                OutputConditionIdentifier=pikepdf.String("Custom"),
                Info=pikepdf.String(intent.name),
                DestOutputProfile=profile,
            )
        ]
    )


@dataclass(frozen=True, slots=True)
class PressSheet:
    """What a print shop gets around each page, in mm."""

    bleed: float
    """How far the paper is printed over the line where it is cut."""
    margin: float
    """From that line to the edge of the sheet: room for the marks."""
    marks: Callable[[float, float], Marks]
    """Lines to draw for a page of a width and height, from its lower left corner."""


def prepare_press(
    data: bytes,
    *,
    packet: bytes,
    info: Mapping[str, str],
    intent: Intent,
    lights: bytes,
    sheet: PressSheet,
    repaint: Callable[[bytes], bytes],
) -> bytes:
    """Turn a PDF into one for a print shop after ISO 15930-7 (PDF/X-4).

    Colours that `repaint` leaves as red, green and blue in the content are of the profile `lights`.
    Links, tags and bookmarks are left out: a press has no use for them, and notes on a page are
    forbidden. Raises OutputError.
    """
    with open_pdf(data) as pdf:
        _describe(pdf, packet, info)
        for entry in SCREEN_ENTRIES:
            if entry in pdf.Root:
                del pdf.Root[entry]
        _set_intent(pdf, intent, pikepdf.Name.GTS_PDFX)
        source = pdf.make_stream(lights)
        source.N = 3
        _repaint(pdf, repaint, source, DEVICE_SPACES[intent.components])
        for page in pdf.pages:
            _dress(pdf, page, sheet)
        return save_pdf(pdf, "1.6")


def _repaint(
    pdf: pikepdf.Pdf, repaint: Callable[[bytes], bytes], lights: pikepdf.Object, space: str
) -> None:
    """Repaint pages and all that is drawn on them; what stays red, green, blue gets a profile."""
    red_green_blue = pdf.make_indirect(pikepdf.Array([pikepdf.Name.ICCBased, lights]))
    for page in pdf.pages:
        page.contents_coalesce()
    streams = [page.obj.Contents for page in pdf.pages]
    for thing in pdf.objects:
        if not isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
            continue
        if isinstance(thing, pikepdf.Stream) and (
            thing.get("/Subtype") == "/Form" or "/PatternType" in thing
        ):
            streams.append(thing)
        if "/Resources" in thing:
            spaces = thing.Resources.get("/ColorSpace", pikepdf.Dictionary())
            spaces.DefaultRGB = red_green_blue
            thing.Resources.ColorSpace = spaces
        if "/Group" in thing and "/CS" in thing.Group:
            thing.Group.CS = pikepdf.Name(space)
    for stream in streams:
        stream.write(repaint(stream.read_bytes()))


def _dress(pdf: pikepdf.Pdf, page: pikepdf.Page, sheet: PressSheet) -> None:
    """Boxes and marks of one page (ISO 32000-1:2008, 14.11.2)."""
    left, bottom, right, top = (float(side) for side in page.trimbox)

    def grown(mm: float) -> pikepdf.Array:
        by = mm * POINTS_PER_MM
        sides = (left - by, bottom - by, right + by, top + by)
        return pikepdf.Array([round(side, 4) for side in sides])

    for entry in ("/Annots", "/Tabs", "/StructParents", "/CropBox", "/ArtBox"):
        if entry in page.obj:
            del page.obj[entry]
    page.obj.MediaBox, page.obj.BleedBox = grown(sheet.margin), grown(sheet.bleed)
    page.obj.TrimBox = grown(0)
    marks = sheet.marks((right - left) / POINTS_PER_MM, (top - bottom) / POINTS_PER_MM)
    content = f"q 1 0 0 1 {left:.3f} {bottom:.3f} cm\n{mark_content(marks)}\nQ"
    page.contents_add(b"q", prepend=True)
    page.contents_add(f"Q\n{content}".encode())
