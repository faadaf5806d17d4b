"""Symbols of warning and prohibition signs, black; drawn for this project."""

from math import cos, radians, sin

from guidegen.geometry.outline.records import Run
from guidegen.pictures.pen.splines import smooth
from guidegen.pictures.signs.sign_pen import BLACK, WHITE, YELLOW, SignPen, rounded


def _flame() -> Run:
    """A flame with two tongues; 40 units wide, 52 high, its foot at the origin."""
    return smooth(
        [(0, 0), (-13, 4), (-20, 16), (-16, 29), (-11, 21), (-9, 34), (1, 52), (4, 38),
         (10, 29), (13, 37), (20, 20), (14, 5)], tension=0.9,
    )  # fmt: skip


def _inner_flame() -> Run:
    return smooth([(0, 3), (-8, 8), (-7, 17), (0, 28), (7, 17), (8, 8)], tension=0.9)


def smoking(pen: SignPen) -> None:
    """P002: a burning cigarette."""
    pen.fill([rounded(15, 36, 52, 11, 1)], BLACK)
    pen.fill([rounded(28, 38.5, 36.5, 6, 0.5)], WHITE)
    pen.fill([rounded(69, 36, 6, 11, 1)], BLACK)
    pen.fill([rounded(77, 36, 5, 11, 1)], BLACK)
    for x in (71, 80):
        pen.stroke(
            smooth([(x, 51), (x - 4, 57), (x + 1, 64), (x - 4, 71)], closed=False), 3.6, BLACK
        )


def open_flame(pen: SignPen) -> None:
    """P003: a burning match."""
    pen.fill([rounded(46, 13, 8, 38, 1)], BLACK)
    flame = pen.at(50, 38, 0.92)
    flame.fill([_flame(), _inner_flame()], BLACK)


def general(pen: SignPen, colour: str = BLACK) -> None:
    """W001: an exclamation mark."""
    pen.fill([smooth([(50, 68), (55.5, 64), (54, 48), (51.5, 34), (50, 33), (48.5, 34), (46, 48),
                      (44.5, 64)], tension=0.9)], colour)  # fmt: skip
    pen.disc((50, 23.5), 5.2, colour)


def electricity(pen: SignPen) -> None:
    """W012: a flash with an arrowhead."""
    pen.at(1.5, 1.5, 0.95).corners(
        [(52, 70), (40, 42), (51, 45), (47.5, 27), (42, 29), (49, 15), (58, 27), (52.5, 26.5),
         (60, 52), (49.5, 49.5), (57, 68)], BLACK)  # fmt: skip


def hot_surface(pen: SignPen) -> None:
    """W017: heat that rises from a surface."""
    pen.fill([rounded(26, 18, 48, 6, 1)], BLACK)
    for x, top in ((37, 50), (50, 62), (63, 50)):
        rise = (top - 29) / 3
        pen.stroke(
            smooth(
                [(x, 29), (x - 4, 29 + rise * 0.75), (x + 3.5, 29 + rise * 2), (x - 1, top)],
                closed=False,
            ),
            4.6,
            BLACK,
        )


def flammable(pen: SignPen) -> None:
    """W021: a fire on the ground."""
    pen.fill([rounded(29, 15.5, 42, 5, 1)], BLACK)
    pen.at(50, 23, 0.9).fill([_flame(), _inner_flame()], BLACK)


def sharp_element(pen: SignPen) -> None:
    """W022: a pointed blade that cuts into a finger."""
    pen.limb([(24, 21), (69, 21)], 13, BLACK)
    pen.fill([rounded(65, 22.5, 8, 3, 1.4)], YELLOW)
    pen.corners([(30, 28.5), (38, 17), (43, 28.5)], YELLOW)
    knife = pen.at(38.5, 23, 1, -15)
    knife.corners([(0, 0), (5, 12), (5, 27), (-5, 27), (-5, 8)], BLACK)
    knife.fill([rounded(-6, 29.5, 12, 15, 2)], BLACK)


def health_hazard(pen: SignPen) -> None:
    """W071: a person whose chest is harmed."""
    pen.disc((50, 61), 9, BLACK)
    pen.fill([smooth([(50, 49), (64, 46), (71, 36), (72, 15), (50, 14), (28, 15), (29, 36),
                      (36, 46)], tension=0.7)], BLACK)  # fmt: skip
    points = []
    for number in range(16):
        reach = 13 if number % 2 == 0 else 5.5
        points.append(_around(50, 30, reach, number * 22.5 + 11))
    pen.corners(points, YELLOW)


def _around(x: float, y: float, reach: float, angle: float) -> tuple[float, float]:
    return (x + reach * cos(radians(angle)), y + reach * sin(radians(angle)))
