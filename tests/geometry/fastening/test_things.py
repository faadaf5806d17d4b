"""Counted things with a place: drawn true to scale, counted with their points, poles that meet."""

import pytest
from geometry.kit_samples import STOCK, guide_file

from guidegen.buildfile.records.guide import Use
from guidegen.buildfile.records.materials import Material
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.buying.placed import things_at
from guidegen.problems import Problem
from guidegen.words import ENGLISH

GOODS = """\
  magnet-10:
    {name: Magnet, kind: count, footprint: {width: 10}, packs: [{amount: 10, price: 4}]}
  zip-200:
    {name: Zip, kind: count, footprint: {shape: box, width: 200, length: 30},
     packs: [{amount: 1, price: 3}]}
  unknown-thing: {name: Hinge, kind: count, packs: [{amount: 1, price: 3}]}
"""
LID = """\
parts:
  lid:
    name: Lid
    label: A
    material: foam-5
    shape: strip
    dimensions: {length: 300, width: 80}
    hand: pair
    points: {closure: {kind: stud, along: top, count: 3, margin: 50, inset: 15, %s}}
  case:
    name: Case
    label: B
    material: foam-5
    shape: strip
    dimensions: {length: 300, width: 80}
    hand: pair
    points: {closure: {kind: stud, along: top, count: %s, margin: %s, inset: 15, %s}}
"""
NORTH = "thing: magnet-10, pole: north, meets: case.closure"
SOUTH = "thing: magnet-10, pole: south"


def made(text: str, drawings: dict[str, str] | None = None) -> tuple[Kit | None, list[Problem]]:
    """The kit of a guide with things of `GOODS`."""
    value, source, _ = read_tree(STOCK + GOODS, "stock.yaml")
    goods, invalid = validate(Stock, value, source)
    assert goods is not None, [str(problem) for problem in invalid]
    file = guide_file(text)
    file = type(file)(file.id, file.guide, file.source, drawings=drawings or {})
    return make_whole_kit(file, goods, file.size_names()[0], words=ENGLISH)


def codes(text: str) -> list[tuple[str, str]]:
    """Code and path of all problems."""
    return [(problem.code, problem.path) for problem in made(text)[1]]


def test_magnets_are_drawn_at_their_size_with_their_poles():
    """Three circles of 10 mm with their middles 15 mm under the edge, each with its pole."""
    kit, problems = made(LID % (NORTH, 3, 50, SOUTH))
    assert kit is not None
    assert problems == []
    piece = next(kit.pieces_of("lid"))
    lines = [line for line in piece.template.lines if line.kind is LineKind.PLACEMENT]
    assert [line.label for line in lines] == ["Magnet, N", "N", "N"]
    boxes = [bounds((line.run,)) for line in lines]
    assert {round(right - left, 6) for left, _, right, _ in boxes} == {10}
    assert {round((low + high) / 2, 6) for _, low, _, high in boxes} == {40 - 15}
    assert sorted(round((left + right) / 2) for left, _, right, _ in boxes) == [-100, 0, 100]


def test_things_are_counted_with_their_points_on_all_pieces():
    """Three on the lid and three on the case, left and right: twelve in all."""
    kit, _ = made(LID % (NORTH, 3, 50, SOUTH))
    assert kit is not None
    assert things_at(kit, ("lid.closure",)) == 6
    assert things_at(kit, ("lid.closure", "case.closure")) == 12


@pytest.mark.parametrize(
    ("count", "margin", "south", "code"),
    [
        (3, 50, "thing: magnet-10, pole: north", "thing-pole"),
        (3, 50, "thing: magnet-10", "thing-pole"),
        (2, 50, SOUTH, "thing-meets"),
        (3, 40, SOUTH, "thing-meets"),
    ],
    ids=["equal poles", "no pole", "one missing", "farther apart"],
)
def test_magnets_that_push_or_miss_are_refused(count, margin, south, code):
    """Equal poles push one another away; each magnet has one to meet, as far from the next."""
    assert codes(LID % (NORTH, count, margin, south)) == [(code, "parts.lid.points.closure.meets")]


def test_a_thing_that_stands_over_the_edge_is_told():
    """A zip of 200 by 30 mm, its middle 10 mm under the edge, stands out by 5 mm."""
    text = (LID % ("thing: zip-200", 1, 0, SOUTH)).replace(
        "count: 3, margin: 50, inset: 15", "count: 1, inset: 10"
    )
    ((code, path, message),) = [(p.code, p.path, p.message) for p in made(text)[1]]
    assert (code, path) == ("thing-room", "parts.lid.points.closure.thing")
    assert message == "zip-200 stands 5 mm out over the edge of lid"


def test_a_thing_of_unknown_size_is_refused():
    """Without a footprint and a drawing nothing can be shown at its true size."""
    found = codes(LID % ("thing: unknown-thing", 3, 50, SOUTH))
    assert found == [("thing-unknown", "parts.lid.points.closure.thing")]


def test_a_printed_part_is_drawn_with_its_own_outline():
    """A drawing of 20 by 12 mm, wherever it lies on its page, has its middle on the point."""
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm"'
        ' viewBox="0 0 100 100"><path d="M 60 70 h 20 v 12 h -20 z" fill="none" stroke="#000"/></svg>'
    )
    text = LID % ("thing: unknown-thing, drawing: hinge.svg", 3, 50, SOUTH)
    kit, problems = made(text, {"hinge.svg": drawing})
    assert kit is not None, [str(problem) for problem in problems]
    line = next(line for line in next(kit.pieces_of("lid")).template.lines if line.label == "Hinge")
    left, low, right, high = bounds((line.run,))
    assert (right - left, high - low) == pytest.approx((20, 12))
    assert (low + high) / 2 == pytest.approx(25)
    assert codes(text) == [("no-drawing", "parts.lid.points.closure.drawing")]


def test_packs_by_weight_say_their_ml():
    """300 g at 300 kg/m³ are a litre; without a density nobody knows."""
    clay = {
        "name": "Clay",
        "kind": "liquid",
        "density": 300,
        "packs": [{"grams": 300}],
        "rate": {"likely": 1, "low": 1, "high": 1, "source": "geometry"},
    }
    (pack,) = Material.model_validate(clay).packs
    assert (pack.amount, pack.name) == (pytest.approx(1000), "300 g")
    with pytest.raises(ValueError, match="its grams and the material's density"):
        Material.model_validate({key: value for key, value in clay.items() if key != "density"})


def test_a_use_has_one_basis():
    """Both a count and points would count the same thing twice."""
    with pytest.raises(ValueError, match="exactly one of"):
        Use.model_validate({"material": "magnet-10", "at": ["lid.closure"], "count": 3})
