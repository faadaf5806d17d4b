"""Straps as chains: what is cut, what they bridge, how they hang and pull, where they pass."""

from math import pi

import pytest
from geometry.fastening_samples import told, try_whole, whole


def plate(name: str, label: str, *rows: str) -> str:
    """A plate of 300 by 300 mm with rows of points."""
    points = "".join(f"      {row}\n" for row in rows)
    return f"""\
  {name.lower()}:
    name: {name}
    label: {label}
    material: foam-10
    shape: rounded-rectangle
    dimensions: {{width: 300, height: 300}}
    points:
{points}"""


SHOULDERS = "shoulders: {kind: patch, along: top, count: 2, margin: 50, diameter: 25, length: 80}"
PLATES = "parts:\n" + plate("Front", "A", SHOULDERS) + plate("Back", "B", SHOULDERS)
FRONT = (
    PLATES
    + """\
straps:
  shoulder:
    name: Shoulder strap
    material: webbing
    from: {row: back.shoulders, holds: 80}
    to: {row: front.shoulders, holds: 80}
    bridges: [%s]
"""
)
BUCKLE = "    closure: buckle\n    slider: slider\n    short: 10\n"


def test_a_buckled_strap_is_cut_for_its_loosest_way():
    """120 mm at most: 10 short, 55 buckle, so 55 free and 60 of tail; tightest 10 + 55 + 20."""
    (strap,) = whole(FRONT % "90, 120" + BUCKLE).straps
    assert [(piece.length, piece.count) for piece in strap.pieces] == [(195, 2), (130, 2)]
    assert (strap.least, strap.most) == (85, 120)
    assert strap.hardware == (("buckle", 2), ("slider", 2))


def test_a_strap_that_comes_no_closer_is_refused():
    """The words said 20 to 40 mm; with buckle and fold it comes within 85 mm."""
    ((code, path, message),) = told(FRONT % "20, 40" + BUCKLE)
    assert (code, path) == ("strap-reach", "straps.shoulder.bridges[0]")
    assert "comes no closer than 85 mm: it misses it by 65 mm" in message


@pytest.mark.parametrize(("end", "key"), [("back", "from"), ("front", "to")])
def test_a_slip_at_an_end_of_a_strap_is_told_there(end, key):
    """A name that no size has stands at the end that holds the strap, not at the other."""
    text = FRONT.replace(f"{end}.shoulders, holds: 80", f"{end}.shoulders, holds: wristt")
    found = told(text % "90, 120" + BUCKLE)
    assert {path for _, path, _ in found} == {f"straps.shoulder.{key}.holds"}
    assert all("wristt" in message for _, _, message in found)


@pytest.mark.parametrize(("end", "key"), [("back", "from"), ("front", "to")])
def test_a_patch_shorter_than_what_it_holds_is_told_at_that_end(end, key):
    """81 mm of a strap on a patch of 80 mm: the end is named, and both lengths are."""
    text = FRONT.replace(f"{end}.shoulders, holds: 80", f"{end}.shoulders, holds: 81")
    ((code, path, message),) = told(text % "90, 120" + BUCKLE)
    assert (code, path) == ("strap-end", f"straps.shoulder.{key}.holds")
    assert f"81 mm of the strap are to lie on {end}.shoulders, which has room for 80 mm" in message


ELASTIC = (FRONT % "60, 90").replace("material: webbing", "material: elastic")


def test_elastic_is_stretched_or_hangs_loose():
    """60 mm free bridge 60 to 96 mm at 60 per cent: 90 mm pull by 50; 70 mm free hang by 10."""
    (strap,) = whole(ELASTIC).straps
    assert (strap.free, strap.least, strap.most) == (60, 60, pytest.approx(96))
    assert strap.pull == pytest.approx(50)
    assert strap.pieces[0].length == 220
    ((code, _, message),) = told(ELASTIC + "    free: 70\n")
    assert code == "strap-reach"
    assert "hangs loose by 10 mm" in message
    ((code, _, message),) = told(ELASTIC.replace("60, 90", "60, 100"))
    assert "must bridge 100 mm and reaches 96 mm" in message


def test_what_overlaps_gives_the_range():
    """30 to 60 mm of tape on one another give 30 mm of range, and the tape is counted."""
    (strap,) = whole(FRONT % "70, 100" + "    overlap: [30, 60]\n    tape: tape\n").straps
    assert (strap.least, strap.most, strap.free) == (70, 100, 130)
    assert [(one.material, one.length) for one in strap.pieces] == [("webbing", 290), ("tape", 60)]


HANGER = """\
parts:
  hip:
    name: Hip plate
    label: A
    material: foam-10
    shape: rounded-rectangle
    dimensions: {width: 180, height: 200}
    points:
      hangers: {kind: patch, along: top, count: 2, margin: 40, diameter: 25, length: 60}
straps:
  hanger:
    name: Hanger
    material: webbing
    from: {row: hip.hangers, holds: 60}
    bridges: [0, 0]
    around: belt
    overlap: [50, 50]
    gap: %s
"""


def test_a_hanger_goes_round_the_width_of_its_belt():
    """60 on the plate, 2 x (50 + 2.5) round the belt, 50 to close: 215 mm, not 160."""
    (strap,) = whole(HANGER % "30").straps
    assert strap.pieces[0].length == 215
    ((code, _, message),) = told(HANGER % "14")
    assert code == "strap-gap"
    assert "webbing is 25 mm wide, the gap 14 mm: expected 27 mm at least" in message


BELTED = """\
measurements: {waist: {name: Waist, take: Around.}}
sizes: {M: {waist: 800}}
parts:
  chest:
    name: Chest
    label: A
    material: foam-10
    shape: strip
    copies: 2
    dimensions: {length: waist/2 + 5*pi, width: 300}
  rim: {name: Rim, label: B, material: foam-5, shape: strip, dimensions: {length: 400, width: 16}}
  band: {name: Band, label: C, material: foam-5, shape: strip, dimensions: {length: 400, width: 9}}
stacks:
  hem: {name: Hem, layers: [{part: chest}, {part: band}, {part: rim}]}
straps:
  belt:
    name: Belt
    material: belt
    girth: [%s]
    closure: buckle
    lies-over: [chest.bottom]
    over: [%s]
"""


def test_a_belt_goes_round_the_outer_faces_of_what_it_lies_over():
    """Two halves close round 800 mm with the middle of 10 mm foam: 2 pi 10 more outside, then
    2 pi for each mm of the layers up to the one that is named."""
    for over, out in (("", 10), ("band", 15), ("rim", 20)):
        (belt,) = whole(BELTED % ("800, 1000", over)).straps
        assert belt.belt.outside == pytest.approx(800 + 2 * pi * out, abs=0.1)
        assert [(one.part, one.edge) for one in belt.belt.over] == [("chest", "bottom")]
        assert belt.home == "chest"
    ((code, path, message),) = told(BELTED % ("800, 920", "rim"))
    assert (code, path) == ("belt-over", "straps.belt.girth")
    assert "which are 925.7 mm round at their outer faces" in message
    ((code, _, message),) = told(BELTED % ("930, 1000", "rim"))
    assert code == "belt-over"
    whole(BELTED % ("925, 926", "rim"))


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("from: {row: back.shoulders, holds: 80}", "from: {row: back.shoulders, holds: 90}",
         "90 mm of the strap are to lie on back.shoulders, which has room for 80 mm"),
        ("count: 2, margin: 50", "count: 3, margin: 50", "holds 2 straps, and its other end 3"),
        ("diameter: 25", "diameter: 20", "front.shoulders is 20 mm wide and webbing 25 mm"),
    ],
)  # fmt: skip
def test_ends_have_room(old, new, message):
    """A strap has room where it is held, as many places at both ends, and its width."""
    assert message in told((FRONT % "90, 120" + BUCKLE).replace(old, new, 1))[0][2]


def test_what_must_fit_is_checked_in_every_size():
    """A hand of 210 mm does not pass a wrist of 160 + 34.6 of foam; the other size does."""
    text = """\
measurements: {wrist: {name: Wrist, take: Around.}}
sizes: {S: {wrist: 160}, L: {wrist: 190}}
parts:
  cuff:
    name: Cuff
    label: A
    material: foam-5
    shape: tapered-tube
    dimensions: {girth-top: wrist + 60, girth-bottom: wrist, length: 150, backing: 3}
fits:
  hand: {says: The hand passes the wrist, value: "edge(cuff, bottom)", least: 210}
"""
    ((code, path, message),) = told(text, "S")
    assert (code, path) == ("does-not-fit", "fits.hand.value")
    assert (
        "The hand passes the wrist: edge(cuff, bottom) is 194.56, expected at least 210" in message
    )
    assert whole(text, "L")


UPPER = "upper: {kind: patch, along: top, count: 1, diameter: 25, length: 80}"
BESIDE = "side: {kind: patch, along: top, count: 1, inset: %s, diameter: 25, length: 80}"
TWO_PATCHES = (
    "parts:\n"
    + plate("Front", "A", UPPER, BESIDE)
    + """\
straps:
  hanger:
    name: Hanging strap
    material: webbing
    from: {row: front.upper, holds: 80}
    to: {row: front.side, holds: 80}
    bridges: [20, 20]
"""
)


@pytest.mark.parametrize(("inset", "shared"), [(60, "500"), (80, "")])
def test_patches_that_lie_on_one_another_are_told(inset, shared):
    """Patches 25 mm wide reach 80 mm inwards: one that begins at 60 mm shares 25 by 20 mm with the
    first, one that begins at 80 mm nothing; both places are named.
    """
    kit, problems = try_whole(TWO_PATCHES % inset)
    assert kit is not None
    found = [problem for problem in problems if problem.code == "patch-overlap"]
    assert len(found) == bool(shared)
    for problem in found:
        assert problem.path == "straps.hanger.to.row"
        assert "front.side lies on one of front.upper, which straps.hanger.from" in problem.message
        assert problem.message.endswith(f"they share {shared} mm², expected none")
