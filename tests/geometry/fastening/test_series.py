"""Typed numbers beside what they equal in some sizes only: straps, strips, rows and counts."""

import pytest
from geometry.fastening_samples import goods, whole
from geometry.kit_samples import guide_file

from guidegen.geometry.fastening.living_audit import audit_living

GUIDE = """\
measurements: {waist: {name: Waist, take: Around.}}
sizes: {S: {waist: 700}, M: {waist: 800}, L: {waist: 900}}
values: {plates: floor(waist/110)}
parts:
  panel:
    name: Panel
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: waist/5, height: 120}
    points:
      patch: {kind: patch, along: left, count: 1, diameter: 25, length: 40}
      studs: {kind: stud, along: top, inset: 20, count: plates, margin: 20, diameter: 10}
straps:
  side:
    name: Side
    material: webbing
    from: {row: panel.patch, holds: 40}
    bridges: [waist/10, waist/10]
strips:
  tape: {name: Tape, material: tape, on: panel, length: waist/4}
"""


def told(words: str) -> list[str]:
    """Advice about typed numbers in the words of a step that fits strap and strip."""
    file = guide_file(GUIDE)
    step = file.guide.steps[0]
    own = {"text": words, "parts": ("panel",), "straps": ("side",), "strips": ("tape",)}
    changed = file.guide.model_copy(update={"steps": (step.model_copy(update=own),)})
    object.__setattr__(file, "guide", changed)
    kits = [whole(GUIDE, size) for size in file.size_names()]
    return [one.message for one in audit_living(file, kits) if one.code == "bare-number"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("Cut 120 mm of webbing.", "120 mm is {cut(side)} in size M only"),
        ("It bridges 70 mm.", "70 mm is {free(side)} in size S only"),
        ("Cut the tape, 225 mm.", "225 mm is {strip(tape)} in size L only"),
        ("Set seven studs.", "seven is {points(panel, studs) : count} in size M only"),
        ("Set eight.", "eight is {plates : count} in size L only"),
        ("Cut {cut(side)} of it, {plates + 7 : count} times.", ""),
        ("Hold it for 7 minutes.", ""),
        ("Leave 333 mm.", ""),
    ],
)
def test_typed_numbers_that_hold_in_some_sizes_are_listed(words, message):
    """The strap, the strip and the row of the step; nothing typed between braces, no times."""
    assert goods()
    found = told(words)
    assert (found == []) if not message else (message in found[0])


def test_what_holds_in_several_sizes_but_not_in_all_is_listed():
    """Six plates in S and M, eight in L: 'six' misleads readers of L."""
    text = GUIDE.replace("floor(waist/110)", "6 + 2*floor(waist/900)")
    file = guide_file(text)
    step = file.guide.steps[0].model_copy(update={"text": "Lay six plates out."})
    object.__setattr__(file, "guide", file.guide.model_copy(update={"steps": (step,)}))
    (found,) = audit_living(file, [whole(text, size) for size in file.size_names()])
    assert found.message == "six is {plates : count} in sizes S, M only"
