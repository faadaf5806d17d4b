"""Below the pieces of a step: sections of its bevels, and the layers as far as they are built."""

from dataclasses import replace
from itertools import combinations

import pytest
from pictures.drawing_lint import description, elements, words
from pictures.english import bevel_sections, draw_step, layers_at_hand
from pictures.picture_samples import sample_guide, sample_kit
from shapely import Point, box

from guidegen.assembly.records import JoinSeen, Seen
from guidegen.buildfile.records.motions import Motion
from guidegen.geometry.outline.transforms import RigidMotion, transform_shape
from guidegen.geometry.pieces.records import LayerPiece, LayerStack
from guidegen.pictures.pen.records import Circle, Lettering, groups
from guidegen.pictures.steps.motions import label_boxes
from guidegen.pictures.steps.steps import draw_step as drawn_step
from guidegen.words import ENGLISH


def step(name):
    """A step of the sample guide."""
    return next(s for s in sample_guide().guide.steps if s.id == name)


def kit_with(*stacks: tuple[str, ...]):
    """The sample kit with more stacks, given as tuples of an id and its parts from below."""
    more = tuple(
        LayerStack(name, name, 0, tuple(LayerPiece(p, p, "foam-6", 6, 1) for p in parts), 1)
        for name, *parts in stacks
    )
    return replace(sample_kit(), stacks=(*sample_kit().stacks, *more))


def test_layers_of_this_step_lie_on_one_another_and_are_marked():
    """The frame on the plate and the porthole on the frame, both glued now."""
    (plate,) = layers_at_hand(("keel",), (), sample_kit())
    (frame,) = plate.above
    (ornament,) = frame.above
    assert [one.words for one in (plate, frame, ornament)] == ["B1 · 10", "B2 · 6", "B3 · 2"]
    assert [one.fresh for one in (plate, frame, ornament)] == [False, True, True]
    svg = draw_step(step("layer"), sample_kit(), "m")
    (group,) = elements(svg, "g", "layers-at-hand")
    assert sum((e.get("class") or "") == "accent" for e in group) == 2
    assert "B2 on B1 in this step; B3 on B2 in this step" in description(svg)


def test_what_was_built_before_is_carried_along():
    """The disc that is laid on a plate of three layers shows them all, and only itself as new."""
    kit = kit_with(("crest", "plate", "disc"))
    (plate,) = layers_at_hand(("crest",), ("keel",), kit)
    assert [(one.label, one.fresh) for one in plate.above] == [("B2", False), ("D1", True)]
    assert plate.above[0].above[0].label == "B3"


def test_what_is_joined_later_or_elsewhere_is_not_shown():
    """Stacks of later steps, and of other pieces, are not at hand."""
    kit = kit_with(("crest", "plate", "disc"), ("other", "ridge", "stud"))
    (plate,) = layers_at_hand(("crest",), ("other",), kit)
    assert [one.label for one in plate.above] == ["D1"]


def test_a_part_under_and_over_itself_ends():
    """Stacks that go round in a circle, which only a mistake can make, are cut short."""
    kit = kit_with(("up", "ridge", "disc", "stud"), ("down", "stud", "disc"))
    (ridge,) = layers_at_hand(("up",), ("down",), kit)
    assert [one.label for one in ridge.above] == ["D1"]


def test_bevels_of_a_joined_seam_are_drawn_with_their_angle():
    """The ridge's edges are cut 30° inward; both hands of the cuff have none."""
    kit = sample_kit()
    (section,) = bevel_sections((), ("ridge", "cuff-back"), kit, cutting=False)
    assert section.words == ("C1 top", "30° from square, inward")
    svg = draw_step(step("close"), kit, "m")
    assert "C1 top" in words(svg)
    assert "Bevels: C1 top, 30° from square, inward." in description(svg)


def test_bevels_are_shown_where_they_are_cut_or_joined():
    """A step that only has the piece at hand shows none; one that cuts bevels shows all."""
    kit = sample_kit()
    assert bevel_sections(("ridge",), (), kit, cutting=False) == ()
    assert len(bevel_sections(("ridge", "plate"), (), kit, cutting=True)) == 1


@pytest.mark.parametrize("high", range(8, 40, 4))
def test_words_over_views_keep_off_the_words_over_layers(high):
    """However high the views beside the layers are, 'Before' and 'After' lie on no other word."""
    seen = Seen("front", 12.0, float(high), 0.1, *[()] * 9)
    drawing = drawn_step(
        step("layer"), sample_kit(), "m", seen=[JoinSeen(seen, seen)], lang=ENGLISH
    )
    assert drawing is not None
    boxes = list(label_boxes(drawing.items))
    said = [
        one.words
        for group in groups(drawing.items)
        for one in group.items
        if isinstance(one, Lettering)
    ]
    assert {"Before", "After", "B1 · 10"} <= set(said)
    for one, other in combinations(boxes, 2):
        apart = one[0] >= other[2] or other[0] >= one[2] or one[1] >= other[3] or other[1] >= one[3]
        assert apart, (one, other)


@pytest.mark.parametrize("turn", range(0, 360, 45))
def test_letters_of_seams_keep_off_all_words(turn):
    """Whichever way a seam lies, also along the upper edge: its letter stands over no words."""
    kit = sample_kit()
    motion = RigidMotion(angle=turn)
    pieces = [replace(one, shape=transform_shape(one.shape, motion)) for one in kit.pieces]
    drawing = drawn_step(
        step("close"), replace(kit, pieces=(*pieces,)), "m", motion=Motion.BRUSH, lang=ENGLISH
    )
    assert drawing is not None
    rings = [
        Point(one.centre).buffer(one.radius)
        for group in groups(drawing.items)
        for one in group.items
        if isinstance(one, Circle) and one.css == "accent paper"
    ]
    assert rings
    for words_box in (box(*sides) for sides in label_boxes(drawing.items)):
        # A letter stands in the middle of its ring.
        assert not any(
            ring.intersects(words_box) and not ring.contains(words_box.centroid) for ring in rings
        )
