"""Cloth in the finished view: pleated, gathered and darted as it is sewn, fuller at its hem."""

import numpy as np
import pytest
from geometry.kit_samples import guide_file
from geometry.sewing_samples import made_of_cloth

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import PlacedSheet
from guidegen.assembly.sheets.darted import SLIT, DartWedge, closed

SKIRT = """\
measurements: {{waist: {{name: W, take: T}}}}
sizes: {{M: {{waist: 820}}}}
parts:
  skirt:
    name: Skirt
    label: A
    material: canvas
    shape: strip
    dimensions: {{length: 400, width: 300}}
    worn: {{on: waist, up: -150, off: 30}}
    {more}
"""
PLEATS = "pleats: [{edge: top, count: 4, depth: 20, margin: 50}]"


def skirt(more: str) -> PlacedSheet:
    """The skirt on the figure."""
    text = SKIRT.format(more=more)
    kit, problems = made_of_cloth(text)
    assert kit is not None, [str(one) for one in problems]
    (sheet,) = make_assembly(guide_file(text).guide, kit).sheets
    return sheet


def test_pleats_bring_cloth_to_its_sewn_width() -> None:
    """Four knife pleats of 20 mm take 160 mm more cloth, and the skirt goes as far round the body as
    the plain one of 400 mm; the folds stand out by 10 mm at the hem and by 1 at the top."""
    plain, folded = skirt(""), skirt(PLEATS)
    assert np.ptp(folded.flat[:, 0]) == pytest.approx(560)
    tops = [one.middle[one.flat[:, 1] > one.flat[:, 1].max() - 1] for one in (plain, folded)]
    spans = [float(np.ptp(top[:, 0])) for top in tops]
    assert spans[1] == pytest.approx(spans[0], abs=4)
    rises = []
    for level in (folded.flat[:, 1].max(), folded.flat[:, 1].min()):
        row = folded.middle[np.abs(folded.flat[:, 1] - level) < 1]
        beside = plain.middle[np.abs(plain.flat[:, 1] - level) < 1]
        # What lies before the plain skirt, along its own front.
        front = np.interp(row[:, 0], *(beside[beside[:, 0].argsort()][:, k] for k in (0, 2)))
        rises.append(float(np.ptp((row[:, 2] - front)[np.abs(row[:, 0]) < 100])))
    assert rises == pytest.approx([2, 20], rel=0.35)


DARTS = (
    "darts: [{edge: top, at: 110, width: 40, length: 140, toward: start}, "
    "{edge: top, at: 290, width: 40, length: 140, toward: end}]"
)


def _along(sheet: PlacedSheet, *, top: bool) -> float:
    """mm along a rim of a strip in space, in the order of the cloth."""
    level = sheet.flat[:, 1].max() if top else sheet.flat[:, 1].min()
    row = np.flatnonzero(np.abs(sheet.flat[:, 1] - level) < 1)
    line = sheet.middle[row[np.argsort(sheet.flat[row, 0])]]
    return float(np.sqrt((np.diff(line, axis=0) ** 2).sum(1)).sum())


def test_darts_are_closed() -> None:
    """Two darts of 40 mm make a rim of 400 mm 320 mm long, but for the slits of 3 mm at which they
    are seen; the hem stays 400 mm; the cloth inside them, twice half of 40 by 140 mm, is gone."""
    plain, sewn = skirt(""), skirt(DARTS)
    assert _along(plain, top=True) == pytest.approx(400, abs=1)
    assert _along(sewn, top=True) == pytest.approx(400 - 2 * (40 - SLIT), abs=1)
    assert _along(sewn, top=False) == pytest.approx(400, abs=1)
    corners = sewn.flat[sewn.triangles]
    one, two = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]).sum() / 2
    assert area == pytest.approx(400 * 300 - 40 * 140, rel=1e-3)


def test_what_lies_beside_darts_keeps_its_place_along_them() -> None:
    """Closing moves points across a dart alone, by half of its width at their height on both sides,
    and nothing beyond its tip."""
    wedge = DartWedge((0.0, 0.0), (-20.0, 100.0), (0.0, 105.0), (20.0, 100.0))
    flat = np.array([[-60.0, 100.0], [60.0, 50.0], [60.0, 0.0], [-60.0, -40.0], [20.0, 100.0]])
    moved = closed(flat, (wedge,))
    gap = SLIT / 2
    wanted = [[-40 - gap, 100], [50 + gap, 50], [60, 0], [-60, -40], [gap, 100]]
    assert moved == pytest.approx(np.array(wanted))


def test_gathers_are_drawn_in() -> None:
    """A frill of 600 mm on an edge of 400 mm goes as far round the body as a strip of 400 mm, and
    all of its cloth is in the waves of its hem."""
    frill_of = (
        "  frill: {{name: F, label: B, material: canvas, shape: strip, dimensions: {{length: {0}, "
        "width: 100}}, worn: {{on: waist, up: -350, off: 30}}}}\n"
    )
    seam = "seams: {frill: {join: [frill.top, skirt.bottom], gathers: 1.5}}\n"
    frills = []
    for length, more in ((600, seam), (400, "")):
        text = SKIRT.format(more="") + frill_of.format(length) + more
        kit, problems = made_of_cloth(text)
        assert kit is not None, [str(one) for one in problems]
        sheets = make_assembly(guide_file(text).guide, kit).sheets
        frills.append(next(one for one in sheets if one.part == "frill"))
    frill, plain = frills
    spans = [float(np.ptp(one.middle[:, 0])) for one in (frill, plain)]
    assert spans[0] == pytest.approx(spans[1], abs=25)
    assert _along(plain, top=False) == pytest.approx(400, abs=1)
    # Chords of the mesh are shorter than its waves.
    assert _along(frill, top=False) == pytest.approx(600, rel=0.08)
