"""Beads by volume and weight, things by their points, parts of circuits: what a list says."""

from dataclasses import replace
from math import pi

import pytest
from geometry.kit_samples import good_kit

from guidegen.buildfile.records.constructions.things import Bead
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.materials import Material
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import FittedCircuit
from guidegen.layout.buying.consumption import step_demands
from guidegen.layout.buying.materials import list_materials
from guidegen.layout.buying.placed import bead_volume
from guidegen.words import ENGLISH, SPACE

CREST = """\
parts:
  crest:
    name: Crest
    label: A
    material: foam-5
    shape: strip
    dimensions: {length: 200, width: 40}
    on-fold: centre
    hand: pair
    spare: 1
"""


@pytest.mark.parametrize(
    ("section", "height", "area"),
    [
        ("round", None, pi * 16),
        ("half-round", None, pi * 8),
        ("half-round", 6, pi * 8 * 6 / 4),
        ("corner", None, 32),
        ("corner", 5, 20),
    ],
)
def test_sections_of_beads_are_those_of_geometry(section, height, area):
    """8 mm wide: a circle, half a circle, half an ellipse, a triangle."""
    given = {"edges": ["crest.bottom"], "section": section, "width": 8}
    bead = Bead.model_validate(given | ({"height": height} if height else {}))
    assert bead_volume(good_kit(CREST), bead, {}).section == pytest.approx(area)


def test_a_bead_runs_along_both_halves_of_all_worn_pieces():
    """200 mm on the whole piece, left and right; spares get none, whether the edge crosses or not."""
    bead = Bead.model_validate({"edges": ["crest.bottom", "crest.right"], "width": 8})
    assert bead_volume(good_kit(CREST), bead, {}).length == pytest.approx(2 * (200 + 2 * 40))


def test_a_bead_is_listed_in_ml_and_grams():
    """400 mm by 32 mm² are 12.8 ml; at 500 kg/m³ that is 6.4 g, said to whole grams."""
    clay = Material.model_validate({
        "name": "Clay", "kind": "liquid", "density": 500, "packs": [{"amount": 300}],
        "rate": {"likely": 1, "low": 1, "high": 1, "source": "geometry"},
    })  # fmt: skip
    step = Step.model_validate({
        "id": "lay", "title": "Lay", "stage": "detailing", "text": "Lay it.", "time": 5,
        "uses": [{"material": "clay",
                  "bead": {"edges": ["crest.bottom"], "section": "corner", "width": 8}}],
    })  # fmt: skip
    (demand,) = step_demands(step, good_kit(CREST), {"clay": clay}, {}, ENGLISH)
    assert demand.likely == pytest.approx(12.8)
    assert demand.basis.replace("\u00a0", " ") == "bead of 0.4 m × 32 mm² = 6 g"


def test_a_resistor_is_listed_with_its_value():
    """Who buys it must know the ohms: 1.5 V at 20 mA are 75, four of them."""
    lit = FittedCircuit(
        "lamp", "Lamp", "crest", 1, "cell", "light", "resistor", "", 3, 4, 1, 4.5, 3.0, 20.0, 75.0,
        75.0, 20.0, 30.0, 2000.0,
    )  # fmt: skip
    kit = replace(good_kit(CREST), circuits=(lit,), pieces=())
    ohms = Material.model_validate(
        {"name": "Resistor", "kind": "count", "note": "Any maker.", "packs": [{"amount": 10}]}
    )
    uses = [{"material": "resistor", "circuit": "lamp"}]
    build = {"id": "lay", "title": "Lay", "stage": "detailing", "text": "Lay it.", "time": 5}
    step = Step.model_validate(build | {"uses": uses})
    guide = Guide.model_construct(steps=(step,), rates={})
    stock = Stock(materials={"resistor": ohms})
    (line,) = list_materials(guide, stock, kit, (), {}, ENGLISH).lines
    assert (line.need, line.note) == (4, f"75{SPACE}Ω Any maker.")
