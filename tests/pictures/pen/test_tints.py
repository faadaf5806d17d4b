"""Tints and figures: what every drawing takes from one table."""

import re

from guidegen.buildfile.records.motions import Motion
from guidegen.pictures.pen.tints import FOAM, PARTS
from guidegen.pictures.steps.figures import FIGURES


def test_every_tint_is_a_colour_with_a_class_of_its_own():
    """Six hexadecimal digits (CSS Color Level 4, 5.2), and no class twice."""
    tints = (*FOAM, *PARTS)
    assert all(re.fullmatch("#[0-9a-f]{6}", tint.fill) for tint in tints)
    assert len({tint.css for tint in tints}) == len(tints)


def test_only_ways_of_the_hand_end_in_arrowheads():
    """Two parts are pushed together from both sides: two ways, and shapes that are none."""
    assert [part.way for part in FIGURES[Motion.JOIN]] == [False, False, True, True]
