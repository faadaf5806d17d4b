"""Motions: every one has a figure and words, stands where the work is, and never over a label."""

from dataclasses import replace
from pathlib import Path

import pytest
from pictures.drawing_lint import check_drawing
from pictures.motion_figure import FIGURE, draw_motions
from pictures.picture_samples import sample_guide, sample_kit
from shapely import Point, Polygon

from guidegen.buildfile.records.motions import SAID, Motion
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.records import Circle, Drawing, Group, groups
from guidegen.pictures.pen.records import Path as Drawn
from guidegen.pictures.steps.actions import action_of
from guidegen.pictures.steps.figures import FIGURES, ON_PIECES
from guidegen.pictures.steps.motions import BAND, Worked, label_boxes
from guidegen.pictures.steps.motions import _spots as spots
from guidegen.pictures.steps.steps import MOST_DRAWN, SCALE_BAND, draw_step
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

STEPS = [step.id for step in sample_guide().guide.steps]


def drawn(name: str, motion: Motion | None) -> Drawing | None:
    """A step of the sample guide as it would be with a motion."""
    step = next(step for step in sample_guide().guide.steps if step.id == name)
    return draw_step(step, sample_kit(), "m", motion=motion, lang=ENGLISH)


def figures(drawing: Drawing) -> list[Group]:
    """The figures of a drawing; the one at its head first."""
    return [group for group in groups(drawing.items) if "motion-" in group.css]


def room(figure: Group) -> tuple[float, float, float, float]:
    """Left, low, right and high of the paths of a figure."""
    paths = [item for item in figure.items if isinstance(item, Drawn)]
    return bounds(tuple(run for path in paths for run in path.runs))


def test_every_motion_has_a_figure_and_short_words():
    """The table of figures is whole, and what a drawing says fits its head: 50 letters."""
    assert set(FIGURES) == set(ON_PIECES) == set(SAID) == set(Motion)
    assert all(FIGURES.values())
    assert all(len(said) <= 50 for said in SAID.values())


@pytest.mark.parametrize("edges", [False, True])
@pytest.mark.parametrize("faces", [False, True])
def test_glue_goes_where_the_drawing_shows_it(edges, faces):
    """Words name hatched faces only where there are some, and join edges only where there are."""
    spread = action_of(Motion.SPREAD, edges=edges, faces=faces).said
    assert ("letter" in spread) is edges and ("hatched" in spread) is faces
    joins = action_of(Motion.JOIN, edges=edges, faces=faces)
    assert ("edge to edge" in joins.said) is edges
    assert joins.motion is (Motion.JOIN if edges else Motion.PRESS)
    assert all(len(one) <= 52 for one in (spread, joins.said))


@pytest.mark.parametrize("motion", Motion)
@pytest.mark.parametrize("name", STEPS)
def test_no_figure_lies_over_a_label(name, motion):
    """Whatever the step and the motion: no figure on a piece meets the room of a word or ring, nor
    the figure at the head."""
    drawing = drawn(name, motion)
    assert drawing is not None
    check_drawing(svg_file(drawing))
    labels = list(label_boxes(drawing.items))
    head, *others = figures(drawing)
    assert head.title and head.title in drawing.description
    labels.append(room(head))
    for figure in others:
        assert not any(isinstance(item, Circle) for item in figure.items)
        left, low, right, high = room(figure)
        for box in labels:
            assert left >= box[2] or right <= box[0] or low >= box[3] or high <= box[1]


def test_a_step_without_motion_says_no_action():
    """Where a process names no motion the drawing is as high as its pieces, without a figure."""
    with_motion, without = drawn(STEPS[-1], Motion.CUT), drawn(STEPS[-1], None)
    assert with_motion is not None
    if without is not None:
        assert not figures(without) and "Action" not in without.description
        assert with_motion.height - BAND == pytest.approx(without.height - SCALE_BAND)


def many(count: int, motion: Motion | None) -> Drawing | None:
    """A step with so many parts as large as the plate of the sample, and a stud."""
    plate = next(piece for piece in sample_kit().pieces if piece.part == "plate")
    parts = tuple(f"part-{number}" for number in range(count))
    pieces = tuple(replace(plate, part=name, label=f"X{n}") for n, name in enumerate(parts, 1))
    kit = replace(sample_kit(), pieces=(*sample_kit().pieces, *pieces), seams=(), stacks=())
    step = sample_guide().guide.steps[1].model_copy(update={"parts": parts})
    return draw_step(step, kit, "m", motion=motion, lang=ENGLISH)


@pytest.mark.parametrize("count", range(1, MOST_DRAWN + 1))
def test_pieces_are_drawn_as_large_as_they_can_be_told_or_not_at_all(count):
    """No drawing of a step shows specks: its largest piece has 6 mm, or its motion stands alone."""
    drawing = many(count, Motion.CUT)
    assert drawing is not None
    shown = [group for group in groups(drawing.items) if "piece-part" in group.css]
    paths = [item for group in shown for item in group.items if isinstance(item, Drawn)]
    boxes = [bounds(path.runs) for path in paths]
    sides = [max(right - left, high - low) for left, low, right, high in boxes]
    assert (max(sides) >= 6) if sides else drawing.height == pytest.approx(BAND)
    assert sides or count > 6
    if count <= MOST_DRAWN - 3:
        # A drawing that has nothing else to show takes more room.
        without = many(count, None)
        assert without is not None and any("piece-part" in g.css for g in groups(without.items))


def test_a_knife_lies_on_the_outline_and_a_punch_in_the_hole():
    """The working point is where the geometry has the work: on the rim; in the middle of a hole."""
    holed = [piece for piece in sample_kit().pieces if piece.shape.holes]
    assert holed
    for piece in holed:
        at, _ = next(spots(Motion.PUNCH, Worked(piece, Frame())))
        assert Polygon(flatten(piece.shape.holes[0], 0.1)).contains(Point(at))
    for piece in sample_kit().pieces:
        (x, y), way = next(spots(Motion.CUT, Worked(piece, Frame())))
        rim = Polygon(flatten(piece.shape.ring(), 0.01)).exterior
        assert rim.distance(Point(x, y)) < 0.02
        assert way[0] ** 2 + way[1] ** 2 == pytest.approx(1)


def test_the_gallery_of_the_handbook_is_what_the_code_draws():
    """The figure in the handbook is drawn by this code, and named in its chapter."""
    assert FIGURE.read_text("utf-8") == draw_motions()
    chapter = (Path(FIGURE).parents[1] / "steps.md").read_text("utf-8")
    assert "pictures/motions.svg" in chapter
    assert all(f"`{motion}`" in chapter for motion in Motion)
