"""Papers that share a page."""

import pytest

from guidegen.units import PAPERS, common_page, group_papers


def test_neighbours_of_two_standards_share_a_page():
    """A4 goes with US Letter and A3 with Tabloid; papers of other sizes stay by themselves."""
    assert group_papers(["a4", "letter", "a3", "tabloid", "legal"]) == [
        ("a4", "letter"),
        ("a3", "tabloid"),
        ("legal",),
    ]


def test_half_sheets_share_a_page_too():
    """A5 and half a US Letter sheet lie on one page, in whichever order a site names them."""
    assert group_papers(["half-letter", "a5"]) == [("half-letter", "a5")]


def test_the_common_page_lies_on_each_paper():
    """It is as narrow as A4 (ISO 216) and as low as US Letter (ANSI/ASME Y14.1)."""
    page = common_page(["a4", "letter"])
    assert (page.width, page.height) == (210, pytest.approx(279.4))
    assert common_page(["a4"]) is PAPERS["a4"]


def test_no_page_of_nothing():
    """Without a paper there is no page."""
    with pytest.raises(ValueError, match="empty"):
        common_page([])
