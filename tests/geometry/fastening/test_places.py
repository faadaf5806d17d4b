"""Links to marks, edges, lines and rows: each is there in every size, or told once."""

import json

import pytest
from geometry.fastening_samples import goods, whole
from geometry.kit_samples import guide_file

from guidegen.buildfile.records.guide import Guide
from guidegen.geometry.fastening.places import (
    audit_middles,
    audit_places,
    audit_techniques,
    piece_of,
)

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
        ("end:closing", ""),
        ("end:closed", 'no seam closed; did you mean "closing"?'),
        ("mark:own", "only steps and techniques have places of their own"),
        ("edge:cuff.top", ""),
        ("row:cuff.holes", ""),
        ("mark:closed", 'mark:closed: no seam "closed"; did you mean "closing"?'),
        ("edge:cuff.tip", 'no such edge on cuff; did you mean "top"?'),
        ("spread:cuff.waist", "spread:cuff.waist: no such spread on cuff"),
        ("groove:cuff", "groove:cuff: cuff has no groove"),
        ("rim:cuff", "rim:cuff: cuff has no groove with both rims on its foam"),
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


def test_a_belt_leads_to_what_sits_on_it_or_lies_under_it():
    """It has no place of its own: the plates that are riveted to it come first, then the hem."""
    belt = "straps:\n  belt: {name: Belt, material: belt, girth: [800, 900], closure: buckle"
    text = TUBE % 1
    assert piece_of(guide_file(text + belt + "}\n").guide, "strap", "belt") == ""
    over = belt + ", lies-over: [cuff.top]}\n"
    assert piece_of(guide_file(text + over).guide, "strap", "belt") == "cuff"
    rivets = (
        "fastenings:\n  plates: {name: Plates, points: [plate.rivets], fastener: rivet-9, "
        "layers: [belt]}\n"
    )
    assert piece_of(guide_file(text + over + rivets).guide, "strap", "belt") == "plate"


@pytest.mark.parametrize(
    ("how", "parts", "seams", "message"),
    [
        ("From the [middle mark](mark:own) to its [ends](end:own).", (), ("closing",), ""),
        ("From the [middle mark](mark:own).", ("cuff",), (), ""),
        ("Into each [hole](row:own).", ("cuff",), (), ""),
        ("Along the [middle line](groove:own).", ("cuff",), (), "no part of the step has a groove"),
        (
            "At the [spread line](spread:own).",
            ("cuff",),
            (),
            "no part of the step has a spread line",
        ),
        ("Into each [hole](row:own).", (), (), "no part of the step has a row of points"),
        ("On the [strap](strap:own).", ("cuff",), (), "the step fits no strap"),
    ],
)
def test_what_techniques_point_at_belongs_to_the_step(how, parts, seams, message):
    """A technique of the stock names no piece: its places are those of the step that uses it."""
    text = TUBE % 1
    file, stock = guide_file(text), goods()
    process = type(stock).model_fields["processes"].annotation.__args__[1]
    own = process.model_validate({"name": "Work", "how": how})
    stock = stock.model_copy(update={"processes": {"work": own}})
    changed = {"process": "work", "parts": parts, "seams": seams}
    step = file.guide.steps[0].model_copy(update=changed)
    object.__setattr__(file, "guide", file.guide.model_copy(update={"steps": (step,)}))
    found = [
        (one.code, one.path, one.message) for one in audit_techniques(file, stock, [whole(text)])
    ]
    if message:
        ((code, path, words),) = found
        assert (code, path) == ("dead-place", "steps[0].process")
        assert message in words
    else:
        assert found == []


def test_a_seam_that_goes_all_the_way_round_has_no_ends():
    """A disc in a ring: whoever looks for the ends of their seam walks in a circle."""
    text = """\
parts:
  lid: {name: Lid, label: A, material: foam-5, shape: disc, dimensions: {diameter: 80}}
  hat: {name: Hat, label: B, material: foam-5, shape: disc, dimensions: {diameter: 80}}
seams:
  round: {join: [lid.rim, hat.rim], marks: 1}
"""
    file = guide_file(text)
    changed = file.guide.model_copy(update={"overview": "To its [ends](end:round)."})
    object.__setattr__(file, "guide", changed)
    (problem,) = audit_places(file, [whole(text)])
    assert problem.message == "end:round: round goes all the way round and has no ends"
