"""What a step says of things that are counted elsewhere: parts of a light circuit."""

from demo_content import read_demo

from guidegen.app.measured.bodies import whole_kit
from guidegen.buildfile.derive.caution_places import CautionPlaces
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.layout.times.plans import plan_time
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.compose import draw_guide
from guidegen.quantities import SPACE
from guidegen.render.text.links import BookletLinks
from guidegen.render.views.scene import Scene
from guidegen.render.views.steps import step_view


def test_parts_of_a_circuit_are_told_with_how_many():
    """The demo's lamp: three cells in a row for four diodes, each with a resistor; one holder with
    the switch. (4.5 - 3.1) V / 20 mA = 70 Ω, and 75 Ω is the next value of the E24 series of
    IEC 60063. What the author counts by hand keeps that number."""
    content = read_demo("quay-lamp")
    (file,) = content.guides
    kit = whole_kit(file, content.stock, "one-size", words=content.words)
    cautions = gather_cautions(file.guide, content.stock)
    plan = GuidePlan(file, (SizePlan(kit),), cautions, plan_time(file.guide, content.stock))
    pictures = draw_guide(plan, {}, content.stock, content.words, {})
    scene = Scene(content, plan, pictures, BookletLinks(frozenset()), paper=True)
    (step,) = [step for step in file.guide.steps if step.id == "build-light"]
    materials = step_view(scene, step, CautionPlaces((), (), ())).materials
    told = {item.words.split(",")[0]: item.note.replace(SPACE, " ") for item in materials}
    assert told == {
        "Closed battery holder for 3 AA cells": "1",
        "Light-emitting diode": "4",
        "Resistor": "4; 75 Ω",
        "Alkaline cell": "3",
        "Lever clamp for 5 wires": "2",
        "Lever clamp for 2 wires": "4",
        "Masking tape": "around bare wires",
    }
