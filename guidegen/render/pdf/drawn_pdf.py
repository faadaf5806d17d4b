"""Pages as drawings in → a PDF with exactly those lines and words, in true size, out.

With `drawn_tags.py` the only module that imports ReportLab. Fonts are embedded as subsets; the
same input gives the same bytes. Text runs through this writer some twenty times as fast as through
a page layouter, and arcs stay within 0.002 mm.
"""

import io
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from hashlib import sha256
from unicodedata import normalize

from reportlab import rl_config  # type: ignore[import-untyped]
from reportlab.lib import rl_accel  # type: ignore[import-untyped]
from reportlab.lib.colors import Color, toColor  # type: ignore[import-untyped]
from reportlab.pdfbase import pdfdoc  # type: ignore[import-untyped]
from reportlab.pdfbase.pdfmetrics import (  # type: ignore[import-untyped]
    getFont,
    registerFont,
    stringWidth,
)
from reportlab.pdfbase.ttfonts import TTFont  # type: ignore[import-untyped]
from reportlab.pdfgen import canvas, pathobject, textobject  # type: ignore[import-untyped]
from reportlab.pdfgen.canvas import Canvas  # type: ignore[import-untyped]
from reportlab.pdfgen.pathobject import PDFPathObject  # type: ignore[import-untyped]

from guidegen.geometry.outline.measures import segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run
from guidegen.pictures.pen.records import (
    Circle,
    Drawing,
    Group,
    Item,
    Lettering,
    Path,
    Rectangle,
    Stroke,
    letterings,
)
from guidegen.render.fonts.fonts import face_file
from guidegen.render.pdf.curves import arc_curves
from guidegen.render.pdf.drawn_numbers import mend_numbers
from guidegen.render.pdf.drawn_tags import PDF_VERSION, Tags, say_facts
from guidegen.units import POINTS_PER_MM

FACES = ((700, "Bold"), (600, "SemiBold"), (0, "Regular"))
"""Least weight of each face of Barlow Condensed in use."""

rl_config.useA85 = 0
"""Streams as they are, a fifth smaller: nothing sends these files through seven-bit channels."""

rl_config.pdfComments = rl_config.pdfMultiLine = 0
"""Objects without comments and line breaks: tags are many small ones."""

mend_numbers(rl_accel, canvas, pathobject, textobject, pdfdoc)

_CAPS = {"butt": 0, "round": 1, "square": 2}


# The same few words stand on each page of a set.
_width = lru_cache(maxsize=5_000)(stringWidth)


@cache
def _colour(written: str) -> Color:
    return toColor(written)


@dataclass(frozen=True, slots=True)
class Bookmark:
    """An entry of the outline that viewers show beside the pages."""

    words: str
    page: int
    """From 0."""
    level: int = 0


def write_drawings(
    drawings: Sequence[Drawing],
    bookmarks: Sequence[Bookmark],
    *,
    title: str,
    language: str,
    said: Sequence[str] | None = None,
    packet: bytes,
) -> bytes:
    """A PDF with one page for each drawing, of exactly its size, that is printed without scaling.

    `said` has for each page what its drawing says, empty for a page of words, and `packet` is the
    XMP metadata; without words the file has no tags.
    """
    faces = _Faces(
        {
            letter
            for one in drawings
            for text in letterings(one.items)
            for letter in normalize("NFC", text.words)
        }
    )
    out = io.BytesIO()
    pdf = Canvas(
        out,
        invariant=1,
        pageCompression=1,
        lang=language,
        initialFontName=_face(400),
        pdfVersion=PDF_VERSION,
    )
    tags = Tags(pdf) if said is not None else None
    say_facts(pdf, title=title, packet=packet)
    by_page: dict[int, list[Bookmark]] = {}
    for mark in bookmarks:
        by_page.setdefault(mark.page, []).append(mark)
    for number, drawing in enumerate(drawings):
        page = _Page(pdf, drawing.height, faces, tags)
        pdf.setPageSize((page.mm(drawing.width), page.mm(drawing.height)))
        for order, mark in enumerate(by_page.get(number, ())):
            key = f"page-{number}-{order}"
            pdf.bookmarkPage(key)
            pdf.addOutlineEntry(mark.words, key, mark.level)
        pdf.setLineJoin(1)
        if tags is None or said is None:
            page.draw(drawing.items)
            pdf.showPage()
            continue
        tags.begin_page(said[number])
        page.draw(drawing.items)
        tags.end_page()
        pdf.showPage()
        tags.add_page()
    if tags is not None:
        tags.finish()
    pdf.save()
    return out.getvalue()


class _Faces:
    """Faces for the words of a document: Barlow Condensed, and another for letters it lacks."""

    def __init__(self, letters: Collection[str]) -> None:
        _register_fonts()
        self._own = getFont(_face(400)).face.charToGlyph
        self._spare: dict[str, str] = {}
        if all(ord(letter) in self._own for letter in letters):
            return
        from guidegen.render.fonts.fallback_fonts import (  # noqa: PLC0415 - large and rare
            label_face,
        )

        for weight, face in FACES:
            data = label_face(weight or 400, letters)
            if data:
                # Alphabets differ from document to document, and names are registered for good.
                name = f"NotoSans-{face}-{sha256(data).hexdigest()[:12]}"
                font = TTFont(name, io.BytesIO(data))
                # ReportLab takes faces of one name for the same, whatever letters they have.
                font.face.name = name.encode()
                registerFont(font)
                self._spare[f"BarlowCondensed-{face}"] = name

    def runs(self, words: str, face: str) -> list[tuple[str, str]]:
        """Words by the face that has their letters, in their order."""
        spare = self._spare.get(face)
        if spare is None:
            return [(words, face)]
        found: list[tuple[str, str]] = []
        for letter in normalize("NFC", words):
            font = face if ord(letter) in self._own else spare
            if found and (found[-1][1] == font or letter == " "):
                found[-1] = (found[-1][0] + letter, found[-1][1])
            else:
                found.append((letter, font))
        return found


@cache
def _register_fonts() -> None:
    for _, face in FACES:
        data = face_file("Barlow Condensed", face)
        registerFont(TTFont(f"BarlowCondensed-{face}", io.BytesIO(data)))


def _face(weight: int) -> str:
    return next(f"BarlowCondensed-{face}" for least, face in FACES if weight >= least)


class _Page:
    """A page that is being drawn; the PDF has points, y upward, as drawings have mm."""

    def __init__(self, pdf: Canvas, height: float, faces: _Faces, tags: Tags | None) -> None:
        self._pdf, self._height, self._faces, self._tags = pdf, height, faces, tags

    def mm(self, length: float) -> float:
        """A length in points. Lengths have four decimals on all media, so that all agree."""
        return round(length, 4) * POINTS_PER_MM

    def draw(self, items: tuple[Item, ...]) -> None:
        """Draw items in their order."""
        for item in items:
            match item:
                case Group():
                    self._group(item)
                case Lettering():
                    if self._tags:
                        self._tags.begin_text(self.mm(item.size))
                    self._text(item)
                case _:
                    if self._tags:
                        self._tags.begin_shape()
                    self._shape(item)
            if self._tags and not isinstance(item, Group):
                self._tags.end_item()

    def _at(self, point: Point) -> tuple[float, float]:
        # SVG counts downward from the upper edge: rounded from there, both have the same point.
        return (
            self.mm(point[0]),
            (round(self._height, 4) - round(self._height - point[1], 4)) * POINTS_PER_MM,
        )

    def _sides(self, box: Rectangle) -> tuple[float, float, float, float]:
        """Left, low, right and high side of a rectangle in points."""
        left, high = self._at((box.x, box.y + box.height))
        return (left, high - self.mm(box.height), left + self.mm(box.width), high)

    def _group(self, group: Group) -> None:
        pdf = self._pdf
        if group.clip:
            pdf.saveState()
            path = pdf.beginPath()
            left, low, right, high = self._sides(group.clip)
            path.rect(left, low, right - left, high - low)
            pdf.clipPath(path, stroke=0, fill=0)
        if group.layer:
            pdf.addLiteral(f"/OC /{group.layer} BDC")
        self.draw(group.items)
        if group.layer:
            pdf.addLiteral("EMC")
        if group.clip:
            pdf.restoreState()

    def _shape(self, shape: Path | Rectangle | Circle) -> None:
        pdf, path, opacity = self._pdf, self._pdf.beginPath(), 1.0
        match shape:
            case Path():
                opacity = shape.opacity
                for run in shape.runs:
                    self._trace(path, run, closed=shape.closed)
            case Rectangle():
                self._frame(path, shape)
            case Circle(centre=centre, radius=radius):
                self._trace(path, (Arc(centre, radius, 0, -360),), closed=True)
        filled = shape.fill != "none"
        if filled:
            pdf.setFillColor(_colour(shape.fill))
            pdf.setFillAlpha(opacity)
        if shape.stroke:
            self._take(shape.stroke)
        pdf.drawPath(path, stroke=int(shape.stroke is not None), fill=int(filled), fillMode=0)

    def _frame(self, path: PDFPathObject, box: Rectangle) -> None:
        left, low, right, high = self._sides(box)
        path.moveTo(left, high)
        for corner in ((right, high), (right, low), (left, low)):
            path.lineTo(*corner)
        path.close()

    def _trace(self, path: PDFPathObject, run: Run, *, closed: bool) -> None:
        path.moveTo(*self._at(segment_start(run[0])))
        for segment in run:
            match segment:
                case Line(end=end):
                    path.lineTo(*self._at(end))
                case Cubic():
                    self._curve(path, segment)
                case Arc():
                    for part in arc_curves(segment):
                        self._curve(path, part)
        if closed:
            path.close()

    def _curve(self, path: PDFPathObject, cubic: Cubic) -> None:
        points = (cubic.control1, cubic.control2, cubic.end)
        path.curveTo(*(number for point in points for number in self._at(point)))

    def _take(self, stroke: Stroke) -> None:
        self._pdf.setStrokeColor(_colour(stroke.colour))
        self._pdf.setLineWidth(self.mm(stroke.width))
        self._pdf.setDash([self.mm(length) for length in stroke.dash])
        self._pdf.setLineCap(_CAPS[stroke.cap])

    def _text(self, text: Lettering) -> None:
        pdf, size = self._pdf, self.mm(text.size)
        runs = self._faces.runs(text.words, _face(text.weight))
        wide = sum(_width(words, face, size) for words, face in runs)
        shift = {"middle": wide / 2, "end": wide}.get(text.anchor, 0.0)
        x, y = self._at(text.at)
        pdf.setFillColor(_colour(text.colour))
        pdf.setFillAlpha(1)
        # A turn that no printer could show would still cost a state of its own.
        if turn := round(text.angle, 4):
            pdf.saveState()
            pdf.translate(x, y)
            pdf.rotate(turn)
            _draw_runs(pdf, runs, (-shift, 0.0), size)
            pdf.restoreState()
        else:
            _draw_runs(pdf, runs, (x - shift, y), size)


def _draw_runs(
    pdf: Canvas, runs: Sequence[tuple[str, str]], at: tuple[float, float], size: float
) -> None:
    x, y = at
    for words, face in runs:
        pdf.setFont(face, size)
        # As drawString does, which would measure them too.
        text = pdf.beginText(x, y)
        text.textLine(words)
        pdf.drawText(text)
        x += _width(words, face, size)
