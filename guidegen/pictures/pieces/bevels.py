"""Bevelled edges in → their section, and the joint of two of them, out."""

from dataclasses import dataclass
from math import cos, radians, sin, tan

from guidegen.geometry.outline.measures import dihedral
from guidegen.geometry.outline.records import BevelledEdge, Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import angle_dimension, dimension
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import magnification, scale_words
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import HIDDEN
from guidegen.pictures.pieces.detail_parts import (
    WIDTH,
    draw_cut_foam,
    write_face,
    write_lines,
)
from guidegen.words import Words

ROOM = 30.0
"""mm; foam is magnified to at most this thickness."""
BREAK, EDGE = 16.0, 56.0
"""mm; x of the break line and of the cut line."""
LEG = 27.0
"""mm; length of the long face of each part of a joint."""
WORDS = 66.0
"""mm; x of the statements at the right: beside a flat angle its number stands before them."""


def draw_bevel(bevel: BevelledEdge, thickness: float, title: str, lang: Words) -> Drawing:
    """Section of an edge: thickness, angle from square, and how far the smaller face falls back.

    `title` names piece and edge. The outer face is up; the cut line is the long face.
    """
    back = thickness * tan(radians(bevel.angle))
    # Both ways: a flat bevel on thick foam falls back farther than the foam is high.
    scale = min(magnification(thickness, ROOM), magnification(max(back, 0.1), EDGE - BREAK - 10))
    high = thickness * scale
    inward = bevel.direction == "inward"
    base = STRIP + 17
    canvas = Canvas(
        WIDTH,
        base + high + 16,
        lang.say("Bevel of {title}", title=title),
        _describe_bevel(bevel, thickness, (back, scale), lang),
        lang,
    )
    # The cut line is always the long face and stays at one place; the other falls back behind it.
    top_x, low_x = (EDGE, EDGE - back * scale) if inward else (EDGE - back * scale, EDGE)
    draw_cut_foam(
        canvas, [(BREAK, base), (low_x, base), (top_x, base + high), (BREAK, base + high)]
    )
    canvas.line((EDGE, base), (EDGE, base + high), HIDDEN, css="thin")
    # The face that falls back has its dimension beside it, and its name beyond that.
    above, under = (2.4, 14.6) if inward else (11.6, 4.6)
    write_face(canvas, (BREAK + 3, base + high + above), lang.say("outer face"), "start")
    write_face(canvas, (BREAK + 3, base - under), lang.say("inner face, body side"), "start")
    dimension(canvas, (BREAK, base), (BREAK, base + high), 8, thickness, digits=1)
    if back > 0:
        short = base if inward else base + high
        # Beside the face that is shorter, where nothing else stands.
        offset = -8 if inward else 7
        near, far = (EDGE - back * scale, short), (EDGE, short)
        dimension(canvas, near, far, offset, back, digits=1)
        corner: Point = (EDGE, base + high) if inward else (EDGE, base)
        span = (-90 - bevel.angle, -90) if inward else (90, 90 + bevel.angle)
        # Inside the foam, or the arc would run past the far face.
        radius = min(high * 0.7, 18)
        aside = 1.0 if inward else -1.0
        words = f"{lang.number(bevel.angle, 1)}°"
        angle_dimension(canvas, corner, radius, span, words, aside=aside)
    write_lines(canvas, WORDS, base + high - 4, _bevel_words(bevel, lang))
    title_strip(canvas, lang.say("Bevel"), title, scale)
    return canvas.drawing()


def _bevel_words(bevel: BevelledEdge, lang: Words) -> list[tuple[str, bool]]:
    """What stands beside the section; the first is strong."""
    inward = bevel.direction == "inward"
    return [
        (lang.say("{angle}° from square", angle=lang.number(bevel.angle, 1)), True),
        (lang.say("bevel inward") if inward else lang.say("bevel outward"), False),
        (
            lang.say("long face up: outer face on top")
            if inward
            else lang.say("long face up: inner face on top"),
            False,
        ),
        (lang.say("the cut line is the long face"), False),
    ]


@dataclass(frozen=True, slots=True)
class JointSection:
    """Two bevelled edges that meet, in section."""

    angles: tuple[float, float]
    """degrees from square, the left edge's first."""
    direction: str
    """inward: the corner stands out; outward: it is hollow."""
    foam: tuple[float, float]
    """mm of both."""
    flush: str = "both"
    """both, inside, middle or outside: where no step is left."""

    def shifts(self) -> tuple[float, float]:
        """mm by which each part lies farther along the cut than the corner, where the longer cut of
        the two begins."""
        cuts = [t / cos(radians(a)) for t, a in zip(self.foam, self.angles, strict=True)]
        # The corner is that of the long faces: outside where it stands out, else inside.
        at_corner = "outside" if self.direction == "inward" else "inside"
        share = {"both": 0.0, at_corner: 0.0, "middle": 0.5}.get(self.flush, 1.0)
        return (max(cuts) - cuts[0]) * share, (max(cuts) - cuts[1]) * share


def draw_joint(joint: JointSection, title: str, lang: Words) -> Drawing:
    """Two bevelled edges joined: the corner that they form, in section."""
    angles = joint.angles
    thick = max(joint.foam)
    # The cut is longer than the foam is thick, and must end within the leg that it closes.
    longest = max(t / cos(radians(a)) for t, a in zip(joint.foam, angles, strict=True))
    scale = min(magnification(thick, ROOM * 0.7), magnification(longest, LEG - 4))
    inward = joint.direction == "inward"
    drop = max(sin(radians(angle)) * LEG for angle in angles)
    # The cut itself is longer than the foam is thick: the room below the corner is that of the
    # steeper one.
    seam = longest * scale
    height = 20 + max(drop + thick * scale * cos(radians(min(angles))), seam + 19)
    canvas = Canvas(
        WIDTH,
        STRIP + height,
        lang.say("Joint {title}", title=title),
        _describe_joint(joint, scale, lang),
        lang,
    )
    way = 1.0 if inward else -1.0
    # Inward the legs fall away from the corner, outward they rise from it.
    corner: Point = (31.0, STRIP + height - 12 if inward else STRIP + 13)
    legs = zip((-1.0, 1.0), angles, joint.foam, joint.shifts(), strict=True)
    for side, angle, t, shift in legs:
        from_here = (corner[0], corner[1] - way * shift * scale)
        corners = _leg(from_here, (side, way), angle, (LEG, t * scale))
        draw_cut_foam(canvas, corners, 45 if side < 0 else 135)
    outside, body = lang.say("outside"), lang.say("body side")
    far, near = (outside, body) if inward else (body, outside)
    write_face(canvas, (corner[0], corner[1] + way * 5 - 1), far)
    inner = (corner[0], corner[1] - way * seam)
    write_face(canvas, (corner[0], inner[1] - way * 16 - 1), near)
    span = (180 + angles[0], 360 - angles[1]) if inward else (angles[1], 180 - angles[0])
    angle_dimension(canvas, inner, 9, span, f"{lang.number(dihedral(*angles), 1)}°")
    words = _joint_words(joint, lang)
    write_lines(canvas, WORDS, STRIP + height / 2 + 6, words)
    title_strip(canvas, lang.say("Joint"), title, scale)
    return canvas.drawing()


def _describe_joint(joint: JointSection, scale: float, lang: Words) -> str:
    first, second = (lang.number(angle, 1) for angle in joint.angles)
    values = {
        "first": first,
        "second": second,
        "angle": lang.number(dihedral(*joint.angles), 1),
        "scale": scale_words(scale, lang),
    }
    one, two = (lang.number(t, 1) for t in joint.foam)
    if one == two:
        return lang.say(
            "Two edges of {thick} mm foam, bevelled {first}° and {second}° from square, meet at "
            "{angle}°, drawn {scale}.",
            thick=one,
            **values,
        )
    return lang.say(
        "Edges of {one} and {two} mm foam, bevelled {first}° and {second}° from square, meet at "
        "{angle}°, drawn {scale}.",
        one=one,
        two=two,
        **values,
    )


def _joint_words(joint: JointSection, lang: Words) -> list[tuple[str, bool]]:
    """What stands beside a joint; the first is strong."""
    angles, direction = joint.angles, joint.direction
    first, second = (lang.number(angle, 1) for angle in angles)
    return [
        (lang.say("{angle}° between the parts", angle=lang.number(dihedral(*angles), 1)), True),
        (
            lang.say("bevels {first}° and {second}°, inward", first=first, second=second)
            if direction == "inward"
            else lang.say("bevels {first}° and {second}°, outward", first=first, second=second),
            False,
        ),
        (f"180° − {first}° − {second}°", False),
        *((words, False) for words in _flush_words(joint, lang)),
    ]


def _flush_words(joint: JointSection, lang: Words) -> list[str]:
    """How foam of two thicknesses meets."""
    step = abs(joint.foam[0] - joint.foam[1])
    if step < 0.05:
        return []
    size = lang.number(step, 1)
    match joint.flush:
        case "inside":
            return [lang.say("flush inside; outside a step of {step} mm", step=size)]
        case "outside":
            return [lang.say("flush outside; inside a step of {step} mm", step=size)]
        case "middle":
            half = lang.number(step / 2, 1)
            return [lang.say("middle on middle; a step of {step} mm on each face", step=half)]
    return [lang.say("flush inside and outside")]


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
    # Counter-clockwise with the break line last, whichever side the leg lies on.
    if side * way < 0:
        return [far_short, near_short, corner, far_long]
    return [far_long, corner, near_short, far_short]


def _describe_bevel(
    bevel: BevelledEdge, thickness: float, sizes: tuple[float, float], lang: Words
) -> str:
    """`sizes` are how far the smaller face falls back, and the scale."""
    values = {
        "thick": lang.number(thickness, 1),
        "angle": lang.number(bevel.angle, 1),
        "back": lang.number(sizes[0], 1),
        "scale": scale_words(sizes[1], lang),
    }
    if bevel.direction == "inward":
        return lang.say(
            "Foam {thick} mm thick, cut {angle}° from square, inward: the inner face ends {back} "
            "mm short. Drawn {scale}, outer face up.",
            **values,
        )
    return lang.say(
        "Foam {thick} mm thick, cut {angle}° from square, outward: the outer face ends {back} "
        "mm short. Drawn {scale}, outer face up.",
        **values,
    )
