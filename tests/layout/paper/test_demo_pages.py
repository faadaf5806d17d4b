"""Template pages of the demo: few more than the best known, and every word on their maps readable."""

import json
from functools import cache
from pathlib import Path

import pytest
from demo_content import read_demo
from pictures.map_reader import clashes

from guidegen.geometry.pieces.kit import make_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.layout.records import TemplateSet
from guidegen.pictures.templates.page_map import draw_page_maps
from guidegen.problems import Severity
from guidegen.words import ENGLISH

ROOT = Path(__file__).parents[3]

BEST = json.loads(Path(__file__).with_name("best_page_counts.json").read_text())["pages"]
"""Fewest template pages that a long search found for the demo, and which search."""

DEMO = pytest.mark.parametrize(
    ("guide", "size", "paper"),
    [
        ("mooring-bracer", "M", "a4"),
        ("mooring-bracer", "L", "letter"),
        ("quay-lamp", "one-size", "a4"),
        ("slipway-marshal", "M", "a4"),
        ("slipway-marshal", "XL", "letter"),
    ],
)


@cache
def laid_out(guide: str, size: str, paper: str) -> tuple[Kit, TemplateSet]:
    """Templates of a guide of the demo."""
    content = read_demo()
    file = next(file for file in content.guides if file.id == guide)
    kit, problems = make_kit(file, content.stock, size)
    assert not [one for one in problems if one.severity is Severity.ERROR]
    return kit, lay_out_templates(kit, paper)


@DEMO
def test_the_demo_takes_few_more_pages_than_the_best_known(guide, size, paper):
    """At most a tenth more than a long search found; a press is held to it for every size."""
    best, found = BEST[guide][size][paper]
    assert found in {"own", "outside"}
    assert len(laid_out(guide, size, paper)[1].pages) <= 1.1 * best


@DEMO
def test_no_words_on_a_page_map_stand_over_others(guide, size, paper):
    """Names, numbers and leaders are apart; tests/benchmarks/check_page_maps.py looks at all papers."""
    kit, templates = laid_out(guide, size, paper)
    for drawing in draw_page_maps(templates, kit, ENGLISH):
        assert [*clashes(drawing)] == []


def test_the_best_page_counts_cover_the_demo():
    """Every size of every guide has its best known counts on the demo's papers."""
    content = read_demo()
    known = {guide: {*sizes} for guide, sizes in BEST.items()}
    assert known == {file.id: {*file.size_names()} for file in content.guides}
    for sizes in BEST.values():
        assert all({*counts} == {*content.site.papers} for counts in sizes.values())
