"""Small content folders for tests: a whole site in a few lines, and ways to break it."""

from pathlib import Path

SITE = """\
title: Test site
publisher: Test club
"""

STOCK = """\
materials:
  foam-10:
    name: Foam mat, 10 mm
    kind: sheet
    thickness: 10
    density: 100
    sheets: [{name: mat, width: 580, height: 580, price: 5}]
  foam-5:
    name: Foam sheet, 5 mm
    kind: sheet
    thickness: 5
    density: 100
    sheets: [{name: sheet, width: 1000, height: 500, price: 8}]
  cement:
    name: Contact cement
    kind: liquid
    packs: [{amount: 250, price: 9}, {amount: 500, price: 15}]
    rate: {low: 3, likely: 4, high: 5, source: "common practice, no source", loss: 0.2}
    cautions: [solvent]
  paint:
    name: Acrylic paint
    kind: liquid
    packs: [{amount: 100, price: 4}]
    rate: {low: 8, likely: 10, high: 12, source: "common practice, no source"}
    cautions: [wet-paint]
  webbing:
    name: Webbing, 25 mm
    kind: length
    packs: [{amount: 2000, price: 3}, {amount: 5000, price: 6}]
  buckle:
    name: Buckle, 25 mm
    kind: count
    packs: [{amount: 1, price: 1.5}, {amount: 10, price: 9}]
tools:
  knife: {name: Craft knife, cautions: [blade]}
  goggles: {name: Goggles, protective: true, sign: M004}
processes:
  cutting: {name: Cutting, how: Cut in light passes., tools: [knife]}
  gluing: {name: Gluing, how: Coat both faces., wait: 10 min}
  forming: {name: Heat forming, how: Warm and bend.}
  painting: {name: Painting, how: Thin coats.}
cautions:
  blade:
    word: WARNING
    title: Sharp blade
    short: Cut away from yourself, sharp blade only
    hazard: The blade is very sharp.
    consequence: It cuts deep.
    avoid: Cut away from your hand.
    signs: [W022]
    first-aid: Press on the wound and get medical help.
    protection: [goggles]
  solvent:
    word: DANGER
    title: Flammable vapour
    short: Work outdoors, no flame
    hazard: Solvent vapour burns.
    consequence: Flash fire.
    avoid: Work outdoors, no flame.
    signs: [W021, P003]
    first-aid: Follow the label and the safety data sheet; call a doctor.
    protection: [goggles]
  wet-paint:
    word: CAUTION
    title: Wet paint
    short: Keep paint off your face
    hazard: Wet paint irritates eyes.
    consequence: Sore eyes.
    avoid: Keep it off your face.
rules:
  - {first: forming, then: painting, reason: heat blisters paint}
terms:
  bevel: {term: Bevel, meaning: An edge that is not cut square.}
"""

GUIDE = """\
title: Test cuff
version: 1.0
date: 2026-11-01
author: A. Tester
licence: CC BY 4.0
licence-words: Copy it and say where it is from.
summary: A cuff for tests.
overview: You will make a [cuff](piece:cuff).
measurements:
  forearm: {name: Forearm girth, take: Around the widest part., least: 150, most: 500}
  wrist: {name: Wrist girth, take: Around the wrist bone.}
sizes:
  S: {forearm: 250, wrist: 160}
  M: {forearm: 280, wrist: 18 cm}
values:
  room: 20
  top: forearm + room
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: top, girth-bottom: wrist, ease: room, backing: 3, length: 200}
    hand: pair
  plate:
    name: Plate
    label: B
    material: foam-10
    shape: disc
    dimensions: {diameter: 60}
    copies: 2
seams:
  cuff-side: {join: [cuff.side, cuff.side-2]}
stacks:
  badge: {name: Badge, layers: [{part: cuff}, {part: plate}]}
steps:
  - id: cut
    title: Cut the pieces
    stage: cutting
    process: cutting
    parts: [cuff, plate]
    text: Cut along the lines.
    time: 20 min
  - id: bend
    title: Bend the cuff
    stage: forming
    process: forming
    parts: [cuff]
    text: Warm it and bend it.
    time: 10 min
  - id: glue
    title: Glue the cuff
    stage: gluing
    process: gluing
    parts: [cuff, plate]
    seams: [cuff-side]
    stacks: [badge]
    uses: [{material: cement, glue: [cuff-side, badge]}]
    text: Coat both faces, wait, join.
    time: 15 min
  - id: paint
    title: Paint
    stage: painting
    process: painting
    parts: [cuff]
    uses:
      - {material: paint, cover: [cuff], coats: 2}
      - {material: webbing, length: wrist + 100, pieces: 2}
      - {material: buckle, count: 2}
    text: Two thin coats.
    time: 30 min
"""


def write_content(
    folder: Path, *, site: str = SITE, stock: str = STOCK, guide: str = GUIDE
) -> Path:
    """A content folder with one guide called cuff."""
    (folder / "cuff").mkdir(parents=True, exist_ok=True)
    (folder / "site.yaml").write_text(site, encoding="utf-8")
    (folder / "stock.yaml").write_text(stock, encoding="utf-8")
    (folder / "cuff" / "guide.yaml").write_text(guide, encoding="utf-8")
    return folder


def unplaced(guide: str) -> str:
    """The same with measurements that say nothing of a body, so that no press puts it together:
    views of the finished thing take half of the time of a small press."""
    return guide.replace("forearm", "upper_girth").replace("wrist", "lower_girth")


def changed(text: str, old: str, new: str) -> str:
    """`text` with `old` once replaced; fails when it is not there, so that a test stays true."""
    assert text.count(old) >= 1, old
    return text.replace(old, new, 1)
