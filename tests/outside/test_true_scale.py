"""Printed templates measured with tools that know nothing of ours: poppler and PDFium.

Sources: ISO 216:2007 and ANSI/ASME Y14.1 for paper (sizes as in OpenPrinting/cups,
cups/pwg-media.c, read); ISO 32000-1:2008, 8.3.2.3 (a unit is 1/72 in) and table 150
(/PrintScaling), as in pdf-association/arlington-pdf-model, ViewerPreferences.tsv (read).
"""

import ctypes
import io
import subprocess
from functools import cache
from itertools import pairwise

import numpy as np
import pikepdf
import pypdfium2
import pytest
from layout.template_samples import sample_kit
from PIL import Image
from pypdfium2 import raw
from shapely.affinity import rotate, scale, translate
from shapely.geometry import LineString, MultiLineString, Point
from shapely.strtree import STRtree

from guidegen.geometry.outline.measures import flatten
from guidegen.layout.paper.frame import paper_frames
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.pen.linestyles import CUT
from guidegen.pictures.templates.lines import cut_runs
from guidegen.pictures.templates.pages import SheetHead, draw_template_pages
from guidegen.render.pdf.template_pdf import render_template_pdf
from guidegen.words import ENGLISH

MM = 72 / 25.4
"""PDF units in one millimetre."""

SIZES_MM = {
    "a4": (210, 297),
    "a3": (297, 420),
    "a1": (594, 841),
    "a0": (841, 1189),
    "letter": (215.9, 279.4),
    "legal": (215.9, 355.6),
    "tabloid": (279.4, 431.8),
}
"""ISO 216 and ANSI/ASME Y14.1; Legal as in the same media table."""

HEAD = SheetHead(
    title="Harbour Lantern Walk kit",
    version="1.2",
    date="2025-03-01",
    owner="Quayside workshop",
    author="M. Penrose",
    approver="A. Tregenza",
    licence="CC BY 4.0",
    address="",
    lang=ENGLISH,
)


@cache
def made(paper):
    """Template set and PDF of the sample kit."""
    kit = sample_kit()
    templates = lay_out_templates(kit, paper)
    pages = draw_template_pages(templates, kit, HEAD)
    return templates, render_template_pdf(pages, templates, "Templates", ENGLISH)


def key_pages(templates, data):
    """How many pages stand before the first template page."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        return len(pdf.pages) - len(templates.pages)


def corner(templates, page):
    """Lower left of a page's window on the paper, in mm."""
    end = templates.margin_side if page.landscape else templates.margin_end
    return (page.paper_width - page.width) / 2, end + page.strip


@pytest.mark.parametrize("paper", sorted(SIZES_MM))
def test_pages_have_exactly_the_size_of_the_paper(paper):
    """The media box of every template page is the standard's size to a thousandth of a point."""
    templates, data = made(paper)
    short, long = (side * MM for side in SIZES_MM[paper])
    with pikepdf.open(io.BytesIO(data)) as pdf:
        first = len(pdf.pages) - len(templates.pages)
        for page in list(pdf.pages)[first:]:
            box = [float(number) for number in page.mediabox]
            assert box[:2] == [0, 0]
            assert sorted(box[2:]) == pytest.approx([short, long], abs=0.001)
            assert "/UserUnit" not in page


def test_windows_keep_off_what_printers_leave_white():
    """A4 and Letter share 197.3 × 254.0 mm within margins of 18 pt and 36 pt.

    Margins of generic ink-jet drivers: OpenPrinting/cups, ppdc/sample.drv, HWMargins (read).
    """
    printable = {}
    for paper in ("a4", "letter"):
        upright = paper_frames(paper)[0]
        assert upright.left == pytest.approx(18 * 25.4 / 72)
        assert upright.bottom == pytest.approx(36 * 25.4 / 72)
        printable[paper] = (
            upright.paper_width - 2 * upright.left,
            upright.paper_height - 2 * upright.bottom,
        )
        assert upright.window_width <= printable[paper][0]
        assert upright.window_height + upright.strip <= printable[paper][1]
    common = [min(sides) for sides in zip(*printable.values(), strict=True)]
    assert common == pytest.approx([197.3, 254.0], abs=0.01)


def test_viewers_are_asked_not_to_scale():
    """ViewerPreferences hold /PrintScaling /None; title and language are set, no date is."""
    _, data = made("a4")
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.Root.Lang) == "en"
        assert str(pdf.docinfo["/Title"]) == "Templates"
        assert "/CreationDate" not in pdf.docinfo


def run_of_dark(values, start):
    """First and last index of the dark run that begins at or after `start`."""
    dark = np.flatnonzero(values[start:] < 128) + start
    first = last = dark[0]
    while last + 1 < len(values) and values[last + 1] < 128:
        last += 1
    return first, last


def measured_square(path, number, at, side, tall):
    """Width and height in mm of a square near `at`, rendered by poppler at 600 dpi."""
    left, low = at
    dots = 600 / 25.4
    x, y = round((left - 1) * dots), round((tall - low - side - 1) * dots)
    span = round((side + 2) * dots)
    command = ["pdftoppm", "-r", "600", "-gray", "-aa", "no", "-aaVector", "no"]
    command += ["-f", str(number), "-l", str(number)]
    command += ["-x", str(x), "-y", str(y), "-W", str(span), "-H", str(span), str(path)]
    image = np.asarray(
        Image.open(io.BytesIO(subprocess.run(command, check=True, capture_output=True).stdout))
    )
    # A line across the square away from its words and graduations.
    across, up = image[round((1 + side * 0.93) * dots)], image[:, round((1 + side * 0.07) * dots)]
    sizes = []
    for values in (across, up):
        first = run_of_dark(values, 0)
        last = run_of_dark(values[::-1], 0)
        middle = (first[0] + first[1]) / 2
        other = len(values) - 1 - (last[0] + last[1]) / 2
        sizes.append((other - middle) / dots)
    return sizes


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_check_squares_are_true_to_a_dot(paper, tmp_path):
    """At 600 dpi both squares of every page measure 50 mm and 2 in within one dot."""
    templates, data = made(paper)
    path = tmp_path / "templates.pdf"
    path.write_bytes(data)
    keys = key_pages(templates, data)
    dot = 25.4 / 600
    for page in templates.pages:
        left, low = corner(templates, page)
        for (x, y), side in ((page.mm_square, 50.0), (page.inch_square, 50.8)):
            found = measured_square(
                path, page.number + keys, (left + x, low + y), side, page.paper_height
            )
            assert found == pytest.approx([side, side], abs=dot)


def read_lines(page):
    """Solid lines of the width of a cut, as polylines in mm on the paper."""
    width = ctypes.c_float()
    for item in page.get_objects([raw.FPDF_PAGEOBJ_PATH]):
        raw.FPDFPageObj_GetStrokeWidth(item.raw, width)
        if abs(width.value - CUT.stroke.width * MM) > 0.01:
            continue
        if raw.FPDFPageObj_GetDashCount(item.raw) > 0:
            continue
        yield from read_path(item.raw)


def read_path(item):
    """Subpaths of a path object; curves are divided finely."""
    x, y = ctypes.c_float(), ctypes.c_float()
    line, curve = [], []
    for number in range(raw.FPDFPath_CountSegments(item)):
        segment = raw.FPDFPath_GetPathSegment(item, number)
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        at = np.array([x.value, y.value]) / MM
        kind = raw.FPDFPathSegment_GetType(segment)
        if kind == raw.FPDF_SEGMENT_MOVETO:
            if len(line) > 1:
                yield line
            line = [at]
        elif kind == raw.FPDF_SEGMENT_LINETO:
            line.append(at)
        else:
            curve.append(at)
            if len(curve) == 3:
                line.extend(bezier(line[-1], *curve))
                curve = []
        if raw.FPDFPathSegment_GetClose(segment):
            line.append(line[0])
    if len(line) > 1:
        yield line


def bezier(p0, p1, p2, p3):
    """Points of a cubic curve by Bernstein polynomials, without its start."""
    for t in np.linspace(0, 1, 65)[1:]:
        s = 1 - t
        yield s**3 * p0 + 3 * s * s * t * p1 + 3 * s * t * t * p2 + t**3 * p3


def expected_lines(drawn):
    """The cut lines of a template on its sheet, moved there by an outside library."""
    for run in cut_runs(drawn.piece):
        line = LineString(flatten(run, 0.001))
        if drawn.flipped:
            line = scale(line, -1, 1, origin=(0, 0))
        yield translate(rotate(line, drawn.angle, origin=(0, 0)), drawn.x, drawn.y)


@pytest.mark.parametrize("paper", ["a4", "letter", "a3", "roll-24in"])
def test_the_pages_put_together_give_every_outline(paper):
    """On each page that shows a point of a cut line, a line passes it within 0.05 mm."""
    templates, data = made(paper)
    keys = key_pages(templates, data)
    with pypdfium2.PdfDocument(data) as pdf:
        printed = {}
        for page in templates.pages:
            left, low = corner(templates, page)
            lines = [
                LineString([(x - left + page.x, y - low + page.y) for x, y in line])
                for line in read_lines(pdf[page.number - 1 + keys])
            ]
            printed[page.number] = STRtree(
                [LineString(ends) for line in lines for ends in pairwise(line.coords)]
            )
    for sheet in templates.sheets:
        pages = [page for page in templates.pages if page.sheet == sheet.number]
        for drawn in sheet.drawn:
            for line in expected_lines(drawn):
                for along in np.arange(0, line.length, 1.7):
                    check_point(line.interpolate(along), pages, printed)


def check_point(point, pages, printed):
    """A point is shown by at least one page, and every page that shows it has the line there."""
    shown = [
        page
        for page in pages
        if page.x <= point.x <= page.x + page.width and page.y <= point.y <= page.y + page.height
    ]
    assert shown
    for page in shown:
        tree = printed[page.number]
        nearest = tree.geometries[tree.nearest(point)]
        assert nearest.distance(point) <= 0.05


def test_nothing_but_templates_is_drawn_as_a_cut():
    """Each solid wide line of a page lies on a cut line, a match mark or a bevel's face."""
    templates, data = made("a4")
    keys = key_pages(templates, data)
    with pypdfium2.PdfDocument(data) as pdf:
        for page in templates.pages:
            sheet = templates.sheets[page.sheet - 1]
            wanted = MultiLineString(
                [line for drawn in sheet.drawn for line in expected_lines(drawn)]
            ).buffer(6.1)
            left, low = corner(templates, page)
            for line in read_lines(pdf[page.number - 1 + keys]):
                for x, y in line:
                    at = Point(x - left + page.x, y - low + page.y)
                    inside = 0 <= x - left <= page.width and 0 <= y - low <= page.height
                    assert not inside or wanted.covers(at) or is_symbol(line)


def is_symbol(line):
    """The top face in the small section of a bevel is a wide line, too."""
    return LineString(line).length < 9
