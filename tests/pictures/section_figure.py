"""The handbook's figure of a piece in sections. Run it to draw the figure anew."""

from pathlib import Path
from tempfile import TemporaryDirectory

from pictures.english import draw_step
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.pieces.kit import make_kit

FIGURE = Path(__file__).parents[2] / "guidegen" / "handbook" / "join" / "pictures" / "sections.svg"

PART = """\
  chest-back:
    name: Back plate
    label: A2
    material: foam-10
    shape: strip
    dimensions: {length: 611, width: 440}
    splits: [{at: 0, angle: 90, step: back, glue: cement}]
seams:
"""

STEP = """\
  - id: back
    title: Glue the back plate
    stage: gluing
    parts: [chest-back]
    uses: [{material: cement, amount: 2}]
    text: Glue it.
    time: 5 min
"""


def draw_sections() -> str:
    """The pieces at hand of the step that joins two sections."""
    with TemporaryDirectory() as folder:
        guide = changed(GUIDE, "seams:\n", PART) + STEP
        content = read_content(write_content(Path(folder), guide=guide))
    file = content.guides[0]
    kit, _ = make_kit(file, content.stock, "M")
    assert kit is not None
    return draw_step(file.guide.steps[-1], kit, "sections")


if __name__ == "__main__":
    FIGURE.write_text(draw_sections(), encoding="utf-8")
