"""The handbook's figures of what the trade builds. Run it to draw them anew.

./start python tests/pictures/construction_figures.py
"""

from pathlib import Path

from geometry.sewing_samples import CLOTH

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.letters import read_letters
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pieces.constructions.circuits import draw_circuit
from guidegen.pictures.pieces.constructions.harness import draw_harness
from guidegen.pictures.pieces.constructions.linkages import draw_linkage
from guidegen.pictures.pieces.constructions.sewing import draw_casing, draw_pleats
from guidegen.pictures.pieces.constructions.standing import draw_standing
from guidegen.pictures.pieces.pieces import draw_piece
from guidegen.problems import collect
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

HANDBOOK = Path(__file__).parents[2] / "guidegen" / "handbook"

HEAD = """\
title: Figures
version: 1.0
date: 2026-11-01
author: A. Tester
licence: CC BY 4.0
licence-words: Copy it.
summary: Figures of the handbook.
overview: Figures of the handbook.
steps: [{id: cut, title: Cut, stage: cutting, text: Cut., time: 5 min}]
"""
STOCK = """\
materials:
  foam-5:
    name: Foam, 5 mm
    kind: sheet
    thickness: 5
    sheets: [{name: sheet, width: 1000, height: 500, price: 8}]
"""


def kit_of(text: str, stock: str = STOCK) -> Kit:
    """The kit of a guide whose parts and so on are in `text`."""
    value, source, _ = read_tree(HEAD + text, "guide.yaml")
    guide, invalid = validate(Guide, value, source)
    assert guide is not None, [str(problem) for problem in invalid]
    tree, place, _ = read_tree(stock, "stock.yaml")
    goods, invalid = validate(Stock, tree, place)
    assert goods is not None, [str(problem) for problem in invalid]
    outlines, _ = collect(read_letters(guide, source))
    file = GuideFile("figures", guide, source, letters=outlines)
    kit, problems = make_whole_kit(file, goods, file.size_names()[0], words=ENGLISH)
    assert kit is not None, [str(problem) for problem in problems]
    return kit


def _plate(name: str, label: str, length: float) -> str:
    holes = "count: 2, inset: 30, margin: 20, diameter: 5"
    return f"""\
  {name}:
    name: {name.capitalize()} plate
    label: {label}
    material: foam-5
    shape: strip
    dimensions: {{length: {length}, width: 100}}
    points:
      high: {{along: top, {holes}}}
      low: {{along: bottom, {holes}}}
"""


def linkage() -> Drawing:
    """The elbow of the chapter on plates that move."""
    plates = _plate("upper", "A", 260) + _plate("cop", "B", 280) + _plate("lower", "C", 260)
    chapter = (HANDBOOK / "join" / "moving.md").read_text(encoding="utf-8")
    entry = chapter.split("```yaml\n")[1].split("steps:\n")[0]
    return draw_linkage(kit_of(f"parts:\n{plates}{entry}").linkages[0], ENGLISH)


CELLS = """\
  cell-aa: {name: Cell, kind: count, cell: {volts: 1.5, capacity: 2000}, packs: [{amount: 4}]}
  light-5-white: {name: Light, kind: count, light: {volts: 3.1, current: 20}, packs: [{amount: 1}]}
  resistor: {name: Resistor, kind: count, packs: [{amount: 10}]}
  slide-switch: {name: Switch, kind: count, packs: [{amount: 1}]}
"""


def circuit() -> Drawing:
    """The lamp of the chapter on things: three cells, four branches."""
    text = """\
parts:
  box:
    name: Box
    label: A
    material: foam-5
    shape: strip
    dimensions: {length: 200, width: 80}
circuits:
  lamp: {name: Lamp, on: box, cell: cell-aa, cells: 3, light: light-5-white, branches: 4,
         resistor: resistor, switch: slide-switch}
"""
    return draw_circuit(kit_of(text, STOCK + CELLS).circuits[0], ENGLISH)


def sewn() -> Kit:
    """A skirt with pleats and a casing, a bodice with a dart."""
    text = """\
parts:
  skirt:
    name: Skirt
    label: A
    material: canvas
    shape: strip
    dimensions: {length: 400, width: 220}
    pleats: [{edge: bottom, kind: box, depth: 20, count: 3, margin: 80}]
  bodice:
    name: Bodice
    label: B
    material: canvas
    shape: strip
    dimensions: {length: 240, width: 160}
    allowances: {top: {kind: seam, width: 12}, bottom: {kind: seam, width: 12}}
    darts: [{edge: top, at: 90, width: 36, length: 110}]
casings:
  waist: {name: Waist, along: [skirt.top], goods: elastic, length: 300}
"""
    return kit_of(text, STOCK + CLOTH)


def pleats() -> Drawing:
    """The skirt: three box pleats, opened, and its casing above."""
    return draw_piece(next(sewn().built("skirt")), "figure", lang=ENGLISH)


def pleat() -> Drawing:
    """One box pleat from its edge."""
    piece = next(sewn().built("skirt"))
    return draw_pleats(piece, piece.taken[0], ENGLISH)


def dart() -> Drawing:
    """The bodice: legs, middle, trued end."""
    return draw_piece(next(sewn().built("bodice")), "figure", lang=ENGLISH)


def casing() -> Drawing:
    """The casing of the skirt, cut across."""
    return draw_casing(sewn().casings[0], ENGLISH)


GOODS = """\
  webbing-25: {name: Webbing, kind: length, width: 25, packs: [{amount: 5000}]}
  d-ring-25: {name: D-ring, kind: count, packs: [{amount: 10}]}
  slider-25: {name: Slider, kind: count, packs: [{amount: 10}]}
"""


def harness() -> Drawing:
    """The harness of its chapter, on a chest of 960 mm and a waist of 820."""
    text = """\
values: {chest: 960, waist: 820}
parts:
  back:
    name: Back
    label: A
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 300, height: 300}
    points: {shoulders: {kind: patch, along: top, count: 2, margin: 50, diameter: 25, length: 60}}
  pouch:
    name: Pouch
    label: B
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 100, height: 100}
    points: {hang: {kind: patch, along: top, count: 1, diameter: 25, length: 50}}
"""
    chapter = (HANDBOOK / "join" / "harness.md").read_text(encoding="utf-8")
    entry = chapter.split("```yaml\n")[1].split("steps:\n")[0]
    return draw_harness(kit_of(text + entry, STOCK + GOODS).harnesses[0], ENGLISH)


def letters() -> Drawing:
    """Words to paint, and a figure as a stencil."""
    text = """\
parts:
  plate:
    name: Plate
    label: A
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 280, height: 130, radius: 12}
    inscriptions:
      - {text: QUAY, height: 44, at: [-50, 20]}
      - {text: "8", height: 90, at: [90, 0], as: cut-out}
"""
    return draw_piece(next(kit_of(text).built("plate")), "figure", lang=ENGLISH)


def standing() -> Drawing:
    """A crest that leans on a plate, of the chapter on seams."""
    text = """\
parts:
  crest:
    name: Crest
    label: C
    material: foam-5
    shape: strip
    dimensions: {length: 120, width: 40}
  band:
    name: Band
    label: A
    material: foam-5
    shape: strip
    dimensions: {length: 200, width: 80}
    lines:
      crest: {line: {from: [-60, 0], to: [60, 0]}}
seams:
  foot: {join: [crest.bottom, band.crest], angle: 75}
"""
    kit = kit_of(text)
    return draw_standing(kit.seams[0], kit, ENGLISH)


FIGURES = {
    "join/pictures/standing.svg": standing,
    "join/pictures/harness.svg": harness,
    "draw/pictures/letters.svg": letters,
    "join/pictures/pleats.svg": pleats,
    "join/pictures/pleat.svg": pleat,
    "join/pictures/dart.svg": dart,
    "join/pictures/casing.svg": casing,
    "join/pictures/linkage.svg": linkage,
    "join/pictures/circuit.svg": circuit,
}

if __name__ == "__main__":
    for path, draw in FIGURES.items():
        (HANDBOOK / path).write_text(svg_file(draw()), encoding="utf-8")
