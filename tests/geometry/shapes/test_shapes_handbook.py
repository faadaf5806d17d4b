"""The handbook's chapter on shapes lists what the vocabulary has, with figures of the true outlines."""

import re
from pathlib import Path

import pytest
from geometry.kit_samples import guide_file, stock
from geometry.shape_figures import FOLDER, figure
from handbook_tables import shapes_chapter

from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.geometry.pieces.kit import make_kit

CHAPTER = (Path(__file__).parents[3] / "guidegen" / "handbook" / "draw" / "shapes.md").read_text(
    "utf-8"
)
SECTIONS = dict(re.findall(r"^## (\S+)\n(.*?)(?=^## |\Z)", CHAPTER, re.MULTILINE | re.DOTALL))


def test_every_shape_has_a_section():
    """The chapter has one section per shape, in the order of the vocabulary; what is missing is
    written by python tests/handbook_tables.py, which changes nothing that is there."""
    assert list(SECTIONS) == list(SHAPES)
    assert shapes_chapter(CHAPTER) == CHAPTER
    without = CHAPTER.replace(f"## star\n{SECTIONS['star']}", "")
    (added,) = re.findall(r"^## star\n(.*?)(?=^## )", shapes_chapter(without), re.M | re.S)
    assert added.strip() in SECTIONS["star"]


@pytest.mark.parametrize("name", SHAPES)
def test_sections_tell_dimensions_and_edges(name):
    """A section lists the shape's dimensions with their defaults, and all its edges."""
    kind, section = SHAPES[name], SECTIONS[name]
    rows = re.findall(r"^\| `([\w-]+)` \| (.+?) \| (\S*) ?\|$", section, re.MULTILINE)
    assert rows == [
        (d.name, d.help, "" if d.default is None else f"{d.default:g}") for d in kind.dimensions
    ]
    edges = section.split("Edges: ")[1].split(".")[0]
    named = re.findall(r"`([\w-]+)`", edges)
    assert tuple(named) == (kind.edges[:3] if kind.edges_vary else kind.edges)
    assert kind.help in section
    if kind.half_edges:
        half = section.split(" Half: ")[1].split(".")[0]
        assert tuple(re.findall(r"`([\w-]+)`", half)) == kind.half_edges


@pytest.mark.parametrize("name", SHAPES)
def test_figures_show_what_the_code_makes(name):
    """The figure in the handbook is the outline that the shape's formula gives today."""
    assert (FOLDER / f"{name}.svg").read_text("utf-8") == figure(name)
    assert f"(shapes/{name}.svg)" in SECTIONS[name]


def test_the_example_works():
    """The build file at the head of the chapter makes a pair of cuffs whose seam closes."""
    example = re.search(r"```yaml\n(.*?)```", CHAPTER, re.DOTALL)[1]
    head = (
        "measurements:\n"
        "  forearm: {name: Forearm girth, take: Around the widest part.}\n"
        "  wrist: {name: Wrist girth, take: Around the bone.}\n"
        "sizes:\n  M: {forearm: 280, wrist: 185}\n"
    )
    kit, problems = make_kit(guide_file(head + example), stock(), "M")
    assert problems == []
    assert [piece.label for piece in kit.pieces] == ["C1L", "C1R"]
    assert kit.seams[0].mismatch == pytest.approx(0)
