"""What grading spoils is an error: stubs, spikes, notches, corners turned inside out."""

import pytest
from demo_content import read_demo
from geometry.drawing_samples import PLATE, PLATE_EDGES, codes, svg, try_drawing

from guidegen.geometry.fit.advice import size_table
from guidegen.geometry.pieces.kit import make_kit

CONTENT = read_demo("slipway-marshal")
(FILE,) = CONTENT.guides
M = size_table(FILE)["M"]
NARROW = {"chest": 973, "waist": 707, "back_length": 452, "shoulder_length": 160, "neck": 350}
NARROW |= {"upper_arm": 289, "forearm": 286, "wrist": 174, "forearm_length": 270}


@pytest.mark.parametrize("body", [NARROW, {**M, "chest": 1120, "waist": 800}])
def test_a_side_panel_that_shrinks_to_a_stub_is_refused(body):
    """Bodies within the demo's limits whose side panel would have a hem of 15 or 18 mm: the error
    names piece, edge, size and measurements, at the edge in the build file."""
    kit, problems = make_kit(FILE, CONTENT.stock, "own", body)
    assert kit is None
    (problem,) = problems
    assert problem.code == "grading-shrunk"
    assert problem.path == "parts.side-panel.edges.hem"
    for words in ("Side panel", "size own", "edge hem", "chest girth", "waist girth"):
        assert words in problem.message
    assert f"{body['waist']} mm" in problem.message
    assert "shrinks to 1" in problem.message


def test_the_demo_keeps_every_edge_in_all_its_sizes():
    """No size of the demo is refused: the limits leave room for sound grading."""
    for size in FILE.guide.sizes:
        kit, problems = make_kit(FILE, CONTENT.stock, size)
        assert kit is not None
        assert [p.code for p in problems if p.code.startswith("grading")] == []


def test_an_author_states_how_far_an_edge_may_shrink():
    """shrinks-to is a share of the drawn length: what is above it passes."""
    grade = PLATE_EDGES + "    grade: {c: {dx: -70}, d: {dx: -70}}\n"
    assert codes(PLATE, grade) == ["grading-shrunk", "grading-shrunk"]
    assert codes(PLATE, "    shrinks-to: 0.25\n" + grade) == []


def test_a_corner_turned_inside_out_is_told():
    """A corner drawn outward that grading pushes through its neighbours' line is concave."""
    body = """
    <path id="outline" d="M20,20 H120 L140,50 L120,80 H20 Z"/>
    <circle id="corner-a" cx="20" cy="20" r="2"/><circle id="corner-b" cx="20" cy="80" r="2"/>
    <circle id="corner-c" cx="120" cy="80" r="2"/><circle id="corner-d" cx="140" cy="50" r="2"/>
    <circle id="corner-e" cx="120" cy="20" r="2"/>
    """
    rule = "    grade: {{d: {{dx: {}*(drawn_calf - calf)}}}}\n"
    assert codes(svg(body), rule.format(0.5), "L") == []
    _, problems = try_drawing(svg(body), rule.format(1.5), "L")
    assert [problem.code for problem in problems] == ["grading-concave"]
    assert "size L" in problems[0].message
    assert "calf girth 395 mm; drawn for 360" in problems[0].message


@pytest.mark.parametrize("spike", [False, True])
def test_a_spike_is_told(spike):
    """A corner that is drawn out to a spike of foam tears; a blunt one passes."""
    body = """
    <path id="outline" d="M20,20 H80 L90,47 V53 L80,80 H20 Z"/>
    <circle id="corner-a" cx="20" cy="20" r="2"/><circle id="corner-b" cx="20" cy="80" r="2"/>
    <circle id="corner-c" cx="80" cy="80" r="2"/><circle id="corner-d" cx="90" cy="53" r="2"/>
    <circle id="corner-e" cx="90" cy="47" r="2"/><circle id="corner-f" cx="80" cy="20" r="2"/>
    """
    rule = "    shrinks-to: 0.1\n    grade: {d: {dx: 66}, e: {dx: 66}"
    rule += ", c: {dy: 28}, f: {dy: -28}}\n" if spike else "}\n"
    assert ("grading-thin" in codes(svg(body), rule, "L")) is spike


@pytest.mark.parametrize(("moves", "expected"), [(0, []), (-11, ["grading-thin"])])
def test_a_notch_is_told(moves, expected):
    """A gap in the outline that grading closes to a slit cannot be cut."""
    body = """
    <path id="outline" d="M20,20 H62 V60 H78 V20 H120 V80 H20 Z"/>
    <circle id="corner-a" cx="62" cy="20" r="2"/><circle id="corner-b" cx="62" cy="60" r="2"/>
    <circle id="corner-c" cx="78" cy="60" r="2"/><circle id="corner-d" cx="78" cy="20" r="2"/>
    <circle id="corner-e" cx="120" cy="20" r="2"/><circle id="corner-f" cx="120" cy="80" r="2"/>
    """
    rule = f"    shrinks-to: 0.1\n    grade: {{c: {{dx: {moves}}}, d: {{dx: {moves}}}}}\n"
    assert codes(svg(body), rule, "L") == expected
