"""What holds for any drawing and any size: nothing changes nothing, matched seams stay matched."""

from dataclasses import replace
from math import hypot

from geometry.drawing_samples import LEG, good_piece, svg
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble
from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.grading.rules import move_corners
from guidegen.geometry.grading.spread import left_stays, spread_piece
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import run_length, segment_end, segment_start
from guidegen.geometry.outline.records import Edge, Shape

widths = st.floats(-8, 25, allow_nan=False)
hinges = st.sampled_from(["none", "start", "end"])
quick = settings(max_examples=60, deadline=None, derandomize=True)


def fault(piece: DrawnPiece) -> object:
    """What is wrong with a piece's outline and holes; None when it is sound."""
    return fault_of(Shape((Edge("outline", piece.ring()),), piece.holes))


def gap(piece: DrawnPiece) -> float:
    """The widest gap between neighbouring segments of an outline, in mm."""
    ring = piece.ring()
    return max(
        distance(segment_end(before), segment_start(after))
        for before, after in zip(ring, ring[1:] + ring[:1], strict=True)
    )


@quick
@given(
    line=st.sampled_from(["left", "right", "length"]),
    width=widths,
    hinge=hinges,
    stays=st.booleans(),
)
def test_any_opening_leaves_the_outline_closed_and_sound(line, width, hinge, stays):
    """Whatever the width and the hinge, the outline closes and crosses itself nowhere."""
    piece = good_piece(LEG)
    spread = next(s for s in piece.spreads if s.name == line)
    changed = spread_piece(piece, spread, width, hinge, stays)
    assert gap(changed) < 1e-6
    assert fault(changed) is None
    assert len(changed.holes) == len(piece.holes)
    assert changed.corners == piece.corners


@quick
@given(width=st.floats(0.5, 25), hinge=hinges, line=st.sampled_from(["left", "length"]))
def test_opening_grows_with_the_width(width, hinge, line):
    """A wider opening gives a larger piece."""
    piece = good_piece(LEG)
    spread = next(s for s in piece.spreads if s.name == line)
    lengths = [
        sum(run_length(run) for run in spread_piece(piece, spread, w, hinge, True).stretches)
        for w in (width, width * 1.2)
    ]
    assert lengths[0] < lengths[1]


def partners(bow: float, lean: float, place: float, slant: float) -> tuple[DrawnPiece, DrawnPiece]:
    """Two pieces with one curved seam between them: the right side of one, the left of the other.

    The seam runs from (100, 200) up to (100 + lean, 20) and bows by `bow`; both pieces have a
    spread line that passes it at the same place in the same direction.
    """
    seam = f"C{100 + bow},140 {100 + lean - bow},80 {100 + lean},20"
    y = 20 + 180 * place
    line = f'<path id="spread-h" d="M-60 {y + 160 * slant} L260 {y - 160 * slant}"/>'
    marks = (
        '<circle id="corner-foot" cx="100" cy="200" r="1"/>'
        f'<circle id="corner-head" cx="{100 + lean}" cy="20" r="1"/>'
    )
    one = f'<path id="outline" d="M-30,200 L100,200 {seam} L-20,20 Z"/>'
    two = f'<path id="outline" d="M240,200 L100,200 {seam} L230,20 Z"/>'
    pieces = []
    for body in (one, two):
        drawing, problems = read_drawing(svg(body + marks + line), "a.svg")
        assert problems == ()
        assert drawing is not None
        piece, found = assemble(drawing, "")
        assert found == ()
        assert piece is not None
        pieces.append(piece)
    return pieces[0], pieces[1]


def seam_length(piece: DrawnPiece, start: str) -> float:
    """Length of the stretch that begins at a corner."""
    return run_length(piece.stretches[piece.corners.index(start)])


@quick
@given(
    bow=st.floats(-30, 30),
    lean=st.floats(-25, 25),
    place=st.floats(0.3, 0.7),
    slant=st.floats(-0.2, 0.2),
    width=widths,
)
def test_matched_seams_stay_matched_when_both_open_alike(bow, lean, place, slant, width):
    """Both edges of a seam have one length, and still have when both pieces open by one width."""
    one, two = partners(bow, lean, place, slant)
    assert abs(seam_length(one, "foot") - seam_length(two, "head")) < 1e-6
    graded = []
    for piece in (one, two):
        (spread,) = piece.spreads
        graded.append(
            spread_piece(piece, spread, width, "none", left_stays(piece, spread, frozenset()))
        )
    lengths = (seam_length(graded[0], "foot"), seam_length(graded[1], "head"))
    assert abs(lengths[0] - lengths[1]) < 0.01
    assert abs(lengths[0] - seam_length(one, "foot")) <= abs(width) * 1.6 + 0.1


@quick
@given(
    bow=st.floats(-30, 30),
    lean=st.floats(-25, 25),
    foot=st.tuples(st.floats(-15, 15), st.floats(-15, 15)),
    head=st.tuples(st.floats(-15, 15), st.floats(-15, 15)),
)
def test_matched_seams_stay_matched_under_the_same_rules(bow, lean, foot, head):
    """Both edges of a seam whose corners move alike keep one length."""
    one, two = partners(bow, lean, 0.5, 0.0)
    moves = {"foot": foot, "head": head}
    lengths = (
        seam_length(move_corners(one, moves), "foot"),
        seam_length(move_corners(two, moves), "head"),
    )
    assert abs(lengths[0] - lengths[1]) < 0.01


@quick
@given(
    name=st.sampled_from(["left-top", "left-bottom", "right-bottom", "right-top"]),
    dx=st.floats(-15, 15),
    dy=st.floats(-15, 15),
)
def test_a_moved_corner_and_back_is_the_same_outline(name, dx, dy):
    """Moving a corner away and back leaves no end point farther off than rounding.

    The way back is blended along the moved edges, so only the ends of stretches are compared.
    """
    piece = good_piece(LEG)
    back = move_corners(move_corners(piece, {name: (dx, dy)}), {name: (-dx, -dy)})
    for old, new in zip(piece.stretches, back.stretches, strict=True):
        a, b = segment_start(old[0]), segment_start(new[0])
        assert hypot(a[0] - b[0], a[1] - b[1]) < 1e-9
    assert fault(back) is None


def test_an_opening_undone_by_closing_keeps_straight_edges():
    """Opening and closing by one width restores edges that the line passes squarely."""
    piece = good_piece(LEG)
    (spread, *_) = piece.spreads
    wide = spread_piece(piece, spread, 20.0, "none", False)
    back = spread_piece(wide, replace(wide.spreads[0]), -20.0, "none", False)
    for name in ("left-bottom",):
        index = piece.corners.index(name)
        assert abs(run_length(back.stretches[index]) - run_length(piece.stretches[index])) < 1e-9
