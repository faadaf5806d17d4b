"""A DXF file's text in → its lines as paths in mm out. With render/lists/dxf.py alone in ezdxf."""

import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from math import isfinite

from ezdxf import path as dxf_path
from ezdxf.colors import aci2rgb, int2rgb
from ezdxf.document import Drawing as Document
from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.insert import Insert
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.polyline import Polyline
from ezdxf.filemanagement import read
from ezdxf.lldxf.const import DXFError
from ezdxf.path import Curve3To, Curve4To, LineTo
from ezdxf.units import decode

from guidegen.bench.vectors.dxf_shapes import ellipse, flat, from_front, is_speck, polyline, toward
from guidegen.bench.vectors.records import (
    MAX_SEGMENTS,
    FoundFile,
    FoundPage,
    FoundPath,
    StrokeLook,
    refuse,
)
from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Run, Segment

MAX_FILE = 8_000_000
"""Bytes. Our choice: 10,000 lines fill one million."""
MAX_ENTITIES = 12_000
"""Things in a file, points of old polylines among them: reading 10,000 takes two seconds."""
MAX_LINES = 1_000_000
"""Lines of text."""
MAX_DEPTH = 8
"""Blocks inside one another. Our choice."""
LAST_UNIT = 20
"""The last unit of length that the format knows by number."""
FARTHEST = 1e7
"""Units that a line may lead away, or an arc be round: 10 km in mm."""
MAX_DEGREE = 20
"""Of a spline. Our choice: editors write three."""

_WORDS = {"TEXT", "MTEXT", "ATTDEF", "ATTRIB", "DIMENSION", "LEADER", "MULTILEADER"}
_PICTURES = {"IMAGE", "OLE2FRAME", "WIPEOUT", "PDFUNDERLAY", "DWFUNDERLAY", "DGNUNDERLAY"}
_ODD = (
    DXFError, ValueError, TypeError, KeyError, IndexError, AttributeError, ZeroDivisionError,
    OverflowError, AssertionError, NotImplementedError, RuntimeError, StopIteration,
)  # fmt: skip
"""What ezdxf raises on values that are not what they should be."""


def read_dxf(data: bytes, file: str) -> FoundFile:
    """The lines of a DXF file. Raises VectorError with what keeps it from being read."""
    text = _checked_text(data, file)
    try:
        document = read(io.StringIO(text))
    except (*_ODD, RecursionError, MemoryError):
        message = "the file is damaged: it cannot be read as DXF"
        cure = "write it anew as DXF from the program that made it"
        raise refuse("vector-file", file, message, cure) from None
    reader = _Reader(document, file)
    try:
        reader.walk(document.modelspace())
    except (*_ODD, RecursionError, MemoryError):
        message = "the file is damaged: a part of it cannot be read"
        raise refuse("vector-file", file, message, "write it anew as DXF") from None
    page = FoundPage(
        1,
        tuple(reader.paths),
        texts=reader.texts,
        pictures=reader.pictures,
        left_out=reader.left_out,
    )
    return FoundFile(file, (page,), _unit(document), "", tuple(reader.hidden))


def _checked_text(data: bytes, file: str) -> str:
    """The text of a file that is worth reading. Raises VectorError."""
    cure = "write it as DXF in plain text (ASCII) from the program that made it"
    if data.startswith(b"AutoCAD Binary DXF"):
        raise refuse("vector-file", file, "the file is a DXF of the binary kind", cure)
    if data[:4] == b"AC10" and data[4:6].isdigit():
        raise refuse(
            "vector-file", file, "the file is no DXF but of the kind that ends in .dwg", cure
        )
    if len(data) > MAX_FILE:
        raise refuse("vector-large", file, f"the file is larger than {MAX_FILE // 1_000_000} MB")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        # Files before 2007 are in the code page of their machine; only names of layers are words.
        text = data.decode("cp1252", "replace")
    lines = text.splitlines()
    entities = sum(line.strip() == "0" for line in lines[::2])
    if len(lines) > MAX_LINES or entities > MAX_ENTITIES:
        message = f"the file holds more than {MAX_ENTITIES} things"
        cure = "write the outline alone, its curves as splines or arcs"
        raise refuse("vector-large", file, message, cure)
    if "SECTION" not in text or "ENTITIES" not in text:
        raise refuse("vector-file", file, "the file is no DXF: it has no section of entities", cure)
    return text


def _unit(document: Document) -> str:
    """The unit that the file states; empty for none."""
    code = int(document.header.get("$INSUNITS", 0))
    # Numbers that no version of the format knows say as little as 0.
    return (decode(code) or "") if 0 < code <= LAST_UNIT else ""


@dataclass
class _Reader:
    document: Document
    file: str
    paths: list[FoundPath] = field(default_factory=list)
    texts: int = 0
    pictures: int = 0
    left_out: dict[str, int] = field(default_factory=dict)
    hidden: dict[str, None] = field(default_factory=dict)
    segments: int = 0
    visits: int = 0

    def walk(self, entities: Iterable[DXFGraphic], depth: int = 0, layer: str = "") -> None:
        """Read all entities; those of a block on layer 0 lie on the layer where it is put."""
        if depth > MAX_DEPTH:
            raise refuse("vector-large", self.file, "blocks are put into blocks without end")
        for entity in entities:
            self.visits += 1
            # Counted as they come: a block of blocks unfolds to millions.
            if self.visits > MAX_ENTITIES:
                message = f"the file holds more than {MAX_ENTITIES} things, blocks taken apart"
                raise refuse("vector-large", self.file, message)
            own = str(entity.dxf.get("layer", "0"))
            place = layer if own == "0" and layer else own
            if self._is_hidden(place) or entity.dxf.get("invisible", 0):
                self.hidden[place] = None
            elif isinstance(entity, Insert):
                self._insert(entity, depth, place)
            else:
                self._entity(entity, place)

    def _is_hidden(self, name: str) -> bool:
        if name not in self.document.layers:
            return False
        layer = self.document.layers.get(name)
        return bool(layer.is_off() or layer.is_frozen())

    def _insert(self, entity: Insert, depth: int, layer: str) -> None:
        if entity.mcount > 1:
            copies = entity.multi_insert()
            for number, one in enumerate(copies):
                if number > MAX_ENTITIES:
                    raise refuse("vector-large", self.file, "a block is put too many times")
                self.walk(one.virtual_entities(), depth + 1, layer)
            return
        self.walk(entity.virtual_entities(), depth + 1, layer)

    def _entity(self, entity: DXFGraphic, layer: str) -> None:
        kind = entity.dxftype()
        if kind in _WORDS:
            self.texts += 1
        elif kind in _PICTURES:
            self.pictures += 1
        elif kind in _LINES:
            for run, closed in self._runs(entity, kind):
                self._keep(run, closed, self._look(entity, layer))
        elif kind not in {"POINT", "VIEWPORT"}:
            self.left_out[kind] = self.left_out.get(kind, 0) + 1

    def _keep(self, run: Run, closed: bool, look: StrokeLook) -> None:
        run = tuple(one for one in run if not is_speck(one))
        if not run:
            return
        self.segments += len(run)
        if self.segments > MAX_SEGMENTS:
            message = f"the file has more than {MAX_SEGMENTS} segments of lines"
            raise refuse("vector-large", self.file, message, "simplify the curves")
        for segment in run:
            for x, y in (segment_start(segment), segment_end(segment)):
                if not (isfinite(x) and isfinite(y) and max(abs(x), abs(y)) < FARTHEST):
                    raise refuse("vector-file", self.file, "a line leads out of all proportion")
            if isinstance(segment, Arc) and not segment.radius < FARTHEST:
                raise refuse("vector-file", self.file, "an arc is round out of all proportion")
        self.paths.append(FoundPath((Subpath(run, closed),), look))

    def _look(self, entity: DXFGraphic, layer: str) -> StrokeLook:
        dxf = entity.dxf
        colour = int(dxf.get("color", 256))
        if dxf.hasattr("true_color"):
            rgb = int2rgb(dxf.true_color)
        else:
            # 0 and 256 are those of the block and of the layer.
            if colour in {0, 256} and layer in self.document.layers:
                colour = abs(self.document.layers.get(layer).color)
            rgb = aci2rgb(colour) if 1 <= colour <= 255 and colour != 7 else aci2rgb(250)
        name = "" if layer == "0" else layer
        if 1 <= colour <= 255 and colour == 7:
            return StrokeLook(name)
        return StrokeLook(name, f"#{rgb[0]:02x}{rgb[1]:02x}{rgb[2]:02x}")

    def _runs(self, entity: DXFGraphic, kind: str) -> Iterator[tuple[Run, bool]]:
        dxf = entity.dxf
        flipped = self._is_flipped(entity)
        match kind:
            case "LINE":
                self._check_level(dxf.start, dxf.end)
                yield (Line(flat(dxf.start), flat(dxf.end)),), False
            case "CIRCLE":
                circle = Arc(flat(dxf.center), abs(float(dxf.radius)), 0.0, 360.0)
                yield (from_front(circle) if flipped else circle,), True
            case "ARC":
                first, last = float(dxf.start_angle), float(dxf.end_angle)
                arc = Arc(
                    flat(dxf.center), abs(float(dxf.radius)), first, (last - first) % 360 or 360
                )
                yield (from_front(arc) if flipped else arc,), False
            case "LWPOLYLINE" if isinstance(entity, LWPolyline):
                points = [(float(x), float(y), float(b)) for x, y, b in entity.get_points("xyb")]
                yield (
                    polyline(points, closed=bool(entity.closed), flip=flipped),
                    bool(entity.closed),
                )
            case "POLYLINE" if isinstance(entity, Polyline) and entity.is_2d_polyline:
                points = [
                    (*flat(v.dxf.location), float(v.dxf.get("bulge", 0)))
                    for v in entity.vertices
                    # What the curve was fitted to is no point of it.
                    if not int(v.dxf.get("flags", 0)) & 16
                ]
                yield (
                    polyline(points, closed=bool(entity.is_closed), flip=flipped),
                    bool(entity.is_closed),
                )
            case "ELLIPSE":
                u = flat(dxf.major_axis)
                side = float(dxf.ratio) * (-1.0 if flipped else 1.0)
                span = (float(dxf.start_param), float(dxf.end_param))
                yield ellipse(flat(dxf.center), u, (-u[1] * side, u[0] * side), span)
            case _:
                yield from self._curves(entity)

    def _curves(self, entity: DXFGraphic) -> Iterator[tuple[Run, bool]]:
        """Splines and polylines in space as lines and cubics."""
        if entity.dxftype() == "SPLINE" and int(entity.dxf.get("degree", 3)) > MAX_DEGREE:
            raise ValueError("a spline of that degree")
        found = dxf_path.make_path(entity, level=16)
        run: list[Segment] = []
        at = flat(found.start)
        for command in found.commands():
            self._check_level(found.start, command.end)
            end = flat(command.end)
            match command:
                case LineTo():
                    run.append(Line(at, end))
                case Curve3To():
                    control = flat(command.ctrl)
                    run.append(Cubic(at, toward(at, control), toward(end, control), end))
                case Curve4To():
                    run.append(Cubic(at, flat(command.ctrl1), flat(command.ctrl2), end))
            at = end
        yield tuple(run), bool(run) and bool(found.is_closed)

    def _check_level(self, first: Sequence[float], second: Sequence[float]) -> None:
        """Raise VectorError where a line leads out of the plane: seen from above it is shorter."""
        if abs(float(first[2]) - float(second[2])) > 1e-6:
            message = "a line leads out of the plane of the drawing"
            cure = "flatten the drawing before writing it"
            raise refuse("vector-file", self.file, message, cure)

    def _is_flipped(self, entity: DXFGraphic) -> bool:
        """Whether it is given as seen from behind, as mirrored arcs are.

        Raises VectorError where it is tilted.
        """
        _, _, z = entity.dxf.get("extrusion", (0, 0, 1))
        if abs(z) > 1 - 1e-6 or entity.dxftype() in {"LINE", "SPLINE"}:
            return bool(z < 0)
        message = f"a {entity.dxftype().lower()} stands up from the plane of the drawing"
        raise refuse("vector-file", self.file, message, "flatten the drawing before writing it")


_LINES = {"LINE", "CIRCLE", "ARC", "LWPOLYLINE", "POLYLINE", "ELLIPSE", "SPLINE", "HELIX"}
