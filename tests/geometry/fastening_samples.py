"""A stock with webbing, elastic, buckles and rivets, and guides that are held together."""

from geometry.kit_samples import STOCK, guide_file

from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.problems import Problem
from guidegen.words import ENGLISH

GOODS = """\
  webbing: {name: Webbing, kind: length, width: 25, thickness: 1.5,
            packs: [{amount: 5000, price: 6}]}
  belt: {name: Belt, kind: length, width: 50, thickness: 2.5, packs: [{amount: 3000, price: 6}]}
  elastic: {name: Elastic, kind: length, width: 25, stretch: 60, packs: [{amount: 2000, price: 3}]}
  tape: {name: Tape, kind: length, width: 25, thickness: 4, packs: [{amount: 1000, price: 3}]}
  buckle: {name: Buckle, kind: count, takes: 55, packs: [{amount: 1, price: 1}]}
  slider: {name: Slider, kind: count, packs: [{amount: 1, price: 1}]}
  rivet-9:
    name: Rivet, 9 mm
    kind: count
    fastener: {grip: [5, 8], hole: 4, post: 9, washer: 1, longer: [rivet-15, rivet-20]}
    packs: [{amount: 20, price: 4}]
  rivet-15:
    name: Rivet, 15 mm
    kind: count
    fastener: {grip: [11, 14], hole: 4, post: 15, washer: 1}
    packs: [{amount: 20, price: 4}]
  rivet-20:
    name: Rivet, 20 mm
    kind: count
    fastener: {grip: [16, 19], hole: 4, post: 20, washer: 1}
    packs: [{amount: 20, price: 4}]
"""


def goods() -> Stock:
    """Foam to cut from, and what holds it."""
    value, source, _ = read_tree(STOCK + GOODS, "stock.yaml")
    found, invalid = validate(Stock, value, source)
    assert found is not None, [str(problem) for problem in invalid]
    return found


def try_whole(text: str, size: str | None = None) -> tuple[Kit | None, list[Problem]]:
    """The kit of a guide, fastened and strapped, and all problems."""
    file = guide_file(text)
    return make_whole_kit(file, goods(), size or file.size_names()[0], words=ENGLISH)


def whole(text: str, size: str | None = None) -> Kit:
    """The kit of a guide that has no problem."""
    kit, problems = try_whole(text, size)
    assert kit is not None, [str(problem) for problem in problems]
    assert problems == []
    return kit


def told(text: str, size: str | None = None) -> list[tuple[str, str, str]]:
    """Code, path and message of every problem."""
    kit, problems = try_whole(text, size)
    assert kit is None
    return [(problem.code, problem.path, problem.message) for problem in problems]
