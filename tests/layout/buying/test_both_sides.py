"""What two sides of their own take: each hand is counted by its own measurements."""

import pytest
from geometry.kit_samples import guide_file

from guidegen.buildfile.records.steps import Use
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.outline.areas import shape_area
from guidegen.layout.buying.materials import list_materials
from guidegen.layout.records import MaterialsList
from guidegen.words import ENGLISH, SPACE

STOCK = """
materials:
  foam-5: {name: Foam, kind: sheet, thickness: 5, sheets: [{name: large, width: 1000, height: 500, price: 8}]}
  sealer: {name: Sealer, kind: liquid, packs: [{amount: 250, price: 9}],
           rate: {low: 4, likely: 4, high: 4, source: test}}
  cement: {name: Cement, kind: liquid, packs: [{amount: 250, price: 9}],
           rate: {low: 4, likely: 4, high: 4, source: test}}
  elastic: {name: Elastic, kind: length, width: 25, packs: [{amount: 1000, price: 3}]}
"""
ARMS = """\
measurements:
  arm_left: {name: "Arm girth, left", take: Around it., least: 180, most: 420}
  arm_right: {name: "Arm girth, right", take: Around it., least: 180, most: 420}
sides: {arm: [arm_left, arm_right]}
sizes:
  M: {arm: 260}
parts:
  cuff: {name: Cuff, label: C, material: foam-5, hand: pair, shape: strip, dimensions: {length: arm, width: 100}}
  rim: {name: Rim, label: R, material: foam-5, hand: pair, shape: strip, dimensions: {length: arm, width: 20}}
  plate: {name: Plate, label: P, material: foam-5, shape: strip, dimensions: {length: arm, width: 30}}
seams:
  edge: {join: [rim.bottom, cuff.top]}
"""
USES = (
    Use(material="sealer", cover=("cuff", "plate")),
    Use(material="cement", glue=("edge",)),
    Use(material="elastic", length="arm", pieces=2),
)
EDGE = 5


def bought(left: float, right: float) -> tuple[MaterialsList, float]:
    """The list of a body, and mm² of the faces of its two cuffs and its plate."""
    value, source, _ = read_tree(STOCK, "stock.yaml")
    stock, invalid = validate(Stock, value, source)
    assert stock is not None, [str(one) for one in invalid]
    file = guide_file(ARMS)
    body = {"arm_left": left, "arm_right": right}
    kit, problems = make_whole_kit(file, stock, "own", body, words=ENGLISH)
    assert kit is not None, [str(one) for one in problems]
    step = file.guide.steps[0].model_copy(update={"uses": USES})
    guide = file.guide.model_copy(update={"steps": (step,)})
    listed = list_materials(guide, stock, kit, (), kit.names(), ENGLISH)
    faces = sum(shape_area(p.shape) for p in kit.pieces if p.part in {"cuff", "plate"})
    return listed, faces


def line(listed: MaterialsList, material: str) -> float:
    """What is likely taken of a material."""
    return next(one.need for one in listed.lines if one.material == material)


def test_each_hand_takes_what_its_own_measures_ask() -> None:
    """Arms of 260 and 300 mm: cement for two faces of a joint of 5 mm along each rim; sealer for a
    face of each cuff, with its cut edges less the joint, and for a plate of the larger arm."""
    listed, faces = bought(260, 300)
    assert line(listed, "cement") == pytest.approx((260 + 300) * EDGE * 2 / 1e6 / 4 * 1000)
    rims = sum(2 * (long + 100) * EDGE - long * EDGE for long in (260, 300)) + 2 * 330 * EDGE
    assert faces == 260 * 100 + 300 * 100 + 300 * 30
    assert line(listed, "sealer") == pytest.approx((faces + rims) / 1e6 / 4 * 1000)
    cuts = sorted((cut.length, cut.pieces) for cut in listed.cuts)
    assert cuts == [(260, 1), (300, 1)]
    (elastic,) = [one for one in listed.lines if one.material == "elastic"]
    assert "1 × 260 mm + 1 × 300 mm" in elastic.basis.replace(SPACE, " ")


def test_which_side_is_larger_does_not_matter() -> None:
    """The same arms the other way round take as much; equal arms as in a table of sizes."""
    one, other = bought(260, 300)[0], bought(300, 260)[0]
    for material in ("cement", "sealer", "elastic"):
        assert line(one, material) == pytest.approx(line(other, material))
    assert line(bought(280, 280)[0], "cement") == pytest.approx(line(one, "cement"))
