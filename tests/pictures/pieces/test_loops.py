"""Hangers, belts and laces as they lie, with all lengths that are told."""

from dataclasses import replace
from math import hypot

import pytest
from pictures.drawing_lint import check_drawing, description, elements, path_points, words
from pictures.english import draw_details
from pictures.picture_samples import sample_kit, sample_pieces

from guidegen.geometry.pieces.records import (
    BeltRound,
    EdgeRef,
    FittedStrap,
    Lacing,
    Loop,
    StrapPiece,
)


def strap(name: str, cut: float, asked: tuple[float, float], **more: object) -> FittedStrap:
    """One strap on the plate, its other numbers as given."""
    plain = FittedStrap(
        name.lower(), name, 1, (StrapPiece("webbing", cut, 1),), (), 0.0, asked[0], asked[1], asked,
        pull=0.0, home="plate",
    )  # fmt: skip
    return replace(plain, **more)


HANGER = strap(
    "Hanger", 215, (15, 15), holds=(45.0, 0.0), ways=(10.0, 0.0), ends=("plate", ""),
    overlap=(35.0, 35.0), loop=Loop(50.0, 2.5),
)  # fmt: skip
BELT = strap(
    "Belt", 1133, (950, 1080), free=1033.0,
    belt=BeltRound(700.0, 40.0, 60.0, 75.0, (EdgeRef("plate", "bottom"), EdgeRef("frame", "top")), 1001.0),
)  # fmt: skip
LACE = strap("Lace", 800, (50, 80), ends=("plate", ""), lacing=Lacing(4, 30.0, 200.0))
BACK = strap(
    "Elastic", 100, (20, 45), holds=(40.0, 0.0), ends=("plate", ""), overlap=(30.0, 41.0), pull=50.0
)


def drawn(one: FittedStrap):
    """The last drawing on the page of the plate, and what it says."""
    kit = replace(sample_kit(), straps=(one,))
    plate = next(piece for piece in sample_pieces() if piece.key == "plate")
    before = len(draw_details(plate, replace(kit, straps=())))
    drawings = draw_details(plate, kit)
    assert len(drawings) == before + 1
    check_drawing(drawings[-1])
    return drawings[-1], description(drawings[-1]).replace("\N{NO-BREAK SPACE}", " ")


def strong(drawing) -> list[tuple[float, float]]:
    """Points of the strap itself, in mm of the drawing."""
    (path,) = [e for e in elements(drawing, "path") if "glue" in (e.get("class") or "")]
    return path_points(path.get("d"))


def test_a_hanger_goes_round_its_belt():
    """45 on the plate, 15 up to a belt of 50, 35 over themselves: heights to scale 1 : 2."""
    drawing, said = drawn(HANGER)
    assert said == "It goes round 50 × 2.5 mm; its ends overlap by 35 mm. Cut for each: 215 mm."
    assert {"45", "15", "50", "35", "B1"} <= set(words(drawing))
    levels = [y for _, y in strong(drawing)]
    assert max(levels) - min(levels) == pytest.approx((45 + 15 + 50) / 2 + 1.6, abs=0.01)


def test_a_belt_is_laid_out_flat():
    """What is folded, free and left behind its buckle, what plates make rigid, what is under it."""
    drawing, said = drawn(BELT)
    assert said == (
        "It must close round 950 to 1080 mm. It closes round 950 to 1080 mm. It is worn over "
        "B1 bottom, B2 top: 1001 mm round there. Cut for each: 1133 mm."
    )
    assert {"40", "1033", "60", "700"} <= set(words(drawing))
    _, plain = drawn(replace(BELT, belt=replace(BELT.belt, over=())))
    assert "worn over" not in plain


def test_a_lace_goes_crosswise():
    """One bar and six diagonals through four pairs of holes, 50 apart and 30 from pair to pair."""
    drawing, said = drawn(LACE)
    assert said == (
        "Its openings are 50 to 80 mm. 200 mm of each end are left to tie. Cut for each: 800 mm."
    )
    assert {"50", "30", "B1"} <= set(words(drawing))
    points = strong(drawing)
    ways = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(points[::2], points[1::2], strict=True)]
    bar, *diagonals = [round(2 * way, 1) for way in ways]
    assert bar == 50
    assert diagonals == [round(hypot(50, 30), 1)] * 6
    assert len(elements(drawing, "circle")) == 8


def test_a_strap_that_comes_back_shows_what_lies_on_itself():
    """Across the opening of a cuff: 45 mm at the most, of which it overlaps 30 to 41."""
    drawing, said = drawn(BACK)
    assert "30 to 41 mm of it lie on one another." in said
    assert "At the most it is pulled by 50%." in said
    assert {"40", "45", "41"} <= set(words(drawing))
