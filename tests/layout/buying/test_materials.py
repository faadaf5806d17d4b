"""Amounts of material, worked by hand beside the program."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.records import Arc, Edge, Line, Shape
from guidegen.geometry.pieces.records import (
    EdgeRef,
    JoinedSeam,
    Kit,
    LayerPiece,
    LayerStack,
    Piece,
    Side,
)
from guidegen.layout.buying.consumption import covered_area, glued_area, kit_weight, piece_area
from guidegen.layout.buying.materials import list_materials
from guidegen.layout.records import CutPlan, CutSheet
from guidegen.words import ENGLISH


def _rectangle(width: float, height: float) -> Shape:
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    run = tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    return Shape((Edge("rim", run),))


def _piece(part: str, shape: Shape, **more: object) -> Piece:
    plain = Piece(part, part[0].upper(), part, Side.ANY, 1, 0, "foam", 10.0, shape, shape)
    return replace(plain, **more)  # type: ignore[arg-type]


HOLE = (Arc((100.0, 50.0), 20.0, 0, -360),)
BASE = _piece("base", replace(_rectangle(200, 100), holes=(HOLE,)))
PLATE = _piece("plate", _rectangle(100, 40), copies=3, spares=1)
KIT = Kit(
    "test", "M", (("wrist", 180.0),), (), (BASE, PLATE),
    (JoinedSeam("rim", EdgeRef("base", "rim"), EdgeRef("base", "rim"), 300, 301, 0, 2, 2, 10),),
    (LayerStack("badge", "Badge", 0, (
        LayerPiece("base", "Base", "foam", 10, 200 * 100 - 400 * pi),
        LayerPiece("plate", "Plate", "foam", 10, 4000)), 1),),
)  # fmt: skip

STOCK = Stock.model_validate(
    {
        "materials": {
            "foam": {
                "name": "Foam", "kind": "sheet", "thickness": 10, "density": 100,
                "sheets": [{"name": "mat", "width": 500, "height": 500, "pack": 2, "price": 9}],
            },
            "cement": {
                "name": "Cement", "kind": "liquid", "cautions": ["vapour"],
                "packs": [{"amount": 10, "price": 2}],
                "rate": {"low": 2, "likely": 4, "high": 5, "loss": 0.25, "source": "test"},
            },
            "paint": {
                "name": "Paint", "kind": "liquid", "packs": [{"amount": 5, "price": 1}],
                "rate": {"low": 10, "likely": 10, "high": 10, "source": "test"},
            },
            "webbing": {
                "name": "Webbing", "kind": "length", "spare": 0.1,
                "packs": [{"amount": 500, "price": 1}, {"amount": 1000, "price": 1.5}],
            },
            "stud": {
                "name": "Stud", "kind": "count", "spare": 0.1,
                "packs": [{"amount": 10, "price": 1}],
            },
        },
        "tools": {
            "knife": {"name": "Knife"},
            "mask": {"name": "Mask", "protective": True},
        },
        "processes": {"gluing": {"name": "Gluing", "how": "so", "tools": ["knife"], "wait": 5}},
        "cautions": {
            "vapour": {
                "word": "DANGER", "title": "t", "hazard": "h", "consequence": "c", "avoid": "a",
                "protection": ["mask"],
            }
        },
    }
)  # fmt: skip

GUIDE = Guide.model_validate(
    {
        "title": "t", "version": "1", "date": "2026-01-01", "author": "a", "licence": "l",
        "licence-words": "w", "summary": "s", "overview": "o",
        "measurements": {"wrist": {"name": "Wrist", "take": "so"}},
        "sizes": {"M": {"wrist": 180}},
        "parts": {
            part: {"name": part, "label": part[0], "material": "foam", "shape": "drawing"}
            for part in ("base", "plate")
        },
        "steps": [
            {
                "id": "glue", "title": "Glue", "stage": "gluing", "process": "gluing", "time": 10,
                "parts": ["base", "plate"], "text": "t",
                "uses": [{"material": "cement", "glue": ["rim", "badge"]}],
            },
            {
                "id": "paint", "title": "Paint", "stage": "painting", "parts": ["base"], "time": 9,
                "text": "t",
                "uses": [
                    {"material": "paint", "cover": ["base"], "coats": 2},
                    {"material": "webbing", "length": "wrist + 220", "pieces": 2},
                    {"material": "stud", "count": 12},
                    {"material": "stud", "count": 7},
                ],
            },
        ],
    }
)  # fmt: skip

SHEET = CutSheet("mat", 500, 500, (), 20000.0)
PLAN = CutPlan("foam", 10, (SHEET, SHEET, SHEET), 3, "rows")


def _lines() -> dict[str, object]:
    found = list_materials(GUIDE, STOCK, KIT, (PLAN,), KIT.names(), ENGLISH)
    return {line.material: line for line in found.lines}


def test_lengths_off_a_roll_are_bought_as_they_are() -> None:
    """Two of 600 mm and one of 400 mm, each 0.80 for 100 mm: 12.80, three to buy."""
    roll = {"name": "off the roll", "width": 500, "height": 3000, "by": 100, "price": 0.8}
    foam = STOCK.materials["foam"].model_dump() | {"sheets": [roll]}
    stock = Stock.model_validate({"materials": {"foam": foam}})
    lengths = tuple(
        CutSheet(f"off the roll, {long:.0f}\N{NO-BREAK SPACE}mm", 500, long, (), 20000.0)
        for long in (600.0, 400.0, 600.0)
    )
    guide = GUIDE.model_copy(update={"steps": ()})
    plan = CutPlan("foam", 10, lengths, 3, "rows")
    (line,) = list_materials(guide, stock, KIT, (plan,), KIT.names(), ENGLISH).lines
    assert [(pack.name[-6:], pack.count, pack.price) for pack in line.packs] == [
        ("400\N{NO-BREAK SPACE}mm", 1, pytest.approx(3.2)),
        ("600\N{NO-BREAK SPACE}mm", 2, pytest.approx(4.8)),
    ]
    assert (line.need, line.cost) == (3, pytest.approx(12.8))
    assert "offcut" not in line.basis


def test_areas_by_hand() -> None:
    """Face area: rectangle less hole. Coated: face less the layer on it, and all cut edges."""
    assert piece_area(BASE) == pytest.approx(20000 - 400 * pi, abs=1)
    edges = (600 + 40 * pi) * 10
    loose = replace(KIT, seams=())
    assert covered_area(loose, ("base",)) == pytest.approx(20000 - 400 * pi + edges - 4000, abs=5)
    # Two of three plates are used (one is a spare), each 4000 mm² and 280 mm of edge.
    assert covered_area(KIT, ("plate",)) == pytest.approx(2 * (4000 + 2800), abs=1)


def test_edges_in_seams_are_not_coated() -> None:
    """A floor of 200 × 60 × 10 mm with two walls of 200 × 100 × 6 mm along its long edges.

    By hand: floor 12000 mm² of face, 5200 of edge, less 2 × 200 × 6 in the seams. Walls 20000 mm²
    of face and 3600 of edge each, less 200 × 6 each.
    """
    floor = _piece("floor", _rectangle(200, 60))
    wall = _piece("wall", _rectangle(200, 100), copies=2, thickness=6.0)
    foot = JoinedSeam("foot", EdgeRef("wall", "rim"), EdgeRef("floor", "rim"), 200, 200, 0, 1, 2, 6)
    kit = replace(KIT, pieces=(floor, wall), seams=(foot,), stacks=())
    assert covered_area(kit, ("floor",)) == pytest.approx(12000 + 5200 - 2400)
    assert covered_area(kit, ("wall",)) == pytest.approx(2 * (20000 + 3600 - 1200))
    # A seam between sections is no edge of the whole piece.
    inner = replace(foot, step="glue", glue="cement")
    assert covered_area(replace(kit, seams=(inner,)), ("floor",)) == pytest.approx(17200)


def test_glue_on_both_faces() -> None:
    """A seam made twice: 2 faces × 301 mm × 10 mm × 2; a layer: 2 faces × 4000 mm²."""
    assert glued_area(KIT, ("rim",)) == pytest.approx(2 * 301 * 10 * 2)
    assert glued_area(KIT, ("badge",)) == pytest.approx(2 * 4000)
    assert glued_area(KIT, ("rim", "badge")) == pytest.approx(12040 + 8000)


def test_cement_by_hand() -> None:
    """0.02004 m² ÷ 4 m²/l + 25 % = 6.26 ml; between 5.01 and 12.53; two pots of 10 ml for that."""
    line = _lines()["cement"]
    assert line.need == pytest.approx(0.02004 / 4 * 1000 * 1.25)
    assert (line.low, line.high) == pytest.approx((5.01, 12.525))
    assert [(pack.count, pack.amount) for pack in line.packs] == [(2, 10)]
    assert line.left == pytest.approx(20 - line.need)
    assert line.cost == 4
    assert "2 faces of joints" in line.basis
    assert "+ 25%" in line.basis


def test_paint_counts_coats() -> None:
    """Two coats take twice the paint of one."""
    line = _lines()["paint"]
    assert line.need == pytest.approx(2 * covered_area(KIT, ("base",)) / 1e6 / 10 * 1000)


def test_straps_are_never_joined() -> None:
    """Two straps of 400 mm and 10 % spare: 880 mm; two packs of 500 would cost more than 1000."""
    line = _lines()["webbing"]
    assert line.need == pytest.approx(880)
    assert [(pack.count, pack.amount) for pack in line.packs] == [(1, 1000)]


def test_the_order_of_cuts_is_planned() -> None:
    """Both straps come from the one pack, the longest first, and the rest is told."""
    (plan,) = list_materials(GUIDE, STOCK, KIT, (PLAN,), KIT.names(), ENGLISH).lengths
    assert [(p.start, p.length) for p in plan.packs[0].pieces] == [(0, 400), (400, 400)]
    assert plan.packs[0].left == pytest.approx(200)


def test_counted_things_round_up() -> None:
    """19 studs and 10 % are 20.9, so 21: three packs of ten."""
    line = _lines()["stud"]
    assert (line.need, line.packs[0].count) == (21, 3)


def test_every_term_of_a_sum_is_told() -> None:
    """Two uses of the same amount are two terms: the sum that is shown is the sum that is bought."""
    uses = [
        {"material": "paint", "amount": 25},
        {"material": "paint", "amount": 8},
        {"material": "paint", "amount": 25},
    ]
    raw = GUIDE.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    raw["steps"][1]["uses"] = uses
    found = list_materials(Guide.model_validate(raw), STOCK, KIT, (PLAN,), KIT.names(), ENGLISH)
    (line,) = [line for line in found.lines if line.material == "paint"]
    assert line.basis.replace("\xa0", " ") == "2 × 25 ml; 8 ml"
    assert line.need == 58


def test_sheets_are_sold_in_packs() -> None:
    """Three mats at two a pack: two packs, one mat left."""
    line = _lines()["foam"]
    assert (line.need, line.packs[0].count, line.left, line.cost) == (3, 2, 1, 18)
    assert line.packs[0].name == "mat, pack of 2 sheets"


def test_weight_by_hand() -> None:
    """Area × 10 mm × 100 kg/m³: 1 kg/m² (computed from the definition of density)."""
    area = 20000 - 400 * pi + 2 * 4000
    assert kit_weight(KIT, STOCK.materials) == pytest.approx(area * 1e-6 * 1000, rel=1e-4)


def test_tools_with_their_steps() -> None:
    """Tools come from steps and processes, protective equipment from the cautions."""
    tools = list_materials(GUIDE, STOCK, KIT, (PLAN,), KIT.names(), ENGLISH).tools
    assert [(tool.tool, tool.protective, tool.steps) for tool in tools] == [
        ("knife", False, ("glue",)),
        ("mask", True, ("glue",)),
    ]


@settings(deadline=None)
@given(st.floats(1, 5000), st.integers(1, 9), st.integers(1, 12))
def test_never_less_than_needed(length: float, pieces: int, coats: int) -> None:
    """Whatever a step uses, what is bought covers the highest estimate."""
    data = GUIDE.model_dump(by_alias=True, exclude_unset=True)
    data["steps"][1]["uses"] = [
        {"material": "paint", "cover": ["base", "plate"], "coats": coats},
        {"material": "webbing", "length": min(length, 1000.0), "pieces": pieces},
        {"material": "stud", "count": length},
    ]
    found = list_materials(Guide.model_validate(data), STOCK, KIT, (PLAN,), KIT.names(), ENGLISH)
    for line in found.lines:
        assert sum(pack.count * pack.amount for pack in line.packs) >= line.high - 1e-6
