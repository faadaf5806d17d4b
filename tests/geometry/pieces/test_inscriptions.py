"""Letters and emblems on parts: their size, their place, which way they read, what holds a stencil."""

import pytest
from geometry.kit_samples import guide_file, stock

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.letters import FACES, outline_text, read_letters
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.outline.areas import stencil
from guidegen.geometry.outline.measures import bounds, flatten, run_area
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.parts.inscriptions import read_outlines
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.problems import Problem, collect
from guidegen.words import ENGLISH

PLATE = """\
parts:
  plate:
    name: Plate
    label: A
    material: foam-5
    shape: strip
    dimensions: {length: 300, width: 120}
    %s
    inscriptions: [{%s}]
"""


def made(more: str, tail: str = "") -> tuple[Kit | None, list[Problem]]:
    """The kit of a plate that bears something."""
    file = guide_file(PLATE % (tail, more))
    letters, problems = collect(read_letters(file.guide, file.source))
    drawings = {"star.svg": STAR}
    file = GuideFile("test", file.guide, file.source, drawings=drawings, letters=letters)
    kit, found = make_whole_kit(file, stock(), "one-size", words=ENGLISH)
    return kit, [*problems, *found]


def plate(more: str) -> Piece:
    """The plate of a guide that has no problem."""
    kit, problems = made(more)
    assert problems == []
    assert kit is not None
    return next(kit.pieces_of("plate"))


STAR = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">'
    '<path d="M 10 10 h 40 v 20 h -40 z" fill="none" stroke="#000"/></svg>'
)


@pytest.mark.parametrize("face", FACES)
def test_a_capital_is_as_high_as_it_is_said(face):
    """An H of each face, 40 mm high, stands from 20 mm under to 20 mm over the middle."""
    found = plate(f"text: H, face: {face}, height: 40")
    (line,) = [one for one in found.template.lines if one.kind is LineKind.LETTER]
    left, low, right, high = bounds((line.run,))
    assert (low, high) == pytest.approx((-20, 20), abs=0.05)
    assert left == pytest.approx(-right)


def test_letters_keep_their_place_and_turn():
    """Turned by a quarter about (30, 10), the height lies along x."""
    found = plate("text: H, height: 40, at: [30, 10], angle: 90")
    (line,) = [one for one in found.template.lines if one.kind is LineKind.LETTER]
    left, low, right, high = bounds((line.run,))
    assert (left, right) == pytest.approx((10, 50), abs=0.05)
    assert (low + high) / 2 == pytest.approx(10)


def middles(found: Piece) -> list[float]:
    """Middle of each outline from left to right as it was written."""
    boxes = [bounds((one.run,)) for one in found.template.lines if one.kind is LineKind.LETTER]
    return [(left + right) / 2 for left, _, right, _ in boxes]


def test_a_transfer_is_mirrored_and_a_mark_is_not():
    """L and I: read from the left on the face, from the right on a transfer."""
    reading = middles(plate("text: LI, height: 40"))
    turned = middles(plate("text: LI, height: 40, as: transfer"))
    assert reading[0] < reading[1]
    assert turned == pytest.approx([-x for x in reading])
    assert (
        plate("text: LI, height: 40, as: transfer, mirrored: false").inscribed[0].mirrored is False
    )


def test_bridges_hold_what_a_stencil_would_drop():
    """An O loses its island but for two bridges of 3 mm: two cuts, and the bars' area stays."""
    found = plate("text: O, height: 60, as: cut-out, bridge: 3")
    assert (len(found.template.holes), found.inscribed[0].bridges) == (2, 2)
    outer, inner = read_outlines(outline_text("condensed-bold", "O")[0], 60)
    whole = abs(run_area(outer)) - abs(run_area(inner))
    cut = sum(abs(run_area(hole)) for hole in found.template.holes)
    _, low, _, high = bounds((outer,))
    _, inner_low, _, inner_high = bounds((inner,))
    assert whole - cut == pytest.approx(3 * ((high - low) - (inner_high - inner_low)), rel=0.03)


def test_a_stencil_of_two_islands_is_bridged_through_both():
    """A square with two windows above one another: one bar through both makes three bridges."""
    square = [(0, 0), (40, 0), (40, 90), (0, 90)]
    windows = [[(10, y), (30, y), (30, y + 20), (10, y + 20)] for y in (15, 55)]
    rings, bridges = stencil([square, *windows], 4, 0)
    assert (len(rings), bridges) == (2, 3)
    assert sum(abs(run_area_of(ring)) for ring in rings) == pytest.approx(
        40 * 90 - 2 * 400 - 4 * (90 - 40)
    )


def run_area_of(ring: list[tuple[float, float]]) -> float:
    """mm² of a ring (shoelace)."""
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def test_an_emblem_comes_from_a_drawing():
    """40 by 20 mm as drawn, 50 high as asked: 100 wide."""
    found = plate("drawing: star.svg, height: 50, as: engrave")
    (line,) = [one for one in found.template.lines if one.kind is LineKind.ENGRAVE]
    left, low, right, high = bounds((line.run,))
    assert (right - left, high - low) == pytest.approx((100, 50))
    assert flatten(line.run)[0] == pytest.approx(flatten(line.run)[-1])


def test_a_guide_bears_a_page_of_letters_at_most():
    """Forty texts of 60 letters are 2,400: the first 33 are read, and it is told."""
    texts = [
        f"{{text: {chr(65 + n % 26) * 30}{chr(65 + n // 26) * 30}, height: 1}}" for n in range(40)
    ]
    value = PLATE.replace("[{%s}]", "[" + ", ".join(texts) + "]") % ""
    file = guide_file(value)
    letters, problems = collect(read_letters(file.guide, file.source))
    assert [one.code for one in problems] == ["letters-many"]
    assert len(letters) == 2000 // 60


@pytest.mark.parametrize(
    ("more", "tail", "code", "path"),
    [
        ("text: H, height: 40, at: [140, 0]", "", "letters-off", "inscriptions[0].at"),
        ("text: H, height: 40", "on-fold: centre", "letters-flipped", "inscriptions[0]"),
        ("text: H, height: 40", "hand: pair", "letters-mirrored", "inscriptions[0]"),
        ("text: '漢', height: 40", "", "no-letter", "inscriptions[0].text"),
        ("drawing: moon.svg, height: 40", "", "no-drawing", "inscriptions[0].drawing"),
    ],
)
def test_letters_that_cannot_be_read_are_told(more, tail, code, path):
    """Over the edge, flipped on a half, mirrored on a pair, missing in the font, not drawn."""
    assert [(one.code, one.path) for one in made(more, tail)[1]] == [(code, f"parts.plate.{path}")]
