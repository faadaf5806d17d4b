"""Cut plans from kit and stock: rows, solver, kept plans, and what happens when things go wrong."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.nest_samples import (
    CRAFT,
    MAT,
    WIDE,
    disc,
    foam_kit,
    make_kit,
    make_piece,
    polygon,
    rectangle,
    sheet,
    sheet_material,
    stock_of,
    task_of,
)

from guidegen.buildfile.records.materials import Material, SheetSize
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.errors import SolverError
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.nesting.checks import faults_of_plan
from guidegen.layout.nesting.cutplan import gap_words, plan_cuts
from guidegen.layout.nesting.request import request_for
from guidegen.layout.nesting.rows import plan_rows
from guidegen.layout.nesting.search import Solve
from guidegen.layout.nesting.solver_messages import NestAnswer, NestRequest, SolverPlace
from guidegen.layout.nesting.stored_plans import StoredPlans, parse_plans, plans_text
from guidegen.layout.nesting.task import CutTask, cut_tasks, finish_plan
from guidegen.layout.records import CutPlan
from guidegen.words import ENGLISH

STOCK = stock_of(sheet_material(MAT, CRAFT, WIDE))


def never(request: NestRequest) -> NestAnswer:
    """A solver that must not be called."""
    raise AssertionError(f"the solver was asked for {len(request.items)} pieces")


def check(plan: CutPlan, task: CutTask) -> None:
    """Fail where a plan does not hold."""
    assert list(faults_of_plan(plan.sheets, task.pieces, task.sheets, task.cutting)) == []


def test_solver_beats_rows() -> None:
    """Two triangles that fill one sheet together take two in rows, and one with the solver."""
    triangle = polygon([(0, 0), (98, 0), (0, 98)])
    kit = make_kit([make_piece("a", triangle, 2)])
    stock = stock_of(sheet_material(SheetSize(name="s", width=102, height=102, price=5)))
    (rows,), _, _ = plan_cuts(kit, stock, solve=False, solver=never)
    assert (rows.method, len(rows.sheets)) == ("rows", 2)
    (found,), keep, problems = plan_cuts(kit, stock, seconds=3)
    assert problems == []
    assert (found.method, len(found.sheets), found.cost) == ("solver", 1, 5)
    assert gap_words(found, ENGLISH) == "the best possible"
    check(found, cut_tasks(kit, stock)[0])
    again, kept, _ = plan_cuts(kit, stock, stored=keep, solver=never)
    assert again == (found,)
    assert plans_text(kept) == plans_text(keep)


def test_whole_kit() -> None:
    """A kit of 36 pieces in a short search: no faults, cheaper than rows or as cheap."""
    kit = foam_kit(1)
    (rows,), _, _ = plan_cuts(kit, STOCK, solve=False)
    (plan,), keep, problems = plan_cuts(kit, STOCK, seconds=1)
    assert problems == []
    check(plan, cut_tasks(kit, STOCK)[0])
    assert rows.least_cost <= plan.cost <= rows.cost
    assert plan.least <= len(plan.sheets)
    assert plan.thickness == 10
    stored, _ = parse_plans(plans_text(keep))
    assert plan_cuts(kit, STOCK, stored=stored, solver=never)[0] == (plan,)
    draft, kept, _ = plan_cuts(kit, STOCK, stored=stored, solve=False)
    assert (draft, kept) == ((plan,), stored)


def test_trivial_kits_need_no_solver() -> None:
    """What fits one cheapest sheet in rows is proven best and neither searched nor kept."""
    kit = make_kit([make_piece("a", rectangle(100, 100), 4)])
    (plan,), keep, problems = plan_cuts(kit, STOCK, solver=never)
    assert (plan.method, plan.cost, problems) == ("rows", 3.5, [])
    assert keep == StoredPlans()


def test_materials_in_the_order_of_stock() -> None:
    """One plan for each sheet material that the kit uses; progress names each."""
    paint = Material.model_validate(
        {"name": "P", "kind": "count", "packs": [{"amount": 1, "price": 1}]}
    )
    two = sheet_material(CRAFT, name="Two")
    stock = Stock(
        materials={"two": two, "paint": paint, "unused": two, "foam": sheet_material(MAT)}
    )
    pieces = [make_piece("a", disc(30)), make_piece("b", disc(30), 1, "two")]
    told: list[str] = []
    plans, _, _ = plan_cuts(make_kit(pieces), stock, progress=told.append)
    assert [plan.material for plan in plans] == ["two", "foam"]
    assert told == ["Two", "Foam"]


def test_too_large() -> None:
    """A part that fits no sheet is named with place and miss; the rest is planned."""
    text = "parts:\n  slab:\n    name: Slab\n"
    _, source, _ = read_tree(text, "guides/g/guide.yaml")
    pieces = [make_piece("slab", rectangle(1012.5, 300)), make_piece("b", disc(30), 2)]
    (plan,), _, (problem,) = plan_cuts(make_kit(pieces), STOCK, source=source)
    assert (problem.code, problem.severity) == ("too-large", "error")
    assert (problem.path, problem.place.line) == ("parts.slab", 3)
    assert "by 12.6 mm" in problem.message
    assert "1013 × 300 mm" in problem.message or "1012 × 300 mm" in problem.message
    assert {placed.piece for s in plan.sheets for placed in s.placed} == {"b"}
    alone, _, (without_source,) = plan_cuts(make_kit(pieces[:1]), STOCK)
    assert alone == ()
    assert without_source.place.file == "guide/guide.yaml"


def answer(change: Callable[[NestAnswer], NestAnswer]) -> Solve:
    """A solver whose answer is one sheet of the first size with everything at the origin."""

    def solve(request: NestRequest) -> NestAnswer:
        places = tuple(
            SolverPlace(number, 0, 0, 0, False)
            for number, item in enumerate(request.items)
            for _ in range(item.copies)
        )
        return change(NestAnswer(((0, places),)))

    return solve


def crash(request: NestRequest) -> NestAnswer:
    """A solver that fails."""
    raise SolverError("the nesting solver failed (status -11)")


@pytest.mark.parametrize("solver", [crash, answer(lambda whole: whole)])
def test_failing_solver(solver: Solve) -> None:
    """A crash or a plan that does not hold costs a warning; the rows are used, and not kept."""
    kit = foam_kit(1)
    (plan,), keep, (problem,) = plan_cuts(kit, STOCK, solver=solver)
    assert plan == plan_cuts(kit, STOCK, solve=False)[0][0]
    assert plan.method == "rows"
    assert keep == StoredPlans()
    assert (problem.code, problem.severity) == ("solver-failed", "warning")
    assert "simple one in rows" in problem.message


def test_too_little_time() -> None:
    """A solver without a whole plan in time is no fault; the rows are kept as its result."""
    kit = foam_kit(1)
    (plan,), keep, problems = plan_cuts(kit, STOCK, solver=answer(lambda whole: NestAnswer(())))
    assert (plan.method, problems) == ("rows", [])
    assert len(keep.plans) == 1


@pytest.mark.parametrize(
    "spoil",
    [
        lambda plan: replace(plan, sheets=plan.sheets[1:]),
        lambda plan: replace(
            plan,
            sheets=(
                replace(
                    plan.sheets[0], placed=tuple(replace(p, x=5) for p in plan.sheets[0].placed)
                ),
                *plan.sheets[1:],
            ),
        ),
        lambda plan: replace(plan, sheets=(replace(plan.sheets[0], width=999), *plan.sheets[1:])),
        lambda plan: replace(
            plan,
            sheets=(
                replace(plan.sheets[0], placed=(replace(plan.sheets[0].placed[0], piece="?"),)),
            ),
        ),
    ],
)
def test_spoiled_plans_are_not_reused(spoil: Callable[[CutPlan], CutPlan]) -> None:
    """A kept plan that does not hold is dropped: rows in a draft, the solver otherwise."""
    kit = foam_kit(1)
    task = cut_tasks(kit, STOCK)[0]
    (rows,), _, _ = plan_cuts(kit, STOCK, solve=False)
    stored = StoredPlans({task.key: spoil(replace(rows, method="solver"))})
    assert plan_cuts(kit, STOCK, stored=stored, solve=False)[0] == (rows,)


def test_kept_figures_are_worked_out_again() -> None:
    """Price and foam used come from the plan itself, not from what its file claims."""
    kit = foam_kit(1)
    task = cut_tasks(kit, STOCK)[0]
    (rows,), _, _ = plan_cuts(kit, STOCK, solve=False)
    sheets = tuple(replace(s, used=1) for s in rows.sheets)
    stored = StoredPlans({task.key: replace(rows, cost=0.5, least=99, sheets=sheets)})
    (plan,), _, _ = plan_cuts(kit, STOCK, stored=stored, solver=never)
    assert plan == rows


def test_offcuts() -> None:
    """What is at hand is used before anything is bought."""
    kit = make_kit([make_piece("a", rectangle(100, 100), 8)])
    (bought,), _, _ = plan_cuts(kit, STOCK, solve=False)
    rest = replace(sheet(205, 110, 0, available=1), name="rest")
    (plan,), _, _ = plan_cuts(kit, STOCK, offcuts={"foam": [rest]}, solve=False)
    assert (bought.cost, plan.cost) == (7, 3.5)
    assert [(s.name, len(s.placed)) for s in plan.sheets] == [("rest", 2), ("craft sheet", 6)]


@pytest.mark.parametrize(
    ("settings_", "turns"),
    [
        ({"rotation": "none"}, {(0.0, 0.0, False)}),
        ({"rotation": "half"}, {(0.0, 0.0, False), (180.0, 180.0, False)}),
        (
            {"rotation": "half", "good-faces": 2},
            {(a, a, f) for a in (0, 180) for f in (False, True)},
        ),
        ({"rotation": "quarter"}, {(a, a, False) for a in (0, 90, 180, 270)}),
        ({"rotation": "any"}, {*((a, a, False) for a in (0, 90, 180, 270)), (0.0, 360.0, False)}),
    ],
)
def test_solver_is_told_the_turns(
    settings_: dict[str, object], turns: set[tuple[float, float, bool]]
) -> None:
    """Grain, printed faces and good faces reach the solver as turns and flips."""
    asked: list[NestRequest] = []

    def note(request: NestRequest) -> NestAnswer:
        asked.append(request)
        return NestAnswer(())

    stock = stock_of(sheet_material(MAT, **settings_))
    plan_cuts(foam_kit(2), stock, solver=note)
    assert {turn for search in asked[0].searches for turn in search.turns} == turns
    assert asked[0].spacing == 3


def test_easy_mixes_are_tried_first() -> None:
    """Mixes of sheets that hold the foam loosely and beat rows are tried, cheapest first."""
    triangles = [make_piece("a", polygon([(0, 0), (200, 0), (0, 200)]), 5)]
    narrow = SheetSize(name="narrow", width=210, height=420, price=5)
    wide = SheetSize(name="wide", width=420, height=420, price=9)
    task = task_of(triangles, narrow, wide)
    rows = finish_plan(task, plan_rows(task.pieces, task.sheets, task.cutting) or [], "rows")
    request = request_for(task, rows, 1)
    aims = [search.mix for search in request.searches if search.mix]
    prices = [sum(n * s.pack_price for n, s in zip(a, task.sheets, strict=True)) for a in aims]
    areas = [
        sum(n * s.width * s.height for n, s in zip(aim, task.sheets, strict=True)) for aim in aims
    ]
    assert aims == [(0, 1), (2, 0)]
    assert rows.cost == 14
    assert max(prices) < rows.cost
    assert min(areas) * 0.7 > sum(piece.area * piece.copies for piece in task.pieces)
    assert request.enough == (rows.least_cost, rows.least)
    single = task_of(foam_kit(1).pieces, MAT)
    rows = finish_plan(
        single, plan_rows(single.pieces, single.sheets, single.cutting) or [], "rows"
    )
    assert not any(search.mix for search in request_for(single, rows, 1).searches)


@pytest.mark.parametrize("faces", [1, 2])
def test_flips_only_with_two_good_faces(faces: int) -> None:
    """Two left wings interlock only when one is turned over; with one good face they never are."""
    wing = polygon([(0, 0), (100, 0), (100, 40)])
    kit = make_kit([make_piece("wing", wing, 4)])
    size = SheetSize(name="s", width=104, height=60, price=5)
    stock = stock_of(sheet_material(size, rotation="none", spacing=2, **{"good-faces": faces}))
    (plan,), _, problems = plan_cuts(kit, stock, seconds=1)
    assert problems == []
    check(plan, cut_tasks(kit, stock)[0])
    if faces == 1:
        assert not any(placed.flipped for s in plan.sheets for placed in s.placed)


@settings(max_examples=4, deadline=None)
@given(
    st.lists(st.tuples(st.integers(20, 90), st.integers(20, 90)), min_size=3, max_size=6),
    st.sampled_from(["any", "quarter", "half", "none"]),
)
def test_solver_plans_hold(sizes: list[tuple[int, int]], rotation: str) -> None:
    """Whatever the solver makes of small kits is a plan without faults, or rows are used."""
    pieces = [
        make_piece(f"p{n}", polygon([(0, 0), (w, 0), (w / 3, h)]), 2)
        for n, (w, h) in enumerate(sizes)
    ]
    size = SheetSize(name="s", width=120, height=100, price=2)
    task = task_of(pieces, size, rotation=rotation)
    stock = stock_of(sheet_material(size, rotation=rotation))
    plans, _, problems = plan_cuts(make_kit(pieces), stock, seconds=0.5)
    fit = {placed.piece for s in plans[0].sheets for placed in s.placed}
    check(plans[0], replace(task, pieces=tuple(p for p in task.pieces if p.key in fit)))
    assert all(problem.code == "too-large" for problem in problems)


def test_kits_of_a_class() -> None:
    """Pieces of several people are nested together: keys tell whose they are."""
    kits: list[Kit] = [foam_kit(1), foam_kit(2)]
    both = make_kit(
        [
            replace(piece, part=f"{who}-{piece.part}")
            for who, kit in zip("ab", kits, strict=True)
            for piece in kit.pieces
        ]
    )
    (plan,), _, _ = plan_cuts(both, STOCK, solve=False)
    apart = sum(plan_cuts(kit, STOCK, solve=False)[0][0].cost for kit in kits)
    assert plan.cost <= apart
    assert sum(len(s.placed) for s in plan.sheets) == 72


def test_teeth_of_a_mat_are_not_cut_from() -> None:
    """A mat of 600 mm with teeth of 10 mm is planned like one whose usable sides are 580 mm."""
    pieces = [make_piece("a", rectangle(280, 280), 4)]
    whole = SheetSize(name="s", width=600, height=600, interlock=10, price=5)
    usable = SheetSize(name="s", width=580, height=580, price=5)
    assert whole.usable() == (580, 580)
    assert task_of(pieces, whole).key == task_of(pieces, usable).key
    (plan,), _, _ = plan_cuts(make_kit(pieces), stock_of(sheet_material(whole)), solve=False)
    assert [(s.width, s.height) for s in plan.sheets] == [(580, 580)]
    wide = make_kit([make_piece("a", rectangle(590, 570))])
    _, _, problems = plan_cuts(wide, stock_of(sheet_material(whole)), solve=False)
    assert len(problems) == 1
