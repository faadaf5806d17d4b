"""DXF files read back with a library's reader and auditor: true curves, closed outlines, layers."""

import io
import subprocess
import sys
from dataclasses import replace
from itertools import pairwise
from math import pi

import ezdxf
import pytest
from ezdxf.bbox import extents as box_of
from ezdxf.path import make_path
from layout.template_samples import (
    circle_run,
    disc,
    frame,
    half_plate,
    piece,
    rectangle,
    sample_kit,
)
from shapely.geometry import LineString

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import bounds, flatten, run_length
from guidegen.geometry.outline.records import Cubic, InnerLine, LineKind
from guidegen.layout.records import CutSheet, Placed
from guidegen.pictures.machines.lines import draw_piece_for_machine, draw_sheet_for_machine
from guidegen.pictures.machines.records import LASER_NOTE, MachineLayer
from guidegen.render.lists.dxf import SHEET, write_dxf
from guidegen.words import ENGLISH

LIBRARY_ARCS = 3e-4
"""The library measures an arc by cubic curves, which are longer by up to this share of it."""


def read(data):
    """The document, checked: the auditor of the library finds nothing to say."""
    document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    audit = document.audit()
    assert not audit.errors and not audit.fixes
    return document


def length(entity):
    """Length of an entity by the library's own flattening."""
    points = list(make_path(entity).flattening(0.0005))
    return sum(a.distance(b) for a, b in pairwise(points))


def on_layer(document, layer):
    """All entities of a layer."""
    return [entity for entity in document.modelspace() if entity.dxf.layer == layer]


@pytest.mark.parametrize("one", sample_kit().pieces, ids=lambda one: one.key)
def test_every_piece_is_a_sound_file_in_millimetres(one):
    """Auditor silent, units mm, R2010, and the cut lines have the outline's length."""
    document = read(write_dxf(draw_piece_for_machine(one, sample_kit(), ENGLISH)))
    assert document.dxfversion == "AC1024"
    assert document.units == ezdxf.units.MM
    cut = sum(length(entity) for entity in on_layer(document, MachineLayer.CUT))
    wanted = sum(run_length(run) for run in (one.shape.ring(), *one.shape.holes))
    assert cut == pytest.approx(wanted, rel=LIBRARY_ARCS)


def test_every_outline_is_one_entity() -> None:
    """A disc is one closed polyline with bulges; so is a plate with curves, which machines follow
    without lifting, at most 0.01 mm beside its drawing.
    """
    round_one = read(
        write_dxf(draw_piece_for_machine(piece("d", "D", "D", disc(80)), sample_kit(), ENGLISH))
    )
    (rim,) = on_layer(round_one, MachineLayer.CUT)
    assert rim.dxftype() == "LWPOLYLINE" and rim.closed
    assert [bulge for *_, bulge in rim.get_points("xyb")] == pytest.approx([0.41421356] * 4)
    plate = half_plate()
    assert any(isinstance(one, Cubic) for one in plate.ring())
    document = read(
        write_dxf(draw_piece_for_machine(piece("p", "P", "P", plate), sample_kit(), ENGLISH))
    )
    (outline,) = on_layer(document, MachineLayer.CUT)
    assert outline.closed
    made = LineString([(p.x, p.y) for p in make_path(outline).flattening(0.001)])
    left, low, _, _ = bounds((plate.ring(),))
    drawn = LineString([(x - left, y - low) for x, y in flatten(plate.ring(), 0.001)])
    assert made.hausdorff_distance(drawn) < 0.015
    assert not document.modelspace().query("SPLINE")


def test_nothing_lies_outside_the_piece_or_the_sheet() -> None:
    """By the library's own extents a piece begins in the origin, and a sheet is as large as its foam:
    many machines place by them.
    """
    kit = sample_kit()
    for one in kit.pieces:
        document = read(write_dxf(draw_piece_for_machine(one, kit, ENGLISH)))
        box = box_of(document.modelspace())
        assert tuple(box.extmin)[:2] == pytest.approx((0, 0), abs=0.02)
        left, low, right, high = bounds((one.shape.ring(),))
        assert tuple(box.extmax)[:2] == pytest.approx((right - left, high - low), abs=0.02)
    plate = piece("belt", "K", "Plate", rectangle(90, 70))
    sheet = CutSheet("tile", 580, 400, (Placed("belt", 1, 10, 20, 0.0),), 6300)
    drawing = draw_sheet_for_machine(sheet, {"belt": plate}, kit, 1, "Mat", ENGLISH)
    document = read(write_dxf(drawing, sheet=True))
    box = box_of(document.modelspace())
    assert tuple(box.extmin)[:2] == (0, 0) and tuple(box.extmax)[:2] == (580, 400)
    (outline,) = on_layer(document, SHEET)
    assert outline.closed
    assert not document.layers.get(SHEET).dxf.plot


def test_a_code_lies_across_no_line() -> None:
    """Where a guide line runs through the middle of a piece, its code lies beside the line."""
    shape = rectangle(120, 80)
    across = InnerLine(LineKind.PLACEMENT, lines_through((-60, 0), (60, 0)))
    one = piece("p", "P", "Plate", replace(shape, lines=(across,)))
    document = read(write_dxf(draw_piece_for_machine(one, sample_kit(), ENGLISH)))
    (code,) = on_layer(document, MachineLayer.LABEL)
    (line,) = on_layer(document, MachineLayer.GUIDE)
    box = box_of([code])
    assert box.extmin.y > line.dxf.start.y + 1 or box.extmax.y < line.dxf.start.y - 1


def test_holes_marks_and_inner_lines_have_their_layers():
    """A frame has two cut rings; a plate has marks, scores and guides on their own layers."""
    document = read(
        write_dxf(draw_piece_for_machine(piece("w", "W", "W", frame()), sample_kit(), ENGLISH))
    )
    rings = on_layer(document, MachineLayer.CUT)
    assert len(rings) == 2 and all(ring.closed for ring in rings)
    cuff = sample_kit().pieces[0]
    document = read(write_dxf(draw_piece_for_machine(cuff, sample_kit(), ENGLISH)))
    assert len(on_layer(document, MachineLayer.MARK)) == 4
    (placement,) = on_layer(document, MachineLayer.GUIDE)
    assert placement.dxftype() == "ARC"
    names = {layer.dxf.name for layer in document.layers}
    assert {str(layer) for layer in MachineLayer} <= names


def test_a_code_and_a_laser_note_come_along():
    """The code lies in the piece; the note about PVC is a property of the file, where it moves nothing."""
    document = read(
        write_dxf(draw_piece_for_machine(sample_kit().pieces[2], sample_kit(), ENGLISH))
    )
    (code,) = on_layer(document, MachineLayer.LABEL)
    assert code.dxf.text == "W"
    assert "PVC" in LASER_NOTE and "vinyl" in LASER_NOTE
    assert document.header.custom_vars.get("Laser") == LASER_NOTE


def test_a_sheet_holds_its_pieces_where_the_plan_puts_them():
    """Two turned copies lie on the sheet at the places of the cut plan."""
    kit = sample_kit()
    plate = piece("belt", "K", "Plate", rectangle(90, 70))
    sheet = CutSheet(
        "tile",
        580,
        580,
        (Placed("belt", 1, 10, 20, 0.0), Placed("belt", 2, 300, 20, 90.0)),
        12600,
    )
    document = read(
        write_dxf(draw_sheet_for_machine(sheet, {"belt": plate}, kit, 1, "Mat", ENGLISH))
    )
    boxes = []
    for entity in on_layer(document, MachineLayer.CUT):
        points = entity.get_points("xy")
        boxes.append((min(points)[0], min(y for _, y in points), max(points)[0]))
    assert boxes == [pytest.approx((10, 20, 100)), pytest.approx((230, 20, 300))]


def test_the_same_drawing_gives_the_same_bytes():
    """No dates, no ids made up anew."""
    drawing = draw_piece_for_machine(sample_kit().pieces[0], sample_kit(), ENGLISH)
    assert write_dxf(drawing) == write_dxf(drawing)


def test_a_full_circle_is_a_circle():
    """A hole drawn as one arc of 360 degrees becomes a CIRCLE of the same length."""
    ring = replace(rectangle(60, 60), holes=(circle_run((30, 30), 12, -360),))
    document = read(
        write_dxf(draw_piece_for_machine(piece("r", "R", "R", ring), sample_kit(), ENGLISH))
    )
    circles = [one for one in on_layer(document, MachineLayer.CUT) if one.dxftype() == "CIRCLE"]
    assert len(circles) == 1
    assert length(circles[0]) == pytest.approx(2 * pi * 12, rel=LIBRARY_ARCS)


def test_same_bytes_in_every_process() -> None:
    """The order in which another process hashes its names does not enter the file."""
    code = (
        "import hashlib; from guidegen.pictures.pen.records import Drawing;"
        "from guidegen.render.lists.dxf import write_dxf;"
        "from ezdxf.sections.classes import REQ_R2004; REQ_R2004.reverse();"
        "print(hashlib.sha256(write_dxf(Drawing(9, 9, 't', '', ()))).hexdigest())"
    )
    plain = code.replace("REQ_R2004.reverse()", "pass")
    sums = {
        subprocess.run(
            [sys.executable, "-c", one], capture_output=True, text=True, check=True
        ).stdout
        for one in (code, plain)
    }
    assert len(sums) == 1
