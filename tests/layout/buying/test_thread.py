"""Thread by stitches, worked by hand."""

from types import SimpleNamespace

import pytest
from layout.buying.test_materials import KIT, STOCK

from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.stock import Stock
from guidegen.checks.names.rates import check_rates
from guidegen.layout.buying.consumption import step_demands
from guidegen.layout.buying.thread import SewnRun, Stitching, sewn_runs, thread_length
from guidegen.words import ENGLISH


def test_a_machine_takes_two_threads() -> None:
    """1 m through 1.4 mm of cloth at 3 mm a stitch: near three times the seam, tails included.

    A lockstitch takes 2.5 to 3 m of thread for a metre of seam (common practice, no source).
    """
    run = SewnRun(1000, 1.4, 1)
    thread = thread_length(run, Stitching(3, 1, 2))
    assert thread == pytest.approx(2 * (1000 + 1000 / 3 * 1.4 + 200))
    assert 2.5 <= (thread - 400) / 1000 <= 3


def test_rows_copies_and_strands_multiply() -> None:
    """Two rows on four copies take eight times the thread; one by hand half of that."""
    once = thread_length(SewnRun(500, 2, 1), Stitching(2.5, 1, 2))
    many = thread_length(SewnRun(500, 2, 4), Stitching(2.5, 2, 2))
    assert many == pytest.approx(8 * once)
    assert thread_length(SewnRun(500, 2, 4), Stitching(2.5, 2, 1)) == pytest.approx(4 * once)


def test_seams_and_layers_are_sewn_along_their_lines() -> None:
    """A seam through both its layers, an upper layer round its rim through all below it."""
    runs = [*sewn_runs(KIT, ("rim", "badge"))]
    assert runs == [SewnRun(301, 20, 2), SewnRun(280, 20, 1)]


def test_a_use_becomes_metres_of_thread() -> None:
    """The list states the thread and how long the stitched line is."""
    step = Step.model_validate(
        {
            "id": "sew", "title": "Sew", "stage": "gluing", "text": "Sew.", "time": 5,
            "uses": [{"material": "webbing", "sew": ["rim"], "stitch": 2, "rows": 2}],
        }
    )  # fmt: skip
    (demand,) = step_demands(step, KIT, STOCK.materials, {}, ENGLISH)
    assert demand.likely == pytest.approx((301 + 301 / 2 * 20 + 200) * 2 * 2 * 2)
    assert demand.basis == "1.2 m of stitches of 2 mm"
    assert demand.cuts == ()


def test_only_thread_is_sewn_with() -> None:
    """Glue under `sew` is told, and a stitch of no length."""
    stock = Stock.model_validate(
        {"materials": {"cement": STOCK.materials["cement"], "cord": STOCK.materials["webbing"]}}
    )
    uses = [
        {"material": "cement", "sew": ["rim"]},
        {"material": "cord", "sew": ["rim"], "stitch": 0},
        {"material": "cord", "sew": ["rim"]},
    ]
    step = Step.model_validate(
        {"id": "a", "title": "A", "stage": "gluing", "text": "A.", "time": 1, "uses": uses}
    )
    found: list[tuple[object, ...]] = []
    source = SimpleNamespace(problem=lambda code, trail, words: found.append((code, trail, words)))
    file = SimpleNamespace(guide=SimpleNamespace(steps=(step,), rates={}), source=source)
    list(check_rates(SimpleNamespace(stock=stock), file))  # type: ignore[arg-type]
    assert [trail[-2:] for _, trail, _ in found] == [(0, "sew"), (1, "stitch")]  # type: ignore[index]
