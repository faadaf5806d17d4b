"""Guides of a few lines for tests of geometry: a part or two at a time, made into a kit."""

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.problems import Problem

HEAD = """\
title: Test
version: 1.0
date: 2026-11-01
author: A. Tester
licence: CC BY 4.0
licence-words: Copy it.
summary: Parts for tests.
overview: Parts for tests.
steps: [{id: cut, title: Cut, stage: cutting, text: Cut., time: 5 min}]
"""

STOCK = """\
materials:
  foam-10:
    name: Foam mat, 10 mm
    kind: sheet
    thickness: 10
    sheets: [{name: mat, width: 580, height: 580, price: 5}]
  foam-5:
    name: Foam sheet, 5 mm
    kind: sheet
    thickness: 5
    sheets: [{name: small, width: 300, height: 200, price: 2},
             {name: large, width: 1000, height: 500, price: 8}]
  printed-5:
    name: Printed foam, 5 mm
    kind: sheet
    thickness: 5
    rotation: none
    rim: 10
    sheets: [{name: sheet, width: 1000, height: 500, price: 8}]
  cement:
    name: Contact cement
    kind: liquid
    packs: [{amount: 250, price: 9}]
    rate: {low: 3, likely: 4, high: 5, source: "common practice, no source"}
"""

CUFF = """\
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 280, girth-bottom: 185, length: 210, ease: 25, backing: 3}
"""


def guide_file(text: str) -> GuideFile:
    """A guide whose parts, seams and so on are in `text`."""
    value, source, problems = read_tree(HEAD + text, "guide.yaml")
    assert problems == []
    guide, invalid = validate(Guide, value, source)
    assert guide is not None, [str(problem) for problem in invalid]
    return GuideFile("test", guide, source)


def stock() -> Stock:
    """Foam to cut from."""
    value, source, _ = read_tree(STOCK, "stock.yaml")
    found, invalid = validate(Stock, value, source)
    assert found is not None, [str(problem) for problem in invalid]
    return found


def try_kit(text: str, size: str | None = None) -> tuple[Kit | None, list[Problem]]:
    """The kit of a guide in one size (its first), and all problems."""
    file = guide_file(text)
    return make_kit(file, stock(), size or file.size_names()[0])


def good_kit(text: str, size: str | None = None) -> Kit:
    """The kit of a guide that has no problem."""
    kit, problems = try_kit(text, size)
    assert kit is not None, [str(problem) for problem in problems]
    assert problems == []
    return kit


def only_piece(text: str) -> Piece:
    """The one piece of a guide with one part."""
    (piece,) = good_kit(text).pieces
    return piece


def refusals(text: str) -> list[tuple[str, str, str]]:
    """Code, path and message of every problem of a guide that makes no kit."""
    kit, problems = try_kit(text)
    assert kit is None
    return [(problem.code, problem.path, problem.message) for problem in problems]


def graded_cuff(sizes: str, more: str = "") -> str:
    """A cuff after three measurements in `sizes`, a line each; `more` lines of the part."""
    return f"""\
measurements:
  forearm: {{name: Forearm girth, take: Around the widest part., least: 180, most: 420}}
  wrist: {{name: Wrist girth, take: Around the bone., least: 120, most: 260}}
  arm_length: {{name: Forearm length, take: Elbow to wrist., least: 180, most: 340}}
sizes:
{sizes}parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {{girth-top: forearm, girth-bottom: wrist, length: arm_length - 40, ease: 25}}
{more}"""


def fin_on_plate(
    seam: str = "", line: str = "line: {from: [-60, 0], to: [60, 0]}", more: str = ""
) -> str:
    """A plate with a line, and a fin of 5 mm foam that stands there."""
    return f"""\
parts:
  fin: {{name: Fin, label: F, material: foam-5, shape: strip, dimensions: {{length: 120, width: 40}}}}
  base:
    name: Base
    label: B
    material: foam-10
    shape: rounded-rectangle
    dimensions: {{width: 200, height: 100}}
    lines:
      keel: {{{line}}}
{more}
seams:
  foot: {{join: [fin.bottom, base.keel]{seam}}}
"""
