"""Classes: one list for all, tools by sharing, hours."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st
from samples import write_content

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.kit import make_kit
from guidegen.layout.buying.consumption import piece_area
from guidegen.layout.buying.materials import list_for_all, list_materials
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.records import ToolLine
from guidegen.layout.times.class_plan import (
    count_tools,
    count_tools_before,
    join_kits,
    people_of,
)
from guidegen.layout.times.class_records import Means
from guidegen.words import ENGLISH


@cache
def _sample():
    """Guide and stock of the sample, and each size's kit with its names."""
    with TemporaryDirectory() as folder:
        content = read_content(write_content(Path(folder)))
    (file,) = content.guides
    makers = {}
    for size in file.size_names():
        kit, _ = make_kit(file, content.stock, size)
        makers[size] = (kit, size_numbers(file, size)[0].names())
    return file.guide, content.stock, makers


def _listed(sizes):
    """The materials of a class with these sizes, and its cut plans in rows."""
    guide, stock, makers = _sample()
    joined = join_kits([makers[size][0] for size in sizes])
    plans, _, problems = plan_cuts(joined, stock, solve=False)
    assert not problems
    return list_for_all(guide, stock, [makers[size] for size in sizes], plans, ENGLISH), plans


def test_people_without_names_are_numbered_by_size():
    """Two of M and one of L are called M 1, M 2 and L 1."""
    people = people_of([("M", 2), ("L", 1)])
    assert [(person.name, person.size) for person in people] == [
        ("M 1", "M"), ("M 2", "M"), ("L 1", "L"),
    ]  # fmt: skip


def test_joined_kits_keep_every_piece_apart():
    """Two equal kits give twice the pieces, each with a key and label of its own."""
    _, _, makers = _sample()
    kit = makers["M"][0]
    joined = join_kits([kit, kit])
    assert len({piece.key for piece in joined.pieces}) == 2 * len(kit.pieces)
    assert len({piece.label for piece in joined.pieces}) == 2 * len(kit.pieces)
    assert joined.pieces[-1].label == f"2-{kit.pieces[-1].label}"


def test_tools_are_counted_by_sharing():
    """12 people, 5 to a knife and one pair of goggles each: 12 ÷ 5 rounded up is 3."""
    stock = Stock.model_validate(
        {"tools": {
            "knife": {"name": "Knife", "shared_by": 5},
            "goggles": {"name": "Goggles", "protective": True},
        }}
    )  # fmt: skip
    tools = [ToolLine("knife", "Knife", False, ()), ToolLine("goggles", "Goggles", True, ())]
    assert [count.count for count in count_tools(tools, stock, 12)] == [3, 12]


def test_tools_of_steps_done_before_are_for_the_leader_alone():
    """A knife of a step done before is one knife, not twelve; what both need stands in both lists;
    of what the leader has said, too few are told."""
    stock = Stock.model_validate(
        {"tools": {
            "knife": {"name": "Knife"}, "goggles": {"name": "Goggles", "protective": True},
        }}
    )  # fmt: skip
    tools = [
        ToolLine("knife", "Knife", False, ("cut",)),
        ToolLine("goggles", "Goggles", True, ("cut", "form")),
    ]
    means = Means({"goggles": 9})
    inside = count_tools(tools, stock, 12, means, ("cut",))
    assert [(one.tool.tool, one.count, one.missing) for one in inside] == [("goggles", 12, 3)]
    before = count_tools_before(tools, stock, means, ("cut",))
    assert [(one.tool.tool, one.count, one.missing) for one in before] == [
        ("knife", 1, 0), ("goggles", 1, 0),
    ]  # fmt: skip


def test_packs_are_rounded_up_once_over_the_class():
    """Six cuffs need 12 buckles: one bag of 10 and 2 single ones, not six times two."""
    materials, _ = _listed(["M"] * 6)
    (buckle,) = [line for line in materials.lines if line.material == "buckle"]
    assert buckle.need == 12
    assert [(pack.amount, pack.count) for pack in buckle.packs] == [(10, 1), (1, 2)]
    assert buckle.cost == 9 + 2 * 1.5


def test_a_class_of_one_buys_what_one_buys():
    """One person's class list is that person's own list, apart from the cut plan's labels."""
    guide, stock, makers = _sample()
    kit, names = makers["M"]
    plans, _, _ = plan_cuts(kit, stock, solve=False)
    assert _listed(["M"])[0] == list_materials(guide, stock, kit, plans, names, ENGLISH)


@settings(max_examples=15, deadline=None)
@given(st.lists(st.sampled_from(["S", "M"]), min_size=1, max_size=7))
def test_the_list_is_never_smaller_than_what_the_pieces_need(sizes):
    """All pieces are placed, all foam fits its sheets, and packs cover the sum of all needs."""
    guide, stock, makers = _sample()
    materials, plans = _listed(sizes)
    alone = [
        list_materials(guide, stock, kit, plan_cuts(kit, stock, solve=False)[0], names, ENGLISH)
        for kit, names in (makers[size] for size in sizes)
    ]
    for line in materials.lines:
        bought = sum(pack.count * pack.amount for pack in line.packs)
        assert bought >= line.high - 1e-6
        mine = [own for one in alone for own in one.lines if own.material == line.material]
        if line.kind != "sheet":
            assert bought >= sum(own.high for own in mine) - 1e-6
        assert line.cost <= sum(own.cost for own in mine) + 1e-6
    kits = [makers[size][0] for size in sizes]
    for plan in plans:
        pieces = [p for kit in kits for p in kit.pieces if p.material == plan.material]
        assert sum(len(sheet.placed) for sheet in plan.sheets) == sum(p.copies for p in pieces)
        room = sum(sheet.width * sheet.height for sheet in plan.sheets)
        assert room >= sum(piece_area(p) * p.copies for p in pieces)
