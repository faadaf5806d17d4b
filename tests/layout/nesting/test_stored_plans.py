"""Cut plans that are kept: same text for same plans, found exactly while nothing has changed."""

from dataclasses import replace

import pytest
from layout.nest_samples import CRAFT, MAT, WIDE, foam_kit, make_piece, rectangle, task_of

from guidegen.geometry.pieces.records import Piece
from guidegen.layout.nesting.search import make_plan
from guidegen.layout.nesting.stored_plans import StoredPlans, parse_plans, plans_text
from guidegen.layout.nesting.task import CutTask
from guidegen.layout.records import CutPlan


def sample() -> tuple[CutTask, CutPlan]:
    """A task and its plan in rows."""
    task = task_of(foam_kit(1).pieces, MAT, CRAFT, WIDE)
    return task, make_plan(task, None, 0)[0]


def test_text_and_back() -> None:
    """Plans written and read again are the same, and so is their text."""
    task, plan = sample()
    stored = StoredPlans().with_plan(task.key, plan).with_plan("other", plan)
    text = plans_text(stored)
    again, problems = parse_plans(text)
    assert problems == []
    assert again == stored
    assert plans_text(again) == text
    assert again.plan(task.key) == plan
    assert again.plan("unknown") is None
    turned_round = StoredPlans({"other": plan, task.key: plan})
    assert plans_text(turned_round) == text


def test_no_plans() -> None:
    """An empty text and a file without plans are no problem."""
    assert parse_plans("") == (StoredPlans(), [])
    assert parse_plans(plans_text(StoredPlans())) == (StoredPlans(), [])


def test_one_more_plan() -> None:
    """Of two plans for one task the later is kept."""
    _, plan = sample()
    newer = replace(plan, method="solver")
    kept = StoredPlans({"a": plan}).with_plan("b", plan).with_plan("b", newer)
    assert kept.plans == {"a": plan, "b": newer}


@pytest.mark.parametrize(
    "text",
    [
        "{",
        "[]",
        '{"version": 1}',
        '{"version": 1, "plans": []}',
        '{"version": 1, "plans": {"a": {}}}',
        '{"version": 1, "plans": {"a": {"method": "solver", "sheets": [{}]}}}',
        "[" * 100_000,
    ],
)
def test_not_a_file_of_plans(text: str) -> None:
    """Anything else is told as a warning, and no plan comes of it."""
    stored, (problem,) = parse_plans(text, "guide/plans/M.json")
    assert stored == StoredPlans()
    assert problem.severity == "warning"
    assert problem.place.file == "guide/plans/M.json"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('"solver"', '"magic"'),
        ("0.0, false]", "NaN, false]"),
        ("0.0, false]", '"0", false]'),
        ("0.0, false]", "0.0, 1]"),
        ("0.0, false]", "0.0]"),
    ],
)
def test_damaged_places(old: str, new: str) -> None:
    """One damaged value makes the file unreadable rather than half read."""
    task, plan = sample()
    text = plans_text(StoredPlans({task.key: replace(plan, method="solver")}))
    assert old in text
    stored, problems = parse_plans(text.replace(old, new, 1))
    assert stored == StoredPlans()
    assert [problem.code for problem in problems] == ["stored-plans"]


def test_other_versions() -> None:
    """Plans of another version are made again without a word."""
    assert parse_plans('{"version": 2, "plans": 7}') == (StoredPlans(), [])


def test_key_says_what_matters() -> None:
    """The key changes with everything that decides a plan, and with nothing else."""

    def key(piece: Piece, size: object = MAT, **settings: object) -> str:
        return task_of([piece], size, **settings).key  # type: ignore[arg-type]

    piece = make_piece("a", rectangle(100, 50), 2)
    base = key(piece)
    assert base.startswith("foam ")
    assert key(replace(piece, label="X", note="see step 3")) == base
    assert key(make_piece("a", rectangle(100.001, 50), 2)) == base
    changed = [
        key(make_piece("a", rectangle(100.02, 50), 2)),
        key(replace(piece, copies=3)),
        key(replace(piece, part="b")),
        key(piece, CRAFT),
        key(piece, MAT.model_copy(update={"price": 10})),
        key(piece, MAT.model_copy(update={"pack": 2})),
        key(piece, MAT, spacing=4),
        key(piece, MAT, rim=4),
        key(piece, MAT, rotation="half"),
        key(piece, MAT, **{"good-faces": 2}),
    ]
    assert len({base, *changed}) == len(changed) + 1
