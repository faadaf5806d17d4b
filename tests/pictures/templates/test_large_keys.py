"""Key pages of large papers: side by side on that paper, each as it would be alone."""

import re
from dataclasses import replace

import pytest
from layout.template_samples import sample_kit

from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.pen.records import Drawing, Lettering, Rectangle, groups, letterings
from guidegen.pictures.pen.side_by_side import side_by_side
from guidegen.pictures.templates.key.pages import draw_key_pages
from guidegen.pictures.templates.pages import draw_template_pages
from guidegen.pictures.templates.strip import SheetHead
from guidegen.units import PAPERS, ROLLS
from guidegen.words import ENGLISH

HEAD = SheetHead(
    "Lamp", "1.0", "2026-11-30", "Club", "A. Maker", "nobody", "CC BY 4.0", "", ENGLISH
)


@pytest.mark.parametrize("paper", ["a0", "a1", "roll-36in"])
def test_keys_are_as_wide_as_the_paper(paper: str) -> None:
    """A print shop's roll takes them with the sheets; all that the key says stands there once."""
    kit = sample_kit()
    templates = lay_out_templates(kit, paper)
    alone = list(draw_key_pages(templates, kit, HEAD, {}))
    pages = draw_template_pages(templates, kit, HEAD)
    keys = pages[: len(pages) - len(templates.pages)]
    assert len(alone) > len(keys) == 1
    (key,) = keys
    assert key.width == (ROLLS[paper] if paper in ROLLS else PAPERS[paper].width)
    assert key.height == alone[0].height
    said = {words.words for words in letterings(key.items)}
    told = {words.words for drawing in alone for words in letterings(drawing.items)}
    # Words that found no room on the sheets may take a page more, and all pages count them.
    assert said >= {words for words in told if not re.fullmatch(r"\d of \d", words)}
    for words in letterings(key.items):
        assert 0 < words.at[0] < key.width
        assert 0 < words.at[1] < key.height


def test_a_home_paper_keeps_its_pages() -> None:
    """A4 templates have an A4 key, a page after the other."""
    kit = sample_kit()
    templates = lay_out_templates(kit, "a4")
    pages = draw_template_pages(templates, kit, HEAD)
    assert {(page.width, page.height) for page in pages[:2]} == {(210, 297)}


def test_rows_begin_at_the_upper_left() -> None:
    """Five drawings on a page of two by two: four on the first, the last alone on the second."""
    words = [Lettering((10, 10), str(number), 4) for number in range(5)]
    drawings = [Drawing(100, 50, "t", "", (one, Rectangle(0, 0, 5, 5))) for one in words]
    first, second = side_by_side(drawings, 210, 120)
    assert [(one.words, one.at) for one in letterings(first.items)] == [
        ("0", (10, 80)), ("1", (110, 80)), ("2", (10, 30)), ("3", (110, 30)),
    ]  # fmt: skip
    assert [one.at for one in letterings(second.items)] == [(10, 80)]
    assert not list(groups(first.items))


@pytest.mark.parametrize("address", ["", "https://loft.example/lamp/"])
def test_a_key_says_where_its_guide_is_found(address: str) -> None:
    """Version, licence and, where there is one, the address, with a dot between each."""
    kit = sample_kit()
    templates = lay_out_templates(kit, "a3")
    first = next(iter(draw_key_pages(templates, kit, replace(HEAD, address=address), {})))
    (line,) = [one.words for one in letterings(first.items) if "CC BY" in one.words]
    parts = ["Version 1.0 of 2026-11-30", "CC BY 4.0", *([address] if address else [])]
    assert line == " · ".join(parts)
