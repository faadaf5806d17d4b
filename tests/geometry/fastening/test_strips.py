"""Strips of tape and padding: as long as what they lie on, cut side by side, in the air they need."""

import pytest
from geometry.fastening_samples import told, whole
from geometry.kit_samples import guide_file
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.geometry.pieces.records import CutStrip
from guidegen.layout.buying.held import held_uses
from guidegen.layout.buying.shelves import shelve
from guidegen.words import ENGLISH

LAMP = """\
parts:
  floor:
    name: Floor
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 90, height: 90}
    copies: 2
  collar:
    name: Collar
    label: B
    material: foam-5
    shape: tapered-tube
    on-fold: centre
    dimensions: {girth-top: 280, girth-bottom: 260, length: 60}
strips:
  closing:
    name: Closing tape
    material: tape
    along: [floor.top, floor.left]
    length: 30
    width: thick(floor)
    face: thick(floor)
    air: 5
  sides:
    name: Side tape
    material: tape
    along: [collar.side]
    margin: 5
  rim:
    name: Rim tape
    material: tape
    along: [collar.top]
"""


def test_strips_are_counted_and_measured_on_what_they_lie_on():
    """Two edges of two floors; both sides of a collar on the fold, and its rim as one strip."""
    kit = whole(LAMP)
    rim = 2 * dict(kit.finished[1].edges)["top"]
    found = {strip.id: (strip.count, strip.length, strip.width) for strip in kit.strips}
    assert found["closing"] == (4, 30, 10)
    assert found["sides"] == (2, pytest.approx(50, abs=0.1), 25)
    assert found["rim"] == (1, pytest.approx(rim, abs=0.01), 25)


def test_narrow_strips_are_cut_side_by_side():
    """Four strips of 10 mm come out of two lengths of a roll of 25 mm, named with their width."""
    kit = whole(LAMP)
    step = guide_file(LAMP).guide.steps[0].model_copy(update={"strips": ("closing", "sides")})
    uses = held_uses(step, kit, ENGLISH)
    cuts = [(round(u.length.value({})), u.pieces.value({}), u.note) for u in uses]
    assert cuts == [(50, 2, "Side tape"), (30, 2, "2 × Closing tape, 10\N{NO-BREAK SPACE}mm wide")]


@pytest.mark.parametrize(
    ("old", "new", "code", "message"),
    [
        ("air: 5", "air: 1", "strip-air", "tape is 4 mm thick, the air 1 mm: it does not go in"),
        ("air: 5", "air: 9", "strip-air", "the air 9 mm: its halves do not meet"),
        ("width: thick(floor)", "width: 12", "strip-room", "12 mm wide, and the face that it lies"),
        ("width: thick(floor)", "width: 30", "strip-roll", "30 mm are cut from a roll of 25 mm"),
        ("material: tape\n    along: [floor", "material: buckle\n    along: [floor", "strip-roll",
         '"buckle" has no width in stock'),
        ("margin: 5", "margin: 35", "strip-room", "nothing is left of it"),
        ("floor.left", "floor.lid", "unknown-edge", 'no edge of floor "lid"'),
    ],
)  # fmt: skip
def test_strips_that_do_not_fit_are_told(old, new, code, message):
    """In too little air or too much, wider than the face or the roll, or along no edge."""
    found = told(LAMP.replace(old, new))
    assert [(one, True) for one, _, _ in found] == [(code, message in found[0][2])]


STRIPS = st.lists(
    st.tuples(st.integers(10, 100), st.integers(5, 100), st.integers(1, 6)), min_size=1, max_size=8
)


@settings(deadline=None, max_examples=40)
@given(STRIPS)
def test_shelves_hold_all_strips_side_by_side(sizes):
    """Nothing is lost, no shelf is wider than the roll, and no strip longer than its shelf."""
    strips = [
        CutStrip(str(at), "", "felt", float(length), float(width), 100.0, count)
        for at, (length, width, count) in enumerate(sizes)
    ]
    shelves = shelve(strips)
    cut = {strip.id: 0 for strip in strips}
    for shelf in shelves:
        assert sum(strip.width * count for strip, count in shelf.strips) <= 100 + 1e-6
        assert max(strip.length for strip, _ in shelf.strips) == shelf.length
        for strip, count in shelf.strips:
            cut[strip.id] += count * shelf.count
    assert cut == {strip.id: strip.count for strip in strips}
    area = sum(strip.length * strip.width * strip.count for strip in strips)
    used = sum(shelf.length * shelf.count for shelf in shelves) * 100
    # Level algorithms use at most twice the area and one longest strip: Coffman et al. (1980).
    assert used <= 100 * max(strip.length for strip in strips) + 2 * area + 1e-6
