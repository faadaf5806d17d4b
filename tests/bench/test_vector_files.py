"""Templates of other programs, PDF and DXF, come back as they were meant, or are refused."""

import io
from dataclasses import replace
from itertools import product
from pathlib import Path

import ezdxf
import pikepdf
import pytest
from benchmarks.vector_writers import FORMS, Form, by_ezdxf, by_reportlab, inches, worst
from layout.template_samples import sample_kit
from outside.test_true_scale import HEAD
from PIL import Image
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from guidegen.bench.vectors.naming import read_point, read_stated
from guidegen.bench.vectors.records import VectorError
from guidegen.bench.vectors.redraw import Redrawn, Wishes, redraw
from guidegen.errors import UsageError
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.geometry.drawing.records import DrawnPiece, Role
from guidegen.geometry.outline.measures import run_area, run_length
from guidegen.geometry.outline.records import Arc
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.templates.pages import draw_template_pages
from guidegen.render.pdf.template_pdf import render_template_pdf
from guidegen.words import ENGLISH

KEPT = Path(__file__).parents[1] / "corpus" / "vectors"


def drawn(data: bytes, **wishes: object) -> Redrawn:
    """A file redrawn, without any error in the new drawing."""
    made = redraw(data, "a", "a.svg", Wishes(**wishes))
    assert [str(p) for p in made.problems if p.code != "drawing-unnamed"] == []
    return made


def piece(made: Redrawn, name: str = "piece-1") -> DrawnPiece:
    """One piece of a drawing, as a build file gets it."""
    drawing, _ = read_drawing(made.svg, "a.svg")
    assert drawing is not None
    found, _ = assemble(drawing, name)
    assert found is not None
    return found


def refusal(data: bytes, **wishes: object) -> str:
    """Why a file is refused."""
    with pytest.raises(VectorError) as caught:
        redraw(data, "a", "a.svg", Wishes(**wishes))
    return str(caught.value)


def pdf(*pages: object, size: tuple[float, float] = (210, 297)) -> bytes:
    """A PDF whose pages are drawn by functions, in mm."""
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(size[0] * mm, size[1] * mm), invariant=1)
    for draw in pages:
        canvas.scale(mm, mm)
        canvas.setLineWidth(0.3)
        draw(canvas)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def ring(canvas: Canvas, *points: tuple[float, float]) -> None:
    """A closed line through points."""
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    path.close()
    canvas.drawPath(path)


# --- files of five programs ---


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


# --- units and lengths ---


def test_a_file_without_a_unit_needs_a_length():
    """Without a unit and a length nobody knows how large it is; a length says which unit it is."""
    data = by_ezdxf("R12")(FORMS["plate"]())
    assert "does not say in which unit" in refusal(data)
    made = drawn(data, lengths=(read_stated("width=14 cm"),))
    assert "it is in mm" in made.notes[0]
    assert 'data-length="140 mm"' in made.svg
    said = refusal(data, lengths=(read_stated("width=150 mm"),))
    assert "none fits: it would be 140 mm if it is in mm, 1400 mm if it is in cm" in said


def test_a_length_that_disagrees_is_told_with_what_explains_it():
    """A drawing in inches that calls itself mm is refused, with the unit that fits."""
    data = by_ezdxf("R2000", 4)(inches(FORMS["plate"]()))
    said = refusal(data, lengths=(read_stated("width=140 mm"),))
    assert "it is 5.51 mm in the file, which is in mm: inches were read as mm" in said
    assert "--unit in" in said
    made = drawn(data, unit="in", lengths=(read_stated("width=140 mm"),))
    assert abs(run_area(piece(made).ring()) - run_area(FORMS["plate"]()[0])) < 1


def test_a_drawing_at_another_scale_is_told_by_how_much():
    """A drawing at 1:10 is refused with the option that enlarges it."""
    data = pdf(lambda c: ring(c, (20, 20), (50, 20), (50, 60), (20, 60)))
    assert "--scale 10" in refusal(data, lengths=(read_stated("width=300 mm"),))
    made = drawn(data, scale=10.0, lengths=(read_stated("width=300 mm"),))
    assert run_area(piece(made).ring()) == pytest.approx(300 * 400, abs=0.1)


def test_a_length_may_be_between_two_points():
    """Points that were read off a screen are put on the ends of lines nearby."""
    data = pdf(lambda c: ring(c, (20, 27), (120, 27), (120, 97), (20, 97)))
    points = (read_point("A=19.2,199.5"), read_point("1:B=120.6,270.9"))
    assert drawn(data, points=points, lengths=(read_stated("A-B=122.066 mm"),))
    assert "A-B=130 mm" in refusal(data, points=points, lengths=(read_stated("A-B=130 mm"),))
    with pytest.raises(UsageError, match="no line ends or crosses another"):
        redraw(data, "a", "a.svg", Wishes(points=(read_point("A=60,60"),)))
    with pytest.raises(UsageError, match="no point C"):
        redraw(data, "a", "a.svg", Wishes(points=points, lengths=(read_stated("A-C=9 mm"),)))


@pytest.mark.parametrize("text", ["A", "A=1", "0x:A=1,2", "A=1,2,3", "9:=1,2", "A=nan,2"])
def test_points_that_are_none_are_told(text):
    """A point is a name and two numbers."""
    with pytest.raises(UsageError, match="expected PAGE:NAME=X,Y"):
        read_point(text)


@pytest.mark.parametrize(
    "text", ["A-B", "A-B=3", "A-B=3 px", "A=3 mm", "width=0 mm", "width=-2 mm"]
)
def test_lengths_that_are_none_are_told(text):
    """A length is of two points or of all, and has a unit."""
    with pytest.raises(UsageError, match="--length"):
        read_stated(text)


def test_pages_may_be_turned_cropped_and_in_large_units():
    """What a viewer shows of a page counts: its crop box, its turn and its unit."""
    plain = pdf(lambda c: ring(c, (20, 20), (120, 20), (120, 60), (20, 60)))
    for turn, unit in ((90, 1), (270, 1), (180, 2)):
        out = io.BytesIO()
        with pikepdf.open(io.BytesIO(plain)) as file:
            page = file.pages[0].obj
            page.Rotate, page.UserUnit = turn, unit
            page.CropBox = pikepdf.Array([10, 10, 500, 700])
            file.save(out)
        left, low, right, high = drawn(out.getvalue()).parts[0].part.box
        wide, tall = (100, 40) if turn == 180 else (40, 100)
        assert (right - left, high - low) == pytest.approx((wide * unit, tall * unit), abs=1e-3)


# --- layers, colours, frames ---


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


# --- pages ---


def tile(left: float, *, clipped: bool) -> object:
    """A page that shows what is from `left` on of a plate 300 mm wide, with crosses to join by."""

    def draw(canvas: Canvas) -> None:
        canvas.saveState()
        if clipped:
            window = canvas.beginPath()
            window.rect(10, 10, 190, 277)
            canvas.clipPath(window, stroke=0, fill=0)
        canvas.translate(20 - left, 0)
        if clipped:
            ring(canvas, (10, 40), (310, 60), (310, 220), (10, 200))
            canvas.circle(160, 130, 30)
        elif left == 0:
            for line in ((10, 40, 180, 51.3333333), (10, 40, 10, 200), (10, 200, 180, 211.3333333)):
                canvas.line(*line)
        else:
            for line in (
                (170, 50.6666667, 310, 60),
                (310, 60, 310, 220),
                (310, 220, 170, 210.6666667),
            ):
                canvas.line(*line)
        for y in (20, 270):
            canvas.line(171, y, 179, y)
            canvas.line(175, y - 4, 175, y + 4)
        canvas.restoreState()

    return draw


def test_pages_are_joined_by_two_points_that_both_show():
    """Both pages show a strip of 10 mm; the outline comes out whole, each line once."""
    data = pdf(tile(0, clipped=False), tile(150, clipped=False))
    points = [
        f"{page}:{name}={x},{297 - y}"
        for page, x in ((1, 195.4), (2, 44.8))
        for name, y in (("A", 20.3), ("B", 269.6))
    ]
    made = drawn(data, points=tuple(map(read_point, points)), lengths=(read_stated("A-B=250 mm"),))
    assert any("pages 1, 2 were joined" in note for note in made.notes)
    found = piece(made)
    assert run_area(found.ring()) == pytest.approx(300 * 160, abs=0.1)
    assert run_length(found.ring()) == pytest.approx(
        2 * 160 + 2 * (300**2 + 20**2) ** 0.5, abs=0.01
    )


def test_points_that_do_not_fit_are_told():
    """One common point, points too near one another and pages of two scales are refused."""
    data = pdf(tile(0, clipped=False), tile(150, clipped=False))
    one = ("1:A=195,277", "2:A=45,277", "2:B=45,27")
    assert "share the point A alone" in refusal(data, points=tuple(map(read_point, one)))
    near = ("1:A=191,277", "1:B=199,277", "2:A=41,277", "2:B=49,277")
    assert "lie only 8 mm apart" in refusal(data, points=tuple(map(read_point, near)))
    odd = ("1:A=195,277", "1:B=195,27", "2:A=45,277", "2:B=45,23")
    assert "there are 250 and 254 mm" in refusal(data, points=tuple(map(read_point, odd)))


def test_pages_that_carry_whole_lines_are_joined_by_them():
    """A program that writes all of a drawing on each page and cuts it off needs no points."""
    data = pdf(tile(0, clipped=True), tile(150, clipped=True))
    made = drawn(data)
    found = piece(made)
    assert [part.name for part in made.parts if part.part.has_outline] == ["piece-1"]
    assert run_area(found.ring()) == pytest.approx(300 * 160, abs=0.1)
    assert len(found.holes) == 1


def test_own_template_pages_come_back():
    """Each piece of our own template pages comes back once, to 0.01 mm, with what is drawn on it."""
    whole = sample_kit()
    # One that is folded, one with holes and one that takes several pages.
    chosen = [one for one in whole.pieces if one.key.split("-")[0] in {"window", "ridge", "keel"}]
    kit = replace(whole, pieces=tuple(chosen), seams=())
    templates = lay_out_templates(kit, "a4")
    pages = draw_template_pages(templates, kit, HEAD, {"foam-5": "Craft foam, 5 mm"})
    made = drawn(render_template_pdf(pages, templates, "Templates", ENGLISH))
    found = [piece(made, part.name) for part in made.parts]
    areas = [run_area(one.ring()) for one in found]
    for own in kit.pieces:
        area, length = run_area(own.template.ring()), run_length(own.template.ring())
        assert min(abs(area - other) for other in areas) < 0.01 * length, own.key
    assert any(one.lines for one in found)


# --- what is no drawing ---


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
