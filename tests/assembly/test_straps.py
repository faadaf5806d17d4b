"""Straps, hangers and laces between what is placed; what hangs from a belt and lies on a strap."""

import numpy as np
import pytest
from geometry.kit_samples import STOCK, guide_file

from guidegen.assembly.placing.audit import audit_assembly
from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.records import Assembly, PlacedSheet
from guidegen.assembly.sheets.ribbons import StrapBand, arch, pushed_out, ribbon
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.words import ENGLISH

WEBBING = """
  web-50: {name: Webbing, kind: length, width: 50, thickness: 2, packs: [{amount: 5, price: 1}]}
  web-25: {name: Webbing, kind: length, width: 25, thickness: 1.5, packs: [{amount: 5, price: 1}]}
  cord: {name: Cord, kind: length, width: 3, stretch: 80, packs: [{amount: 5, price: 1}]}
  buckle: {name: Buckle, kind: count, takes: 70, packs: [{amount: 1, price: 1}]}
  rivet: {name: Rivet, kind: count, packs: [{amount: 9, price: 1}],
          fastener: {grip: [1, 30], hole: 5, post: 20, head: 10}}
"""
BELT = """
measurements: {waist: {name: W, take: T}}
sizes: {M: {waist: 860}}
parts:
  plate: {name: Plate, label: A, material: foam-5, shape: rounded-rectangle, copies: 4,
          dimensions: {width: 80, height: 60}, worn: {on: waist, faces: back, pitch: 130, off: 10},
          points: {rivets: {kind: rivet, line: {from: [-20, 0], to: [20, 0]}, count: 2, diameter: 5}}}
  flap: {name: Flap, label: B, material: foam-5, shape: rounded-rectangle,
         dimensions: {width: 120, height: 150}, worn: {on: hip, faces: back, aside: 65, up: -70, off: 20},
         points: {hole: {kind: rivet, line: {from: [0, 60], to: [0, 60]}, count: 1, diameter: 5}}}
fastenings:
  plates: {name: P, points: [plate.rivets], fastener: rivet, layers: [web-50]}
  flaps: {name: F, points: [flap.hole], fastener: rivet, layers: [web-25]}
straps:
  belt: {name: Belt, material: web-50, girth: [900, 960], closure: buckle}
  hanger: {name: Hanger, material: web-25, from: {row: flap.hole, holds: 30},
           way: {leaves: top, apart: [5, 5]}, around: web-50, overlap: [50, 50]}
"""
LAMP = """
parts:
  floor: {name: Floor, label: A, material: foam-10, shape: rounded-rectangle,
          dimensions: {width: 120, height: 120}, stands: {},
          points: {strap: {kind: patch, line: {from: [0, 0], to: [0, 0]}, count: 1, diameter: 25, length: 120}}}
  pad: {name: Pad, label: B, material: foam-5, shape: strip, dimensions: {length: 80, width: 25},
        stands: {strap: carrying}}
straps:
  carrying: {name: Strap, material: web-25, from: {row: floor.strap, holds: 120}, bridges: [300, 300],
             overlap: [60, 60]}
"""
LACED = """
measurements: {forearm: {name: F, take: T}, wrist: {name: W, take: T}}
sizes: {M: {forearm: 260, wrist: 160}}
parts:
  cuff: {name: Cuff, label: A, material: foam-5, shape: tapered-tube, on-fold: centre,
         dimensions: {girth-top: forearm, girth-bottom: wrist, length: 150, ease: 25, gap: 30},
         points: {lacing: {kind: lacing, along: side, inset: 10, count: 3, margin: 30, diameter: 5}}}
straps:
  lace: {name: Lace, material: cord, from: {row: cuff.lacing, holds: 0},
         way: {leaves: side, apart: [30, 50]}, laced: 150}
"""


def strapped_stock() -> Stock:
    """The stock of the samples with what straps are made of."""
    text = STOCK.replace("materials:\n", f"materials:{WEBBING}", 1)
    value, source, _ = read_tree(text, "stock.yaml")
    found, problems = validate(Stock, value, source)
    assert found is not None, problems
    return found


def placed(text: str) -> Assembly:
    """The finished thing of a guide of a few lines, with its straps."""
    file, stock = guide_file(text), strapped_stock()
    kit, problems = make_whole_kit(file, stock, file.size_names()[0], words=ENGLISH)
    assert kit is not None, problems
    return make_assembly(file.guide, kit, stock)


def of(assembly: Assembly, part: str) -> list[PlacedSheet]:
    """Sheets of a part or strap."""
    return [sheet for sheet in assembly.sheets if sheet.part == part]


def test_a_part_hangs_under_its_place_on_the_belt_by_a_band():
    """Four plates stand 130 mm apart, so one has its middle 65 mm beside that of the back: what hangs
    65 mm beside it hangs right under that plate, though hips are wider; its hanger reaches over the
    belt."""
    worn = placed(BELT)
    (flap,), (hanger,), (belt,) = (of(worn, part) for part in ("flap", "hanger", "belt"))
    middles = sorted(tuple(plate.middle.mean(0)) for plate in of(worn, "plate"))
    turn = [np.arctan2(m[0], -m[2]) for m in (*middles, flap.middle.mean(0))]
    assert min(abs(turn[-1] - plate) for plate in turn[:-1]) < 0.02
    low, high = hanger.middle[:, 1].min(), hanger.middle[:, 1].max()
    assert low < flap.middle[:, 1].max() and high > belt.middle[:, 1].max()
    assert np.ptp(hanger.middle[:, 0]) < 75


def test_a_strap_that_comes_back_stands_over_its_part_as_long_as_it_is():
    """The carrying strap is a loop of the length that it bridges, and the pad lies over its top."""
    lamp = placed(LAMP)
    (strap,), (pad,) = of(lamp, "carrying"), of(lamp, "pad")
    assert strap.flat[:, 0].max() == pytest.approx(120 + 300, rel=0.06)
    assert 90 < strap.middle[:, 1].max() < 150
    assert pad.middle[:, 1].max() > strap.middle[:, 1].max()
    assert abs(pad.middle.mean(0)[2]) < 3
    assert lamp.missing == ()


SASH = """
measurements: {waist: {name: W, take: T}}
sizes: {M: {waist: 860}}
parts:
  front: {name: Front, label: A, material: foam-5, shape: rounded-rectangle,
          dimensions: {width: 200, height: 90}, worn: {on: waist},
          points: {end: {kind: rivet, line: {from: [80, 0], to: [80, 0]}, count: 1, diameter: 5}}}
  back: {name: Back, label: B, material: foam-5, shape: rounded-rectangle,
         dimensions: {width: 200, height: 90}, worn: {on: waist, faces: left},
         points: {end: {kind: rivet, line: {from: [-80, 0], to: [-80, 0]}, count: 1, diameter: 5}}}
fastenings:
  ends: {name: E, points: [front.end, back.end], fastener: rivet, layers: [web-25]}
straps:
  sash: {name: Sash, material: web-25, from: {row: front.end, holds: 30}, to: {row: back.end, holds: 30},
         way: {leaves: right, enters: left, apart: [120, 160]}, closure: buckle, short: 10}
"""


def test_a_buckle_closes_its_strap_where_the_short_piece_ends():
    """On a strap that has a buckle of 70 mm lies a plate of that length, wider than the webbing, 10
    mm from the strap's place or as near to that as the strap is long, and outside of it."""
    strap, buckle = of(placed(SASH), "sash")
    assert buckle.material == "buckle" and np.ptp(buckle.flat[:, 0]) == pytest.approx(70)
    assert np.ptp(buckle.flat[:, 1]) > np.ptp(strap.flat[:, 1]) == pytest.approx(25)
    count = len(strap.middle) // 2
    way, along = (strap.middle[:count] + strap.middle[count:]) / 2, strap.flat[:count, 0]
    meant = 35 + min(10.0, max(along[-1] - 70, 0.0))
    there = np.array([np.interp(meant, along, way[:, k]) for k in range(3)])
    assert np.hypot(*(buckle.middle.mean(0) - there)[[0, 2]]) < 4


BAND = """
measurements: {head: {name: H, take: T}}
sizes: {M: {head: 570}}
parts:
  band: {name: Band, label: A, material: foam-5, shape: strip, flexes: true,
         dimensions: {length: 480, width: 64}, worn: {on: head},
         points: {one: {kind: patch, along: left, count: 1, diameter: 25, length: 40},
                  other: {kind: patch, along: right, count: 1, diameter: 25, length: 40}}}
straps:
  elastic: {name: Elastic, material: web-25, from: {row: band.one, holds: 40},
            to: {row: band.other, holds: 0},
            way: {leaves: left, enters: right, apart: [130, 135]}, overlap: [30, 40]}
"""


def test_an_elastic_goes_straight_over_its_edges_and_outside_of_the_body():
    """From the middle of one end of a head band to that of the other it runs level, by the shortest
    way over both edges, and behind the head rather than through it."""
    worn = placed(BAND)
    (strap,), (band,) = of(worn, "elastic"), of(worn, "band")
    count = len(strap.middle) // 2
    way = (strap.middle[:count] + strap.middle[count:]) / 2
    assert np.ptp(way[:, 1]) < 8
    head = next(solid for name, solid in worn.figure if name == "head")
    level = head.points[np.abs(head.points[:, 1] - way[:, 1].mean()) < 12]
    gap = way[np.abs(way[:, 0]) < 20]
    assert (
        gap[:, 2].max() < level[:, 2].min() + 3 and gap[:, 2].min() > band.middle[:, 2].min() - 40
    )


def test_a_lace_goes_crosswise_over_the_opening():
    """Three pairs of holes have a straight cord and four that cross, all outside of the arm; the
    bow is over them."""
    cords = of(placed(LACED), "lace")
    crossing = [cord for cord in cords if "cord" in cord.key]
    assert len(crossing) == 5 and len(cords) == 5 + 6
    assert all(cord.thickness == 3 for cord in cords)
    lengths = [float(cord.flat[:, 0].max()) for cord in crossing]
    assert lengths[0] < min(lengths[1:])


def test_one_hand_alone_may_lie_in_the_other():
    """A single plate on the right that lies in the right one of a pair is told: pairs are mirrored,
    single parts are not."""
    text = """
measurements: {{waist: {{name: W, take: T}}}}
sizes: {{M: {{waist: 860}}}}
parts:
  wing: {{name: Wing, label: A, material: foam-10, shape: rounded-rectangle, hand: pair,
         dimensions: {{width: 90, height: 90}}, worn: {{on: hip}}}}
  disc: {{name: Disc, label: B, material: foam-10, shape: disc, dimensions: {{diameter: 90}},
         worn: {{on: hip, faces: {faces}, aside: {aside}}}}}
"""
    for aside, count in ((-20, 1), (-120, 0)):
        file, stock = guide_file(text.format(faces="right", aside=aside)), strapped_stock()
        kit, _ = make_whole_kit(file, stock, "M", words=ENGLISH)
        assert kit is not None
        found = audit_assembly(file, stock, kit)
        assert [one.code for one in found] == ["in-one-another"] * count


def test_an_arch_has_its_length():
    """A loop of 300 mm over 120 mm is 300 mm long and begins and ends where it should."""
    start, end = np.array([-60.0, 0, 0]), np.array([60.0, 0, 0])
    way = arch(start, end, np.array([0.0, 1, 0]), 300.0)
    assert np.sqrt((np.diff(way, axis=0) ** 2).sum(1)).sum() == pytest.approx(300, abs=0.5)
    assert way[0] == pytest.approx(start, abs=1e-6)
    assert way[-1] == pytest.approx(end, abs=1e-6)


def test_a_band_is_as_wide_as_its_strap_and_lies_outside():
    """A straight band has its width; a way through a wall is moved to its outer side."""
    way = np.stack([np.linspace(0, 100, 20), np.zeros(20), np.zeros(20)], axis=1)
    band = ribbon(StrapBand("s", "web-25", 25, 1.5), way, np.tile([0.0, 0, 1], (20, 1)), "s@1")
    assert np.ptp(band.middle[:, 1]) == pytest.approx(25)
    x, y = (one.ravel() for one in np.meshgrid(np.linspace(0, 100, 30), np.linspace(-9, 9, 9)))
    wall = np.stack([x, y, np.full(len(x), 8.0)], axis=1)
    out = pushed_out(way, [(wall, np.tile([0.0, 0, 1], (len(wall), 1)), 2.0)])
    assert out[:, 2] == pytest.approx(np.full(20, 10.0))
