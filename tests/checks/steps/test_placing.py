"""Things on points and parts of circuits: put on once, by what they are made for, with cautions."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

GOODS = changed(
    STOCK,
    "tools:\n",
    """\
  magnet:
    name: Magnet
    kind: count
    footprint: {width: 10}
    cautions: [blade]
    packs: [{amount: 10, price: 4}]
  cell:
    {name: Cell, kind: count, cell: {volts: 1.5, capacity: 2000}, cautions: [blade],
     packs: [{amount: 4, price: 1}]}
  light:
    {name: Light, kind: count, light: {volts: 1, current: 20}, packs: [{amount: 4, price: 1}]}
tools:
""",
)
PLACED = changed(
    GUIDE,
    "    dimensions: {diameter: 60}\n",
    "    dimensions: {diameter: 60}\n    points:\n      row: {kind: stud, circle: {diameter: 30}, "
    "count: 3, thing: magnet, pole: north}\n",
)
LIT = changed(
    GUIDE,
    "stacks:\n",
    "circuits:\n  lamp: {name: Lamp, on: plate, cell: cell, light: light, resistor: buckle}\n"
    "stacks:\n",
)
USES = "uses: [{material: cement, glue: [cuff-side, badge]}]"


def told(folder: Path, guide: str, stock: str = GOODS) -> set[tuple[str, str]]:
    """Code and path of what is told of things and circuits."""
    content = read_content(write_content(folder, guide=guide, stock=stock))
    wanted = {"never-held", "held-twice", "thing-other", "cell-without-caution", "used-before-made"}
    return {(one.code, one.path) for one in run_checks(content) if one.code in wanted}


def using(guide: str, *uses: str) -> str:
    """The guide with more uses in its step of gluing."""
    return changed(guide, USES, USES[:-1] + "".join(f", {use}" for use in uses) + "]")


MAGNETS = "{material: magnet, at: [plate.row]}"


def test_things_are_put_on_by_one_step(tmp_path):
    """In none nobody buys them, in one they are counted, in two they are bought twice."""
    row = "parts.plate.points.row"
    assert told(tmp_path / "none", PLACED) == {("never-held", row)}
    assert told(tmp_path / "once", using(PLACED, MAGNETS)) == set()
    assert told(tmp_path / "twice", using(PLACED, MAGNETS, MAGNETS)) == {("held-twice", row)}


def test_a_row_takes_what_it_is_made_for(tmp_path):
    """A buckle where magnets sit is a slip of one of both names."""
    found = told(tmp_path, using(PLACED, "{material: buckle, at: [plate.row]}"))
    assert ("thing-other", "steps[2].uses[1].at[0]") in found


def test_things_sit_on_pieces_that_are_cut(tmp_path):
    """A step before cutting that puts magnets on is told, although it lists no part."""
    early = (
        "steps:\n  - id: early\n    title: Set magnets\n    stage: detailing\n    text: Set them.\n"
        f"    time: 5 min\n    uses: [{MAGNETS}]\n"
    )
    found = told(tmp_path, changed(PLACED, "steps:\n", early))
    assert ("used-before-made", "steps[0]") in found


def test_every_part_of_a_circuit_is_built_in_once(tmp_path):
    """Cells, lights and resistors each have their use; a stranger in it is told."""
    names = ("cell", "light", "buckle")
    uses = [f"{{material: {name}, circuit: lamp}}" for name in names]
    assert told(tmp_path / "whole", using(LIT, *uses)) == set()
    assert told(tmp_path / "less", using(LIT, *uses[:2])) == {("never-held", "circuits.lamp")}
    found = told(tmp_path / "more", using(LIT, *uses, "{material: magnet, circuit: lamp}"))
    assert found == {("thing-other", "steps[2].uses[4].circuit")}


@pytest.mark.parametrize(
    ("guide", "path"),
    [(PLACED, "parts.plate.points.row.thing"), (LIT, "circuits.lamp.cell")],
    ids=["magnet", "cell"],
)
def test_cells_and_magnets_bring_their_cautions(tmp_path, guide, path):
    """Who buys a cell without its caution does not learn what it does to a child."""
    bare = GOODS.replace("    cautions: [blade]\n    packs", "    packs").replace(
        "capacity: 2000}, cautions: [blade],", "capacity: 2000},"
    )
    assert ("cell-without-caution", path) in told(tmp_path, guide, bare)
