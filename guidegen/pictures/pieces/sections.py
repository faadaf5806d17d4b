"""Layer stack in → its section out: true thicknesses, magnified, from the body outward."""

from collections.abc import Mapping
from itertools import pairwise

from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.geometry.pieces.records import LayerStack
from guidegen.pictures.pen.canvas import INK, Canvas, Stroke
from guidegen.pictures.pen.dimensions import arrow
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.hatches import fill_tint, hatch_lines
from guidegen.pictures.pen.lettering import CAP_HEIGHT, LEAST
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import magnification, scale_words
from guidegen.pictures.pen.spread import spread_levels
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, NARROW, SOFT, Tint
from guidegen.pictures.pieces.layer_names import LayerWords, layer_words, pitch, write_layer
from guidegen.words import Words

WIDTH = 98.0
"""mm; narrow, so that lettering stays large where the drawing is set small."""
ROOM = 30.0
"""mm; the stack is magnified to at most this height: three stacks stand on a page of a booklet."""
ABOVE = 11.0
"""mm above the stack: the words for the outside."""
BREAK, FACE = 25.0, 53.0
"""mm; x of the break line at the left and of the right end of the lowest layer."""
STEP = 4.0
"""mm by which each layer ends before the one below, so that every face is seen."""
LEAST_FACE = 22.0
"""mm; the highest layer of many keeps this length."""
SKIN = 7.0
"""mm; height of the strip that stands for the body."""
LABELS = FACE + 9
"""mm; x where the words begin."""

SECTIONS: tuple[Tint, ...] = (
    # ISO 128-50: adjoining parts are hatched in other directions or other spacings.
    Tint("fill-foam-1", "#f1ede3", 45, 2.6),
    Tint("fill-foam-2", "#e3e8e6", 135, 1.8),
    Tint("fill-foam-3", "#d3d9dc", 45, 1.1),
    Tint("fill-foam-4", "#ece3d3", 90, 1.5),
    Tint("fill-foam-5", "#e4e1ea", 0, 1.2),
)
"""Hatches by material, in the order in which a stack uses them."""
BACKING = Tint("fill-backing", "#ffffff", 90, 1.6, (0.01, 1.6))
"""Padding: dots."""


def draw_section(stack: LayerStack, prefix: str, names: Mapping[str, str], lang: Words) -> Drawing:
    """The stack cut through: hatched layers with name, material and thickness, and the total.

    Thicknesses are to scale; widths are not, each layer ends a step before the one below.
    `names` gives materials' names by id.
    """
    total = stack.backing + sum(layer.thickness for layer in stack.layers)
    scale = magnification(total, ROOM)
    words = _words(stack, names, lang)
    base, height = _room(stack, scale, words)
    canvas = Canvas(
        WIDTH,
        height,
        lang.say("Section of {stack}", stack=stack.name),
        _describe(stack, total, names, lang),
        lang,
    )
    with canvas.group(css="section", id=f"{prefix}-section-{stack.id}"):
        _draw_skin(canvas, base)
        levels = _draw_layers(canvas, stack, base, scale)
        _draw_thicknesses(canvas, stack, levels)
        _draw_total(canvas, levels[0], levels[-1], total)
        _draw_names(canvas, levels, words)
        # Clear of the name of a thin highest layer, whose leader comes from above it.
        _draw_sides(canvas, canvas.height - ABOVE, len(stack.layers) - 1)
    title_strip(canvas, stack.name, lang.say("thickness to scale, widths not"), scale)
    return canvas.drawing()


def _words(stack: LayerStack, names: Mapping[str, str], lang: Words) -> list[LayerWords]:
    """What stands beside each slab, from the body outward."""
    room = WIDTH - LABELS - 1
    rows = [(lang.say("Backing"), lang.say("padding against the body"))] if stack.backing else []
    for layer in stack.layers:
        material = names.get(layer.material, layer.material)
        rows.append((layer.name, f"{material}, {layer.note}" if layer.note else material))
    return [layer_words(name, detail, room) for name, detail in rows]


def _room(stack: LayerStack, scale: float, words: list[LayerWords]) -> tuple[float, float]:
    """Level of the body and height of the drawing: names may reach beyond the stack."""
    levels = [0.0]
    for _, thickness in _slabs(stack):
        levels.append(levels[-1] + thickness * scale)
    # Names may reach below the lowest layer and above the highest: both decide the room.
    texts = spread_levels([(low + high) / 2 for low, high in pairwise(levels)], pitch(words))
    base = STRIP + max(5 + SKIN, 2 + 3.5 * len(words[0].details) - texts[0])
    return base, base + max(levels[-1] + ABOVE, texts[-1] + 7)


def _slabs(stack: LayerStack) -> list[tuple[str, float]]:
    """Material and thickness from the body outward; backing has no material."""
    slabs = [("", stack.backing)] if stack.backing else []
    return slabs + [(layer.material, layer.thickness) for layer in stack.layers]


def _draw_layers(canvas: Canvas, stack: LayerStack, base: float, scale: float) -> list[float]:
    """Draw every slab; returns the levels between them, lowest first."""
    materials = list(dict.fromkeys(layer.material for layer in stack.layers))
    levels = [base]
    slabs = _slabs(stack)
    step = _step(len(slabs))
    for number, (material, thickness) in enumerate(slabs):
        low, high = levels[-1], levels[-1] + thickness * scale
        right = FACE - number * step
        tint = SECTIONS[materials.index(material) % len(SECTIONS)] if material else BACKING
        ring = polygon(_slab(low, high, right))
        fill_tint(canvas, (ring,), tint)
        canvas.path([ring[:-1]], Stroke(0.5), css="ink")
        # The side at the break is no edge of the foam, which goes on there.
        canvas.path([ring[-1:]], NARROW, css="thin")
        levels.append(high)
    padded = 1 if stack.backing else 0
    # Between foam and foam alone: padding is not glued to the body.
    glue = [
        (Line((BREAK, level), (FACE - (number + 1) * step, level)),)
        for number, level in enumerate(levels[1:-1])
        if number >= padded
    ]
    canvas.path(glue, Stroke(0.9), css="glue")
    _draw_break(canvas, levels[0], levels[-1])
    return levels


def _step(layers: int) -> float:
    """mm by which each of so many layers ends before the one below."""
    return min(STEP, (FACE - BREAK - LEAST_FACE) / max(1, layers - 1))


def _slab(low: float, high: float, right: float) -> list[Point]:
    """Corners counter-clockwise; the side at the break line comes last."""
    return [(BREAK, low), (right, low), (right, high), (BREAK, high)]


def _draw_break(canvas: Canvas, low: float, high: float) -> None:
    """A straight break line with zigzag over the left ends (ISO 128-2, line 01.1.19)."""
    middle = (low + high) / 2
    points: list[Point] = [
        (BREAK, low - 2),
        (BREAK, middle - 2.2),
        (BREAK - 1.4, middle - 0.9),
        (BREAK + 1.4, middle + 0.9),
        (BREAK, middle + 2.2),
        (BREAK, high + 2),
    ]
    canvas.path([polyline(points)], NARROW, css="thin")


def _draw_skin(canvas: Canvas, base: float) -> None:
    """The body under the stack, and the words for both sides."""
    top: Run = (Line((BREAK - 4, base - 0.6), (FACE + 4, base - 0.6)),)
    ring = polygon(
        [(BREAK - 4, base - 3.2), (FACE + 4, base - 3.2), (FACE + 4, base - 0.6),
         (BREAK - 4, base - 0.6)]
    )  # fmt: skip
    canvas.path(hatch_lines((ring,), 60, 2.2), FINE, css="hatch")
    canvas.path([top], NARROW, css="thin")
    canvas.text((BREAK - 4, base - 7), canvas.lang.say("body side"), 3.6, weight=600, css="label")


def _draw_thicknesses(canvas: Canvas, stack: LayerStack, levels: list[float]) -> None:
    """A chain of dimensions at the left, its numbers moved apart where layers are thin."""
    x = BREAK - 9
    for level in levels:
        canvas.line((x - 1.2, level), (BREAK - 1, level), NARROW, css="thin")
    middles = [(low + high) / 2 for low, high in pairwise(levels)]
    # 4.2 mm: numbers of 3.6 mm letters, and as much air as lines of words have.
    texts = spread_levels(middles, 4.2)
    for (low, high), middle, at, (_, thickness) in zip(
        pairwise(levels), middles, texts, _slabs(stack), strict=True
    ):
        if high - low > 6:
            canvas.line((x, low), (x, high), NARROW, css="thin")
            arrow(canvas, (x, low), (0, -1))
            arrow(canvas, (x, high), (0, 1))
        else:
            # ISO 129-1: where arrows find no room, oblique strokes take their place.
            canvas.line((x, low), (x, high), NARROW, css="thin")
            for level in (low, high):
                canvas.line((x - 0.8, level - 0.8), (x + 0.8, level + 0.8), NARROW, css="ink")
        # Chosen: a number off by less than 0.3 mm is still seen beside its slab.
        if abs(at - middle) > 0.3:
            canvas.line((x - 1.2, at), (x - 0.2, middle), NARROW, css="thin")
        at_end = (x - 1.8, at - 3.6 * CAP_HEIGHT / 2)
        canvas.length(at_end, thickness, 3.6, digits=1, anchor="end")


def _draw_total(canvas: Canvas, low: float, high: float, total: float) -> None:
    x = 9.0
    for level in (low, high):
        canvas.line((x - 1.2, level), (BREAK - 12, level), FINE, css="thin")
    canvas.line((x, low), (x, high), NARROW, css="thin")
    arrow(canvas, (x, low), (0, -1))
    arrow(canvas, (x, high), (0, 1))
    canvas.length((x - 1, (low + high) / 2), total, 4.2, digits=1, angle=90)


def _draw_names(canvas: Canvas, levels: list[float], words: list[LayerWords]) -> None:
    """Names at the right with leaders to the layers' ends, and where the glue is."""
    middles = [(low + high) / 2 for low, high in pairwise(levels)]
    texts = spread_levels(middles, pitch(words))
    for number, (each, middle, at) in enumerate(zip(words, middles, texts, strict=True)):
        tip = (FACE - number * _step(len(words)) - 2.0, middle)
        canvas.path(
            [polyline([tip, (FACE + 4, middle), (LABELS - 3, at), (LABELS - 1, at)])],
            NARROW,
            css="thin",
        )
        canvas.circle(tip, 0.6, None, fill=INK, css="arrow")
        write_layer(canvas, (LABELS, at), each)


def _draw_sides(canvas: Canvas, top: float, joints: int) -> None:
    """Words above the stack: the outside, and what the thick lines are."""
    canvas.text((BREAK - 4, top + 5), canvas.lang.say("outside"), 3.6, weight=600, css="label")
    words = canvas.lang.many("glue line", "{n} glue lines", joints)
    x = BREAK + 15
    canvas.line((x, top + 6), (x + 7, top + 6), Stroke(0.9), css="glue")
    canvas.text((x + 9, top + 5), words, LEAST, colour=SOFT, css="label soft")


def _describe(stack: LayerStack, total: float, names: Mapping[str, str], lang: Words) -> str:
    thick = lang.number(stack.backing, 1)
    parts = [lang.say("backing of {thick} mm", thick=thick)] if stack.backing else []
    parts += [
        f"{layer.name}, {names.get(layer.material, layer.material)}, "
        f"{lang.number(layer.thickness, 1)} mm"
        for layer in stack.layers
    ]
    scale = scale_words(magnification(total, ROOM), lang)
    return lang.say(
        "From the body outward: {list}. Total {total} mm. Thicknesses drawn {scale}.",
        list="; ".join(parts),
        total=lang.number(total, 1),
        scale=scale,
    )
