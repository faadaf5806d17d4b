"""Pages of a PDF that are joined to one drawing."""

from dataclasses import replace

import pytest
from bench.vector_files import drawn, pdf, piece, refusal, ring
from layout.template_samples import sample_kit
from outside.test_true_scale import HEAD
from reportlab.pdfgen.canvas import Canvas

from guidegen.bench.vectors.naming import read_point, read_stated
from guidegen.geometry.outline.measures import run_area, run_length
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.templates.pages import draw_template_pages
from guidegen.render.pdf.template_pdf import render_template_pdf
from guidegen.words import ENGLISH


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
