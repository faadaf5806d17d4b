"""Size advice against percentiles of a published population, with every mix of chest and waist.

Source: percentiles of the 4,082 men and 1,986 women of ANSUR II (US Army, 2012: Gordon et al.,
NATICK/TR-15/007), worked out from the data set that was published with the report; mm. Girths of
arms are those of flexed arms. Nobody is at one percentile in all measurements: each percentile of
chest, waist and wrist is therefore put together with each of the others.
"""

import csv
from itertools import product
from pathlib import Path

import pytest
from demo_content import read_demo

from guidegen.geometry.fit.advice import TAPE, advise_size, size_table
from guidegen.geometry.fit.doubts import SMALLER_THAN, girth_term

ROOT = Path(__file__).parents[2]
(FILE,) = read_demo("slipway-marshal").guides
TABLE = size_table(FILE)
LEADS = ("chest", "waist")
MEASURES = {
    "chest": "chestcircumference",
    "waist": "waistcircumference",
    "back_length": "waistbacklength",
    "shoulder_length": "shoulderlength",
    "neck": "neckcircumference",
    "upper_arm": "bicepscircumferenceflexed",
    "forearm": "forearmcircumferenceflexed",
    "wrist": "wristcircumference",
    "forearm_length": "radialestylionlength",
}
with (Path(__file__).parent / "ansur2_percentiles.csv").open(encoding="utf-8") as opened:
    ROWS = {(row["sex"], row["measure"]): row for row in csv.DictReader(opened)}
PERCENTILES = ("p1", "p5", "p10", "p25", "p50", "p75", "p90", "p95", "p99")


def body(sex: str, percentile: str, **others: str) -> dict[str, float]:
    """All measurements at one percentile, some at others; mm."""
    return {
        name: float(ROWS[sex, column][others.get(name, percentile)])
        for name, column in MEASURES.items()
    }


def mixed(sex: str) -> list[dict[str, float]]:
    """Every mix of chest, waist and wrist."""
    return [
        body(sex, "p50", chest=chest, waist=waist, wrist=wrist)
        for chest, waist, wrist in product(PERCENTILES, PERCENTILES, ("p1", "p50", "p99"))
    ]


@pytest.mark.parametrize("sex", ["male", "female"])
def test_nobody_within_the_largest_size_is_advised_a_kit_that_does_not_close(sex: str) -> None:
    """Whoever is no larger than XL in chest and waist gets a size that is large enough in both,
    whatever the wrist; whoever is larger is told where."""
    within = 0
    for person in mixed(sex):
        advice = advise_size(FILE, person)
        assert advice is not None
        small = [n for n in LEADS if person[n] > TABLE[advice.size][n] + TAPE]
        largest = [n for n in LEADS if person[n] > TABLE["XL"][n] + TAPE]
        assert bool(small) is bool(largest)
        assert sorted(advice.short) == sorted(small)
        within += not largest
    assert within > 120  # of 243: half of all mixes and more, not a handful


@pytest.mark.parametrize("sex", ["male", "female"])
def test_advice_is_the_smallest_size_that_closes(sex: str) -> None:
    """No larger size is advised than chest and waist ask for: a kit of two sizes more would hang."""
    names = list(TABLE)
    for person in mixed(sex):
        closing = [s for s in names if all(person[n] <= TABLE[s][n] + TAPE for n in LEADS)]
        advice = advise_size(FILE, person)
        assert advice is not None
        if closing:
            assert advice.size == closing[0]


@pytest.mark.parametrize("sex", ["male", "female"])
def test_larger_people_are_never_advised_smaller_sizes(sex: str) -> None:
    """From the 1st to the 99th percentile sizes only grow, and the middle of neither sex falls out."""
    names = list(TABLE)
    advised = [advise_size(FILE, body(sex, percentile)) for percentile in PERCENTILES]
    sizes = [names.index(one.size) for one in advised if one is not None]
    assert sizes == sorted(sizes)
    assert [one.short for one in advised if one is not None][PERCENTILES.index("p50")] == ()


@pytest.mark.parametrize("sex", ["male", "female"])
def test_girths_of_percentiles_keep_the_order_that_bodies_are_checked_by(sex: str) -> None:
    """At no percentile is a girth larger than one that the check calls always larger."""
    terms = {girth_term(name): name for name in MEASURES if girth_term(name)}
    pairs = [(terms[a], terms[b]) for a, b in SMALLER_THAN if a in terms and b in terms]
    assert len(pairs) > 3
    for percentile in PERCENTILES:
        person = body(sex, percentile)
        assert all(person[small] < person[large] for small, large in pairs)
