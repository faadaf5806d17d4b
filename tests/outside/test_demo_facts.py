"""Facts of the trade that the demo must agree with. Each is marked; none has a published source."""

from pathlib import Path

import pytest
from demo_content import read_demo

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.guide import AllowanceKind, Guide, Hand

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def content() -> Content:
    """The demo."""
    return read_demo()


@pytest.fixture(scope="module")
def kit(content: Content) -> Guide:
    """Its largest wearable guide."""
    worn = (file.guide for file in content.guides if file.guide.kind == "wearable")
    return max(worn, key=lambda guide: len(guide.parts))


def test_foam_is_sold_as_mats_and_sheets(content: Content) -> None:
    """Common practice, no source: floor mats of about 10 mm with teeth, about 600 mm square (580
    usable), and craft foam of 6 mm and 2 mm."""
    foams = {
        material.thickness.value({}): material
        for material in content.stock.materials.values()
        if material.thickness is not None and material.density
    }
    assert {2, 6, 10} <= set(foams)
    (mat,) = {sheet.width.value({}) for sheet in foams[10].sheets}
    assert 570 <= mat <= 600


def test_contact_cement_waits_on_both_faces(content: Content) -> None:
    """Common practice, no source: cement goes on both faces and is left, about five minutes and
    up to fifteen by product, before joining; the words of the process say so."""
    words = content.stock.processes["glue-contact"].how.lower()
    assert "both" in words
    assert "minutes" in words


def test_forming_before_texture_is_advised_as_contested(content: Content) -> None:
    """Common practice, no source, and contested: forming afterwards fades a texture and presses deep
    relief flat, a flat sheet is easier to press. So it is a warning that says so, no error."""
    (rule,) = [r for r in content.stock.rules if (r.first, r.then) == ("heat-form", "texture")]
    assert rule.level == "warn"
    assert "contested" in rule.reason.lower()
    assert "contested" in content.stock.processes["texture"].how


def test_coats_come_after_heat(content: Content) -> None:
    """Common practice, no source: heat blisters coats, and paint needs its ground."""
    rules = {(rule.first, rule.then) for rule in content.stock.rules}
    assert ("heat-seal", "seal") in rules
    assert ("prime", "paint") in rules


@pytest.mark.parametrize("name", ["mooring-bracer", "quay-lamp", "slipway-marshal", "tide-herald"])
def test_every_face_is_roughened_before_it_is_glued(name: str) -> None:
    """Labels of contact cements ask for clean, roughened faces: "roughen glossy surfaces" stands on
    most (from memory; common practice). Every part that one of the guides glues was rubbed before.
    """
    (file,) = read_demo(name).guides
    rubbed: set[str] = set()
    glued = 0
    for step in file.guide.steps:
        rubbed |= {*step.parts} if step.process == "roughen" else set()
        if step.process in {"glue-contact", "glue-water"}:
            assert {*step.parts} <= rubbed, step.id
            glued += 1
    assert glued


def test_strips_are_cut_long_and_trimmed(kit: Guide) -> None:
    """Common practice, no source: trim strips are cut longer at both ends and trimmed to fit."""
    strips = [part for part in kit.parts.values() if part.shape == "strip"]
    trimmed = [
        {edge for edge, one in part.allowances.items() if one.kind is AllowanceKind.TRIM}
        for part in strips
    ]
    assert {"left", "right"} in trimmed


def test_templates_are_drawn_for_one_side(kit: Guide) -> None:
    """Common practice, no source: one template serves both sides and is flipped for the other."""
    assert any(part.hand is Hand.PAIR for part in kit.parts.values())
    assert any(part.on_fold is not None for part in kit.parts.values())


def test_a_kit_of_many_kinds_of_piece(kit: Guide) -> None:
    """The wearable kit has ten kinds of piece or more, in five sizes."""
    assert len(kit.parts) >= 10
    assert len(kit.sizes) == 5
