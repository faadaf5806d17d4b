"""The handbook's figures of what holds a build together.

./start python tests/pictures/holding_figures.py draws them anew.
"""

from functools import cache
from pathlib import Path

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.buying.held import held_uses
from guidegen.layout.buying.lengths import plan_lengths
from guidegen.layout.records import LengthCut
from guidegen.pictures.cutting.cut_lengths import draw_cut_lengths
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pieces.curves import draw_curve
from guidegen.pictures.pieces.holds import draw_fastening, draw_strap
from guidegen.pictures.pieces.pieces import draw_piece
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

ROOT = Path(__file__).parents[2]
HANDBOOK = ROOT / "guidegen" / "handbook"


@cache
def marshal() -> Kit:
    """Size M of the largest guide of the demo."""
    content = read_content(ROOT / "content", ["slipway-marshal"])
    kit, _ = make_whole_kit(content.guides[0], content.stock, "M", words=ENGLISH)
    assert kit is not None
    return kit


def bend() -> Drawing:
    """Plate and frame of the hip sluice."""
    kit = marshal()
    return draw_curve(next(one for one in kit.stacks if one.id == "hip-sluice"), kit, ENGLISH)


def post() -> Drawing:
    """Plate, frame and webbing of a hanger of the hip sluice."""
    one = next(one for one in marshal().fastened if one.fastening == "hip-hangers")
    return draw_fastening(one, ENGLISH)


def chain() -> Drawing:
    """The buckled strap over a shoulder."""
    kit = marshal()
    return draw_strap(next(one for one in kit.straps if one.id == "shoulder"), kit, ENGLISH)


def strap(name: str) -> Drawing:
    """Another strap of the largest guide."""
    kit = marshal()
    return draw_strap(next(one for one in kit.straps if one.id == name), kit, ENGLISH)


def hanger() -> Drawing:
    """Of a hip sluice, round the belt."""
    return strap("hip-hanger")


def belt() -> Drawing:
    """Over the hem of the chest."""
    return strap("belt")


def lace() -> Drawing:
    """Of the bracer, crosswise."""
    content = read_content(ROOT / "content", ["mooring-bracer"])
    (file,) = content.guides
    kit, _ = make_whole_kit(file, content.stock, file.size_names()[0], words=ENGLISH)
    assert kit is not None
    return draw_strap(kit.straps[0], kit, ENGLISH)


def points() -> Drawing:
    """The chest front: studs along its armholes, patches of straps, pairs of rivets."""
    piece = next(marshal().built("chest-front"))
    return draw_piece(piece, "figure", lang=ENGLISH)


def strips() -> Drawing:
    """Padding of chest front and back, out of a roll of 500 mm."""
    content = read_content(ROOT / "content", ["slipway-marshal"])
    step = next(one for one in content.guides[0].guide.steps if "pad-front" in one.strips)
    cuts = [
        LengthCut(use.material, use.length.value({}), round(use.pieces.value({})), use.note or "")
        for use in held_uses(step, marshal(), ENGLISH)
        if use.length is not None and use.pieces is not None
    ]
    material = content.stock.materials["pad-foam"]
    plan = plan_lengths("pad-foam", material.packs, cuts, lang=ENGLISH)
    drawing = draw_cut_lengths(plan, material.name, ENGLISH)
    assert drawing is not None
    return drawing


FIGURES = {
    "join/pictures/points.svg": points,
    "join/pictures/strips.svg": strips,
    "join/pictures/curve.svg": bend,
    "join/pictures/fastener-stack.svg": post,
    "join/pictures/strap-chain.svg": chain,
    "join/pictures/hanger.svg": hanger,
    "join/pictures/belt.svg": belt,
    "join/pictures/lace.svg": lace,
}

if __name__ == "__main__":
    for path, draw in FIGURES.items():
        (HANDBOOK / path).write_text(svg_file(draw()), encoding="utf-8")
