"""Joints of the demo, broken one at a time as makers found them: proof tells each with one message."""

from copy import deepcopy
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from demo_content import read_demo

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.checks.steps.holding import check_closing
from guidegen.geometry.fastening.places import audit_middles, audit_places, audit_techniques
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.problems import Problem
from guidegen.words import ENGLISH

CONTENT = Path(__file__).parent.parent.parent / "content"


@cache
def demo() -> Content:
    """The demo, read once."""
    return read_demo()


@cache
def plain(guide: str) -> dict:
    """A guide as plain values, its steps expanded."""
    (file,) = [file for file in read_demo().guides if file.id == guide]
    return file.guide.model_dump(mode="json", by_alias=True, exclude_none=True)


def broken(guide: str, changes: dict[str, object]) -> GuideFile:
    """The guide with values changed at their paths; None takes a key away."""
    value = deepcopy(plain(guide))
    for path, new in changes.items():
        *steps, last = path.split("/")
        place = value
        for step in steps:
            place = place[int(step)] if isinstance(place, list) else place[step]
        if new is None:
            del place[last]
        elif isinstance(new, str) and new.startswith("+"):
            place[last] += new[1:]
        else:
            place[last] = new
    (file,) = [file for file in read_demo().guides if file.id == guide]
    return replace(file, guide=Guide.model_validate(value), translations={})


def findings(file: GuideFile) -> list[Problem]:
    """What geometry tells of one size in the middle."""
    sizes = file.size_names()
    size = sizes[len(sizes) // 2]
    kit, problems = make_whole_kit(file, demo().stock, size, words=ENGLISH)
    if kit is None:
        return problems
    return [
        *problems,
        *audit_places(file, [kit]),
        *audit_middles(file, demo().stock, [kit]),
        *audit_techniques(file, demo().stock, [kit]),
        *check_closing(demo(), file),
    ]


LAMP, MARSHAL, BRACER = "quay-lamp", "slipway-marshal", "mooring-bracer"
CAP_SEAM = "seams/cap-crown/marks"
CASES = {
    "a strap with too little to glue on": (
        LAMP, {"parts/roof/points/strap/length": "20"},
        "strap-end", "which has room for 20 mm"),
    "hook-and-loop of 4.5 mm in 1 mm of air": (
        LAMP, {"parts/floor-inset/dimensions/width": "96"},
        "strip-air", "4.5 mm thick, the air 1 mm: it does not go in"),
    "rims of a roof without the bevel that they need": (
        LAMP, {"parts/roof-cone/bevels/bottom/angle": "25"},
        "does-not-fit", "The bevel of the roof's rims is the lean of its wall"),
    "shoulder straps that must close to 20 mm": (
        MARSHAL, {"values/strap_inset": "0"},
        "strap-reach", "must bridge 20 mm and comes no closer than 85 mm"),
    "side straps that must tighten to 60 mm": (
        MARSHAL, {"straps/side/way/apart": ["-80", "40"]},
        "strap-reach", "comes no closer than 85 mm"),
    "rivets inside the overlap that must slide": (
        MARSHAL, {"parts/chest-front/points/side-straps/inset": "60"},
        "does-not-fit", "The rivets of the chest front stand clear of the panel"),
    "webbing of 25 mm in gaps of 14 mm": (
        MARSHAL, {"straps/hip-hanger/gap": "14"},
        "strap-gap", "webbing-25 is 25 mm wide, the gap 14 mm"),
    "hangers 60 mm apart on plates 140 mm apart": (
        MARSHAL, {"parts/hip-plate/points/hangers-inside/line": {"from": ["-6", "95"],
                                                                 "to": ["6", "95"]}},
        "does-not-fit", "Both hangers of a hip sluice come to lie in gaps"),
    "a stack that no post holds": (
        MARSHAL, {"fastenings/hip-hangers/points": ["hip-plate.hangers"],
                  "fastenings/hip-hangers/washers": 4},
        "fastener-grip", "hip-plate.hangers is 21.5 mm thick, and none holds it"),
    "a middle mark where marks lie at thirds": (
        MARSHAL, {CAP_SEAM: 2},
        "dead-place", "cap-crown has 2 marks, expected an odd number"),
    "studs every 35 mm that are not as many as cut": (
        MARSHAL, {"parts/chest-front/points/studs/count": None,
                  "parts/chest-front/points/studs/pitch": "35"},
        "does-not-fit", "There is a stud for each place"),
    "a spread line on a panel without one": (
        MARSHAL, {"overview": "+\nSee the [waist](spread:side-panel.waist)."},
        "dead-place", "spread:side-panel.waist: no such spread on side-panel"),
    "the rims of a groove that is not there": (
        MARSHAL, {"overview": "+\nSee its [rims](rim:keel)."},
        "dead-place", "rim:keel: keel has no groove with both rims on its foam"),
    "a belt that is worn over the hem and no longer than without it": (
        MARSHAL, {"values/belt_girth": "waist + 60"},
        "belt-over", "mm round at their outer faces, and is to close round 890 to 1020 mm"),
    "a strip under the belt that no stack lays there": (
        MARSHAL, {"straps/belt/over": ["hem-strip-front", "hem-strip-back", "collar"]},
        "belt-over", "no stack lays collar on chest-back or chest-front or side-panel"),
    "a hem under the belt that is not there": (
        MARSHAL, {"straps/belt/lies-over": ["chest-front.hemm"]},
        "unknown-edge", 'no edge of chest-front "hemm"; did you mean "hem"?'),
    "an elastic that has 10 mm to hold by": (
        MARSHAL, {"parts/cuff/points/elastic/length": "10"},
        "strap-end", "which has room for 10 mm"),
    "tape that is wider than what it closes": (
        MARSHAL, {"values/collar_overlap": "20"},
        "strip-room", "it is 25 mm wide, and the face that it lies on 20 mm"),
    "a frame as long as the plate below, on a bend": (
        MARSHAL, {"stacks/belt-plates/curve/lengthens": False},
        "layer-short", "belt-frame is as long as belt-plate"),
    "lacing holes under the bands": (
        BRACER, {"parts/bracer/points/lacing/margin": "12"},
        "points-covered", "lies under A3 Wrist band"),
    "a free length of 150 mm that is more in some size": (
        MARSHAL, {"fits/buckle-has-room/most": "150"},
        "does-not-fit", "belt_free is 281.95, expected at most 150"),
    "one belt plate too many for the belt to close": (
        MARSHAL, {"values/belt_plates": "7"},
        "strap-reach", "must bridge 1021.9 mm and comes no closer than 1025 mm"),
    "an even number of plates, and none at the middle of the back": (
        MARSHAL, {"fits/middle": {"says": "A plate lies at the middle of the back",
                                  "value": "belt_plates - 2*floor(belt_plates/2)", "least": "1"}},
        "does-not-fit", "A plate lies at the middle of the back"),
    "a middle mark of what has no marks": (
        MARSHAL, {"overview": "+\nBegin at the [middle](mark:belt)."},
        "dead-place", 'no seam "belt"'),
    "holes of which a part has no rivets": (
        MARSHAL, {"fastenings/belt-plates/points": ["belt-plate.rivets"]},
        "never-closed", "no fastening closes these holes: fewer rivets are bought"),
    "a window whose place is that of a band": (
        MARSHAL, {"parts/cuff/placements/2/at": ["0", "5"]},
        "layers-cross", "F4 and F3 share"),
    "a nut whose place is that of the frame": (
        MARSHAL, {"parts/hip-plate/placements/1/at": ["0", "55"]},
        "layers-cross", "H3 and H2 share"),
    "a closed wrist that no hand passes": (
        BRACER, {"values/lacing_open": "31"},
        "does-not-fit", "With the lacing wide open the hand passes the wrist"),
}  # fmt: skip


@pytest.mark.parametrize("guide", [LAMP, MARSHAL, BRACER])
def test_the_demo_itself_has_no_finding(guide):
    """What is broken below holds as it is."""
    assert findings(broken(guide, {})) == []


@pytest.mark.parametrize("case", CASES)
def test_a_broken_joint_is_told_with_one_message(case):
    """One fault, one message, which says what does not hold."""
    guide, changes, code, message = CASES[case]
    found = findings(broken(guide, changes))
    assert [(one.code, message in one.message) for one in found] == [(code, True)], [
        (one.code, one.path, one.message) for one in found
    ]
