"""Which size fits a body, what is off about it, and what to measure again."""

import pytest
from geometry.kit_samples import graded_cuff, guide_file, stock
from hypothesis import given
from hypothesis import strategies as st

from guidegen.geometry.fit.advice import (
    advise_size,
    count_served,
    edge_growths,
    serve_people,
    size_steps,
)
from guidegen.geometry.fit.doubts import doubt_body, girth_term
from guidegen.geometry.fit.records import Verdict

GUIDE = graded_cuff(
    """\
  S: {forearm: 250, wrist: 160, arm_length: 230}
  M: {forearm: 280, wrist: 175, arm_length: 245}
  L: {forearm: 310, wrist: 190, arm_length: 260}
""",
    "    allowances: {side: {kind: trim, width: 6}, side-2: {kind: trim, width: 6}}\n",
)

FILE = guide_file(GUIDE)
TABLE = {
    "S": {"forearm": 250.0, "wrist": 160.0, "arm_length": 230.0},
    "M": {"forearm": 280.0, "wrist": 175.0, "arm_length": 245.0},
    "L": {"forearm": 310.0, "wrist": 190.0, "arm_length": 260.0},
}


@pytest.mark.parametrize("size", TABLE)
def test_a_body_of_a_size_gets_that_size(size):
    """Who has exactly the measurements of a size is sent to it, without misfit."""
    advice = advise_size(FILE, TABLE[size])
    assert advice.size == size
    assert advice.score == 0
    assert advice.ranking[0] == (size, 0)


@given(
    st.fixed_dictionaries(
        {
            "forearm": st.floats(200, 400),
            "wrist": st.floats(130, 250),
            "arm_length": st.floats(200, 300),
        }
    )
)
def test_no_other_size_has_less_misfit(body):
    """The advised size has the least root mean square of misfits in steps."""
    advice = advise_size(FILE, body)
    steps = {"forearm": 30, "wrist": 15, "arm_length": 15}
    scores = {
        size: (sum(((body[n] - row[n]) / steps[n]) ** 2 for n in row) / 3) ** 0.5
        for size, row in TABLE.items()
    }
    assert advice.score == pytest.approx(min(scores.values()))
    assert scores[advice.size] == pytest.approx(advice.score)
    assert sorted(score for _, score in advice.ranking) == pytest.approx(sorted(scores.values()))


def test_the_measurement_that_is_off_comes_first():
    """The advice names what is farthest off, in mm and in size steps."""
    advice = advise_size(FILE, {"forearm": 284, "wrist": 196, "arm_length": 244})
    worst = advice.misfits[0]
    assert advice.size == "M"
    assert (worst.measurement, worst.difference) == ("wrist", 21)
    assert worst.steps == pytest.approx(21 / 15)


def test_between_two_sizes_the_larger_is_advised():
    """Exactly between two sizes the larger one is right: foam can be cut off."""
    body = {name: (TABLE["S"][name] + TABLE["M"][name]) / 2 for name in TABLE["S"]}
    assert advise_size(FILE, body).size == "M"


LEADS = guide_file(GUIDE.replace("forearm: {name", "forearm: {leads: true, name"))


def test_wrists_do_not_outvote_a_leading_forearm():
    """A thick forearm on a thin wrist gets the size that closes around the forearm."""
    body = {"forearm": 284.0, "wrist": 158.0, "arm_length": 228.0}
    assert advise_size(FILE, body).size == "S"
    advice = advise_size(LEADS, body)
    assert (advice.size, advice.short) == ("L", ())
    assert [size for size, _ in advice.ranking] == ["L", "M", "S"]


def test_a_leading_measurement_is_a_lower_limit():
    """Up to 2 mm over a size are the tape's; 3 mm over want the next one; above the largest, none
    closes and the advice says in what."""
    body = {"wrist": 175.0, "arm_length": 245.0}
    sizes = {mm: advise_size(LEADS, {**body, "forearm": mm}) for mm in (251.9, 253.0, 283.0, 320.0)}
    assert [advice.size for advice in sizes.values()] == ["S", "M", "L", "L"]
    assert [advice.short for advice in sizes.values()] == [(), (), (), ("forearm",)]


def test_a_body_without_its_leading_measurement_is_advised_by_the_others():
    """Who has only a wrist to tell gets the size of that wrist."""
    assert advise_size(LEADS, {"wrist": 176.0}).size == "M"


def test_leading_measurements_decide_whom_a_size_serves():
    """Roomier by two steps is taken in with straps; larger than the largest is not served."""
    people = [{"forearm": mm, "wrist": 300.0} for mm in (189.0, 191.0, 312.0, 313.0)]
    assert [person.verdict for person in serve_people(LEADS, people)] == [
        Verdict.SMALLER, Verdict.SERVED, Verdict.SERVED, Verdict.LARGER,
    ]  # fmt: skip


def test_steps_of_sizes():
    """A step is the average change from size to size; one size alone has 5 percent."""
    assert size_steps(TABLE) == {"forearm": 30, "wrist": 15, "arm_length": 15}
    assert size_steps({"M": {"wrist": 200.0}}) == {"wrist": 10}


def test_no_sizes_no_advice():
    """A guide without a size table, or a body without its measurements, gets no advice."""
    assert (
        advise_size(
            guide_file(GUIDE.split("parts:", maxsplit=1)[0].split("sizes:", maxsplit=1)[0] + PLATE),
            {},
        )
        is None
    )
    assert advise_size(FILE, {"calf": 300}) is None


PLATE = """\
parts:
  plate:
    name: Plate
    label: P
    material: foam-10
    shape: disc
    dimensions: {diameter: 60}
"""


def test_trim_allowance_may_cover_what_is_missing():
    """A forearm 8 mm larger fits into 6 + 6 mm of trim at the rim's ends; 20 mm more do not."""
    near = {"forearm": 288.0, "wrist": 175.0, "arm_length": 245.0}
    far = {"forearm": 300.0, "wrist": 175.0, "arm_length": 245.0}
    (growth,) = [g for g in edge_growths(FILE, stock(), "M", near) if g.edge == "top"]
    assert growth.growth == pytest.approx(8, abs=0.2)
    assert growth.room == 12
    assert growth.covered
    worst = advise_size(FILE, {**far, "forearm": 294.0}, stock()).growths[0]
    assert (worst.edge, worst.covered) == ("top", False)
    assert worst.growth == pytest.approx(14, abs=0.3)


# Doubts.


def messages(**body: float):
    """What is questioned about a body, by measurement."""
    full = {**TABLE["M"], **body}
    return {doubt.measurement: doubt.message for doubt in doubt_body(FILE, full)}


def test_a_plausible_body_raises_no_doubt():
    """The measurements of every size pass."""
    for row in TABLE.values():
        assert doubt_body(FILE, row) == []


def test_a_wrist_larger_than_the_forearm_is_questioned():
    """No adult has a wrist as large as the forearm: measure again."""
    found = messages(forearm=185.0, wrist=190.0)
    assert "not smaller than Forearm girth (185 mm)" in found["wrist"]


def test_limits_of_the_guide():
    """Below or above what the guide calls plausible is questioned, with the limit."""
    assert "more than 420 mm" in messages(forearm=430.0)["forearm"]
    assert "less than 120 mm" in messages(wrist=90.0)["wrist"]


def test_units_are_guessed():
    """28 for a forearm is likely centimetres, 11 likely inches."""
    assert "in cm? Then it is 280 mm" in messages(forearm=28.0)["forearm"]
    assert "in inches? Then it is 279 mm" in messages(forearm=11.0)["forearm"]


def test_far_outside_the_sizes():
    """A body within the limits, yet far beyond the largest or smallest size, is told so."""
    assert "60 mm above the largest size" in messages(forearm=370.0)["forearm"]
    assert "60 mm below the smallest size" in messages(forearm=190.0)["forearm"]
    assert messages(forearm=350.0) == {}


def test_missing_and_unknown_measurements_stop():
    """Nothing can be made without every measurement, nor with one that the guide does not know."""
    doubts = doubt_body(FILE, {"forearm": 280.0, "wrist": 0.0, "wirst": 170.0})
    stops = {doubt.measurement: doubt.message for doubt in doubts if doubt.stops}
    assert set(stops) == {"wrist", "wirst", "arm_length"}
    assert 'did you mean "wrist"?' in stops["wirst"]


@pytest.mark.parametrize(
    ("name", "term"),
    [
        ("wrist", "wrist"),
        ("wrist_girth", "wrist"),
        ("upper_arm_left", "upper arm"),
        ("biceps", "upper arm"),
        ("arm_length", ""),
        ("neck_to_waist", ""),
        ("shoulder", ""),
        ("head_height", ""),
    ],
)
def test_names_of_girths(name, term):
    """A measurement's name tells which girth it is, and lengths are no girths."""
    assert girth_term(name) == term


# Coverage.


def test_coverage_of_a_population():
    """People within one step of a size are served; the rest are small, large or mixed."""
    people = [
        {"forearm": 252.0, "wrist": 161.0, "arm_length": 231.0},
        {"forearm": 281.0, "wrist": 178.0, "arm_length": 240.0},
        {"forearm": 205.0, "wrist": 140.0, "arm_length": 205.0},
        {"forearm": 360.0, "wrist": 220.0, "arm_length": 300.0},
        {"forearm": 330.0, "wrist": 130.0, "arm_length": 245.0},
        {"forearm": 310.0},
    ]
    coverage = count_served(tuple(FILE.guide.sizes), serve_people(FILE, people))
    assert [(s.size, s.people) for s in coverage.served] == [("S", 1), ("M", 1), ("L", 1)]
    assert (coverage.too_small, coverage.too_large, coverage.mixed) == (1, 1, 1)
    assert coverage.share == pytest.approx(0.5)
    assert count_served(tuple(FILE.guide.sizes), []).share == 0
