"""A stock with cloth, elastic and cord, and guides that are sewn from them."""

from geometry.kit_samples import STOCK, guide_file

from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.problems import Problem
from guidegen.words import ENGLISH

CLOTH = """\
  canvas:
    name: Canvas
    kind: sheet
    made-of: cloth
    thickness: 0.5
    sheets: [{name: cut, width: 2000, height: 1500, price: 9}]
  elastic: {name: Elastic, kind: length, width: 25, stretch: 60, packs: [{amount: 2000, price: 3}]}
  cord: {name: Cord, kind: length, thickness: 4, packs: [{amount: 2000, price: 3}]}
"""


def made_of_cloth(text: str) -> tuple[Kit | None, list[Problem]]:
    """The kit of a guide of cloth."""
    value, source, _ = read_tree(STOCK + CLOTH, "stock.yaml")
    goods, invalid = validate(Stock, value, source)
    assert goods is not None, [str(problem) for problem in invalid]
    file = guide_file(text)
    return make_whole_kit(file, goods, file.size_names()[0], words=ENGLISH)
