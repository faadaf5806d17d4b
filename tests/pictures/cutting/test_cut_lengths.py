"""Bars of webbing and tape with what is cut from them."""

import pytest
from pictures.drawing_lint import check_drawing, description, elements, lettering, words
from pictures.english import draw_cut_lengths

from guidegen.layout.records import CutLength, LengthPiece, LengthPlan
from guidegen.words import Words

METRE = CutLength(
    "cut length 1 m",
    1000,
    2.0,
    (
        LengthPiece(0, 560, "strap"),
        LengthPiece(560, 60, "patch"),
        LengthPiece(620, 60, "patch"),
    ),
    320,
)
ROLL = CutLength("roll of 25 m", 25000, 3.0, (LengthPiece(0, 500, ""),), 24500)


def draw(*packs: CutLength, lang: Words | None = None) -> str:
    """The drawing of some packs."""
    plan = LengthPlan("webbing", packs, 0, 0, 1)
    svg = draw_cut_lengths(plan, "Webbing, 25 mm", lang or Words("en"))
    check_drawing(svg)
    return svg


def spans(svg: str, css: str) -> list[tuple[float, float]]:
    """Start and length of rectangles of a class, in mm of the drawing."""
    return [(float(e.get("x")), float(e.get("width"))) for e in elements(svg, "rect", css)]


def test_pieces_lie_to_scale_in_the_order_of_the_cuts():
    """At 1 : 8 a strap of 560 mm is 70 mm long, and the patches of 7.5 mm follow it."""
    svg = draw(METRE)
    assert "1 : 8" in words(svg)
    (strap,) = spans(svg, "fill-part-1")
    assert strap == pytest.approx((2, 560 / 8))
    assert spans(svg, "fill-part-2") == [(72.0, 7.5), (79.5, 7.5)]
    assert spans(svg, "ink") == [pytest.approx((2, 1000 / 8))]
    assert [word for word in words(svg) if word in {"560", "60", "320"}] == [
        "560",
        "60",
        "60",
        "320",
    ]
    assert elements(svg, "path", "hatch")


def test_no_hatch_runs_through_the_length_of_the_rest():
    """A plate of the paper's colour lies under the number, on the bar."""
    svg = draw(METRE)
    plate = next(e for e in elements(svg, "rect", "paper"))
    left, top = float(plate.get("x")), float(plate.get("y"))
    (number,) = [one for one in lettering(svg) if one.words == "320"]
    assert left <= number.left < number.right <= left + float(plate.get("width"))
    # Nothing of a digit reaches below its line or above its height.
    middle = (number.top + number.bottom) / 2
    assert top < middle < top + float(plate.get("height"))
    (bar,) = elements(svg, "rect", "ink")
    assert float(bar.get("y")) < top
    assert top + float(plate.get("height")) < float(bar.get("y")) + float(bar.get("height"))


def test_the_drawing_says_in_words_what_it_shows():
    """Packs, cuts in order, what is left and the scale, for whoever cannot see it."""
    assert description(draw(METRE)) == (
        "1 × cut length 1 m: 560\u00a0mm strap; 2 × 60\u00a0mm patch; left over 320 mm. Drawn 1 : 8."
    )


def test_packs_cut_alike_are_drawn_once():
    """Two equal packs are one bar with its count."""
    svg = draw(METRE, METRE)
    assert "2 × cut length 1 m" in words(svg)
    assert len(spans(svg, "ink")) == 1


def test_a_long_rest_is_shortened_and_still_told():
    """Half a metre from a roll of 25 m is not drawn as a sliver; the break lines say so."""
    svg = draw(ROLL)
    ((_, bar),) = spans(svg, "ink")
    ((_, piece),) = spans(svg, "fill-part-1")
    assert piece > bar / 5
    assert len(elements(svg, "path", "thin")) >= 2
    assert "24500 mm" in description(svg).replace("\u00a0", " ").replace(",", "")


def test_small_equal_pieces_share_their_length():
    """Where a length has no room in its piece, the number of pieces and it stand over them."""
    tiny = tuple(LengthPiece(400 + 8.5 * n, 8.5, "tab") for n in range(12))
    pack = CutLength("1 m", 1000, 1.0, (LengthPiece(0, 400, ""), *tiny), 498)
    assert "12 × 8.5" in words(draw(pack))


def test_long_notes_and_names_stay_on_the_drawing():
    """A note of many words goes on below, and a name that is too long is cut off."""
    pack = CutLength("n" * 300, 1000, 1.0, (LengthPiece(0, 900, "a note " * 60),), 100)
    assert draw(pack).count("a note") > 60


def test_nothing_to_cut_draws_nothing():
    """Without packs there is no drawing."""
    assert draw_cut_lengths(LengthPlan("webbing", (), 0, 0, 0), "Webbing") == ""
