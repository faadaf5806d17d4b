"""Widths of the fields of a title strip: how a row with too little room is shared out."""

from itertools import combinations

import pytest
from pictures.drawing_lint import lettering
from shapely import box

from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.templates.strip import LEAST_FIELD, StripField, draw_strip, field_rooms
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

OWNER = StripField("Owner", "The very long name of a club of the harbour", share=1.0)
CREATOR = StripField("Creator", "Somebody with a long name indeed", share=1.0)
APPROVED = StripField("Approved", "A test class", share=1.0)
VERSION = StripField("Version", "1.0", 600)
ROW = (OWNER, CREATOR, APPROVED, VERSION)


def test_what_is_left_over_goes_to_the_shares() -> None:
    """Long fields grow alike, the version stays as wide as its words; the row is filled."""
    rooms = field_rooms(ROW, 250)
    grown = [room.width - field.width for room, field in zip(rooms, ROW, strict=True)]
    assert grown[0] == pytest.approx(grown[1]) == pytest.approx(grown[2])
    assert grown[3] == 0
    assert sum(room.width for room in rooms) == pytest.approx(250)
    assert not any(room.folded for room in rooms)


def test_the_longest_value_gets_two_lines_first() -> None:
    """A little too narrow a row folds the owner alone, and cuts off nothing."""
    rooms = field_rooms(ROW, sum(field.width for field in ROW) - 2)
    assert [room.folded for room in rooms] == [True, False, False, False]
    for room, field in zip(rooms, ROW, strict=True):
        assert room.width >= (field.folded_width if room.folded else field.width)


def test_two_lines_hold_the_whole_value() -> None:
    """In the width that a folded field asks for, both its lines hold all words in their order."""
    for field in ROW[:3]:
        assert " ".join(filter(None, field.lines(field.folded_width - 1.4))) == field.value


def test_a_long_owner_does_not_push_others_out() -> None:
    """Where even two lines are too long, the longest is cut off; short ones stay whole."""
    owner = StripField("Owner", "A name without end of a club " * 6, share=1.0)
    row = (owner, *ROW[1:])
    whole = CREATOR.folded_width + APPROVED.width + VERSION.width
    rooms = field_rooms(row, whole + 40)
    assert rooms[1].width == pytest.approx(CREATOR.folded_width)
    assert rooms[2].width >= min(APPROVED.width, APPROVED.folded_width) - 1e-9
    assert rooms[3].width == VERSION.width
    assert LEAST_FIELD < rooms[0].width < owner.folded_width


def test_folded_fields_keep_to_their_cells() -> None:
    """No line of a folded field ends beyond its cell or reaches into the row above it."""
    canvas = Canvas(150, 40, "x", "", ENGLISH)
    width = sum(field.folded_width for field in ROW[:3]) + VERSION.width
    draw_strip(canvas, (5, 5), width, [ROW, ROW])
    drawn = [one for one in lettering(svg_file(canvas.drawing())) if "Print" not in one.words]
    assert "…" not in "".join(one.words for one in drawn)
    assert all(one.right <= 5 + width + 0.1 for one in drawn)
    boxes = [box(one.left, one.top, one.right, one.bottom) for one in drawn]
    for one, other in combinations(boxes, 2):
        assert one.intersection(other).area < 0.05
