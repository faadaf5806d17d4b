"""Templates on paper: nothing overlaps, nothing is cut that need not be, nothing is missing."""

from dataclasses import replace
from itertools import combinations

import pytest
from layout.template_samples import (
    disc,
    frame,
    pair,
    piece,
    polygon_edges,
    rectangle,
    sample_kit,
)
from shapely.affinity import rotate, scale, translate
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from guidegen.buildfile.records.site import Site
from guidegen.errors import UsageError
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Shape
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.paper.frame import Margins, paper_frames, printer_margins
from guidegen.layout.paper.items import SPACE
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.units import PAPERS, ROLLS

ALL_PAPERS = ["a4", "letter", "legal", "a3", "tabloid", "a1", "a0", "roll-24in", "roll-914mm"]


def kit_of(*pieces: Piece) -> Kit:
    """A kit with nothing but pieces."""
    return Kit("kit", "M", (), (), tuple(pieces), (), ())


def outline(drawn):
    """A template where it lies on its sheet, as a polygon with holes; by an outside library."""
    template = drawn.piece.template
    shape = Polygon(flatten(template.ring()), [flatten(hole) for hole in template.holes])
    if drawn.flipped:
        shape = scale(shape, -1, 1, origin=(0, 0))
    return translate(rotate(shape, drawn.angle, origin=(0, 0)), drawn.x, drawn.y)


def window(page):
    """What a page shows of its sheet."""
    return box(page.x, page.y, page.x + page.width, page.y + page.height)


def pages_of(templates, sheet):
    """The printed pages of a sheet."""
    return [page for page in templates.pages if page.sheet == sheet.number]


@pytest.fixture(scope="module", params=ALL_PAPERS)
def laid(request):
    """The sample kit on each paper."""
    return lay_out_templates(sample_kit(), request.param)


def test_no_two_templates_come_near_each_other(laid):
    """Between any two templates of a sheet there are at least four millimetres of paper."""
    for sheet in laid.sheets:
        shapes = [outline(drawn) for drawn in sheet.drawn]
        for first, second in combinations(shapes, 2):
            assert first.distance(second) >= 2 * SPACE - 1e-6


def test_printed_pages_show_every_template_whole(laid):
    """The windows of a sheet's pages cover all of each template, with room for its line."""
    for sheet in laid.sheets:
        shown = unary_union([window(page) for page in pages_of(laid, sheet)])
        for drawn in sheet.drawn:
            assert shown.covers(outline(drawn).buffer(SPACE / 2))


def test_what_fits_one_page_is_on_one_page(laid):
    """A template is only tiled where it is too large for a page at every quarter turn."""
    frames = paper_frames(laid.paper)
    for sheet in laid.sheets:
        pages = pages_of(laid, sheet)
        for drawn in sheet.drawn:
            shape = outline(drawn)
            if any(window(page).covers(shape) for page in pages):
                continue
            left, low, right, high = shape.bounds
            size = (right - left + 2 * SPACE, high - low + 2 * SPACE)
            for one in frames:
                assert not (size[0] <= one.window_width and size[1] <= one.window_height)
                assert not (size[1] <= one.window_width and size[0] <= one.window_height)


def test_each_page_names_the_pieces_that_need_it(laid):
    """The pages of one piece show all of it without any other page."""
    for sheet in laid.sheets:
        for drawn in sheet.drawn:
            pages = [page for page in pages_of(laid, sheet) if drawn.piece.key in page.pieces]
            assert unary_union([window(page) for page in pages]).covers(outline(drawn))


def test_every_page_is_needed(laid):
    """No page without templates, numbers without gaps, blank places not printed."""
    assert [page.number for page in laid.pages] == list(range(1, len(laid.pages) + 1))
    for page in laid.pages:
        assert page.pieces


def test_check_squares_are_on_every_page_and_touch_no_line(laid):
    """Both squares lie in the window, apart from each other and from every template's lines."""
    for sheet in laid.sheets:
        lines = unary_union([outline(drawn).boundary for drawn in sheet.drawn])
        for page in pages_of(laid, sheet):
            squares = [
                box(
                    page.x + x,
                    page.y + y,
                    page.x + x + side,
                    page.y + y + side,
                )
                for (x, y), side in ((page.mm_square, 50.0), (page.inch_square, 50.8))
            ]
            assert squares[0].distance(squares[1]) > 1
            for square in squares:
                assert window(page).covers(square)
                assert square.distance(lines) > 1


def test_pages_have_the_size_of_their_paper(laid):
    """Upright or sideways, and a roll as wide as it is."""
    for page in laid.pages:
        if laid.paper in ROLLS:
            assert page.paper_width == ROLLS[laid.paper]
            assert page.paper_height < 3100
        else:
            paper = PAPERS[laid.paper]
            size = (page.paper_width, page.paper_height)
            assert size == (
                (paper.height, paper.width) if page.landscape else (paper.width, paper.height)
            )
        assert page.width <= page.paper_width - 2 * laid.margin_side


def test_few_pages(laid):
    """Two thirds of the paper between the check squares is covered, or all but one page."""
    area = sum(outline(drawn).area for sheet in laid.sheets for drawn in sheet.drawn)
    largest = max(one.window_width * one.window_height for one in paper_frames(laid.paper))
    free = largest - 2 * 55 * 55
    assert len(laid.pages) <= area / free * 3 / 2 + 1


def test_page_counts_of_the_sample_do_not_grow():
    """The best arrangements known for the sample kit: a change that needs more pages shows."""
    counts = {paper: len(lay_out_templates(sample_kit(), paper).pages) for paper in ALL_PAPERS}
    best = {
        "a4": 11,
        "letter": 12,
        "legal": 10,
        "a3": 5,
        "tabloid": 6,
        "a1": 2,
        "a0": 1,
        "roll-24in": 1,
        "roll-914mm": 1,
    }
    assert all(counts[paper] <= best[paper] for paper in ALL_PAPERS), counts


def test_a_pair_is_drawn_once_as_its_left():
    """One template serves left and right; on request the right one is drawn mirrored."""
    kit = kit_of(*pair("cuff", "C", "Cuff", rectangle(100, 60)))
    once = lay_out_templates(kit, "a4")
    (drawn,) = once.sheets[0].drawn
    assert [one.label for one in drawn.serves] == ["CL", "CR"]
    assert not drawn.flipped
    twice = lay_out_templates(kit, "a4", both_sides=True)
    assert [one.flipped for one in twice.sheets[0].drawn] == [False, True]
    assert [one.piece.label for one in twice.sheets[0].drawn] == ["CL", "CR"]
    assert twice.both_sides


def test_a_mirrored_template_is_the_mirror_image():
    """A right-hand template is its left one seen in a mirror."""
    shape = Shape(polygon_edges([(0, 0), (100, 0), (20, 60)], ["a", "b", "c"]))
    kit = kit_of(*pair("fin", "F", "Fin", shape))
    left, right = lay_out_templates(kit, "a4", both_sides=True).sheets[0].drawn
    mirrored = scale(rotate(outline(left), -left.angle, origin=(0, 0)), -1, 1, origin=(0, 0))
    back = rotate(outline(right), -right.angle, origin=(0, 0))
    assert back.normalize().area == pytest.approx(mirrored.area)
    moved = translate(
        mirrored,
        back.bounds[0] - mirrored.bounds[0],
        back.bounds[1] - mirrored.bounds[1],
    )
    assert back.symmetric_difference(moved).area < 1e-6


def test_tiny_parts_are_drawn_as_an_array():
    """A stud of 18 mm that is cut 71 times is drawn twelve times; a pair of discs is not."""
    studs = lay_out_templates(kit_of(piece("stud", "N", "Stud", disc(9), copies=71)), "a4")
    assert len(studs.sheets[0].drawn) == 12
    few = lay_out_templates(kit_of(piece("stud", "N", "Stud", disc(9), copies=2)), "a4")
    assert len(few.sheets[0].drawn) == 1
    large = lay_out_templates(kit_of(piece("disc", "D", "Disc", disc(30), copies=71)), "a4")
    assert len(large.sheets[0].drawn) == 1


def test_blank_places_of_a_sheet_are_not_printed():
    """An angle of two long arms needs fewer pages than the rectangle around it."""
    arms = [(0, 0), (560, 0), (560, 60), (60, 60), (60, 560), (0, 560)]
    shape = Shape(polygon_edges(arms, list("abcdef")))
    laid = lay_out_templates(kit_of(piece("brace", "X", "Brace", shape)), "a4")
    (sheet,) = laid.sheets
    assert len(laid.pages) < sheet.columns * sheet.rows


def test_two_large_templates_share_pages():
    """Two plates that need three pages each alone need five together."""
    plates = [piece(f"plate-{n}", f"P{n}", "Plate", rectangle(200, 400)) for n in (1, 2)]
    alone = lay_out_templates(kit_of(plates[0]), "a4")
    together = lay_out_templates(kit_of(*plates), "a4")
    assert len(alone.pages) == 3
    assert len(together.pages) == 5


def test_a_small_piece_lies_in_the_hole_of_a_frame():
    """The opening of a frame is free paper."""
    big = replace(rectangle(185, 240), holes=((frame().holes[0]),))
    hole = tuple(
        replace(
            segment,
            start=(segment.start[0] * 3 - 10, segment.start[1] * 2 + 20),
            end=(segment.end[0] * 3 - 10, segment.end[1] * 2 + 20),
        )
        for segment in frame().holes[0]
    )
    big = replace(big, holes=(hole,))
    kit = kit_of(piece("frame", "F", "Frame", big), piece("pane", "P", "Pane", rectangle(50, 40)))
    assert len(lay_out_templates(kit, "a4").pages) == 1


def test_a_strip_that_fits_from_corner_to_corner_is_not_tiled():
    """A strip of 290 by 12 mm is longer than an A4 window, but not than its diagonal."""
    strip = piece("strip", "S", "Strip", rectangle(290, 12))
    laid = lay_out_templates(kit_of(strip), "a4")
    assert len(laid.pages) == 1


def test_wider_margins_leave_smaller_windows():
    """The printer's margins are kept free on every page."""
    laid = lay_out_templates(sample_kit(), "a4", margins=Margins(side=15, end=20))
    assert laid.margin_side == 15
    for page in laid.pages:
        side, end = (20, 15) if page.landscape else (15, 20)
        assert page.width <= page.paper_width - 2 * side
        assert page.height <= page.paper_height - 2 * end - page.strip


def test_each_paper_has_the_margins_of_its_printer():
    """site.yaml gives a paper's printer its own; the other end and other papers keep the usual."""
    margins = {"a4": {"side": 3, "end": 20}, "roll-914mm": {"side": 9}}
    site = Site.model_validate({"title": "L", "publisher": "P", "printer-margins": margins})
    assert printer_margins(site, "a4") == Margins(3, 20)
    assert printer_margins(site, "letter") == Margins()
    for paper, side, end in (("a4", 3, 20), ("roll-914mm", 9, 9)):
        made = lay_out_templates(sample_kit(), paper, margins=printer_margins(site, paper))
        for page in made.pages:
            ends = (side, end) if not page.landscape else (end, side)
            free = (page.paper_width - page.width, page.paper_height - page.height)
            assert free[0] >= 2 * ends[0]
            assert free[1] >= 2 * ends[1]


def test_neighbouring_windows_share_the_overlap():
    """Windows of neighbours overlap by ten millimetres, or by what is asked for."""
    for asked, given in ((10.0, 10.0), (18.0, 20.0)):
        laid = lay_out_templates(
            kit_of(piece("plate", "P", "Plate", rectangle(400, 400))), "a4", overlap=asked
        )
        assert laid.overlap == given
        places = {(page.column, page.row): page for page in laid.pages}
        for (column, row), page in places.items():
            right = places.get((column + 1, row))
            if right:
                assert page.x + page.width - right.x == pytest.approx(given)
            below = places.get((column, row + 1))
            if below:
                # Rows are counted from the top, as one lays the pages out.
                assert below.y + below.height - page.y == pytest.approx(given)
        assert {row for _, row in places} == {0, 1}


def test_the_same_kit_gives_the_same_sheets():
    """Nothing depends on chance or on the order of a set."""
    assert lay_out_templates(sample_kit(), "a4") == lay_out_templates(sample_kit(), "a4")


def test_a_template_without_room_for_squares_gets_a_deep_title_strip():
    """Lines all over a full page leave no clear place: the squares stand in the title strip."""
    full = rectangle(190, 247)
    lines = tuple(
        replace(line, run=tuple(replace(line.run[0], start=(0, y), end=(190, y)) for _ in (0,)))
        for line in disc(10, groove=True).lines
        for y in range(20, 240, 25)
    )
    laid = lay_out_templates(kit_of(piece("grid", "G", "Grid", replace(full, lines=lines))), "a4")
    assert all(page.strip > 50 and page.mm_square[1] < 0 for page in laid.pages)


def test_an_unknown_paper_is_refused_with_the_nearest_name():
    """The message says what there is."""
    with pytest.raises(UsageError, match='did you mean "letter"'):
        lay_out_templates(sample_kit(), "leter")


def test_a_piece_for_which_no_sheet_is_large_enough_is_refused():
    """Eight metres on A4 would need more pages than anybody joins."""
    kit = kit_of(piece("sail", "S", "Sail", rectangle(8000, 3000)))
    with pytest.raises(UsageError, match="choose a larger paper"):
        lay_out_templates(kit, "a4")


def test_a_kit_without_pieces_has_no_pages():
    """Nothing to draw is no error."""
    laid = lay_out_templates(kit_of(), "a4")
    assert laid.pages == () and laid.sheets == ()


def test_pages_joined_edge_to_edge_do_not_overlap():
    """Without overlap windows meet exactly, and small templates still lie on one page."""
    laid = lay_out_templates(sample_kit(), "a4", overlap=0.0)
    assert laid.overlap == 0
    for sheet in laid.sheets:
        pages = pages_of(laid, sheet)
        for first, second in combinations(pages, 2):
            assert window(first).intersection(window(second)).area == 0
        for drawn in sheet.drawn:
            if drawn.piece.part in {"stud", "pane", "belt", "window", "gore"}:
                assert any(window(page).covers(outline(drawn)) for page in pages)
