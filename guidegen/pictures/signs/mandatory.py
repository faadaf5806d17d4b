"""Symbols of mandatory signs, white on the blue disc; drawn for this project."""

from guidegen.pictures.pen.splines import smooth
from guidegen.pictures.signs.sign_pen import BLUE, WHITE, SignPen, oval, ring, rounded


def _head(pen: SignPen) -> None:
    """A face from the front: skull, jaw, ears, neck and shoulders."""
    pen.fill([smooth([(50, 84), (66, 79), (73, 64), (71, 48), (62, 32), (50, 27), (38, 32),
                      (29, 48), (27, 64), (34, 79)])], WHITE)  # fmt: skip
    for x in (26, 74):
        pen.fill([oval((x, 54), 4, 7)], WHITE)
    pen.fill([rounded(41, 16, 18, 18, 3)], WHITE)
    pen.fill([smooth([(50, 25), (66, 21), (74, 15), (74, 11), (50, 9), (26, 11), (26, 15),
                      (34, 21)], tension=0.8)], WHITE)  # fmt: skip


def eye_protection(pen: SignPen) -> None:
    """M004: a face with goggles."""
    _head(pen)
    pen.limb([(28, 60), (72, 60)], 5, BLUE)
    for x in (39, 61):
        pen.fill([rounded(x - 10, 49, 20, 19, 7)], BLUE)
    pen.limb([(36, 62), (33, 58)], 2.4, WHITE)
    pen.limb([(58, 62), (55, 58)], 2.4, WHITE)
    pen.limb([(44, 37), (56, 37)], 2.4, BLUE)


def _glove(pen: SignPen) -> None:
    """A left glove, cuff below; about 40 units wide and 76 high, its middle at the origin."""
    for x, top in ((-14, 26), (-4.7, 34), (4.7, 33), (13.6, 25)):
        pen.limb([(x * 0.92, -6), (x, top)], 7.4, WHITE)
    pen.fill([rounded(-17.5, -20, 34.5, 24, 5)], WHITE)
    pen.limb([(12, -10), (24, 5)], 9, WHITE)
    pen.fill([rounded(-16, -37, 31, 13, 3)], WHITE)


def gloves(pen: SignPen) -> None:
    """M009: a pair of gloves."""
    _glove(pen.at(28.5, 50, 0.82, 8))
    _glove(pen.mirrored(71.5, 50, 0.82, -8))


def wash_hands(pen: SignPen) -> None:
    """M011: two hands under a running tap."""
    pen.limb([(26, 80), (46, 80), (52, 77), (52, 71)], 8, WHITE)
    pen.limb([(36, 80), (36, 88)], 4.5, WHITE)
    pen.limb([(30, 89), (42, 89)], 4, WHITE)
    for x in (46, 52, 58):
        pen.limb([(x, 64), (x, 61)], 2.4, WHITE)
        pen.limb([(x, 55), (x, 52)], 2.4, WHITE)
    _arm(pen.at(50, 34), WHITE)
    # The hand in front is set off from the one behind by a blue rim.
    front = pen.mirrored(50, 34)
    for colour, rim in ((BLUE, 4.0), (WHITE, 0.0)):
        _arm(front, colour, rim)
        for y, reach in ((10, 15), (4, 19), (-2, 18), (-7.5, 13)):
            front.limb([(-6, y - 2), (6, y + 1), (reach, y - 4)], 5 + rim, colour)


def _arm(pen: SignPen, colour: str, rim: float = 0) -> None:
    """A fist that comes from the left and below, over the middle; `rim` makes it wider."""
    pen.limb([(-31, -12), (-20, -4)], 15 + rim, colour)
    pen.limb([(-19, -2), (-4, 3)], 17 + rim, colour)


def _mask_straps(pen: SignPen, top: float, low: float) -> None:
    for x, edge in ((36, 25), (64, 75)):
        pen.limb([(x, top), (edge, top + 7)], 2.6, BLUE)
        pen.limb([(x, low), (edge + (4 if edge < 50 else -4), low + 3)], 2.6, BLUE)


def mask(pen: SignPen) -> None:
    """M016: a face with a cloth mask over nose and mouth."""
    _head(pen)
    for x in (40, 60):
        pen.disc((x, 63), 3, BLUE)
    _mask_straps(pen, 51, 36)
    pen.fill([smooth([(50, 57), (60, 54), (69, 50), (67, 38), (59, 29), (50, 26), (41, 29),
                      (33, 38), (31, 50), (40, 54)])], BLUE)  # fmt: skip
    for y in (47, 41, 35):
        reach = 13 if y > 36 else 10
        pen.limb([(50 - reach, y), (50 + reach, y)], 2.2, WHITE)


def respirator(pen: SignPen) -> None:
    """M017: a face with a half mask and two filters."""
    _head(pen)
    for x in (40, 60):
        pen.disc((x, 65), 3, BLUE)
    _mask_straps(pen, 53, 42)
    pen.fill([smooth([(50, 60), (57, 55), (66, 46), (62, 33), (50, 26), (38, 33), (34, 46),
                      (43, 55)])], BLUE)  # fmt: skip
    for x in (31, 69):
        pen.disc((x, 38), 14, BLUE)
        pen.fill([ring((x, 38), 11), ring((x, 38), 7.5)], WHITE)
        pen.disc((x, 38), 3.5, WHITE)
    pen.fill([ring((50, 40), 5.5)], WHITE)


def disconnect(pen: SignPen) -> None:
    """M021: a plug pulled out of its socket."""
    left, right = pen.at(50, 50, 1, 35), pen.at(50, 50, 1, 35)
    left.stroke(smooth([(-46, 0), (-36, 0), (-28, 0)], closed=False), 6, WHITE)
    left.fill([rounded(-31, -15, 22, 30, 5)], WHITE)
    left.fill([rounded(-15, 4, 8, 6, 0.5), rounded(-15, -10, 8, 6, 0.5)], BLUE)
    right.stroke(smooth([(46, 0), (40, 0), (34, 0)], closed=False), 6, WHITE)
    right.fill([rounded(14, -15, 22, 30, 5)], WHITE)
    for y in (4, -10):
        right.fill([rounded(1, y, 15, 6, 1)], WHITE)


def away_from_children(pen: SignPen) -> None:
    """M055: a child reaches for a bottle on a shelf that is too high."""
    pen.fill([rounded(50, 58, 36, 5, 1)], WHITE)
    pen.fill([rounded(61, 64, 16, 15, 2.5)], WHITE)
    pen.fill([rounded(65.5, 80, 7, 6, 1)], WHITE)
    pen.corners([(69, 76), (64, 67), (74, 67)], BLUE)
    pen.disc((35, 57), 8.5, WHITE)
    pen.limb([(35, 42), (35, 29)], 13, WHITE)
    pen.limb([(39, 43), (55, 51)], 5.5, WHITE)
    pen.limb([(31, 43), (22, 31)], 5.5, WHITE)
    pen.limb([(31.5, 28), (30, 13)], 6.5, WHITE)
    pen.limb([(38.5, 28), (40, 13)], 6.5, WHITE)
