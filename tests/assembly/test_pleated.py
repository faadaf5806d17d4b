"""Pleated cloth in the finished view: as wide as it is sewn, folded, fuller at its hem."""

import numpy as np
import pytest

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import PlacedSheet
from tests.geometry.kit_samples import guide_file
from tests.geometry.sewing_samples import made_of_cloth

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
