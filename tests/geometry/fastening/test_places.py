"""Links to marks, edges, lines and rows: each is there in every size, or told once."""

import json

import pytest

from guidegen.buildfile.records.guide import Guide
from guidegen.geometry.fastening.places import audit_middles, audit_places, piece_of
from tests.geometry.fastening_samples import goods, whole
from tests.geometry.kit_samples import guide_file

TUBE = """\
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: 280, girth-bottom: 185, length: 150}
    points: {holes: {along: side, inset: 15, count: 2, margin: 20}}
seams:
  closing: {join: [cuff.side, cuff.side-2], marks: %d}
"""


def told(words: str, marks: int = 1) -> list[str]:
    """Messages about the overview `words` of a guide with a cuff."""
    text = TUBE % marks
    file = guide_file(text)
    guide: Guide = file.guide.model_copy(update={"overview": words})
    object.__setattr__(file, "guide", guide)
    return [problem.message for problem in audit_places(file, [whole(text)])]


@pytest.mark.parametrize(
    ("link", "message"),
    [
        ("mark:closing", ""),
        ("edge:cuff.top", ""),
        ("row:cuff.holes", ""),
        ("mark:closed", 'mark:closed: no seam "closed"; did you mean "closing"?'),
        ("edge:cuff.tip", 'no such edge on cuff; did you mean "top"?'),
        ("spread:cuff.waist", "spread:cuff.waist: no such spread on cuff"),
        ("groove:cuff", "groove:cuff: cuff has no groove"),
        ("row:cuff.hole", 'no such row on cuff; did you mean "holes"?'),
        ("strap:none", "strap:none: no such strap"),
    ],
)
def test_links_lead_to_places_that_are_there(link, message):
    """A place that the piece does not have is told with the nearest one."""
    found = told(f"See [it]({link}).")
    assert (found == []) if not message else (message in found[0])


def test_a_middle_mark_needs_an_odd_number():
    """Two marks lie at thirds: nobody finds the middle one."""
    (message,) = told("From the [middle mark](mark:closing).", marks=2)
    assert message == "mark:closing: closing has 2 marks, expected an odd number"


def test_a_technique_that_begins_at_the_middle_asks_for_a_mark():
    """The process says so in stock, the step joins the seam: two marks are one too few."""
    text = TUBE % 2
    file, stock = guide_file(text), goods()
    value = json.loads('{"name": "Glue", "how": "From the middle.", "from-middle": true}')
    process = type(stock).model_fields["processes"].annotation.__args__[1].model_validate(value)
    stock = stock.model_copy(update={"processes": {"glue": process}})
    step = file.guide.steps[0].model_copy(update={"process": "glue", "seams": ("closing",)})
    object.__setattr__(file, "guide", file.guide.model_copy(update={"steps": (step,)}))
    (problem,) = audit_middles(file, stock, [whole(text)])
    assert (problem.code, problem.path) == ("no-middle-mark", "steps[0].seams[0]")
    assert list(audit_middles(file, stock, [whole(TUBE % 3)])) == []


def test_places_lead_to_their_piece():
    """A mark to the first part of its seam, all others to the part they name."""
    guide = guide_file(TUBE % 1).guide
    assert piece_of(guide, "mark", "closing") == "cuff"
    assert piece_of(guide, "edge", "cuff.top") == "cuff"
    assert piece_of(guide, "mark", "none") == ""
