"""Facts of the trade that the demo must agree with. Each is marked; none has a published source."""

from pathlib import Path

import pytest

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.guide import AllowanceKind, Guide, Hand
from guidegen.units import MM_PER_INCH

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def content() -> Content:
    """The demo."""
    return read_content(ROOT / "content")


@pytest.fixture(scope="module")
def kit(content: Content) -> Guide:
    """Its wearable guide."""
    (guide,) = [file.guide for file in content.guides if file.guide.kind == "wearable"]
    return guide


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


def test_heat_wipes_a_pressed_texture(content: Content) -> None:
    """Common practice, no source: forming with direct heat comes before the texture."""
    rules = {(rule.first, rule.then) for rule in content.stock.rules}
    assert ("heat-form", "texture") in rules
    assert ("heat-seal", "seal") in rules
    assert ("prime", "paint") in rules


def test_strips_are_cut_long_and_trimmed(content: Content, kit: Guide) -> None:
    """Common practice, no source: trim strips of 3/4 in are cut longer and trimmed to fit."""
    file = next(file for file in content.guides if file.guide is kit)
    names = size_numbers(file, "M")[0].names()
    trimmed = [
        part
        for part in kit.parts.values()
        if any(a.kind is AllowanceKind.TRIM for a in part.allowances.values())
        and "width" in part.dimensions
    ]
    widths = [part.dimensions["width"].value(names) for part in trimmed]
    assert any(abs(width - 0.75 * MM_PER_INCH) < 0.1 for width in widths)


def test_templates_are_drawn_for_one_side(kit: Guide) -> None:
    """Common practice, no source: one template serves both sides and is flipped for the other."""
    assert any(part.hand is Hand.PAIR for part in kit.parts.values())
    assert any(part.on_fold is not None for part in kit.parts.values())


def test_a_full_kit_takes_some_fifty_studs(kit: Guide) -> None:
    """Common practice, no source: a full kit carries about 50 small round heads."""
    studs = [part for part in kit.parts.values() if "stud" in part.name.lower()]
    assert 45 <= sum(round(part.copies.value({})) for part in studs) <= 75


def test_a_kit_of_many_kinds_of_piece(kit: Guide) -> None:
    """The wearable kit has ten kinds of piece or more, in five sizes."""
    assert len(kit.parts) >= 10
    assert len(kit.sizes) == 5
