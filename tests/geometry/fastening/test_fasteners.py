"""Posts are chosen from what lies at their place; rivets are counted with their holes."""

import pytest
from geometry import fastening_samples
from geometry.fastening_samples import told, whole
from geometry.kit_samples import guide_file

from guidegen.layout.buying.held import held_uses
from guidegen.words import ENGLISH

BELT = """\
parts:
  plate:
    name: Plate
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 90, height: 70}
    copies: 6
    spare: 2
    placements: [{part: frame}]
    points:
      rivets: {kind: rivet, corners: 10, diameter: 4, through: [frame]}
  frame:
    name: Frame
    label: B
    material: foam-5
    shape: frame
    dimensions: {width: 90, height: 70, web: 18}
    copies: 6
fastenings:
  plates:
    name: Plates on the belt
    points: [plate.rivets]
    fastener: rivet-9
    layers: [belt]
    washers: 1
"""


def test_the_post_is_chosen_from_the_layers_at_its_place():
    """10 + 5 mm of foam, 2.5 mm of webbing and a washer of 1 mm: 18.5 mm need the post of 20."""
    (made,) = whole(BELT).fastened
    assert (made.stack, made.material, made.post) == (18.5, "rivet-20", 20)
    (thin,) = whole(BELT.replace("layers: [belt]", "layers: []").replace("foam-10", "foam-5")
                    .replace("washers: 1", "washers: 2")).fastened  # fmt: skip
    assert (thin.stack, thin.material) == (12, "rivet-15")


def test_holes_and_rivets_are_counted_together():
    """Four holes in each of six plates that are worn; the spare two get no rivets."""
    kit = whole(BELT)
    assert kit.fastened[0].count == 24
    file = guide_file(BELT)
    step = file.guide.steps[0].model_copy(update={"fastens": ("plates",)})
    (use,) = held_uses(step, kit, ENGLISH)
    assert (use.material, use.count.value({}) if use.count else 0) == ("rivet-20", 24)


@pytest.mark.parametrize(
    ("head", "message"),
    [(18, ""), (22, "a head of 22 mm has 10 mm to the edge, expected at least 11 mm")],
)
def test_heads_lie_flat(monkeypatch, head, message):
    """Holes 10 mm from both sides of a plate leave room for a head of 18 mm, not for one of 22."""
    plain = fastening_samples.goods()
    rivet = plain.materials["rivet-20"]
    wide = rivet.fastener.model_copy(update={"head": head})
    changed = {**plain.materials, "rivet-20": rivet.model_copy(update={"fastener": wide})}
    stock = plain.model_copy(update={"materials": changed})
    monkeypatch.setattr(fastening_samples, "goods", lambda: stock)
    if not message:
        assert whole(BELT).fastened
        return
    ((code, path, words),) = told(BELT)
    assert (code, path) == ("fastener-head", "fastenings.plates.points[0]")
    assert message in words


@pytest.mark.parametrize(
    ("old", "new", "code", "message"),
    [
        (
            "layers: [belt]",
            "layers: [belt, belt]",
            "fastener-grip",
            "rivets is 21 mm thick, and none",
        ),
        ("diameter: 4", "diameter: 6", "fastener-hole", "holes of 6 mm, and rivet-20 needs 4 mm"),
        ("fastener: rivet-9", "fastener: buckle", "no-fastener", 'has no "fastener" in stock'),
    ],
)
def test_what_does_not_hold_is_told(old, new, code, message):
    """A stack that no post holds, a wrong hole, and a thing that is no fastener."""
    ((found, _, words),) = told(BELT.replace(old, new))
    assert found == code
    assert message in words
