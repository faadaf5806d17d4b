"""The handbook's figures of what holds a build together. Run it to draw them anew."""

from functools import cache
from pathlib import Path

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pieces.curves import draw_curve
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "guidegen" / "handbook" / "pictures"


@cache
def marshal() -> Kit:
    """Size M of the largest guide of the demo."""
    content = read_content(ROOT / "content", ["slipway-marshal"])
    kit, _ = make_whole_kit(content.guides[0], content.stock, "M")
    assert kit is not None
    return kit


def bend() -> Drawing:
    """Plate and frame of the hip sluice."""
    kit = marshal()
    return draw_curve(next(one for one in kit.stacks if one.id == "hip-sluice"), kit, ENGLISH)


FIGURES = {"curve": bend}

if __name__ == "__main__":
    for name, draw in FIGURES.items():
        (PICTURES / f"{name}.svg").write_text(svg_file(draw()), encoding="utf-8")
