"""Shapes of drawn parts that are kept: given again for the same inputs, and for no others."""

import pytest
from geometry.drawing_samples import LEG, LEG_EDGES, SIZES, drawn_guide, good_drawing, try_drawing

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.geometry.parts import drawn
from guidegen.geometry.parts.drawn import drawn_shape
from guidegen.geometry.parts.kept_shapes import KeptShapes

SPREAD = "    spread:\n      - {line: left, opens: (calf - drawn_calf) / 2}\n"


@pytest.fixture
def made(monkeypatch):
    """How often a shape was made, nothing being kept at first."""
    count = []
    make = drawn._make_shape
    monkeypatch.setattr(drawn, "_KEPT", KeptShapes())
    monkeypatch.setattr(drawn, "_make_shape", lambda job: count.append(job.size) or make(job))
    return count


def test_the_same_part_is_graded_once(made):
    """A guide that is read anew, with its other numbers changed, has the same shapes."""
    first = good_drawing(LEG, LEG_EDGES + SPREAD, "L")
    other = SIZES.replace("ankle: 262", "ankle: 270")
    assert good_drawing(LEG, LEG_EDGES + SPREAD, "L", head=other) is first
    assert made == ["L"]


@pytest.mark.parametrize(
    ("body", "part", "head", "size"),
    [
        (LEG.replace("270", "271"), LEG_EDGES + SPREAD, SIZES, "L"),
        (LEG, LEG_EDGES + SPREAD.replace("/ 2", "/ 3"), SIZES, "L"),
        (LEG, LEG_EDGES + SPREAD, SIZES.replace("calf: 395", "calf: 400"), "L"),
        (LEG, LEG_EDGES + SPREAD, SIZES, "S"),
    ],
    ids=["drawing", "rule", "measurement", "size"],
)
def test_what_it_is_made_from_makes_it_anew(made, body, part, head, size):
    """A drawing, a rule, a number that it asks for, another size: each gives what it gives alone."""
    good_drawing(LEG, LEG_EDGES + SPREAD, "L")
    found = good_drawing(body, part, size, head=head)
    drawn._KEPT = KeptShapes()
    assert found == good_drawing(body, part, size, head=head)
    assert made == ["L", size, size]


def test_problems_are_told_each_time(made):
    """What is wrong has a place in the file, so nothing of it is kept."""
    wrong = "    spread: [{line: lenght, opens: 5}]\n"
    assert try_drawing(LEG, wrong)[1] == try_drawing(LEG, wrong)[1] != []
    assert made == ["M", "M"]


def test_a_name_that_is_gone_makes_it_anew(made):
    """Without the name that its arithmetic asked for, the part tells so."""
    file = drawn_guide(LEG, LEG_EDGES + SPREAD)
    part, numbers = file.guide.parts["plate"], size_numbers(file, "L")[0]
    assert drawn_shape(file, "plate", part, numbers)[1] == []
    names = {name: value for name, value in numbers.names().items() if name != "drawn_calf"}
    shape, problems = drawn_shape(file, "plate", part, numbers, names)
    assert shape is None
    assert [one.code for one in problems] == ["arithmetic"]
    assert made == ["L", "L"]
