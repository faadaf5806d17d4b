"""Steps, time line, joins and where to measure."""

import itertools
import re
from dataclasses import replace
from math import hypot

import pytest
from demo_content import read_demo
from pictures.drawing_lint import description, elements, lettering, path_points, words
from pictures.english import (
    draw_body,
    draw_joins,
    draw_step,
    draw_time_line,
)
from pictures.picture_samples import sample_guide, sample_kit

from guidegen.buildfile.records.guide import Measurement
from guidegen.buildfile.records.stock import Process, Stock
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam
from guidegen.layout.times.plans import plan_time
from guidegen.pictures.bodies.body_outline import HALF, TAPES, find_tape
from guidegen.pictures.pieces.graph_layout import group_names
from guidegen.quantities import duration_words, work_words
from guidegen.words import ENGLISH


def step(name):
    """A step of the sample guide."""
    return next(s for s in sample_guide().guide.steps if s.id == name)


def test_a_seam_is_marked_on_both_edges_with_the_same_letter():
    """Cuff back: a, twice on the cuff and once in the key; the ridge's seam is b."""
    svg = draw_step(step("close"), sample_kit(), "m")
    assert words(svg).count("a") == 3
    assert words(svg).count("b") == 2
    assert "A1L left to A1L right, 210\u00a0mm, 2\u00a0times" in " ".join(words(svg))
    strong = [e for e in elements(svg, "path", "accent") if e.get("stroke-width") == "0.9"]
    assert len(strong) == 3


def test_glued_faces_of_a_stack_are_hatched():
    """The frame's footprint on the plate is hatched, and the key says what that means."""
    svg = draw_step(step("layer"), sample_kit(), "m")
    (plate,) = elements(svg, "g", "step")
    assert any("accent" in (e.get("class") or "") for e in plate)
    assert "gets glue, and so does the face that lies on it" in words(svg)


def test_a_step_without_pieces_has_no_drawing():
    """Printing needs no picture of pieces."""
    assert draw_step(step("print"), sample_kit(), "m") == ""


def test_a_texturing_step_hatches_the_textured_area():
    """The key names it."""
    assert "texture here" in words(draw_step(step("press"), sample_kit(), "m"))


def test_the_time_line_shows_every_stage_with_its_hours():
    """Hours of work by stage, in all, and from start to end."""
    guide, stock = sample_guide().guide, Stock()
    time = plan_time(guide, stock)
    svg = draw_time_line(time, guide)
    for expected in ("preparing", "cutting", "texturing", "gluing", "painting", "2 h", "40 min"):
        assert expected in [word.replace("\u00a0", " ") for word in words(svg)]
    assert f"{work_words(time.hands_on, ENGLISH)} of work" in words(svg)
    assert f"{duration_words(time.elapsed, ENGLISH)} from start to end" in words(svg)
    assert "1\u00a0h 15\u00a0min of work" in description(svg)


def test_a_site_calls_stages_by_its_own_names():
    """What the site calls a stage stands in the drawing and its description; others keep theirs."""
    guide, stock = sample_guide().guide, Stock(stages={"gluing": "sewing by hand"})
    svg = draw_time_line(plan_time(guide, stock), guide, called=stock.stages)
    assert "sewing by hand" in words(svg)
    assert "gluing" not in words(svg)
    assert "cutting" in words(svg)
    assert "sewing by hand" in description(svg)


def test_bars_of_one_scale_are_as_long_as_the_work():
    """Two hours of cutting are three times as wide as forty minutes of preparing."""
    guide, stock = sample_guide().guide, Stock()
    svg = draw_time_line(plan_time(guide, stock), guide)

    def width(stage):
        (group,) = elements(svg, "g", f"stage-{stage}")
        return sum(float(e.get("width")) for e in group if e.get("class") == "work")

    assert width("cutting") == pytest.approx(3 * width("preparing"), rel=1e-3)


def test_a_wait_may_come_from_the_process():
    """A step without its own wait takes that of its process."""
    file = sample_guide()
    stock = Stock(processes={"cement": Process(name="Cement", how="So.", wait="6 h")})
    steps = tuple(s.model_copy(update={"process": "cement"}) for s in file.guide.steps)
    guide = file.guide.model_copy(update={"steps": steps})
    svg = draw_time_line(plan_time(guide, stock), guide)
    assert "preparing 40\u00a0min of work, 6\u00a0h of waiting" in description(svg)


def test_joins_show_every_part_once_and_how_it_joins():
    """Layers as thick lines between boxes, seams of a part with itself inside its box."""
    (svg,) = draw_joins(sample_kit(), "m")
    boxes = list(elements(svg, "rect", "ink"))
    assert len(boxes) == 7
    assert "edge to edge: 2 × 210\u00a0mm" in words(svg)
    # Each box says which part it is in words, or with as many of them as have room.
    for one in sample_kit().pieces:
        assert any(one.name.startswith(said.rstrip("…")) for said in words(svg)), one.name
    assert "B2 Window frame is glued on B1 Keel plate" in description(svg)
    assert "no seam or layer with another part" in words(svg)


def test_boxes_of_joins_and_words_on_lines_keep_clear_of_one_another():
    """Boxes grow for seams between their own edges, and three seams end in one column."""
    content = read_demo("tide-herald")
    (file,) = content.guides
    kit, _ = make_whole_kit(file, content.stock, "M", words=ENGLISH)
    assert kit is not None
    for svg in draw_joins(kit, "m"):
        boxes, said = elements(svg, "rect", "ink"), elements(svg, "rect", "paper")
        assert len(boxes) > 10
        assert len(said) > 5
        for one, other in itertools.combinations([*boxes, *said], 2):
            (x, y, width, high), (x2, y2, width2, high2) = map(placed, (one, other))
            apart = max(x - x2 - width2, x2 - x - width, y - y2 - high2, y2 - y - high)
            assert apart > 0


def placed(rect):
    """Left, top, width and height of a rectangle."""
    return tuple(float(rect.get(name)) for name in ("x", "y", "width", "height"))


def test_joins_of_many_parts_are_several_drawings():
    """Each is at most as high as a page has room for, and no part or join is lost or told twice."""
    kit = sample_kit()
    more = [
        replace(
            kit,
            pieces=tuple(replace(one, part=f"{one.part}-{n}") for one in kit.pieces),
            stacks=tuple(
                replace(
                    stack,
                    layers=tuple(replace(one, part=f"{one.part}-{n}") for one in stack.layers),
                )
                for stack in kit.stacks
            ),
            seams=(),
        )
        for n in range(6)
    ]
    large = replace(
        kit,
        pieces=tuple(one for each in more for one in each.pieces),
        stacks=tuple(one for each in more for one in each.stacks),
        seams=(),
    )
    drawings = draw_joins(large, "m")
    assert len(drawings) > 1
    for svg in drawings:
        assert float(re.search(r'viewBox="0 0 160 ([\d.]+)"', svg).group(1)) <= 190
    boxes = sum(len(list(elements(svg, "rect", "ink"))) for svg in drawings)
    assert boxes == len({one.part for one in large.pieces})
    glued = sum(description(svg).count("is glued on") for svg in drawings)
    assert glued == sum(len(stack.layers) - 1 for stack in large.stacks)
    ids = [name for svg in drawings for name in re.findall(r' id="([^"]*joins[^"]*)"', svg)]
    assert len(set(ids)) == len(ids) == len(drawings)


def test_groups_start_where_nothing_leads_and_keep_all_names():
    """Columns follow the pairs; names without a partner stand alone; no name is lost."""
    groups = group_names("abcdefg", [("a", "b"), ("b", "c"), ("a", "d"), ("f", "e")], 3)
    assert [g.columns for g in groups] == [
        (("a",), ("b", "d"), ("c",)),
        (("f",), ("e",)),
        (("g",),),
    ]


def test_long_chains_wrap_into_the_last_column():
    """Five in a chain in three columns: the rest stands in the third."""
    (group,) = group_names("abcde", [("a", "b"), ("b", "c"), ("c", "d"), ("d", "e")], 3)
    assert group.columns == (("a",), ("b",), ("c", "d", "e"))


def test_known_measurements_get_a_line_and_unknown_ones_only_a_row():
    """Chest, forearm and back are drawn; room for the lace is listed without a ring."""
    svg = draw_body(sample_guide().guide.measurements, "m")
    tapes = [e for e in elements(svg, "path", "accent") if e.get("stroke-width") == "0.6"]
    assert len(tapes) == 3
    assert "Room for the lace" in words(svg)
    assert "4 Room for the lace (without a line)" in description(svg)
    assert "front" in words(svg)
    assert "back" in words(svg)


def test_the_back_is_drawn_only_where_something_is_measured_there():
    """A bracer needs the front alone."""
    svg = draw_body({"wrist": Measurement(name="Wrist", take="Around.")}, "m")
    assert "back" not in words(svg)
    assert draw_body({}, "m") == ""


def test_girths_of_the_figure_end_on_its_outline():
    """Trunk and limb lines run from rim to rim: their ends lie within a unit of the outline."""
    for tape in TAPES:
        if not tape.girth:
            continue
        for x, y in (tape.start, tape.end):
            reach = min(_beside((abs(x), y), a, b) for a, b in itertools.pairwise(HALF))
            assert reach < 1, (tape.names, x, y)


def test_the_names_of_the_task_are_known():
    """Common measurements of armour have a place on the figure."""
    for name in (
        "chest", "waist", "hip", "neck", "head", "upper_arm", "forearm", "wrist", "thigh", "calf",
        "ankle", "shoulder", "back_length", "torso_length", "height", "forearm_length",
    ):  # fmt: skip
        assert find_tape(name) is not None, name


def _beside(point, start, end):
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy or 1.0
    t = max(0.0, min(1.0, ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square))
    return ((start[0] + t * dx - point[0]) ** 2 + (start[1] + t * dy - point[1]) ** 2) ** 0.5


@pytest.mark.parametrize("name", ["close", "layer", "press"])
def test_words_of_a_step_print_large_enough(name):
    """At the 84 mm that a booklet gives the drawing (booklet.css), no letter is under 7.5 pt."""
    svg = draw_step(step(name), sample_kit(), "m")
    wide = float(re.search(r'viewBox="0 0 ([0-9.]+)', svg)[1])
    least = min(float(size) for size in re.findall(r'font-size="([0-9.]+)"', svg))
    assert least * 84 / wide * 72 / 25.4 >= 7.5


def joined_in_a_column():
    """Three parts: the first joined to both others by seams, which stand in one column and join."""
    kit = sample_kit()
    names = ("cuff", "plate", "frame")
    pieces = tuple(one for one in kit.pieces if one.part in names)
    seams = tuple(
        JoinedSeam(f"s{n}", EdgeRef(one, "a"), EdgeRef(two, "b"), 100 + n, 100 + n, 0, 1, 1, 5)
        for n, (one, two) in enumerate(
            (("cuff", "plate"), ("cuff", "frame"), ("plate", "frame"), ("plate", "frame"))
        )
    )
    return replace(kit, pieces=pieces, seams=seams, stacks=())


def test_a_seam_is_drawn_and_told_as_a_seam():
    """Seams are double lines with their lengths, layers thick ones with a dot; words say the same."""
    (seams,) = draw_joins(joined_in_a_column(), "m")
    # One of each kind is in the key.
    assert len(elements(seams, "path", "paper-line")) == 4 + 1
    assert len(elements(seams, "path", "glue")) == 1
    assert "is glued on" not in description(seams)
    assert description(seams).count(" is joined to ") == 4
    assert {"100\u00a0mm", "103\u00a0mm"} <= set(words(seams))
    (layers,) = draw_joins(replace(sample_kit(), seams=()), "m")
    assert len(elements(layers, "path", "glue")) == 2 + 1
    assert len(elements(layers, "circle", "arrow")) == 2 + 1
    assert len(elements(layers, "path", "paper-line")) == 1
    assert "is joined to" not in description(layers)


def test_curves_between_boxes_of_a_column_keep_beside_them():
    """Joins of boxes above one another bow out into free paper, each further than the one before;
    other joins leave the box towards the one that they lead to, and never cross a box."""
    (svg,) = draw_joins(joined_in_a_column(), "m")
    boxes = [
        tuple(float(e.get(name)) for name in ("x", "y", "width", "height"))
        for e in elements(svg, "rect", "ink")
    ]
    runs = [path_points(e.get("d")) for e in elements(svg, "path", "paper-line")][:-1]
    curves = [re.findall(r"-?\d+\.?\d*", e.get("d")) for e in elements(svg, "path", "paper-line")]
    beside = 0
    for (start, end), numbers in zip(runs, curves[:-1], strict=True):
        first, second = float(numbers[2]), float(numbers[4])
        if abs(start[0] - end[0]) < 1:
            beside += 1
            right = [x + w for x, _, w, _ in boxes if abs(x + w - start[0]) < 0.01]
            left = [x for x, *_ in boxes if abs(x - start[0]) < 0.01]
            assert (first - start[0]) * (1 if right else -1) >= 14
            assert first == second and bool(right) != bool(left)
            assert 0 <= start[0] + (first - start[0]) * 0.75 <= 160
        else:
            assert start[0] < first == pytest.approx((start[0] + end[0]) / 2) and second == first
            assert any(abs(x + w - start[0]) < 0.01 for x, _, w, _ in boxes)
            assert any(abs(x - end[0]) < 0.01 for x, *_ in boxes)
    assert beside == 2


def test_every_measurement_has_its_number_in_the_list():
    """Once at its tape and once before its words, so that each tape is found."""
    names = ("chest", "waist", "upper_arm")
    svg = draw_body({name: Measurement(name=name.title(), take="Around.") for name in names}, "m")
    for number, name in enumerate(names, 1):
        beside = [one for one in lettering(svg) if one.words == str(number)]
        (label,) = [one for one in lettering(svg) if one.words.startswith(name.title())]
        assert len(beside) == 2, name
        assert any(one.right < label.left and abs(one.top - label.top) < 2 for one in beside)


def test_a_tape_sags_alike_on_both_sides():
    """Also where it is held at a slant, as round an upper arm: 1.1 mm at most off the straight."""
    for name in ("chest", "upper_arm"):
        svg = draw_body({name: Measurement(name=name.title(), take="Around.")}, "m")
        tapes = [path.get("d") for path in elements(svg, "path", "accent") if "C" in path.get("d")]
        assert tapes
        for tape in tapes:
            numbers = [float(one) for one in re.findall(r"-?\d+\.?\d*", tape)]
            start, first, second, end = ((numbers[n], numbers[n + 1]) for n in range(0, 8, 2))
            length = hypot(end[0] - start[0], end[1] - start[1])
            away = [
                ((end[0] - start[0]) * (y - start[1]) - (end[1] - start[1]) * (x - start[0]))
                / length
                for x, y in (first, second)
            ]
            assert away[0] == pytest.approx(away[1], abs=0.02)
            assert 0.2 < abs(away[0]) * 3 / 4 <= 1.11
