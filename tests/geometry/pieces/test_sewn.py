"""Pleats, darts, gathers, casings and gussets: what cloth takes, and lines that fold true."""

from math import pi, sqrt

import pytest
from geometry.sewing_samples import made_of_cloth

from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import bounds, run_length, segment_end, segment_start
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.outline.transforms import mirror_across
from guidegen.geometry.pieces.records import Piece
from guidegen.geometry.shapes.gussets import godet, gusset
from guidegen.layout.buying.thread import sewn_runs

SKIRT = """\
parts:
  skirt:
    name: Skirt
    label: A
    material: canvas
    shape: strip
    dimensions: {length: 400, width: 300}
    %s
"""


def piece(more: str, tail: str = "") -> Piece:
    """The skirt of a guide that has no problem."""
    kit, problems = made_of_cloth(SKIRT % more + tail)
    assert kit is not None
    assert problems == []
    return next(kit.pieces_of("skirt"))


def told(more: str, tail: str = "") -> list[tuple[str, str]]:
    """Code and path of all problems."""
    return [(one.code, one.path) for one in made_of_cloth(SKIRT % more + tail)[1]]


def lines(found: Piece, kind: LineKind) -> list[float]:
    """Where upright lines of a kind stand, from the left rim of the piece."""
    left, *_ = bounds((found.shape.ring(),))
    return sorted(
        round(segment_start(one.run[0])[0] - left, 3)
        for one in found.shape.lines
        if one.kind is kind
    )


def test_knife_pleats_add_twice_their_depth_each():
    """Four of 20 mm make 400 mm of skirt 400 + 4 * 2 * 20 wide, above and below alike."""
    found = piece("pleats: [{edge: top, count: 4, depth: 20, margin: 50}]")
    assert [run_length(found.shape.edge(edge).run) for edge in ("top", "bottom")] == [560, 560]
    assert run_length(found.shape.edge("left").run) == 300
    assert [(one.kind, one.count, one.taken) for one in found.taken] == [("knife", 4, 160)]


def test_folding_a_knife_pleat_brings_the_outer_fold_to_its_landing():
    """Folded at the inner line the cloth turns back: both other lines are equally far from it."""
    found = piece("pleats: [{edge: bottom, depth: 20}]")
    (low, high), (landing,) = lines(found, LineKind.PLEAT), lines(found, LineKind.LANDING)
    assert (low, high, landing) == (200, 220, 240)
    back = piece("pleats: [{edge: bottom, depth: 20, toward: start}]")
    assert (lines(back, LineKind.PLEAT), lines(back, LineKind.LANDING)) == ([220, 240], [200])


@pytest.mark.parametrize(
    ("kind", "folds", "landings"),
    [("box", [200, 220, 260, 280], [180, 300]), ("inverted", [200, 220, 260, 280], [240, 240])],
)
def test_box_and_inverted_pleats_take_four_times_their_depth(kind, folds, landings):
    """A box has its panel of 40 mm on top, an inverted one both outer folds at its middle."""
    found = piece(f"pleats: [{{edge: bottom, kind: {kind}, depth: 20}}]")
    assert run_length(found.shape.edge("bottom").run) == 480
    assert lines(found, LineKind.PLEAT) == folds
    assert lines(found, LineKind.LANDING) == landings


def test_a_half_on_the_fold_is_pleated_on_both_sides():
    """Two pleats on the half are four on the whole, which stays symmetrical about its fold."""
    found = piece("on-fold: centre\n    pleats: [{edge: top, count: 2, depth: 20, margin: 40}]")
    assert run_length(found.template.edge("top").run) == pytest.approx(200 + 80)
    left, _, right, _ = bounds((found.shape.ring(),))
    assert (left, right) == pytest.approx((-280, 280))
    folds = lines(found, LineKind.PLEAT)
    assert folds == pytest.approx(sorted(560 - fold for fold in folds))
    assert len(folds) == 8


def test_pleats_that_would_lie_threefold_and_foam_are_refused():
    """Neighbours lie at least a depth apart; foam is not folded."""
    crowded = "pleats: [{edge: top, count: 30, depth: 20, margin: 10}]"
    assert told(crowded) == [("bad-pleats", "parts.skirt.pleats[0].count")]
    kit, problems = made_of_cloth(
        (SKIRT % "pleats: [{edge: top, depth: 20}]").replace("canvas", "foam-5")
    )
    assert kit is None
    assert {problem.code for problem in problems} == {"not-cloth"}


DART = "allowances: {top: {kind: seam, width: 15}}\n    darts: [{edge: top, width: 40, length: 100, %s}]"


@pytest.mark.parametrize("toward", ["start", "end"])
def test_both_legs_of_a_dart_are_equally_long_and_its_end_is_true(toward):
    """Folded over a leg, the trued end lies on the edge beside the dart: collinear with it."""
    found = piece(DART % f"toward: {toward}")
    legs = [line.run for line in found.shape.lines if line.kind is LineKind.STITCH][-2:]
    lengths = [run_length(leg) for leg in legs]
    # To the finished edge the hypotenuse of 20 and 100; on through 15 mm of allowance in proportion.
    assert lengths == pytest.approx([sqrt(20**2 + 100**2) * 115 / 100] * 2)
    top = found.shape.edge("top").run
    ends = [segment_end(leg[0]) for leg in legs]
    (peak,) = [
        segment_end(segment)
        for segment in top
        if segment_end(segment)[1] > 165.01
    ]  # fmt: skip
    leg = legs[0] if toward == "start" else legs[1]
    folded = mirror_across(segment_start(leg[0]), segment_end(leg[0])).point(peak)
    assert folded[1] == pytest.approx(165)
    # It lies on the side to which the dart is pressed; the top edge runs from right to left.
    aside = folded[0] - segment_end(leg[0])[0]
    assert (aside > 0) is (toward == "start")
    assert distance(ends[0], peak) == pytest.approx(distance(ends[1], peak))


def test_a_seam_is_as_long_as_its_edge_without_the_dart():
    """400 mm with a dart of 40 meet 360; its marks keep clear of the mouth of the dart."""
    other = """\
  band:
    name: Band
    label: B
    material: canvas
    shape: strip
    dimensions: {length: 360, width: 50}
seams:
  waist: {join: [skirt.top, band.bottom], marks: 3}
"""
    kit, problems = made_of_cloth(SKIRT % (DART % "toward: start") + other)
    assert problems == []
    assert kit is not None
    assert kit.seams[0].first_length == pytest.approx(360)
    skirt, band = (next(kit.pieces_of(name)) for name in ("skirt", "band"))
    on_band = sorted(mark.point[0] for mark in band.shape.marks)
    on_skirt = sorted(mark.point[0] for mark in skirt.shape.marks)
    assert on_band == pytest.approx([-90, 0, 90])
    # Beyond the dart marks stand its 40 mm farther; in its middle they stand at a leg.
    assert (on_skirt[0], on_skirt[2]) == pytest.approx((-110, 110))


def test_a_gathered_edge_is_so_many_times_longer():
    """600 mm gathered to 400 are one and a half; 610 mm are told, and thread has two rows more."""
    frill = """\
  frill:
    name: Frill
    label: B
    material: canvas
    shape: strip
    dimensions: {length: %s, width: 80}
seams:
  hem: {join: [frill.top, skirt.bottom], gathers: 1.5}
"""
    kit, problems = made_of_cloth(SKIRT % "" + frill % 600)
    assert problems == []
    assert kit is not None
    (seam,) = kit.seams
    assert (seam.ease, seam.gathers) == (200, 1.5)
    found = next(kit.pieces_of("frill"))
    assert len([one for one in found.shape.lines if one.kind is LineKind.GATHER]) == 2
    assert len(found.shape.marks) == len(next(kit.pieces_of("skirt")).shape.marks) >= 3
    runs = [(run.length, run.copies) for run in sewn_runs(kit, ("hem",))]
    assert runs == [(600, 1), (600, 2)]
    assert told("", frill % 610) == [("seam-length", "seams.hem.join")]


CASING = """\
casings:
  waist: {name: Waist, along: [skirt.top], goods: %s, length: %s%s}
"""


def test_a_casing_widens_its_edge_and_counts_its_elastic():
    """25 mm of elastic and 4 of room make 29; with 10 turned under the edge is cut 39 mm higher."""
    kit, problems = made_of_cloth(SKIRT % "" + CASING % ("elastic", 300, ""))
    assert problems == []
    assert kit is not None
    found = next(kit.pieces_of("skirt"))
    *_, high = bounds((found.shape.ring(),))
    assert high == pytest.approx(150 + 39)
    levels = {
        kind: sorted(segment_start(one.run[0])[1] for one in found.shape.lines if one.kind is kind)
        for kind in (LineKind.HEM, LineKind.STITCH)
    }
    assert levels[LineKind.HEM] == pytest.approx([150, 179])
    assert levels[LineKind.STITCH] == pytest.approx([121])
    (one,) = kit.casings
    assert one.gathers == pytest.approx(4 / 3)
    assert [(cut.length, cut.count) for cut in one.pieces] == [(320, 1)]


@pytest.mark.parametrize(
    ("goods", "length", "more", "code", "key"),
    [
        ("elastic", 300, ", width: 25", "bad-casing", "width"),
        ("elastic", 420, "", "bad-casing", "length"),
        ("elastic", 200, "", "casing-tight", "length"),
        ("foam-5", 300, "", "strip-roll", "goods"),
    ],
)
def test_casings_that_do_not_work_are_told(goods, length, more, code, key):
    """Nothing passes, it hangs loose, elastic cannot open it, or its width is not known."""
    if goods == "foam-5":
        goods = "cement"
    assert (code, f"casings.waist.{key}") in told("", CASING % (goods, length, more))


def test_a_gusset_has_the_sides_of_its_slits():
    """Sides of 120 mm opened by 144 are 192 mm high: 72, 96 and 120 make a right triangle."""
    shape = gusset({"slit": 120, "opens": 144}, 0.5)
    assert [run_length(edge.run) for edge in shape.edges] == pytest.approx([120] * 4)
    left, low, right, high = bounds((shape.ring(),))
    assert (right - left, high - low) == pytest.approx((144, 192))


def test_the_hem_of_a_godet_is_an_arc_about_its_tip():
    """Sides of 300 mm at 60 degrees: a sixth of the circle, 100 pi."""
    shape = godet({"slit": 300, "angle": 60}, 0.5)
    assert [run_length(edge.run) for edge in shape.edges] == pytest.approx([100 * pi, 300, 300])
