"""Templates of other programs, PDF and DXF, come back as they were meant, or are refused."""

import io
from itertools import product
from pathlib import Path

import ezdxf
import pytest
from bench.vector_files import drawn, pdf, piece, refusal, ring
from benchmarks.vector_writers import FORMS, Form, by_ezdxf, by_reportlab, inches, worst
from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from guidegen.bench.vectors.redraw import Wishes, redraw
from guidegen.errors import UsageError
from guidegen.geometry.drawing.records import Role
from guidegen.geometry.outline.measures import run_area
from guidegen.geometry.outline.records import Arc

KEPT = Path(__file__).parents[1] / "corpus" / "vectors"


@pytest.mark.parametrize(
    ("program", "form"), [*product(("chromium", "matplotlib", "weasyprint"), FORMS)]
)
def test_kept_files_of_other_programs_come_back(program, form):
    """PDFs that a browser, a plotting library and a page layouter wrote are right to 0.01 mm."""
    data = (KEPT / f"{program}-{form}.pdf").read_bytes()
    assert worst(FORMS[form](), data) <= 0.01


@pytest.mark.parametrize("form", FORMS)
def test_pdfs_of_a_report_library_come_back(form):
    """PDFs with circles and arcs of another making are right to 0.01 mm."""
    assert worst(FORMS[form](), by_reportlab(FORMS[form]())) <= 0.01


@pytest.mark.parametrize(
    ("version", "form"), [*product(("R12", "R2000", "R2018"), ("disc", "leg", "hook"))]
)
def test_dxf_of_three_versions_comes_back(version, form):
    """Bulges, circles, splines and old polylines are right to 0.01 mm, in mm, inches or no unit."""
    made: Form = FORMS[form]()
    data = by_ezdxf(version, 1)(inches(made)) if version == "R2018" else by_ezdxf(version)(made)
    assert worst(made, data, unit_given=version != "R12") <= 0.01


@pytest.mark.parametrize("program", ["chromium", "matplotlib", "weasyprint"])
def test_circles_of_a_pdf_are_arcs_again(program):
    """However a program writes a circle as curves, it comes back as one whole circle."""
    found = piece(drawn((KEPT / f"{program}-disc.pdf").read_bytes()))
    rings = [found.ring(), *found.holes]
    assert len(rings) == 6
    assert all(isinstance(segment, Arc) for run in rings for segment in run)
    radii = sorted(round(run[0].radius, 2) for run in rings if isinstance(run[0], Arc))
    assert radii == [pytest.approx(4.5, abs=0.01)] * 5 + [pytest.approx(110, abs=0.01)]


def test_layers_of_a_dxf_are_names_and_roles():
    """A layer that is named after a role has it; others are given one, or tell that they lack it."""
    document = ezdxf.new("R2010", units=4)
    space = document.modelspace()
    for name, at in (("CUT", 0), ("Fold lines", 30), ("pen", 60)):
        document.layers.add(name, color=1)
        points = [(0, 0), (200, 0), (200, 100), (0, 100)] if not at else [(10, at), (190, at)]
        space.add_lwpolyline(points, close=not at, dxfattribs={"layer": name})
    document.layers.add("old", color=2).off()
    space.add_circle((50, 50), 5, dxfattribs={"layer": "old"})
    space.add_text("front", dxfattribs={"layer": "CUT"})
    out = io.StringIO()
    document.write(out)
    made = drawn(out.getvalue().encode())
    assert made.names == ("CUT", "Fold lines", "pen")
    assert [problem.code for problem in made.problems] == ["drawing-unnamed"]
    assert any("switched off: old" in note for note in made.notes)
    assert any("1 words" in note for note in made.notes)
    marked = drawn(out.getvalue().encode(), roles={"pen": Role.ENGRAVE})
    assert marked.problems == ()
    assert sorted(line.kind for line in piece(marked).lines) == ["engrave", "fold"]
    with pytest.raises(UsageError, match='no layer or colour "cut" in the file; there are: CUT'):
        redraw(out.getvalue().encode(), "a", "a.svg", Wishes(roles={"cut": Role.HOLE}))


def test_blocks_of_a_dxf_are_taken_apart():
    """A block that is put mirrored, turned and enlarged draws its lines there."""
    document = ezdxf.new("R2010", units=4)
    block = document.blocks.new("plate")
    block.add_lwpolyline(
        [(0, 0, 0), (40, 0, 0.5), (40, 30, 0), (0, 30, 0)], format="xyb", close=True
    )
    look = {"xscale": -2, "yscale": 2, "rotation": 30}
    document.modelspace().add_blockref("plate", (300, 100), dxfattribs=look)
    out = io.StringIO()
    document.write(out)
    found = piece(drawn(out.getvalue().encode()))
    # A bulge of 0.5 over a chord of 30 mm: r = 18.75, and the segment's area by r² (a - sin a) / 2.
    area = 40 * 30 + 18.75**2 * (1.854590 - 0.96) / 2
    assert run_area(found.ring()) == pytest.approx(4 * area, abs=0.01)
    assert any(isinstance(segment, Arc) for segment in found.ring())


def test_colours_of_a_pdf_are_names():
    """Without layers, lines are told apart by their colour."""

    def page(canvas: Canvas) -> None:
        ring(canvas, (20, 20), (120, 20), (120, 90), (20, 90))
        canvas.setStrokeColorRGB(1, 0, 0)
        canvas.line(30, 50, 110, 50)
        canvas.setStrokeColorRGB(0.1, 0.2, 0.3)
        canvas.line(30, 60, 110, 60)

    assert drawn(pdf(page)).names == ("black", "red", "#1a334c")


def test_holes_and_pieces_are_told_apart():
    """Rings of the cut line inside others are holes; what lies in a hole is a piece again."""

    def page(canvas: Canvas) -> None:
        for low, high in ((20, 180), (60, 140), (80, 120)):
            ring(canvas, (low, low), (high, low), (high, high), (low, high))
        canvas.circle(30, 30, 4)

    made = drawn(pdf(page))
    assert [part.name for part in made.parts] == ["piece-1", "piece-2"]
    assert len(piece(made).holes) == 2
    assert run_area(piece(made, "piece-2").ring()) == pytest.approx(1600, abs=0.01)


def test_frames_and_grounds_are_left_out():
    """White ground, the page's own frame and the dashed frame of a tile are no lines of a piece."""

    def page(canvas: Canvas) -> None:
        canvas.setFillColorRGB(1, 1, 1)
        canvas.rect(0, 0, 210, 297, stroke=0, fill=1)
        canvas.rect(0.2, 0.2, 209.6, 296.6)
        canvas.setDash(3, 2)
        canvas.rect(10, 10, 190, 277)
        canvas.setDash()
        ring(canvas, (50, 50), (150, 50), (150, 200), (50, 200))
        canvas.setDash(2, 2)
        canvas.line(60, 100, 140, 100)

    made = drawn(pdf(page))
    assert [len(part.part.lines) for part in made.parts] == [2]
    assert any("1 dashed frame of a tile" in note for note in made.notes)


def test_lines_that_touch_are_one_line():
    """An outline that was taken apart into single strokes, in any order, is whole again."""

    def page(canvas: Canvas) -> None:
        points = [(20, 20), (120, 20), (120, 90), (70, 120), (20, 90)]
        sides = list(zip(points, [*points[1:], points[0]], strict=True))
        for number in (3, 0, 4, 2, 1):
            (x0, y0), (x1, y1) = sides[number]
            canvas.line(x1, y1, x0, y0) if number % 2 else canvas.line(x0, y0, x1, y1)

    assert len(piece(drawn(pdf(page))).ring()) == 5


def test_a_picture_is_sent_to_trace():
    """A PDF of pixels alone says so, and what to do."""
    picture = ImageReader(Image.new("RGB", (30, 20), "white"))
    said = refusal(pdf(lambda c: c.drawImage(picture, 10, 10, 100, 100)))
    assert "only a picture" in said
    assert "guidegen trace" in said


def test_words_alone_are_no_template():
    """A PDF of words is refused with that."""
    assert "words alone" in refusal(pdf(lambda c: c.drawString(10, 10, "cut here")))


def test_the_same_file_gives_the_same_drawing():
    """Bytes depend on the file and on what is said of it alone."""
    data = (KEPT / "chromium-hook.pdf").read_bytes()
    assert drawn(data).svg == drawn(data).svg
