"""A half template and its mirrored other half become one piece."""

import pytest

from guidegen.geometry.outline.areas import shape_area
from guidegen.geometry.outline.measures import run_area, run_length
from guidegen.geometry.outline.records import (
    Arc,
    BevelledEdge,
    Edge,
    InnerLine,
    Line,
    LineKind,
    MatchMark,
    Shape,
)
from guidegen.geometry.outline.transforms import RigidMotion, transform_shape
from guidegen.geometry.outline.unfold import FoldError, drawn_edge, unfold

HALF = Shape(
    (
        Edge("hem", (Line((0, 0), (100, 0)),)),
        Edge("side", (Line((100, 0), (80, 60)),)),
        Edge("arm", (Line((80, 60), (50, 100)),)),
        Edge("neck", (Arc((0, 100), 50, 0, -90),)),
        Edge("middle", (Line((0, 50), (0, 0)),)),
    ),
    holes=((Arc((60, 30), 5, 0, -360),),),
    lines=(
        InnerLine(LineKind.ENGRAVE, (Line((0, 20), (40, 30)),)),
        InnerLine(LineKind.FOLD, (Line((20, 10), (30, 10)),)),
        InnerLine(LineKind.CENTRE, (Line((0, 10), (0, 40)),)),
    ),
    marks=(MatchMark("side", "flank", (90, 30), (-0.9487, -0.3162), 2),),
    bevels=(
        BevelledEdge("hem", 30, "inward", (Line((0, 5), (98, 5)),)),
        BevelledEdge("arm", 30, "inward", (Line((78, 58), (48, 97)),)),
    ),
)


def test_edges_at_the_fold_merge_and_others_double():
    """What touches the fold becomes one edge; every other edge gets a twin with -2."""
    whole = unfold(HALF, "middle")
    names = [edge.name for edge in whole.edges]
    assert names == ["hem", "side", "arm", "neck", "arm-2", "side-2"]
    assert run_length(whole.edge("hem").run) == pytest.approx(200)
    assert run_length(whole.edge("side-2").run) == pytest.approx(run_length(HALF.edge("side").run))


def test_the_whole_is_twice_the_half():
    """Area doubles, and the outline stays counter-clockwise."""
    whole = unfold(HALF, "middle")
    assert run_area(whole.ring()) == pytest.approx(2 * run_area(HALF.ring()))
    assert shape_area(whole) == pytest.approx(2 * shape_area(HALF))


def test_what_is_drawn_is_mirrored_too():
    """Holes, marks, lines and bevels appear on both sides; lines from the fold become one."""
    whole = unfold(HALF, "middle")
    assert len(whole.holes) == 2
    assert all(run_area(hole) < 0 for hole in whole.holes)
    assert [mark.edge for mark in whole.marks] == ["side", "side-2"]
    assert whole.marks[1].point == pytest.approx((-90, 30))
    kinds = [line.kind for line in whole.lines]
    assert kinds.count(LineKind.ENGRAVE) == 1
    assert kinds.count(LineKind.FOLD) == 2
    assert kinds.count(LineKind.CENTRE) == 1
    engraved = next(line for line in whole.lines if line.kind is LineKind.ENGRAVE)
    assert run_length(engraved.run) == pytest.approx(2 * run_length(HALF.lines[0].run))
    assert [bevel.edge for bevel in whole.bevels] == ["hem", "arm", "arm-2"]
    assert run_length(whole.bevels[0].far_face) == pytest.approx(196)


def test_a_half_with_one_edge_beside_its_fold():
    """A half disc unfolds to one closed edge."""
    half = Shape(
        (Edge("rim", (Arc((0, 0), 40, -90, 180),)), Edge("centre", (Line((0, 40), (0, -40)),)))
    )
    whole = unfold(half, "centre")
    assert [edge.name for edge in whole.edges] == ["rim"]
    assert run_length(whole.edge("rim").run) == pytest.approx(80 * 3.14159265)


@pytest.mark.parametrize("angle", [0.0, 33.0, 90.0, -120.0])
def test_the_fold_may_lie_at_any_angle(angle):
    """Unfolding does not depend on how the half lies on the paper."""
    whole = unfold(transform_shape(HALF, RigidMotion(angle=angle)), "middle")
    assert run_area(whole.ring()) == pytest.approx(2 * run_area(HALF.ring()))


def test_bad_folds_are_refused():
    """A fold that is missing, curved, bent, or that the half reaches over is refused."""
    with pytest.raises(FoldError, match=r'no edge "centre".*hem'):
        unfold(HALF, "centre")
    with pytest.raises(FoldError, match="not one straight line"):
        unfold(HALF, "neck")
    bent = Shape(
        (
            Edge("hem", (Line((0, 0), (100, 0)), Line((100, 0), (0, 100)))),
            Edge("middle", (Line((0, 100), (5, 50)), Line((5, 50), (0, 0)))),
        )
    )
    with pytest.raises(FoldError, match="not one straight line"):
        unfold(bent, "middle")
    over = Shape(
        (
            Edge("hem", (Line((0, 0), (100, 0)), Line((100, 0), (-10, 100)))),
            Edge("side", (Line((-10, 100), (0, 60)),)),
            Edge("middle", (Line((0, 60), (0, 0)),)),
        )
    )
    with pytest.raises(FoldError, match="over its fold"):
        unfold(over, "middle")


def test_twins_are_led_back_to_the_drawn_edge():
    """side-2 of the whole is drawn as side, mirrored; hem is drawn as itself."""
    assert drawn_edge("side-2", HALF) == ("side", True)
    assert drawn_edge("hem", HALF) == ("hem", False)
