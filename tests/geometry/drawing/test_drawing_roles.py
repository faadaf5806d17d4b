"""Classes, labels and ids say what a path is."""

# The tree class is built by hand here; nothing is parsed.
from xml.etree.ElementTree import Element

import pytest
from geometry.drawing_samples import codes, good_drawing, svg

from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.records import Role
from guidegen.geometry.drawing.roles import own_meaning, own_name, plain_name, stated_length
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
