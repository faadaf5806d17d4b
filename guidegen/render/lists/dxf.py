"""Drawings for machines → DXF R2010 in mm, layers by line type, true arcs and splines.

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

NOTE = "note"
"""Layer of the laser note: switched off and never plotted."""


def write_dxf(drawing: Drawing) -> bytes:
    """The file: outlines as closed polylines with arcs, curves as splines, codes as text.

    Groups of `drawing` are its layers, by the names of Layer; what lies on none is left out.
    """
    out = io.StringIO()
    with _without_dates():
        document = _new_document(drawing)
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
    space.add_mtext(
        drawing.description,
        dxfattribs={"layer": NOTE, "char_height": 4, "width": 200, "insert": (0, -10)},
    )


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
    note = document.layers.add(NOTE, color=9, plot=False)
    note.off()
    return document


def _parts(run: Run) -> Iterator[Run]:
    """Unbroken stretches of lines and arcs, and single curves, in order."""
    stretch: list[Line | Arc] = []
    for segment in run:
        if isinstance(segment, Cubic):
            if stretch:
                yield tuple(stretch)
                stretch = []
            yield (segment,)
        else:
            stretch.append(segment)
    if stretch:
        yield tuple(stretch)


def _add_run(space: Modelspace, run: Run, layer: str, *, closed: bool) -> None:
    for part in _parts(run):
        _add_part(space, part, layer, whole=closed and len(part) == len(run))


def _add_part(space: Modelspace, part: Run, layer: str, *, whole: bool) -> None:
    """A stretch of a run; `whole` tells that it is all of a closed one."""
    look = {"layer": layer}
    first = part[0]
    if isinstance(first, Cubic):
        # A Bézier curve is a B-spline of degree 3 over one interval.
        spline = space.add_spline(degree=3, dxfattribs=look)
        spline.control_points = [
            (*point, 0.0) for point in (first.start, first.control1, first.control2, first.end)
        ]
        spline.knots = [0, 0, 0, 0, 1, 1, 1, 1]
        return
    if len(part) == 1 and isinstance(first, Arc):
        _add_arc(space, first, look)
        return
    if len(part) == 1 and isinstance(first, Line):
        space.add_line(first.start, first.end, dxfattribs=look)
        return
    vertices = [(*segment_start(segment), _bulge(segment)) for segment in part]
    if not whole:
        vertices.append((*segment_end(part[-1]), 0.0))
    space.add_lwpolyline(vertices, format="xyb", close=whole, dxfattribs=look)


def _add_arc(space: Modelspace, arc: Arc, look: Mapping[str, str]) -> None:
    if abs(arc.sweep) >= 360 - 1e-9:
        space.add_circle(arc.centre, arc.radius, dxfattribs=dict(look))
        return
    start, end = arc.start_angle, arc.start_angle + arc.sweep
    if arc.sweep < 0:
        start, end = end, start
    space.add_arc(arc.centre, arc.radius, start % 360, end % 360, dxfattribs=dict(look))


def _bulge(segment: Line | Arc | Cubic) -> float:
    """Tangent of a quarter of the turn, as polylines hold arcs (DXF reference, LWPOLYLINE)."""
    return tan(radians(segment.sweep) / 4) if isinstance(segment, Arc) else 0.0
