"""Lengths that an author states for a PDF or DXF: units, scales, points, and what is told of them."""

import io

import pikepdf
import pytest
from bench.vector_files import drawn, pdf, piece, refusal, ring
from benchmarks.vector_writers import FORMS, by_ezdxf, inches

from guidegen.bench.vectors.naming import read_point, read_stated
from guidegen.bench.vectors.redraw import Wishes, redraw
from guidegen.errors import UsageError
from guidegen.geometry.outline.measures import run_area


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
