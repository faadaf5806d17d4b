"""The figures on large sites in the handbook."""

from dataclasses import replace
from pathlib import Path

import pytest
from benchmarks.simulate_large_site import (
    ASSUMED,
    busy_day,
    guide_times,
    press_all,
    served_by_cache,
    tables,
)

ROOT = Path(__file__).parent.parent


def test_the_handbook_has_the_figures_of_the_simulation() -> None:
    """Each table of the page is what the script prints, the same on any machine."""
    page = (ROOT / "guidegen" / "handbook" / "publish" / "large-sites.md").read_text(
        encoding="utf-8"
    )
    for table in tables():
        assert table in page


def test_no_schedule_beats_the_bounds_of_graham() -> None:
    """The work over the workers is a lower bound; list scheduling ends before that plus a job.

    R. L. Graham, Bounds on multiprocessing timing anomalies, SIAM J. Appl. Math. 17 (1969).
    """
    few = replace(ASSUMED, guides=2000, lost=0.0)
    times = guide_times(few)
    for workers in (1, 7, 64):
        least = sum(times) / workers / 3600
        took = press_all(workers, few)
        assert least * (1 - 1e-9) <= took <= (least + max(times) / 3600) * (1 + 1e-9)


def test_losses_cost_what_they_must() -> None:
    """With every worker lost once half way, one worker needs half as long again."""
    few = replace(ASSUMED, guides=200)
    whole = press_all(1, replace(few, lost=0.0))
    assert press_all(1, replace(few, lost=1.0)) == pytest.approx(1.5 * whole)


def test_a_cache_of_everything_misses_each_guide_once() -> None:
    """With room for all, the only misses are first visits."""
    few = replace(ASSUMED, guides=50, visits=5000)
    assert served_by_cache(1.0, few) == pytest.approx(1 - 50 / 5000)


def test_without_rivals_an_edit_waits_for_its_own_press_only() -> None:
    """One edit a day in one shard of one guide takes the time of that guide."""
    alone = replace(ASSUMED, guides=1, edits=1)
    middle, worst = busy_day(1, 1, alone)
    assert middle == worst == pytest.approx(alone.edit / 60)
