"""What turns the direction of writing is closed again; cautions turn nothing."""

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.checks.texts.directions import is_open

RLO, RLE, RLI, FSI, PDF, PDI = "\u202e", "\u202b", "\u2067", "\u2068", "\u202c", "\u2069"


@pytest.mark.parametrize(
    ("text", "left_open"),
    [
        ("plain", False),
        (f"a {RLO}b{PDF} c", False),
        (f"a {RLI}b {RLE}c{PDF}{PDI}", False),
        (f"a {RLO}b", True),
        (f"a {FSI}b{PDF}", True),
        (f"a {RLE}b{PDI}", True),
        (f"a {RLO}b\n\nc{PDF}", True),
        (f"{PDF}{PDI}a", False),
        (f"{RLI}{RLE}{PDI}{PDF}", True),
    ],
)
def test_paragraphs_that_stay_turned(text, left_open):
    """Pairs as in Unicode Standard Annex 9, BD9 to BD11; a paragraph ends all that is open."""
    assert is_open(text) is left_open


def told(tmp_path, guide=GUIDE, stock=STOCK):
    """Paths of what the check finds."""
    content = read_content(write_content(tmp_path, guide=guide, stock=stock))
    return [p.path for p in run_checks(content) if p.code == "direction"]


def test_texts_of_a_guide_and_of_the_stock(tmp_path):
    """An open override in a step and in a term is told where it stands."""
    guide = changed(GUIDE, "text: Cut along", f"text: Cut {RLO}along")
    stock = changed(STOCK, "meaning: An edge", f"meaning: An {RLO}edge")
    assert told(tmp_path, guide, stock) == ["steps[0].text", "terms.bevel.meaning"]


def test_cautions_turn_nothing(tmp_path):
    """A caution whose words are turned round is told, though it turns them back; elsewhere a pair
    is let through."""
    guide = changed(GUIDE, "text: Cut along", f"text: Cut {RLO}along{PDF}")
    assert told(tmp_path, guide) == []
    stock = changed(STOCK, "avoid: Cut away", f"avoid: Cut {RLO}away{PDF}")
    assert told(tmp_path, stock=stock) == ["cautions.blade.avoid"]
