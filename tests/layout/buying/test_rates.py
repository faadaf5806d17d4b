"""What is used by the metre and by wear, rates of a guide's own, weights: worked by hand."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.buying.test_materials import GUIDE, KIT, PLAN, STOCK

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.buying.consumption import cut_length, joint_length
from guidegen.layout.buying.materials import list_materials
from guidegen.layout.records import MaterialLine, MaterialsList
from guidegen.words import ENGLISH

BASE_RIM = 600 + 40 * pi
"""mm: a plate of 200 × 100 and a hole of 20 in radius."""

MORE = {
    "stick": {
        "name": "Glue stick", "kind": "count", "packs": [{"amount": 12, "price": 4}], "stays": 8,
        "rate": {"per": "length", "low": 0.5, "likely": 1, "high": 2, "source": "test"},
    },
    "blade": {
        "name": "Blade", "kind": "count", "packs": [{"amount": 10, "price": 3}],
        "rate": {"per": "length", "low": 0.3, "likely": 0.5, "high": 1, "source": "test"},
    },
    "grit": {
        "name": "Abrasive sheet", "kind": "count", "packs": [{"amount": 1, "price": 1}],
        "rate": {"low": 0.01, "likely": 0.02, "high": 0.03, "source": "test"},
    },
    "bead": {
        "name": "Sealant", "kind": "liquid", "packs": [{"amount": 50, "price": 3}], "stays": 1.5,
        "rate": {"per": "length", "low": 100, "likely": 100, "high": 100, "loss": 0.25,
                 "source": "test"},
    },
    "hook": {
        "name": "Hook-and-loop", "kind": "length", "packs": [{"amount": 1000, "price": 2}],
        "allowance": 15, "stays": 20,
    },
}  # fmt: skip


def _list(*uses: dict[str, object], rates: dict[str, object] | None = None) -> MaterialsList:
    """Materials of the sample kit where one step uses these."""
    stock = STOCK.model_dump(by_alias=True, exclude_unset=True)
    stock["materials"] |= MORE
    data = GUIDE.model_dump(by_alias=True, exclude_unset=True)
    data["steps"][1]["uses"] = list(uses)
    guide = Guide.model_validate(data | {"rates": rates or {}})
    return list_materials(guide, Stock.model_validate(stock), KIT, (PLAN,), KIT.names(), ENGLISH)


def _line(*uses: dict[str, object]) -> MaterialLine:
    found = _list(*uses)
    return next(line for line in found.lines if line.material == uses[0]["material"])


def test_hot_glue_along_lengths() -> None:
    """A seam of 301 mm made twice and one plate of 280 mm around: 0.882 m, a stick a metre.

    Sticks are whole: 1 likely, 2 where a stick does but half a metre, 1 at best.
    """
    assert joint_length(KIT, ("rim", "badge")) == pytest.approx(2 * 301 + 280)
    line = _line({"material": "stick", "along": ["rim", "badge"]})
    assert (line.low, line.need, line.high) == (1, 1, 2)
    assert "0.9 m (along joints) ÷ 1 m each" in line.basis
    assert line.rate == "0.5 to 2 m each, likely 1"
    assert line.source == "test"


def test_blades_by_metres_cut() -> None:
    """Base 0.7257 m and three plates (the spare is cut too) of 0.28 m: 1.5657 m, 0.5 m a blade."""
    assert cut_length(KIT, ("base", "plate")) == pytest.approx(BASE_RIM + 3 * 280, abs=0.5)
    line = _line({"material": "blade", "cut": ["base", "plate"]})
    assert (line.low, line.need, line.high) == (2, 4, 6)


def test_abrasives_by_area() -> None:
    """Two plates of 4000 mm² and 2800 mm² of edge: 0.0136 m²; a sheet does 0.02 m², twice over."""
    line = _line({"material": "grit", "cover": ["plate"], "coats": 2})
    assert (line.low, line.need, line.high) == (1, 2, 3)
    assert "0.014 m²" in line.basis
    assert "m² each" in line.basis


def test_beads_of_a_liquid() -> None:
    """0.602 m of bead at 100 m a litre and a quarter lost: 7.525 ml."""
    line = _line({"material": "bead", "along": ["rim"]})
    assert line.need == pytest.approx(0.602 / 100 * 1000 * 1.25)


def test_tape_along_a_seam() -> None:
    """Both seams get a piece of their own of 301 mm and 15 mm for the ends."""
    found = _list({"material": "hook", "along": ["rim"]})
    assert [(cut.length, cut.pieces) for cut in found.cuts] == [(316, 2)]
    line = found.lines[-1]
    assert line.need == pytest.approx(632)
    assert [(pack.count, pack.amount) for pack in line.packs] == [(1, 1000)]


def test_allowance_of_straps() -> None:
    """Three straps of 320 mm take 335 mm each: a metre holds only two of them."""
    line = _line({"material": "hook", "length": 320, "pieces": 3})
    assert line.need == pytest.approx(3 * 335)
    assert line.packs[0].count == 2


def test_rates_of_the_guide() -> None:
    """A guide's own rate takes the place of the stock's: 0.01204 m² at 2 m² a litre are 6.02 ml."""
    own = {"low": 1, "likely": 2, "high": 4, "source": "tried on a scrap"}
    found = _list({"material": "cement", "glue": ["rim"]}, rates={"cement": own})
    line = found.lines[-1]
    assert (line.material, line.source) == ("cement", "tried on a scrap")
    # The first step glues with cement too: 0.02004 m² in all of it.
    assert line.need == pytest.approx((0.01204 + 0.02004) / 2 * 1000)


def test_finished_weight() -> None:
    """Foam, 0.882 sticks of 8 g, two pieces of 316 mm at 20 g/m, 6.02 ml of sealant at 1.5 g/ml.

    The quarter of the sealant that is lost does not stay; cement says nothing and weighs nothing.
    """
    found = _list(
        {"material": "stick", "along": ["rim", "badge"]},
        {"material": "hook", "along": ["rim"]},
        {"material": "bead", "along": ["rim"]},
    )
    stays = 0.882 * 8 + 0.632 * 20 + 6.02 * 1.5
    assert found.finished_weight - found.weight == pytest.approx(stays, rel=1e-3)


def test_other_packs() -> None:
    """Two pots of 10 ml are chosen for 12.5 ml; there is no other size, so nothing else is told."""
    assert _list().lines[-1].others == ()


def test_other_lengths() -> None:
    """Two straps of 400 mm: a metre is chosen; two packs of 500 mm do as well, one strap each."""
    line = _line({"material": "webbing", "length": 400, "pieces": 2})
    (other,) = line.others
    assert [(pack.count, pack.amount) for pack in other.packs] == [(2, 500)]
    assert (line.cost, other.cost) == (1.5, 2)


@settings(deadline=None)
@given(st.floats(0.05, 5), st.floats(1, 3), st.integers(1, 4), st.floats(0, 1))
def test_never_less_than_what_is_worn(least: float, spread: float, coats: int, loss: float) -> None:
    """Whatever the rate, what is bought does all cuts and joints even if each piece does little."""
    rate = {"per": "length", "low": least, "likely": least * spread, "high": least * spread * 2,
            "loss": loss, "source": "test"}  # fmt: skip
    found = _list(
        {"material": "stick", "along": ["rim", "badge"], "coats": coats},
        {"material": "blade", "cut": ["base", "plate"]},
        rates={"stick": rate, "blade": rate},
    )
    bought = {line.material: sum(p.count * p.amount for p in line.packs) for line in found.lines}
    metres = joint_length(KIT, ("rim", "badge")) / 1000 * coats
    assert bought["stick"] * least >= metres * (1 + loss) - 1e-6
    assert bought["blade"] * least >= cut_length(KIT, ("base", "plate")) / 1000 - 1e-6


def test_coats_on_a_face_count() -> None:
    """Two coats on faces and edges take twice what one does, and the sum says so."""
    one, two = (_line({"material": "paint", "cover": ["base"], "coats": coats}) for coats in (1, 2))
    assert "coats" not in one.basis
    assert "(outer faces and edges) × 2\xa0coats ÷ 10 m² per litre" in two.basis
    assert two.need == pytest.approx(2 * one.need)
    fine = _line({"material": "grit", "cover": ["base"]})
    assert "÷ 0.02 m² each" in fine.basis
    assert fine.rate == "0.01 to 0.03 m² each, likely 0.02"


def test_a_rate_is_told_where_uses_are_mixed() -> None:
    """An amount by hand and one by rate: the rate and its source are told; by hand alone, not."""
    by_rate = {"material": "bead", "along": ["rim"]}
    by_hand = {"material": "bead", "amount": 20}
    mixed, hand = _line(by_hand, by_rate), _line(by_hand)
    assert (mixed.rate, mixed.source) == ("100 to 100 m per litre, likely 100", "test")
    assert mixed.need == pytest.approx(20 + 7.525)
    assert (hand.rate, hand.source, hand.need) == ("", "", 20)


def test_what_the_stock_says_of_a_material_comes_along() -> None:
    """Alternative and note reach the line of a sheet and of a liquid; none is empty."""
    words = {"alternative": "another one", "note": "Read the *label*."}
    stock = STOCK.model_dump(by_alias=True, exclude_unset=True)
    for name in ("cement", PLAN.material):
        stock["materials"][name] |= words
    told = {
        line.material: (line.alternative, line.note)
        for line in list_materials(
            GUIDE, Stock.model_validate(stock), KIT, (PLAN,), KIT.names(), ENGLISH
        ).lines
    }
    assert told["cement"] == told[PLAN.material] == tuple(words.values())
    plain = _list({"material": "stick", "along": ["rim"]}).lines
    assert {(line.alternative, line.note) for line in plain if line.material == "stick"} == {
        ("", "")
    }
