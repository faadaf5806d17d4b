"""A PDF file's bytes in → its pages as paths in mm out. One of the modules that import pikepdf."""

import io
from collections.abc import Iterator
from dataclasses import dataclass, field

import pikepdf

from guidegen.bench.vectors.painting import PaintedForm, PaintedPage, PaintError, paint
from guidegen.bench.vectors.records import FoundFile, FoundPage, LineBox, VectorError, refuse
from guidegen.bench.vectors.streams import StreamError, check_file, unpack
from guidegen.bench.vectors.tokens import MAX_OPERATORS, Operation, OperatorError, operations
from guidegen.geometry.drawing.svg_reader import Affine
from guidegen.units import POINTS_PER_MM

MAX_PAGES = 200
"""Pages of a file. Our choice: a suit of templates on A4 has fewer."""
_ODD = (pikepdf.PdfError, ValueError, TypeError, KeyError, AttributeError, OverflowError)
"""What pikepdf raises on objects that are not what they should be."""


def read_pdf(data: bytes, file: str) -> FoundFile:
    """The pages of a PDF. Raises VectorError with what keeps it from being read."""
    try:
        check_file(data)
        with pikepdf.open(io.BytesIO(data), access_mode=pikepdf.AccessMode.stream) as pdf:
            return _read(pdf, file)
    except StreamError as error:
        raise refuse(
            "vector-large", file, str(error), "print the page that you need anew"
        ) from None
    except pikepdf.PasswordError:
        cure = "save it again without a password"
        raise refuse("vector-file", file, "the file is locked with a password", cure) from None
    except VectorError:
        raise
    except (*_ODD, RecursionError, MemoryError):
        message = "the file is damaged: it cannot be read as a PDF"
        raise refuse("vector-file", file, message, "write it anew from your editor") from None


def _read(pdf: pikepdf.Pdf, file: str) -> FoundFile:
    count = len(pdf.pages)
    if not count:
        raise refuse("vector-empty", file, "the file has no page")
    if count > MAX_PAGES:
        message = f"the file has {count} pages; at most {MAX_PAGES} are read"
        raise refuse("vector-large", file, message, "write the pages of one template alone")
    hidden = _hidden_layers(pdf)
    pages: list[FoundPage] = []
    off: dict[str, None] = {}
    segments = 0
    for number, page in enumerate(pdf.pages, 1):
        found, painted = _read_page(page.obj, number, hidden, file)
        pages.append(found)
        off |= painted.hidden
        segments += sum(len(s.run) for path in painted.paths for s in path.strokes)
        if segments > 10 * 10_000:
            raise refuse("vector-large", file, "the file has more than 100000 segments of lines")
    return FoundFile(file, tuple(pages), "pt", _producer(pdf), tuple(off))


def _producer(pdf: pikepdf.Pdf) -> str:
    return str(pdf.docinfo.get("/Producer", ""))[:80]


def _read_page(
    page: pikepdf.Object, number: int, hidden: frozenset[str], file: str
) -> tuple[FoundPage, PaintedPage]:
    box = _page_box(page, number, file)
    affine, size = page_affine(box, int(_inherited(page, "/Rotate") or 0), _user_unit(page))
    resources = _PageResources(_inherited(page, "/Resources"), hidden)
    try:
        painted = paint(_content(page.get("/Contents")), resources, affine)
    except (OperatorError, StreamError, PaintError) as error:
        cure = "simplify the drawing in your editor, or write the page anew"
        raise refuse("vector-large", file, f"page {number}: {error}", cure) from None
    found = FoundPage(
        number,
        tuple(painted.paths),
        size,
        painted.pictures,
        painted.texts,
        dict(painted.left_out),
    )
    return found, painted


def _inherited(page: pikepdf.Object, key: str) -> pikepdf.Object | None:
    """A value of a page, or of the nodes above it (ISO 32000-1:2008, 7.7.3.4)."""
    node = page
    for _ in range(50):
        if key in node:
            return node[key]
        if "/Parent" not in node:
            return None
        node = node["/Parent"]
    return None


def _page_box(page: pikepdf.Object, number: int, file: str) -> LineBox:
    """What a reader sees: the crop box inside the media box (14.11.2)."""
    boxes: list[LineBox] = []
    for key in ("/MediaBox", "/CropBox"):
        values = _inherited(page, key)
        if values is not None and len(values) == 4:
            x0, y0, x1, y1 = (float(value) for value in values)
            boxes.append((min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)))
    if not boxes:
        raise refuse("vector-file", file, f"page {number} has no size")
    left, low, right, high = boxes[0]
    for box in boxes[1:]:
        left, low = max(left, box[0]), max(low, box[1])
        right, high = min(right, box[2]), min(high, box[3])
    if right <= left or high <= low:
        raise refuse("vector-file", file, f"page {number} has no size")
    return left, low, right, high


def _user_unit(page: pikepdf.Object) -> float:
    """How many points one unit of the page is (14.11.1)."""
    unit = float(page.get("/UserUnit", 1))
    return unit if 0 < unit <= 1000 else 1.0


def page_affine(box: LineBox, turn: int, unit: float) -> tuple[Affine, tuple[float, float]]:
    """From a page's units to mm from the lower left of what is seen, and its size in mm.

    `turn` is by how many degrees viewers turn the page clockwise.
    """
    scale = unit / POINTS_PER_MM
    left, low, right, high = box
    width, height = (right - left) * scale, (high - low) * scale
    match turn % 360:
        case 90:
            return Affine(0, -scale, scale, 0, -low * scale, right * scale), (height, width)
        case 180:
            return Affine(-scale, 0, 0, -scale, right * scale, high * scale), (width, height)
        case 270:
            return Affine(0, scale, -scale, 0, high * scale, -left * scale), (height, width)
        case _:
            return Affine(scale, 0, 0, scale, -left * scale, -low * scale), (width, height)


def _content(contents: pikepdf.Object | None) -> Iterator[Operation]:
    """Operators of a page, whose content may stand in several streams."""
    if contents is None:
        return
    streams = list(contents) if isinstance(contents, pikepdf.Array) else [contents]
    if len(streams) > 1000:
        raise OperatorError("it has more than 1000 parts")
    # One word may not be divided, but an operator and its operands may be (7.8.2).
    yield from operations(b"\n".join(_bytes(stream) for stream in streams))


def _bytes(stream: pikepdf.Object) -> bytes:
    filters = stream.get("/Filter")
    if filters is None:
        names = []
    elif isinstance(filters, pikepdf.Array):
        names = [str(name) for name in filters]
    else:
        names = [str(filters)]
    if len(names) > 4:
        raise StreamError("its lines are packed many times over")
    return unpack(bytes(stream.read_raw_bytes()), names)


def _hidden_layers(pdf: pikepdf.Pdf) -> frozenset[str]:
    """Names of layers that are switched off when the file is opened (8.11.4.3)."""
    properties = pdf.Root.get("/OCProperties")
    if properties is None:
        return frozenset()
    usual = properties.get("/D", pikepdf.Dictionary())
    groups = list(usual.get("/OFF", pikepdf.Array()))
    if str(usual.get("/BaseState", "/ON")) == "/OFF":
        shown = {group.objgen for group in usual.get("/ON", pikepdf.Array())}
        groups = [one for one in properties.get("/OCGs", []) if one.objgen not in shown]
    return frozenset(_layer_name(group) for group in groups)


def _layer_name(group: pikepdf.Object) -> str:
    """The name of a layer, or of the first one that a condition asks for."""
    if "/OCGs" in group:
        inner = group["/OCGs"]
        group = inner[0] if isinstance(inner, pikepdf.Array) and len(inner) else inner
    return str(group.get("/Name", "layer"))[:80]


@dataclass
class _PageResources:
    """Names of one page or form; what it lacks is looked for in that of the page."""

    own: pikepdf.Object | None
    hidden: frozenset[str]
    outer: "_PageResources | None" = None
    forms: dict[tuple[int, int], list[Operation]] = field(default_factory=dict)
    """Content by object, shared by a page and all its forms."""

    def _named(self, kind: str, name: str) -> pikepdf.Object | None:
        entries = self.own.get(kind) if self.own is not None else None
        if entries is not None and name in entries:
            return entries[name]
        return self.outer._named(kind, name) if self.outer else None

    def layer(self, name: str) -> str | None:
        """Name of the layer that marked content belongs to."""
        group = self._named("/Properties", name)
        return None if group is None else _layer_name(group)

    def is_hidden(self, layer: str) -> bool:
        """Whether a layer is switched off."""
        return layer in self.hidden

    def spot(self, name: str) -> str:
        """Name of the ink of a colour space (8.6.6.4)."""
        space = self._named("/ColorSpace", name)
        if isinstance(space, pikepdf.Array) and len(space) > 1 and str(space[0]) == "/Separation":
            ink = str(space[1])[1:]
            return "" if ink in {"All", "None", "Black"} else ink[:80]
        return ""

    def line(self, name: str) -> tuple[float | None, tuple[float, ...] | None]:
        """Line width and dashes of a set of parameters (8.4.5)."""
        found = self._named("/ExtGState", name)
        if found is None:
            return None, None
        width = float(found["/LW"]) if "/LW" in found else None
        dash = tuple(float(one) for one in found["/D"][0]) if "/D" in found else None
        return width, dash

    def form(self, name: str) -> PaintedForm | None:
        """A form of the page (8.10.2)."""
        found = self._named("/XObject", name)
        if found is None or str(found.get("/Subtype")) != "/Form":
            return None
        if found.objgen not in self.forms:
            # Taken apart once, however often the page draws it.
            self.forms[found.objgen] = list(operations(_bytes(found)))
            if sum(map(len, self.forms.values())) > MAX_OPERATORS:
                raise OperatorError(f"its forms have more than {MAX_OPERATORS} operators")
        matrix = [float(one) for one in found.get("/Matrix", (1, 0, 0, 1, 0, 0))]
        values = [float(one) for one in found.get("/BBox", ())]
        box = (values[0], values[1], values[2], values[3]) if len(values) == 4 else None
        inner = _PageResources(found.get("/Resources"), self.hidden, self, self.forms)
        layer = _layer_name(found["/OC"]) if "/OC" in found else ""
        place = Affine(*matrix) if len(matrix) == 6 else Affine()
        return PaintedForm(self.forms[found.objgen], place, box, inner, layer)
