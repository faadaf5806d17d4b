"""Classes, labels and ids say what a path is."""

# The tree class is built by hand here; nothing is parsed.
from xml.etree.ElementTree import Element

import pytest
from geometry.drawing_samples import codes, good_drawing, svg, try_drawing

from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.records import Role
from guidegen.geometry.drawing.roles import (
    group_names,
    own_meaning,
    own_name,
    plain_name,
    stated_length,
)
from guidegen.geometry.outline.records import LineKind


@pytest.mark.parametrize(
    ("attributes", "role", "name"),
    [
        ({"class": "hole"}, Role.HOLE, ""),
        ({"class": "cls-1 Score"}, Role.FOLD, ""),
        ({"id": "hole"}, Role.HOLE, ""),
        ({"id": "hole2"}, Role.HOLE, "2"),
        ({"id": "Holes"}, Role.HOLE, ""),
        ({"id": "corner-left-knee"}, Role.CORNER, "left-knee"),
        ({"id": "corner_x5F_left_x20_knee"}, Role.CORNER, "left-knee"),
        ({"id": "path12", "label": "Corner left knee"}, Role.CORNER, "left-knee"),
        ({"id": "path12", "data-name": "spread girth"}, Role.SPREAD, "girth"),
        ({"class": "corner", "id": "corner-knee"}, Role.CORNER, "knee"),
        ({"class": "placement", "id": "corner-knee"}, Role.PLACEMENT, ""),
        ({"class": "center"}, Role.CENTRE, ""),
        ({"id": "engraving-star"}, Role.ENGRAVE, "star"),
        ({"id": "scale-100-mm"}, Role.SCALE, "100-mm"),
        ({"id": "scale-3", "data-length": "3in"}, Role.SCALE, "3"),
        ({"id": "front/corner-knee"}, Role.CORNER, "knee"),
        ({"id": "corner-front/knee"}, Role.CORNER, "knee"),
        ({"id": "front_x2F_corner-knee"}, Role.CORNER, "knee"),
        ({"class": "corner", "id": "front/knee"}, Role.CORNER, "knee"),
        ({"id": "spread-width_2_"}, Role.SPREAD, "width"),
        ({"id": "corner_2_"}, Role.CORNER, "2"),
        ({"id": "spread-width-2", "label": "spread width"}, Role.SPREAD, "width"),
    ],
)
def test_a_role_is_found(attributes, role, name):
    """Class before label before id; the name is what follows the role's word."""
    meaning = own_meaning(Element("path", attributes))
    assert meaning is not None
    assert (meaning.role, meaning.name) == (role, name)


@pytest.mark.parametrize(
    "attributes", [{"id": "path12"}, {"id": "holey"}, {"class": "a b"}, {"id": "scale-3"}, {}]
)
def test_other_names_say_nothing(attributes):
    """A word that only begins like a role is none, nor is a scale without a length."""
    assert own_meaning(Element("path", attributes)) is None


def test_names_are_plain():
    """Names become lower case words with hyphens."""
    assert plain_name(" Left_Knee  (2) ") == "left-knee-2"
    assert own_name(Element("path", {"id": "p1", "label": "Left Knee"})) == "left-knee"
    assert own_name(Element("path")) == ""


@pytest.mark.parametrize(
    ("attributes", "names"),
    [
        ({"id": "g12", "label": "Front Plate"}, ("front-plate",)),
        ({"id": "front"}, ("front",)),
        ({"id": "front/corner-knee"}, ("front", "front-corner-knee")),
        ({"id": "corner-front/knee"}, ("front", "corner-front-knee")),
        ({}, ()),
    ],
)
def test_a_build_file_finds_an_element_by_what_its_editor_shows(attributes, names):
    """A label counts before an id, and the part before a slash is a group of its own."""
    assert group_names(Element("g", attributes)) == names


def test_two_parts_of_a_file_have_corners_and_lines_of_one_name():
    """Labels may stand twice where ids may not: each part has its own 'top' and 'width'."""
    body = "".join(
        f'<g id="layer{n}" label="{part}"><path id="p{n}" d="M{20 + n},20 h60 v60 h-60 z"/>'
        f'<circle id="c{n}" label="corner top" cx="{20 + n}" cy="20" r="2"/>'
        f'<path id="s{n}" label="spread width" d="M{50 + n} 0v150"/></g>'
        for n, part in ((0, "Front"), (90, "Back"))
    )
    for part in ("front", "Back"):
        shape = good_drawing(body, "    spread: [{line: width, opens: 8}]\n", piece=part)
        assert len(shape.edges) == 1
    assert codes(body, piece="frnt") == ["no-piece"]
    (problem,) = try_drawing(body, piece="frnt")[1]
    assert 'nothing visible is called "frnt"' in problem.message
    assert 'did you mean "Front"?' in problem.message


def test_messages_name_the_label():
    """What is wrong with a line is said of the name that its editor shows."""
    (problem,) = try_drawing('<path id="path12" label="Left Knee" d="M20,20 H120 V80"/>')[1]
    assert problem.message.startswith('path "Left Knee" is open')


def test_a_scale_length_may_stand_in_the_name():
    """'100-mm' and '2-5-in' are lengths, other names are not."""
    assert [stated_length(n) for n in ("100-mm", "2-5-in", "30cm", "100", "mm")] == [
        "100.0mm", "2.5in", "30.0cm", "", "",
    ]  # fmt: skip


def test_roles_come_down_from_groups():
    """A path without a role has that of the nearest group that has one."""
    drawing, _ = read_drawing(
        svg(
            '<g class="fold"><g><path d="M0 0h9"/></g><path class="engrave" d="M0 0h9"/></g>'
            '<g id="corners"><circle id="knee" r="1"/><circle id="circle7" r="1"/></g>'
            '<g id="spread-girth"><path id="path3" d="M0 0h9"/></g>'
        ),
        "a.svg",
    )
    assert drawing is not None
    assert [(path.role, path.name) for path in drawing.paths] == [
        (Role.FOLD, ""),
        (Role.ENGRAVE, ""),
        (Role.CORNER, "knee"),
        (Role.CORNER, "circle7"),
        (Role.SPREAD, "girth"),
    ]


def test_inner_lines_keep_kind_and_label():
    """Each role becomes its kind of line, with the name of what is laid on as label."""
    shape = good_drawing(
        '<rect id="outline" width="100" height="60"/><path class="score" d="M10 30h80"/>'
        '<path class="engraving" d="M10 20h80"/><path class="centre" d="M50 0v60"/>'
        '<rect id="placement-strap-end" x="40" y="40" width="20" height="10"/>'
        '<rect class="texture" x="5" y="5" width="20" height="10"/>'
    )
    assert sorted((line.kind, line.label) for line in shape.lines) == [
        (LineKind.CENTRE, ""),
        (LineKind.ENGRAVE, ""),
        (LineKind.FOLD, ""),
        (LineKind.PLACEMENT, "strap-end"),
        (LineKind.TEXTURE, ""),
    ]


def test_a_hidden_outline_is_no_outline():
    """A drawing whose outline is on a hidden layer has none."""
    assert codes('<g style="display:none"><path class="outline" d="M0 0h9v9z"/></g>') == [
        "drawing-empty"
    ]
