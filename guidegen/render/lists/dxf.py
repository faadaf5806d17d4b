"""Drawings for machines → DXF R2010 in mm, layers by line type, each line one entity.

The only module that imports ezdxf. The same input gives the same bytes: no dates, fixed ids.
"""

import io
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from math import radians, tan

from ezdxf import units
from ezdxf._options import options
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from guidegen.geometry.outline.biarcs import arcs_along
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Run
from guidegen.pictures.machines.records import MachineLayer
from guidegen.pictures.pen.records import Drawing, Lettering, Path, groups

LAYERS: dict[MachineLayer, tuple[int, str]] = {
    MachineLayer.CUT: (7, "CONTINUOUS"),
    MachineLayer.SCORE: (3, "CONTINUOUS"),
    MachineLayer.GROOVE: (6, "DASHED"),
    MachineLayer.RIM: (11, "DASHED"),
    MachineLayer.MARK: (1, "CONTINUOUS"),
    MachineLayer.GUIDE: (8, "DASHDOT"),
    MachineLayer.BEVEL: (5, "DASHED"),
    MachineLayer.LABEL: (9, "CONTINUOUS"),
}
"""Colour index and line type of each layer."""

LINETYPES = {
    "DASHED": ("dashed, 3 and 0.75 mm", (3.75, 3.0, -0.75)),
    "DASHDOT": ("long dash, dot, 6, 0.75, 0.1 and 0.75 mm", (7.6, 6.0, -0.75, 0.1, -0.75)),
}
"""Names as usual in DXF, with lengths after ISO 128-2 for a line of 0.25 mm."""

SHEET = "sheet"
"""Layer of the sheet of foam on which pieces lie: to place by, never to cut."""
TOLERANCE = 0.01
"""mm by which arcs may lie beside a curve: half of what drawings are flattened to."""


def write_dxf(drawing: Drawing, *, sheet: bool = False) -> bytes:
    """The file: outlines as closed polylines of lines and arcs, codes as text.

    Groups of `drawing` are its layers, by the names of Layer; what lies on none is left out.
    Nothing lies outside what is drawn, since many machines place by the extents: what is to be
    said of it stands in the properties of the file. With `sheet` its size is drawn as well.
    """
    out = io.StringIO()
    with _without_dates():
        document = _new_document(drawing)
        if sheet:
            corners = [(0, 0), (drawing.width, 0), (drawing.width, drawing.height)]
            corners.append((0, drawing.height))
            document.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": SHEET})
        _fill(document.modelspace(), drawing)
        _sort_classes(document)
        document.write(out)
    return out.getvalue().encode("utf-8")


@contextmanager
def _without_dates() -> Iterator[None]:
    """What ezdxf offers for tests is what we want: no dates, no ids made up anew."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _sort_classes(document: Document) -> None:
    """Put the class table in order: ezdxf fills it from a set, whose order differs by process."""
    section = document.classes
    section.add_required_classes(document.dxfversion)
    for key in sorted(section.classes):
        section.classes[key] = section.classes.pop(key)


def _fill(space: Modelspace, drawing: Drawing) -> None:
    for group in groups(drawing.items):
        if not group.layer:
            continue
        for item in group.items:
            match item:
                case Path(runs=runs, closed=closed):
                    for run in runs:
                        _add_run(space, run, group.layer, closed=closed)
                case Lettering():
                    _add_text(space, item, group.layer)


def _add_text(space: Modelspace, text: Lettering, layer: str) -> None:
    # DXF counts the height of capitals, which is 0.7 of a letter size.
    entity = space.add_text(text.words, height=text.size * 0.7, dxfattribs={"layer": layer})
    entity.set_placement(text.at, align=TextEntityAlignment.CENTER)


def _new_document(drawing: Drawing) -> Document:
    document = new("R2010", units=units.MM)
    document.header["$MEASUREMENT"] = 1
    document.header["$LTSCALE"] = 1
    document.header.custom_vars.append("Title", drawing.title)
    document.header.custom_vars.append("Laser", drawing.description)
    for name, (words, pattern) in LINETYPES.items():
        if name in document.linetypes:
            document.linetypes.remove(name)
        document.linetypes.add(name, list(pattern), description=words)
    for layer, (colour, linetype) in LAYERS.items():
        document.layers.add(layer, color=colour, linetype=linetype)
    document.layers.add(SHEET, color=254, plot=False)
    return document


def _add_run(space: Modelspace, run: Run, layer: str, *, closed: bool) -> None:
    """One entity for the whole run, so that machines follow it without lifting."""
    look = {"layer": layer}
    segments = [part for segment in run for part in _plain(segment)]
    first = segments[0]
    if len(run) == 1 and isinstance(run[0], Arc):
        _add_arc(space, run[0], look)
        return
    if len(segments) == 1 and isinstance(first, Line):
        space.add_line(first.start, first.end, dxfattribs=look)
        return
    vertices = [(*segment_start(segment), _bulge(segment)) for segment in segments]
    if not closed:
        vertices.append((*segment_end(segments[-1]), 0.0))
    space.add_lwpolyline(vertices, format="xyb", close=closed, dxfattribs=look)


def _plain(segment: Line | Arc | Cubic) -> Iterator[Line | Arc]:
    """A segment as polylines hold it: a curve as arcs, an arc of more than a half turn in two."""
    if isinstance(segment, Cubic):
        yield from arcs_along(segment, TOLERANCE)
    elif isinstance(segment, Arc) and abs(segment.sweep) > 180:
        half = segment.sweep / 2
        yield Arc(segment.centre, segment.radius, segment.start_angle, half)
        yield Arc(segment.centre, segment.radius, segment.start_angle + half, half)
    else:
        yield segment


def _add_arc(space: Modelspace, arc: Arc, look: Mapping[str, str]) -> None:
    if abs(arc.sweep) >= 360 - 1e-9:
        space.add_circle(arc.centre, arc.radius, dxfattribs=dict(look))
        return
    start, end = arc.start_angle, arc.start_angle + arc.sweep
    if arc.sweep < 0:
        start, end = end, start
    space.add_arc(arc.centre, arc.radius, start % 360, end % 360, dxfattribs=dict(look))


def _bulge(segment: Line | Arc) -> float:
    """Tangent of a quarter of the turn, as polylines hold arcs (DXF reference, LWPOLYLINE)."""
    return tan(radians(segment.sweep) / 4) if isinstance(segment, Arc) else 0.0
