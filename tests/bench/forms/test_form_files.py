"""Files of meshes: three formats, their unit, and the four ways in which an author marks a cut."""

import pytest
from form_shapes import box, cone, obj, ply, stl

from guidegen.bench.forms.flatten import flatten
from guidegen.bench.forms.reading.files import read_form
from guidegen.bench.forms.records import CutAlong, FormError, FormWishes
from guidegen.errors import UsageError

TUBE = cone(50, 50, 100, 16, 2)


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.obj", obj(TUBE)),
        ("a.stl", stl(TUBE)),
        ("a.stl", stl(TUBE, text=True)),
        ("a.ply", ply(TUBE)),
        ("a.ply", ply(TUBE, text=True)),
    ],
    ids=["obj", "stl", "stl-text", "ply", "ply-text"],
)
def test_all_formats_give_the_same_piece(name, data):
    """A tube comes out the same from OBJ, and from STL and PLY as bytes and as text."""
    found = flatten(data, name, FormWishes("mm", up="z"))
    assert found.pieces[0].size == pytest.approx((314.159, 100), abs=0.001)


def test_the_unit_is_asked_for_with_what_each_would_mean():
    """Without a unit nothing is made; the words say how large the form would be in each."""
    with pytest.raises(UsageError, match=r"--unit mm, cm, m or inch.*in mm 100 mm, in cm 1000 mm"):
        flatten(obj(TUBE), "a.obj", FormWishes(""))


@pytest.mark.parametrize(("unit", "mm"), [("mm", 1), ("cm", 10), ("m", 1000), ("inch", 25.4)])
def test_units_are_taken_to_mm(unit, mm):
    """The inch has 25.4 mm (international agreement of 1959)."""
    small = TUBE[0] / 40 if unit != "mm" else TUBE[0]
    if unit == "m":
        small = TUBE[0] / 1000
    read = read_form(obj((small, TUBE[1])), "a.obj", unit)
    assert read.points == pytest.approx(small * mm, abs=1e-5)


def test_a_wrong_unit_is_told():
    """A form of 100 m is in another unit; the words give the others."""
    with pytest.raises(FormError, match=r"in m its longest side is 1e\+05 mm.*in mm 100 mm"):
        flatten(obj(TUBE), "a.obj", FormWishes("m"))


def islands(form, side) -> bytes:
    """A box whose faces lie on the texture map in two islands, parted at a height."""
    points, faces = form
    rows = [f"v {x} {y} {z}" for x, y, z in points]
    rows += [f"vt {x / 200} {y / 200}" for x, y, z in points]
    rows += [f"vt {0.5 + x / 200} {0.5 + y / 200}" for x, y, z in points]
    count = len(points)
    for face in faces:
        more = count if points[face].mean(axis=0)[2] > side else 0
        rows.append("f " + " ".join(f"{p + 1}/{p + 1 + more}" for p in face))
    return "\n".join(rows).encode()


def test_islands_of_the_texture_map_are_pieces():
    """A tube in two islands is cut between them, and each is slit open."""
    found = flatten(islands(TUBE, 50), "a.obj", FormWishes("mm", up="z"))
    assert found.along is CutAlong.ISLANDS
    assert [piece.size for piece in found.pieces] == [pytest.approx((314.159, 50), abs=0.01)] * 2
    joined = [seam for seam in found.seams if len({end[0] for end in seam.ends}) == 2]
    assert sum(seam.lengths[0] for seam in joined) == pytest.approx(314.159, abs=0.01)


def test_materials_part_pieces_and_name_them():
    """Pieces are cut at borders of materials, and called after the material that is theirs alone."""
    points, faces = TUBE
    rows = [f"v {x} {y} {z}" for x, y, z in points]
    for name, low in (("lower part", True), ("upper part", False)):
        rows.append(f"usemtl {name}")
        rows += [
            "f " + " ".join(str(p + 1) for p in face)
            for face in faces
            if bool(points[face].mean(axis=0)[2] < 50) is low
        ]
    found = flatten("\n".join(rows).encode(), "a.obj", FormWishes("mm", up="z"))
    assert found.along is CutAlong.MATERIALS
    assert [piece.name for piece in found.pieces] == ["upper part", "lower part"]


def test_drawn_lines_are_cut_and_others_told():
    """Line elements along edges are seams; one that leaves the mesh's edges is told."""
    lines = "l 1 17 33\nl 9 25 41\nl 1 12\n"
    found = flatten(obj(TUBE, lines), "a.obj", FormWishes("mm", up="z"))
    assert found.along is CutAlong.LINES
    assert [piece.size for piece in found.pieces] == [pytest.approx((157.08, 100), abs=0.01)] * 2
    assert "1 drawn line left out that do not run along edges of the mesh" in found.notes


def test_sharp_edges_inside_a_piece_become_folds():
    """A box cut along drawn lines alone keeps its other edges as lines to fold along."""
    points, faces = box(100, 80, 60, 1)
    at = {tuple(point): n + 1 for n, point in enumerate(points.tolist())}
    corner = [at[x, y, z] for z in (0.0, 60.0) for x, y in ((0, 0), (100, 0), (100, 80), (0, 80))]
    a, b, c, d, e, f, g, h = corner
    cuts = [(e, h, g, f), (a, e), (b, f), (c, g), (d, h)]
    lines = "\n".join("l " + " ".join(map(str, cut)) for cut in cuts)
    found = flatten(obj((points, faces), lines), "box.obj", FormWishes("mm", up="z"))
    (piece,) = found.pieces
    assert len(piece.folds) >= 2  # round the floor, and along the lid
    assert piece.panel.strain.high < 1e-6
    assert sorted(round(v) for v in piece.size) == [220, 280]


@pytest.mark.parametrize(
    ("along", "says"),
    [
        (CutAlong.LINES, "no line runs along its edges"),
        (CutAlong.MATERIALS, "all of it has one material"),
        (CutAlong.ISLANDS, "it has no texture map"),
        (CutAlong.SHARP, "no edge turns by 40 degrees"),
    ],
)
def test_what_is_not_marked_cannot_be_cut_along(along, says):
    """Asked to cut along what the file does not have, the command says so."""
    with pytest.raises(FormError, match=says):
        flatten(obj(TUBE), "a.obj", FormWishes("mm", along))
