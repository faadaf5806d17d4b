# ruff: noqa: ANN401 - drawings, words and records alike
"""Functions of the pictures stage as tests of its drawings call them: in English, with SVG out.

What says things asks for a language; most tests need none but the source's own, and read a
drawing as text. A `lang` that a test does not give is English, `names` and `stock` are empty.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import wraps
from inspect import signature
from typing import Any

from guidegen.buildfile.records.stock import Stock
from guidegen.pictures import compose as _compose
from guidegen.pictures.bodies import body as _bodies_body
from guidegen.pictures.bodies import coverage as _bodies_coverage
from guidegen.pictures.bodies import nested_sizes as _bodies_nested_sizes
from guidegen.pictures.bodies import reach as _bodies_reach
from guidegen.pictures.cutting import cut_lengths as _cutting_cut_lengths
from guidegen.pictures.cutting import cut_sheets as _cutting_cut_sheets
from guidegen.pictures.machines import lines as _machines_lines
from guidegen.pictures.pen import scales as _pen_scales
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pieces import bevels as _pieces_bevels
from guidegen.pictures.pieces import details as _pieces_details
from guidegen.pictures.pieces import exploded as _pieces_exploded
from guidegen.pictures.pieces import grooves as _pieces_grooves
from guidegen.pictures.pieces import joins as _pieces_joins
from guidegen.pictures.pieces import kit as _pieces_kit
from guidegen.pictures.pieces import pieces as _pieces_pieces
from guidegen.pictures.pieces import sections as _pieces_sections
from guidegen.pictures.records import GuidePictures, SizePictures
from guidegen.pictures.signs import signs as _signs_signs
from guidegen.pictures.steps import bevels as _steps_bevels
from guidegen.pictures.steps import layers as _steps_layers
from guidegen.pictures.steps import steps as _steps_steps
from guidegen.pictures.templates import line_words as _templates_line_words
from guidegen.pictures.templates import page_map as _templates_page_map
from guidegen.pictures.templates import pages as _templates_pages
from guidegen.pictures.templates import plan as _templates_plan
from guidegen.pictures.templates import words as _templates_words
from guidegen.pictures.times import class_line as _times_class_line
from guidegen.pictures.times import time_line as _times_time_line
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

_MISSING = {"lang": ENGLISH, "names": {}, "stock": Stock()}


def texts(drawn: Any) -> Any:
    """The same with the SVG text of every drawing in its place; none is an empty text."""
    match drawn:
        case Drawing():
            return svg_file(drawn)
        case None:
            return ""
        case Mapping():
            return {key: texts(one) for key, one in drawn.items()}
        case SizePictures() | GuidePictures():
            return replace(drawn, **{f.name: texts(getattr(drawn, f.name)) for f in fields(drawn)})
        case tuple() if not is_dataclass(drawn) and drawn and isinstance(drawn[0], Drawing):
            return tuple(texts(one) for one in drawn)
        case Iterator():
            return (texts(one) for one in drawn)
    return drawn


def in_english(function: Callable[..., Any]) -> Callable[..., Any]:
    """A function that says things in English and gives SVG texts for drawings."""
    known = signature(function)

    @wraps(function)
    def call(*args: Any, **named: Any) -> Any:
        given = known.bind_partial(*args, **named).arguments
        more = {name: value for name, value in _MISSING.items() if name in known.parameters}
        return texts(function(**{**more, **given}))

    return call


draw_body = in_english(_bodies_body.draw_body)
draw_coverage = in_english(_bodies_coverage.draw_coverage)
share_words = in_english(_bodies_coverage.share_words)
draw_nested = in_english(_bodies_nested_sizes.draw_nested)
draw_reach = in_english(_bodies_reach.draw_reach)
draw_guide = in_english(_compose.draw_guide)
draw_size = in_english(_compose.draw_size)
draw_cut_lengths = in_english(_cutting_cut_lengths.draw_cut_lengths)
draw_cut_sheets = in_english(_cutting_cut_sheets.draw_cut_sheets)
draw_piece_for_machine = in_english(_machines_lines.draw_piece_for_machine)
draw_sheet_for_machine = in_english(_machines_lines.draw_sheet_for_machine)
scale_words = in_english(_pen_scales.scale_words)
draw_bevel = in_english(_pieces_bevels.draw_bevel)
draw_joint = in_english(_pieces_bevels.draw_joint)
draw_details = in_english(_pieces_details.draw_details)
draw_exploded = in_english(_pieces_exploded.draw_exploded)
draw_groove = in_english(_pieces_grooves.draw_groove)
draw_joins = in_english(_pieces_joins.draw_joins)
draw_kit = in_english(_pieces_kit.draw_kit)
draw_piece = in_english(_pieces_pieces.draw_piece)
draw_section = in_english(_pieces_sections.draw_section)
draw_sign = in_english(_signs_signs.draw_sign)
bevel_sections = in_english(_steps_bevels.bevel_sections)
layers_at_hand = in_english(_steps_layers.layers_at_hand)
draw_step = in_english(_steps_steps.draw_step)
line_words = in_english(_templates_line_words.line_words)
draw_page_maps = in_english(_templates_page_map.draw_page_maps)
draw_template_pages = in_english(_templates_pages.draw_template_pages)
plan_nest = in_english(_templates_plan.plan_nest)
plan_sheet = in_english(_templates_plan.plan_sheet)
cut_words = in_english(_templates_words.cut_words)
stack_words = in_english(_templates_words.stack_words)
draw_class_lines = in_english(_times_class_line.draw_class_lines)
draw_time_line = in_english(_times_time_line.draw_time_line)
