"""The handbook's chapter on seams: its examples work, its figure is what the code draws."""

import re
from pathlib import Path

from geometry.kit_samples import guide_file
from pictures.section_figure import FIGURE, draw_sections
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.pieces.kit import make_kit

CHAPTER = (Path(__file__).parents[3] / "guidegen" / "handbook" / "join" / "seams.md").read_text(
    "utf-8"
)
SEAMS, ANGLES, STANDING, SECTIONS = re.findall(r"```yaml\n(.*?)```", CHAPTER, re.DOTALL)


def test_the_example_of_sections_works(tmp_path):
    """A back plate for a chest of 1160 mm is 611 mm wide and comes in two sections."""
    part = SECTIONS.removeprefix("parts:\n").replace("chest/2", "1160/2")
    guide = changed(GUIDE, "seams:\n", f"{part}seams:\n")
    guide += (
        "  - {id: glue-back, title: Glue the back, stage: gluing, process: gluing, "
        "parts: [chest-back], uses: [{material: cement, amount: 2}], text: Glue it., time: 5 min}\n"
    )
    content = read_content(write_content(tmp_path, guide=guide))
    kit, problems = make_kit(content.guides[0], content.stock, "M")
    assert problems == []
    assert [piece.label for piece in kit.pieces_of("chest-back")] == ["A2.1", "A2.2"]


def test_the_example_of_seams_is_read(tmp_path):
    """Every key of the example is one that a seam has."""
    guide = changed(GUIDE, "seams:\n", SEAMS)
    content = read_content(write_content(tmp_path, guide=guide))
    seams = content.guides[0].guide.seams
    assert seams["crown"].mark_spacing.value({}) == 60
    assert seams["crown"].ease.value({}) == 3


def test_the_examples_of_angles_and_of_standing_edges_are_read():
    """Every key of both is one that a seam or a part has."""
    strip = "{name: N, label: L, material: foam-5, shape: strip, dimensions: {length: 9, width: 9}}"
    angles = guide_file(f"parts:\n  wall: {strip}\n{ANGLES}").guide.seams
    assert angles["rim"].angle is not None
    assert angles["brow"].flush == "outside"
    given = "    name: N\n    label: L\n    material: foam-5\n    shape: strip\n    lines:\n"
    standing = guide_file(STANDING.replace("    lines:\n", given)).guide
    assert set(standing.parts["cap-band"].lines) == {"crest", "brim", "ridge", "horn"}
    assert standing.seams["fin-foot"].slot is not None


def test_the_figure_shows_what_the_code_makes():
    """The figure in the handbook is the drawing of the example today."""
    assert FIGURE.read_text("utf-8") == draw_sections()
