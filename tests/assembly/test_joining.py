"""What each step that joins has before and after it."""

import pytest
from demo_content import read_demo
from geometry.kit_samples import good_kit, guide_file, stock

from guidegen.assembly.placing.whole import make_assembly
from guidegen.assembly.views.joining import see_joins
from guidegen.buildfile.records.steps import Step, Use
from guidegen.buildfile.records.stock import Process
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.pictures.steps.joined import arrange_joined, describe_joined
from guidegen.words import ENGLISH

TEXT = """
measurements: {forearm: {name: F, take: T}, wrist: {name: W, take: T}}
sizes: {M: {forearm: 260, wrist: 160}}
parts:
  cuff: {name: Cuff, label: A, material: foam-5, shape: tapered-tube, hand: pair,
         dimensions: {girth-top: forearm, girth-bottom: wrist, length: 150, ease: 25, gap: 30},
         placements: [{part: badge}]}
  badge: {name: Badge, label: B, material: foam-10, shape: disc, hand: pair,
          dimensions: {diameter: 70}, placements: [{part: dot}]}
  dot: {name: Dot, label: C, material: foam-5, shape: disc, hand: pair, dimensions: {diameter: 20}}
stacks: {badges: {name: Badges, layers: [{part: cuff}, {part: badge}]}}
"""
STEPS = (
    {"id": "cut", "parts": ("cuff", "badge")},
    {"id": "dots", "process": "glue", "parts": ("badge", "dot")},
    {"id": "badges", "process": "glue", "parts": ("cuff", "badge"), "stacks": ("badges",)},
)


@pytest.fixture
def joins(monkeypatch):
    """The joins of two cuffs with badges and dots."""
    monkeypatch.setattr("guidegen.assembly.views.joining.ROWS", 120)
    steps = tuple(Step(title="T", stage="gluing", text="T", time=5, **told) for told in STEPS)
    guide = guide_file(TEXT).guide.model_copy(update={"steps": steps})
    glue = Process(name="Glue", how="H", makes=("join",))
    glued = stock().model_copy(update={"processes": {"glue": glue}})
    kit = good_kit(TEXT)
    return see_joins(make_assembly(guide, kit, glued), guide, kit, glued), kit


def test_a_step_shows_what_it_had_and_what_it_has(joins):
    """What hangs together grows from step to step; both hands are shown once; steps that join
    nothing have no view; both views have one scale and room."""
    found, _ = joins
    assert list(found) == ["dots", "badges"]
    seen = {
        step: [(one.before.parts, one.after.parts) for one in pairs]
        for step, pairs in found.items()
    }
    assert seen == {
        "dots": [(("badge",), ("badge", "dot"))],
        "badges": [(("cuff",), ("cuff", "badge", "dot"))],
    }
    for pairs in found.values():
        for one in pairs:
            assert (one.before.width, one.before.height) == (one.after.width, one.after.height)
            assert one.before.view == one.after.view
            assert one.before.marked == ()


def test_it_is_seen_from_where_what_is_new_shows(joins):
    """The badge sits on the outside of the left arm: it is looked at from there, and is marked."""
    (one,) = joins[0]["badges"]
    assert one.after.view in {"side-90", "side-40"}
    xs = [x for ring in one.after.marked for x, _ in ring]
    assert max(xs) - min(xs) < 0.8 * one.after.width


def test_as_many_pairs_as_there_is_room_for(joins):
    """Two pairs need their width; of more than fit the first stay; words say both."""
    found, kit = joins
    both = [*found["badges"], *found["dots"]]
    wide = arrange_joined(both, 1000, ENGLISH)
    assert wide.pairs == tuple(both)
    assert arrange_joined(both, wide.width - 1, ENGLISH).pairs == tuple(both[:1])
    assert arrange_joined((), 100, ENGLISH).height == 0
    assert describe_joined(wide, kit, ENGLISH) == (
        " Before the step Cuff, after it Cuff, Badge, and Dot."
        " Before the step Badge, after it Badge and Dot."
    )


HORNS = """
parts:
  cap: {name: Cap, label: C, material: foam-10, shape: strip, on-fold: centre,
        dimensions: {length: 300, width: 200}, stands: {},
        lines: {ring: {ring: {at: [80, 0], girth: "edge(low, bottom)"}}}}
  low: {name: Low, label: A, material: foam-5, shape: horn-segment, hand: pair,
        dimensions: {girth: 150, length: 120, segments: 2, segment: 1, bend: 20}}
  tip: {name: Tip, label: B, material: foam-5, shape: horn-segment, hand: pair,
        dimensions: {girth: 150, length: 120, segments: 2, segment: 2, bend: 20}}
  plate: {name: Plate, label: D, material: foam-5, shape: disc, dimensions: {diameter: 40},
          stands: {up: 11}}
seams:
  close: {join: [low.side, low.side-2]}
  joint: {join: [low.top, tip.bottom]}
  close-tip: {join: [tip.side, tip.side-2]}
  foot: {join: [low.bottom, cap.ring]}
"""


def test_a_horn_is_rolled_joined_and_set(monkeypatch):
    """Rolling joins nothing, though there are two hands; then one horn is shown for both, then both
    on the cap; a plate that is glued on by an amount, without seam or stack, is joined as well."""
    monkeypatch.setattr("guidegen.assembly.views.joining.ROWS", 120)
    told = (
        {"id": "roll", "parts": ("low", "tip"), "seams": ("close", "close-tip")},
        {"id": "join", "parts": ("low", "tip"), "seams": ("joint",)},
        {"id": "set", "parts": ("low", "cap"), "seams": ("foot",)},
        {"id": "plate", "parts": ("cap", "plate"), "uses": (Use(material="cement", amount="2"),)},
    )
    steps = tuple(
        Step(title="T", stage="gluing", text="T", time=5, process="glue", **one) for one in told
    )
    guide = guide_file(HORNS).guide.model_copy(update={"steps": steps})
    glue = Process(name="Glue", how="H", makes=("join",))
    glued = stock().model_copy(update={"processes": {"glue": glue}})
    kit = good_kit(HORNS)
    found = see_joins(make_assembly(guide, kit, glued), guide, kit, glued)
    assert {step: [set(one.after.parts) for one in pairs] for step, pairs in found.items()} == {
        "join": [{"low", "tip"}],
        "set": [{"low", "tip", "cap"}],
        "plate": [{"low", "tip", "cap", "plate"}],
    }
    assert len(found["set"][0].before.parts) == 1


def test_a_strap_comes_with_the_pieces_of_its_step(monkeypatch):
    """Where a step joins pieces and hangs a strap on them, what it has shows the strap too, and
    what lies on the strap; so does every step after it."""
    monkeypatch.setattr("guidegen.assembly.views.joining.ROWS", 120)
    content = read_demo("quay-lamp")
    (file,) = content.guides
    kit, _ = make_whole_kit(file, content.stock, file.size_names()[0], words=ENGLISH)
    assembly = make_assembly(file.guide, kit, content.stock)
    found = see_joins(assembly, file.guide, kit, content.stock)
    assert {"carrying", "handle"} <= {*found["anchor-strap"][0].after.parts}
    assert "carrying" not in found["anchor-strap"][0].before.parts
    assert "carrying" in found["fit-panes"][0].before.parts
