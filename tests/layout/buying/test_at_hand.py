"""What is at hand is used before anything is bought, and nothing runs out because of it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import write_content

from guidegen.app.jobs.guides import plan_size
from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.on_hand import NOTHING, Offcut, OnHand
from guidegen.buildfile.read.reader import read_content
from guidegen.geometry.pieces.kit import make_kit
from guidegen.layout.buying.materials import list_materials
from guidegen.layout.buying.on_hand import offcut_sheets, take_lengths
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.records import LengthCut, MaterialLine
from guidegen.words import ENGLISH


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory):
    """Guide, stock, kit and names of the sample in size M."""
    content = read_content(write_content(tmp_path_factory.mktemp("content")))
    (file,) = content.guides
    kit, _ = make_kit(file, content.stock, "M")
    return file.guide, content.stock, kit, size_numbers(file, "M")[0].names()


def _lines(sample, on_hand: OnHand) -> tuple[dict[str, MaterialLine], object]:
    guide, stock, kit, names = sample
    plans, _, problems = plan_cuts(kit, stock, solve=False, offcuts=offcut_sheets(on_hand, ENGLISH))
    assert not problems
    listed = list_materials(guide, stock, kit, plans, names, ENGLISH, on_hand=on_hand)
    assert listed.cost == pytest.approx(sum(line.cost for line in listed.lines))
    return {line.material: line for line in listed.lines}, listed


def test_offcuts_save_the_sheet(sample):
    """Two discs of 60 mm fit an offcut of 150 × 80: no mat is bought, and the plan says so."""
    lines, _ = _lines(sample, OnHand({"foam-10": (Offcut(150, 80),)}))
    assert lines["foam-10"].packs == () and lines["foam-10"].cost == 0
    assert lines["foam-10"].need == 0 and lines["foam-10"].left == 0
    assert "1\u00a0offcut at hand" in lines["foam-10"].basis
    bought, _ = _lines(sample, NOTHING)
    assert bought["foam-10"].cost == 5


def test_equal_offcuts_are_counted_together():
    """Two lists of one size are one kind of sheet; so are sides that differ by hundredths."""
    on_hand = OnHand({"foam": (Offcut(300, 200), Offcut(90, 80), Offcut(300.04, 200.02, 2))})
    (first, second) = offcut_sheets(on_hand, ENGLISH)["foam"]
    assert (first.width, first.height, first.available) == (300, 200, 3)
    assert (second.name, second.available) == ("offcut 90 × 80 mm", 1)


def test_too_small_an_offcut_changes_nothing(sample):
    """Nothing fits 30 × 30 mm: the same sheets are bought as without it."""
    with_scrap, _ = _lines(sample, OnHand({"foam-10": (Offcut(30, 30, 9),)}))
    without, _ = _lines(sample, NOTHING)
    assert with_scrap["foam-10"].packs == without["foam-10"].packs


def test_amounts_are_taken_off(sample):
    """One of two buckles at hand: one is bought. All cement at hand: none is."""
    lines, _ = _lines(sample, OnHand(amounts={"buckle": 1, "cement": 5000}))
    assert [(pack.count, pack.amount) for pack in lines["buckle"].packs] == [(1, 1)]
    assert lines["buckle"].left == 0
    assert lines["cement"].packs == () and lines["cement"].left > 4000
    assert "5 l at hand" in lines["cement"].basis.replace("\u00a0", " ")


def test_lengths_are_cut_from_the_one_at_hand_first():
    """Of 600, 500 and 300 mm a length of 1000 holds 600 and 300; 500 is still wanted."""
    cuts = [
        LengthCut("w", 300.0, 1, "c"),
        LengthCut("w", 600.0, 1, "a"),
        LengthCut("w", 500, 1, "b"),
    ]
    taken, left = take_lengths(cuts, 1000.0, "at hand")
    assert taken is not None
    assert [piece.length for piece in taken.pieces] == [600, 300] and taken.left == 100
    assert [cut.length for cut in left] == [500]
    assert take_lengths(cuts, 100.0, "at hand") == (None, cuts)


def test_webbing_at_hand(sample):
    """Two straps of 280 mm from 300 mm at hand and one pack: no strap is joined from two rests."""
    lines, listed = _lines(sample, OnHand(amounts={"webbing": 300}))
    (plan,) = listed.lengths
    assert [len(pack.pieces) for pack in plan.packs] == [1, 1]
    assert plan.packs[0].at_hand and plan.packs[0].price == 0
    assert lines["webbing"].cost == 3


AMOUNTS = st.dictionaries(
    st.sampled_from(["cement", "paint", "webbing", "buckle"]), st.integers(1, 3000), max_size=4
)
OFFCUTS = st.lists(
    st.builds(Offcut, st.integers(50, 700), st.integers(50, 700), st.integers(1, 3)), max_size=3
)


@settings(max_examples=20, deadline=None)
@given(amounts=AMOUNTS, foam=OFFCUTS)
def test_nothing_runs_out_and_nothing_costs_more(sample, amounts, foam):
    """What is bought and what is there cover the need, for no more than without it."""
    on_hand = OnHand({"foam-5": tuple(foam)} if foam else {}, amounts)
    lines, listed = _lines(sample, on_hand)
    without, bare = _lines(sample, NOTHING)
    for name, line in lines.items():
        bought = sum(pack.count * pack.amount for pack in line.packs)
        assert bought + line.have >= line.high - 1e-6
        assert line.left == pytest.approx(bought + line.have - line.need)
        assert line.cost <= without[name].cost + 1e-9
    straps = sum(len(pack.pieces) for plan in listed.lengths for pack in plan.packs)
    assert straps == sum(cut.pieces for cut in bare.cuts)


def test_the_same_for_one_reader(sample, tmp_path):
    """Planning one size knows what is at hand: the discs come from the offcut."""
    content = read_content(write_content(tmp_path))
    (file,) = content.guides
    on_hand = OnHand({"foam-10": (Offcut(150, 80),)})
    planned = plan_size(content, file, sample[2], "", 0.0, templates=False, on_hand=on_hand)
    (mats,) = [plan for plan in planned.plan.cut_plans if plan.material == "foam-10"]
    assert [sheet.name for sheet in mats.sheets] == ["offcut 150 × 80 mm"] and mats.cost == 0
    lines = {line.material: line for line in planned.plan.materials.lines}
    assert lines["foam-10"].packs == ()
