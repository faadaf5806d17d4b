"""The finished thing from all sides, and in the colours that its steps give it."""

import re

import pytest
from geometry.kit_samples import STOCK, good_kit, guide_file, stock

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.views.seen import FRONT, see
from guidegen.assembly.views.turning import see_around
from guidegen.buildfile.derive.paints import paints_of
from guidegen.buildfile.records.steps import Step, Use
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.pictures.bodies.finished import draw_around
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

PLATES = """
measurements: {waist: {name: W, take: T}}
sizes: {M: {waist: 860}}
parts:
  plate: {name: Plate, label: A, material: foam-5, shape: rounded-rectangle,
          dimensions: {width: 90, height: 70}, worn: {on: waist}}
  cover: {name: Cover, label: B, material: foam-5, shape: rounded-rectangle,
          dimensions: {width: 60, height: 60}, worn: {on: waist, faces: back}}
"""
COATS = (("blue", ["plate"]), ("brass", ["plate"]), ("primer", ["plate", "cover"]))
"""Materials of steps that follow one another, and what they cover."""
RATE = "rate: {low: 8, likely: 10, high: 12, source: S}, packs: [{amount: 9, price: 1}]"
PAINTS = f"""
  blue: {{name: Blue, kind: liquid, tint: "#3f6480", {RATE}}}
  brass: {{name: Brass, kind: liquid, tint: "#b08d46", {RATE}}}
  primer: {{name: Primer, kind: liquid, {RATE}}}
"""


def painted_stock() -> Stock:
    """The stock of the samples with three coats, two of them with a colour."""
    text = STOCK.replace("materials:\n", f"materials:{PAINTS}", 1)
    value, source, _ = read_tree(text, "stock.yaml")
    found, problems = validate(Stock, value, source)
    assert found is not None, problems
    return found


@pytest.fixture
def small(monkeypatch: pytest.MonkeyPatch) -> None:
    """Coarse pictures: quick, and as true."""
    monkeypatch.setattr("guidegen.assembly.views.turning.ROWS", 80)
    monkeypatch.setattr("guidegen.assembly.views.seen.ROWS", 80)


@pytest.mark.usefixtures("small")
def test_it_turns_in_place():
    """Twelve views have one size and scale; what is in front is seen from there, what is behind from
    behind, and the sheet of all sides has a place and an angle for each."""
    kit = good_kit(PLATES)
    seen = see_around(make_assembly(guide_file(PLATES).guide, kit))
    assert [view.view for view in seen] == [f"turn-{30 * k}" for k in range(12)]
    assert len({(view.width, view.height, view.scale) for view in seen}) == 1
    assert [view.parts for view in (seen[0], seen[6])] == [("plate",), ("cover",)]
    sheet = svg_file(draw_around(seen, kit, ENGLISH))
    turns = re.findall(r'data-turn="([^"]+)"', sheet)
    assert turns == [f"{30 * k}" for k in range(12)]
    wide, high = seen[0].width, seen[0].height
    boxes = [tuple(map(float, box.split())) for box in re.findall(r'data-box="([^"]+)"', sheet)]
    assert boxes[5] == pytest.approx((wide, high, wide, high), abs=0.01)


@pytest.mark.usefixtures("small")
def test_paint_is_that_of_the_last_step_that_gives_one():
    """A part has the colour of the last paint laid over it; a primer without a colour changes
    nothing, and what nobody paints stays foam."""
    steps = tuple(
        Step(id=name, title="T", stage="painting", text="T", time=5,
             uses=(Use(material=name, cover=covered),))
        for name, covered in COATS
    )  # fmt: skip
    guide = guide_file(PLATES).guide.model_copy(update={"steps": steps})
    paints = painted_stock()
    assert paints_of(guide, paints) == {"plate": "#b08d46"}
    assert paints_of(guide, stock()) == {}
    seen = see(make_assembly(guide, good_kit(PLATES), paints), FRONT)
    assert [fill.paint for fill in seen.fills if fill.rings] == ["#b08d46"]


def test_a_colour_is_written_in_hex():
    """Anything else is refused: a page puts it into its drawings."""
    bad = "materials:" + PAINTS.replace("#3f6480", "url(x)")
    value, source, _ = read_tree(bad, "stock.yaml")
    found, problems = validate(Stock, value, source)
    assert found is None
    assert [problem.path for problem in problems] == ["materials.blue.tint"]
