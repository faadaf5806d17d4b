"""Folded booklets: which pages lie on which sheet, where, and with which marks."""

import pytest

from guidegen.render.booklets.imposition import (
    FOLD_MARK,
    HALVES,
    PAPER_THICKNESS,
    creep_shift,
    fill_pages,
    impose,
    impose_leaves,
)
from guidegen.units import PAPERS, PRINTER_MARGIN_SIDE, common_page


def test_sixteen_pages_lie_on_four_sheets():
    """The outermost sheet has 16 and 1 outside, 2 and 15 inside; the innermost holds the middle."""
    leaves = impose_leaves(16)
    assert [leaf.outside for leaf in leaves] == [(16, 1), (14, 3), (12, 5), (10, 7)]
    assert [leaf.inside for leaf in leaves] == [(2, 15), (4, 13), (6, 11), (8, 9)]


def test_blank_pages_fill_the_last_sheet():
    """Seventeen pages make a booklet of twenty: the three last ones are blank."""
    leaves = impose_leaves(17)
    assert len(leaves) == 5
    assert (leaves[0].outside, leaves[0].inside) == ((None, 1), (2, None))
    assert (leaves[1].outside, leaves[1].inside) == ((None, 3), (4, 17))


@pytest.mark.parametrize("pages", range(1, 90))
def test_every_page_lies_once_and_opposite_pages_follow(pages):
    """Each page is printed once; on the two sides of a sheet, n is backed by n + 1 or n − 1."""
    leaves = impose_leaves(pages)
    full = fill_pages(pages)
    placed = [n for leaf in leaves for n in (*leaf.outside, *leaf.inside) if n is not None]
    assert sorted(placed) == list(range(1, pages + 1))
    assert full % 4 == 0
    assert 0 <= full - pages < 4
    for leaf in leaves:
        # Turned over its short edge, the right half of the outside has the left half of the
        # inside at its back.
        for front, back in ((leaf.outside[1], leaf.inside[0]), (leaf.inside[1], leaf.outside[0])):
            if front is not None and back is not None:
                assert back == front + 1


def test_reading_order_of_the_nested_sheets():
    """Leafing through the nested sheets from the front shows the pages in order."""
    leaves = impose_leaves(20)
    first_half = [n for leaf in leaves for n in (leaf.outside[1], leaf.inside[0])]
    second_half = [n for leaf in reversed(leaves) for n in (leaf.inside[1], leaf.outside[0])]
    assert first_half + second_half == list(range(1, 21))


@pytest.mark.parametrize("paper", HALVES)
@pytest.mark.parametrize("shared", [False, True])
def test_pages_meet_at_the_fold(paper, shared):
    """On the outermost sheet both pages touch the fold in the middle and are centred upright,
    also pages that serve papers of two sizes."""
    sheet, page = PAPERS[paper], common_page([*HALVES.values()] if shared else [HALVES[paper]])
    side = impose(8, paper, page).sides[0]
    left, right = side.placed
    assert (side.width, side.height) == (sheet.height, sheet.width)
    assert left.x + page.width == pytest.approx(side.width / 2)
    assert right.x == pytest.approx(side.width / 2)
    assert left.y == right.y == pytest.approx((side.height - page.height) / 2)
    assert left.x >= 0
    assert right.x + page.width <= side.width


def test_creep_moves_inner_sheets_to_the_fold():
    """Each sheet further inside is moved by one thickness of paper more, both sides alike."""
    imposed = impose(20, "a4", PAPERS["a5"])
    page = PAPERS["a5"]
    for number in range(imposed.sheets):
        for side in imposed.sides[2 * number : 2 * number + 2]:
            left, right = side.placed
            shift = number * PAPER_THICKNESS
            assert left.x == pytest.approx(side.width / 2 - page.width + shift)
            assert right.x == pytest.approx(side.width / 2 - shift)
    assert imposed.creep == pytest.approx(4 * PAPER_THICKNESS) == creep_shift(4)


def test_marks_show_fold_and_staples():
    """Every outside has two marks on the fold where printers print; the outermost has two more."""
    imposed = impose(12, "letter", PAPERS["half-letter"])
    outsides, insides = imposed.sides[0::2], imposed.sides[1::2]
    assert [len(side.marks) for side in outsides] == [4, 2, 2]
    assert [len(side.marks) for side in insides] == [0, 0, 0]
    assert FOLD_MARK[0] > PRINTER_MARGIN_SIDE
    for side in outsides:
        for x, y, to_x, to_y in side.marks:
            assert x == to_x == side.width / 2
            assert 0 < y < to_y < side.height


def test_a_paper_that_is_not_folded_is_refused():
    """Only papers with a known half page are imposed."""
    with pytest.raises(KeyError):
        impose(8, "a", PAPERS["a5"])
