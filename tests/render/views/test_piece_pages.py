"""The printed pages of a piece's template, by paper."""

from dataclasses import dataclass

import pytest
from layout.template_samples import sample_kit

from guidegen.layout.paper.templates import lay_out_templates
from guidegen.layout.records import TemplateSet
from guidegen.pictures.templates.page_map import pages_by_piece
from guidegen.render.views.templates import piece_pages


@dataclass
class Plan:
    """Of a size's plan what is asked for here."""

    templates: tuple[TemplateSet, ...]


@pytest.mark.parametrize(
    ("asked", "shown"),
    [((), ["A3", "A1"]), (("a1",), ["A1"]), (("a1", "a3"), ["A3", "A1"]), (("letter",), [])],
)
def test_pages_of_the_papers_that_are_asked_for(asked: tuple[str, ...], shown: list[str]) -> None:
    """Of all papers where none is named; each piece has at least a page of each."""
    kit = sample_kit()
    plan = Plan(tuple(lay_out_templates(kit, paper) for paper in ("a3", "a1")))
    found = piece_pages(plan, kit.pieces[:1], asked)  # type: ignore[arg-type]
    assert [one.paper for one in found] == shown
    for templates in plan.templates:
        assert pages_by_piece(templates)[kit.pieces[0].key]
