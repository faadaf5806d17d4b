"""Bevelled edges in → their section, and the joint of two of them, out."""

from math import cos, radians, sin, tan

from guidegen.geometry.records import BevelledEdge, Point
from guidegen.pictures.canvas import Canvas
from guidegen.pictures.detail_parts import (
    WIDTH,
    draw_cut_foam,
    write_face,
    write_lines,
)
from guidegen.pictures.dimensions import angle_dimension, dimension
from guidegen.pictures.scales import magnification, scale_words
from guidegen.pictures.strips import STRIP, title_strip
from guidegen.pictures.tints import HIDDEN
from guidegen.units import mm_text

ROOM = 30.0
"""mm; foam is magnified to at most this thickness."""
BREAK, EDGE = 18.0, 70.0
"""mm; x of the break line and of the cut line."""
LEG = 36.0
"""mm; length of the long face of each part of a joint."""
WORDS = 86.0
"""mm; x of the statements at the right."""


def draw_bevel(bevel: BevelledEdge, thickness: float, title: str) -> str:
    """Section of an edge: thickness, angle from square, and how far the smaller face falls back.

    `title` names piece and edge. The outer face is up; the cut line is the long face.
    """
    back = thickness * tan(radians(bevel.angle))
    scale = min(magnification(thickness, ROOM), magnification(max(back, 0.1), EDGE - BREAK - 12))
    high = thickness * scale
    inward = bevel.direction == "inward"
    base = STRIP + 17
    canvas = Canvas(
        WIDTH, base + high + 14, f"Bevel of {title}", _describe_bevel(bevel, thickness, back, scale)
    )
    top_x, low_x = (EDGE, EDGE - back * scale) if inward else (EDGE - back * scale, EDGE)
    draw_cut_foam(
        canvas, [(BREAK, base), (low_x, base), (top_x, base + high), (BREAK, base + high)]
    )
    canvas.line((EDGE, base), (EDGE, base + high), HIDDEN, css="thin")
    write_face(canvas, (BREAK + 3, base + high + 2.4), "outer face", "start")
    write_face(canvas, (BREAK + 3, base - 4.6), "inner face, body side", "start")
    dimension(canvas, (BREAK, base), (BREAK, base + high), 8, mm_text(thickness, 1))
    if back > 0:
        short = base if inward else base + high
        offset = -8 if inward else 7
        near, far = (EDGE - back * scale, short), (EDGE, short)
        dimension(canvas, near, far, offset, mm_text(back, 1))
        corner: Point = (EDGE, base + high) if inward else (EDGE, base)
        span = (-90 - bevel.angle, -90) if inward else (90, 90 + bevel.angle)
        radius = min(high * 0.7, 18)
        aside = 1.0 if inward else -1.0
        words = f"{mm_text(bevel.angle, 1)}°"
        angle_dimension(canvas, corner, radius, span, words, aside=aside)
    write_lines(canvas, WORDS, base + high - 4, _bevel_words(bevel))
    title_strip(canvas, "Bevel", title, scale)
    return canvas.svg()


def _bevel_words(bevel: BevelledEdge) -> list[tuple[str, bool]]:
    """What stands beside the section; the first is strong."""
    long_face = "outer" if bevel.direction == "inward" else "inner"
    return [
        (f"{mm_text(bevel.angle, 1)}° from square", True),
        (f"bevel {bevel.direction}", False),
        (f"long face up: {long_face} face on top", False),
        ("the cut line is the long face", False),
    ]


def draw_joint(angles: tuple[float, float], direction: str, thickness: float, title: str) -> str:
    """Two bevelled edges joined: the corner that they form, in section.

    `angles` are in degrees from square, the left edge's first; the foam is equally thick.
    """
    scale = min(
        magnification(thickness, ROOM * 0.7),
        magnification(thickness / cos(radians(max(angles))), LEG - 4),
    )
    t = thickness * scale
    dihedral = 180 - sum(angles)
    inward = direction == "inward"
    drop = max(sin(radians(angle)) * LEG for angle in angles)
    seam = t / cos(radians(max(angles)))
    height = 20 + max(drop + t * cos(radians(min(angles))), seam + 19)
    canvas = Canvas(
        WIDTH,
        STRIP + height,
        f"Joint {title}",
        f"Two edges of {mm_text(thickness, 1)} mm foam, bevelled {mm_text(angles[0], 1)}° and "
        f"{mm_text(angles[1], 1)}° from square {direction}, meet at {mm_text(dihedral, 1)}°, "
        f"drawn {scale_words(scale)}.",
    )
    way = 1.0 if inward else -1.0
    corner: Point = (43.0, STRIP + height - 12 if inward else STRIP + 13)
    for side, angle in ((-1.0, angles[0]), (1.0, angles[1])):
        corners = _leg(corner, (side, way), angle, (LEG, t))
        draw_cut_foam(canvas, corners, 45 if side < 0 else 135)
    far = "outside" if inward else "body side"
    near = "body side" if inward else "outside"
    write_face(canvas, (corner[0], corner[1] + way * 5 - 1), far)
    inner = (corner[0], corner[1] - way * seam)
    write_face(canvas, (corner[0], inner[1] - way * 16 - 1), near)
    span = (180 + angles[0], 360 - angles[1]) if inward else (angles[1], 180 - angles[0])
    angle_dimension(canvas, inner, 9, span, f"{mm_text(dihedral, 1)}°")
    words = _joint_words(angles, direction)
    write_lines(canvas, WORDS, STRIP + height / 2 + 6, words)
    title_strip(canvas, "Joint", title, scale)
    return canvas.svg()


def _joint_words(angles: tuple[float, float], direction: str) -> list[tuple[str, bool]]:
    """What stands beside a joint; the first is strong."""
    first, second = (mm_text(angle, 1) for angle in angles)
    return [
        (f"{mm_text(180 - sum(angles), 1)}° between the parts", True),
        (f"bevels {first}° and {second}°, {direction}", False),
        (f"180° − {first}° − {second}°", False),
    ]


def _leg(
    corner: Point, ways: tuple[float, float], angle: float, sizes: tuple[float, float]
) -> list[Point]:
    """One part of a joint: its long face runs from the corner sideways, tilted by its bevel.

    `ways` are the signs of sideways and of outside; `sizes` are length and thickness.
    """
    (side, way), (leg, t) = ways, sizes
    along = (side * cos(radians(angle)), -way * sin(radians(angle)))
    across = (-side * sin(radians(angle)), -way * cos(radians(angle)))
    back = t * tan(radians(angle))
    far_long = (corner[0] + along[0] * leg, corner[1] + along[1] * leg)
    far_short = (far_long[0] + across[0] * t, far_long[1] + across[1] * t)
    near_short = (
        corner[0] + along[0] * back + across[0] * t,
        corner[1] + along[1] * back + across[1] * t,
    )
    if side * way < 0:
        return [far_short, near_short, corner, far_long]
    return [far_long, corner, near_short, far_short]


def _describe_bevel(bevel: BevelledEdge, thickness: float, back: float, scale: float) -> str:
    face = "inner" if bevel.direction == "inward" else "outer"
    return (
        f"Foam {mm_text(thickness, 1)} mm thick, cut {mm_text(bevel.angle, 1)}° from square, "
        f"{bevel.direction}: the {face} face ends {mm_text(back, 1)} mm short. "
        f"Drawn {scale_words(scale)}, outer face up."
    )
