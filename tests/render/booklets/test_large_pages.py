"""Booklets for large papers: set larger, so that lines are no longer than on A4."""

import pytest
from render.page_samples import theme

from guidegen.render.booklets.booklet import Form, enlarged, page_scale, sheet_view
from guidegen.units import PAPERS
from guidegen.words import ENGLISH


@pytest.mark.parametrize(
    ("paper", "scale"),
    [("a5", 1), ("a4", 1), ("letter", 1), ("legal", 1), ("tabloid", 1.33), ("a3", 1.41)],
)
def test_type_grows_with_the_page(paper: str, scale: float) -> None:
    """A3 has sides of the square root of two times those of A4 (ISO 216); Tabloid is as much wider
    than A4 as its type is larger; what home printers take is set as it always was.
    """
    assert page_scale(PAPERS[paper]) == scale


def test_all_lengths_of_rules_grow_and_nothing_else() -> None:
    """Points and mm, negative ones and fractions; no number of another unit, no colour, no name."""
    rules = (
        "a { margin: -15mm .5mm 0; font: 600 9.8pt/1.4 x; color: #12mm34; width: 50%; --a12mm: 1 }"
    )
    assert enlarged(rules, 2) == (
        "a { margin: -30mm 1mm 0; font: 600 19.6pt/1.4 x; color: #12mm34; width: 50%; --a12mm: 1 }"
    )
    assert enlarged(rules, 1) == rules


def test_forms_of_their_own_keep_their_lengths() -> None:
    """A booklet to fold and large print are set for their pages already."""
    usual, tabloid = (
        str(sheet_view(theme(), (paper,), words=ENGLISH).css) for paper in ("a4", "tabloid")
    )
    assert "400 9.8pt/1.4" in usual
    assert "400 13.03pt/1.4" in tabloid
    large = sheet_view(theme(), ("tabloid",), Form("large"), words=ENGLISH)
    assert "400 9.8pt/1.4" in str(large.css)
