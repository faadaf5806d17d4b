"""A seam whose first edge stands on a face → its section: angle, foot or slot, bevel."""

from math import cos, radians, sin

from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import JoinedSeam, Kit, Standing
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import angle_dimension, dimension
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import magnification, scale_words
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, WIDE
from guidegen.pictures.pieces.detail_parts import (
    FOAM,
    WIDTH,
    draw_break,
    draw_cut_foam,
    write_face,
    write_lines,
)
from guidegen.pictures.pieces.seam_words import seam_labels, seam_words
from guidegen.words import Words

THICKEST = 14.0
"""mm; the thicker of both is magnified to at most this."""
TALL = 24.0
"""mm of what stands above the face."""
LEFT, RIGHT = 6.0, 56.0
"""mm; x of both break lines of the face."""
WORDS = 64.0
"""mm; x of the statements at the right."""


def draw_standing(seam: JoinedSeam, kit: Kit, lang: Words) -> Drawing:
    """Section across the line: the face lies, the edge stands on it or in its slot.

    The line runs away from the reader, so what looks to its right is at the right. Raises
    ValueError for a seam of two edges.
    """
    standing = seam.standing
    if standing is None:
        raise ValueError(f"{seam.id} joins two edges")
    above = next(kit.built(seam.first.part)).thickness
    below = next(kit.built(seam.second.part)).thickness
    scale = magnification(max(above, below), THICKEST)
    title = seam_words(seam, seam_labels(seam, kit), lang)
    top = STRIP + 12 + max(below, standing.deep) * scale
    words = _words(standing, lang)
    canvas = Canvas(
        WIDTH,
        top + TALL + 12,
        lang.say("Standing edge {title}", title=title),
        f"{'; '.join(line for line, _ in words)}. "
        + lang.say("Drawn {scale}.", scale=scale_words(scale, lang)),
        lang,
    )
    middle = (LEFT + RIGHT) / 2
    _draw_face(canvas, top, below * scale, (middle, standing.slot * scale))
    _draw_plate(canvas, (middle, top), standing, above * scale, scale)
    # On the side of the inner face, which is at the left: there the angle is counted.
    half = standing.width * scale / 2
    at: Point = (middle - half, top)
    degrees = lang.number(standing.angle, 1)
    angle_dimension(canvas, at, 7.5, (180 - standing.angle, 180), f"{degrees}°")
    # Below the face: above it their words would run into the arc of the angle.
    level = top - max(below, standing.deep) * scale - 5
    write_face(canvas, (LEFT + 1, level), lang.say("inner face"), "start")
    write_face(canvas, (RIGHT, level), lang.say("outer face"), "end")
    ends = (middle - half, top - below * scale), (middle + half, top - below * scale)
    wide = standing.slot or standing.width
    if standing.slot:
        half = wide * scale / 2
        low = top - max(below, standing.deep) * scale
        ends = (middle - half, low), (middle + half, low)
    dimension(canvas, *ends, -6, wide, digits=1)
    write_lines(canvas, WORDS, top + TALL - 2, words)
    title_strip(canvas, lang.say("Standing edge"), title, scale)
    return canvas.drawing()


def _draw_face(canvas: Canvas, top: float, thick: float, gap: tuple[float, float]) -> None:
    """The face below, broken at both ends; in two where a slot parts it. `gap` is its middle and
    width."""
    middle, wide = gap
    low = top - thick
    if wide:
        left, right = middle - wide / 2, middle + wide / 2
        draw_cut_foam(canvas, [(LEFT, low), (left, low), (left, top), (LEFT, top)])
        draw_cut_foam(canvas, [(RIGHT, top), (right, top), (right, low), (RIGHT, low)])
        return
    ring = polygon([(LEFT, low), (RIGHT, low), (RIGHT, top), (LEFT, top)])
    canvas.path([ring], None, fill=FOAM.fill, css=FOAM.css, closed=True)
    canvas.path(hatch_lines((ring,), 45, 2.4), FINE, css="hatch")
    for level in (low, top):
        canvas.path([polyline([(LEFT, level), (RIGHT, level)])], WIDE, css="ink")
    for x in (LEFT, RIGHT):
        draw_break(canvas, (x, low), (x, top))


def _draw_plate(
    canvas: Canvas, foot: Point, standing: Standing, thick: float, scale: float
) -> None:
    """What stands, from its foot to a break line; its inner face at the left."""
    angle = radians(standing.angle)
    up = (-cos(angle), sin(angle))
    half = standing.width * scale / 2
    x, y = foot[0], foot[1] - standing.deep * scale
    # As far up at its middle, whichever way it leans.
    long = TALL / sin(angle) + standing.deep * scale
    outer_top = (x + half + up[0] * long, y + up[1] * long)
    inner_top = (outer_top[0] - sin(angle) * thick, outer_top[1] - cos(angle) * thick)
    draw_cut_foam(canvas, [inner_top, (x - half, y), (x + half, y), outer_top], 135)


def _words(standing: Standing, lang: Words) -> list[tuple[str, bool]]:
    """What stands beside the section; the first is strong."""
    bevel = 90 - standing.angle
    angle = lang.number(standing.angle, 1)
    lines = [(lang.say("stands at {angle}° to the face", angle=angle), True)]
    if abs(bevel) < 0.05:
        lines.append((lang.say("foot cut square"), False))
    elif bevel > 0:
        size = lang.number(bevel, 1)
        lines.append((lang.say("foot bevelled {angle}°, inward", angle=size), False))
    else:
        size = lang.number(-bevel, 1)
        lines.append((lang.say("foot bevelled {angle}°, outward", angle=size), False))
    if standing.slot:
        slot, deep = lang.number(standing.slot, 1), lang.number(standing.deep, 1)
        lines.append(
            (lang.say("slot {wide} mm wide, {deep} mm of edge in it", wide=slot, deep=deep), False)
        )
    else:
        wide = lang.number(standing.width, 1)
        lines.append((lang.say("foot {wide} mm wide: glue on both faces", wide=wide), False))
    lines.append((lang.say("the line runs away from you, from its start to its end"), False))
    return lines
