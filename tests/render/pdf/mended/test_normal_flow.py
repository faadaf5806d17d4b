"""Boxes that stand in the flow of their page."""

from importlib import import_module
from itertools import product

from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended.normal_flow import is_in_normal_flow

FLOATS = ("none", "left", "right", "inline-start", "inline-end", "footnote")
"""All values of float that the library's validation lets through."""

POSITIONS = (
    "static",
    "relative",
    "absolute",
    "fixed",
    ("running()", "head"),
    ("note()", "side"),
)
"""All values of position that it lets through."""


def test_the_answer_is_the_librarys() -> None:
    """For every value of float and of position, with both together."""
    write_pdf("<html lang=en><head><title>t</title></head><body>Trace.</body></html>", files={})
    boxes = import_module("weasyprint.formatting_structure.boxes")
    assert boxes.Box.is_in_normal_flow is is_in_normal_flow
    answers = set()
    for floating, position in product(FLOATS, POSITIONS):
        box = boxes.Box("p", {"float": floating, "position": position}, None)
        assert box.is_in_normal_flow() == is_in_normal_flow.guidegen(box), (floating, position)
        answers.add(box.is_in_normal_flow())
    assert answers == {True, False}


def test_all_values_are_asked_for() -> None:
    """The library knows no value of float and position but those above."""
    properties = import_module("weasyprint.css.validation.properties")
    tokens = import_module("tinycss2").parse_component_value_list
    for name in FLOATS:
        assert properties.float_(tokens(name)) == name
    known = {one for one in POSITIONS if isinstance(one, str)}
    assert {name for name in (*known, "sticky") if properties.position(tokens(name))} == known
