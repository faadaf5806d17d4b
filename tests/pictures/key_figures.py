"""The handbook's figures of what bevels, grooves, placements, stacks and seams look like.

./start python tests/pictures/key_figures.py draws them anew.
"""

from pathlib import Path
from tempfile import TemporaryDirectory

from pictures.english import draw_bevel, draw_groove, draw_joins, draw_piece, draw_section
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.pieces.kit import make_kit

FOLDER = Path(__file__).parents[2] / "guidegen" / "handbook" / "reference" / "pictures"

PARTS = """\
  wall:
    name: Wall
    label: W
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 160, height: 100}
    bevels: {left: {angle: 45, direction: inward}}
    grooves: [{fold: 40, floor: 2}]
    placements: [{part: sign, from-edge: top, at: [30, 15]}]
  sign:
    name: Sign
    label: S
    material: foam-5
    shape: rounded-rectangle
    dimensions: {width: 50, height: 40, radius: 5}
  side:
    name: Side
    label: T
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 60, height: 100}
    bevels: {right: {angle: 45, direction: inward}}
seams:
  corner: {join: [wall.left, side.right]}
"""
STACK = """\
stacks:
  shop: {name: Sign on the wall, layers: [{part: wall}, {part: sign}]}
"""


def key_figures() -> dict[str, str]:
    """SVG by the file's name."""
    guide = changed(changed(GUIDE, "seams:\n", PARTS), "stacks:\n", STACK)
    with TemporaryDirectory() as folder:
        content = read_content(write_content(Path(folder), guide=guide))
    kit, _ = make_kit(content.guides[0], content.stock, "M")
    assert kit is not None
    wall = next(piece for piece in kit.pieces if piece.part == "wall")
    stack = next(stack for stack in kit.stacks if stack.id == "shop")
    return {
        "key-bevels.svg": draw_bevel(wall.shape.bevels[0], wall.thickness, "W left"),
        "key-grooves.svg": draw_groove(wall.grooves[0], wall.thickness, "W"),
        "key-placements.svg": draw_piece(wall, "key-placements"),
        "key-stacks.svg": draw_section(stack, "key-stacks"),
        "key-seams.svg": draw_joins(kit, "key-seams")[-1],
    }


if __name__ == "__main__":
    for name, text in key_figures().items():
        (FOLDER / name).write_text(text, encoding="utf-8")
