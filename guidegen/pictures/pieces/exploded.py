"""Layer stack and kit in → the layers pulled apart out, in an oblique view of the real pieces."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.pieces.records import Kit, LayerStack
from guidegen.pictures.pen.canvas import INK, Canvas
from guidegen.pictures.pen.frames import Frame, polyline
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction
from guidegen.pictures.pen.spread import spread_levels
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import CHAIN, NARROW, Tint
from guidegen.pictures.pieces.glue_areas import footprints, lay_up
from guidegen.pictures.pieces.layer_names import LayerWords, layer_words, pitch, write_layer
from guidegen.pictures.pieces.oblique import ACROSS, UP, View, draw_on_face, draw_solid
from guidegen.pictures.pieces.sections import BACKING, SECTIONS
from guidegen.units import mm_text
from guidegen.words import Words

WIDTH = 98.0
"""mm; narrow, so that lettering stays large where the drawing is set small."""
ROOM_WIDTH, ROOM_DEPTH = 50.0, 46.0
"""mm on the drawing for the lowest face, before the view flattens it."""
LABELS = 61.0
"""mm; x where the names begin."""
THIN = 0.9
"""mm on the drawing; no layer is drawn thinner, so that it is seen."""


@dataclass(frozen=True, slots=True)
class _Layer:
    """One layer, ready to draw."""

    words: LayerWords
    bodies: tuple[tuple[Run, ...], ...]
    """Rings of each copy on this level, centred on the lowest layer's middle."""
    footprints: tuple[Run, ...]
    """Rings of what rests on it."""
    thickness: float
    """mm on the drawing."""
    tint: Tint
    low: float
    """mm on the drawing above the lowest face, pulled apart."""
    closed: float
    """The same with all layers joined."""


def draw_exploded(
    stack: LayerStack,
    kit: Kit,
    prefix: str,
    names: Mapping[str, str],
    lang: Words,
) -> Drawing | None:
    """The layers of a stack pulled apart, each a group of its own.

    The groups have the ids `{prefix}-{stack}-layer-N`, the class `layer` and data-lift: how many
    mm of the drawing the group must move down to close the stack. `names` gives materials' names.
    """
    laid = lay_up(stack, kit)
    # A layer without a piece would leave a gap that looks meant.
    if len(laid) < len(stack.layers):
        return None
    outline = bounds((laid[0].piece.shape.ring(),))
    centre = Frame(x=-(outline[0] + outline[2]) / 2, y=-(outline[1] + outline[3]) / 2)
    bodies = [tuple(centre.runs(rings) for rings in layer.bodies()) for layer in laid]
    resting = [centre.runs(rings) for rings in footprints(laid)]
    width, depth = outline[2] - outline[0], outline[3] - outline[1]
    scale = reduction(width + ACROSS * depth, depth, ROOM_WIDTH, ROOM_DEPTH)
    layers = _stack_up(stack, list(zip(bodies, resting, strict=True)), scale, names, lang)
    front = UP * depth * scale / 2
    middles = [layer.low + layer.thickness / 2 for layer in layers]
    # Names first, then the height of the drawing: many thin layers need more room for words than
    # for foam.
    texts = spread_levels(middles, pitch([layer.words for layer in layers]))
    # Below the lowest layer's front edge, or below its name where that reaches farther down.
    base = STRIP + 3 + max(front, 6 - texts[0])
    top = max(layers[-1].low + layers[-1].thickness + front, texts[-1] + 4)
    canvas = Canvas(
        WIDTH,
        base + top + 4,
        lang.say("Layers of {stack}, pulled apart", stack=stack.name),
        _describe(stack, names, lang),
        lang,
    )
    view = View(scale, 3 + (width + ACROSS * depth) * scale / 2, base)
    # From the lowest upward: what lies higher hides what is behind it.
    for number, layer in enumerate(layers):
        above = layers[number + 1] if number + 1 < len(layers) else None
        id = f"{prefix}-{stack.id}-layer-{number + 1}"
        data = {"lift": mm_text(layer.low - layer.closed, 2)}
        with canvas.group(
            css=f"layer layer-{number + 1}", id=id, title=layer.words.name, data=data
        ):
            _draw_layer(canvas, layer, view)
            _draw_name(canvas, layer, view, texts[number])
        if above:
            _draw_axis(canvas, layer, above, view)
    title_strip(canvas, "", lang.say("layers pulled apart, outlines to scale"), scale)
    return canvas.drawing()


def _draw_layer(canvas: Canvas, layer: _Layer, view: View) -> None:
    top = layer.low + layer.thickness
    for rings in layer.bodies:
        draw_solid(canvas, rings, view, (layer.low, top), layer.tint)
    draw_on_face(canvas, layer.footprints, view, top)


def _draw_axis(canvas: Canvas, layer: _Layer, above: _Layer, view: View) -> None:
    """A chain line from each copy above down to the face on which it lands."""
    runs = []
    for rings in above.bodies:
        left, low, right, high = bounds(rings[:1])
        middle = ((left + right) / 2, (low + high) / 2)
        runs.append(
            polyline(
                [view.point(middle, layer.low + layer.thickness), view.point(middle, above.low)]
            )
        )
    canvas.path(runs, CHAIN, css="thin axis")


def _draw_name(canvas: Canvas, layer: _Layer, view: View, at: float) -> None:
    """Name and material at the right, its leader from the rightmost point of the layer."""
    points: list[Point] = [
        view.point(corner, layer.low + layer.thickness)
        for rings in layer.bodies
        for corner in flatten(rings[0], 0.5)
    ]
    # To a thousandth of a mm, then the lower one: two points of a straight right side must not
    # take turns.
    tip = max(points, key=lambda point: (round(point[0], 3), -point[1]))
    level = view.y + at
    canvas.path(
        [polyline([tip, (LABELS - 6, level), (LABELS - 1.5, level)])], NARROW, css="thin leader"
    )
    canvas.circle(tip, 0.6, None, fill=INK, css="arrow")
    write_layer(canvas, (LABELS, level), layer.words)


def _stack_up(
    stack: LayerStack,
    bodies: list[tuple[tuple[tuple[Run, ...], ...], tuple[Run, ...]]],
    scale: float,
    names: Mapping[str, str],
    lang: Words,
) -> list[_Layer]:
    """Levels, pulled apart and closed, from the lowest layer upward."""
    materials = list(dict.fromkeys(layer.material for layer in stack.layers))
    rows = [
        (
            layer.name,
            f"{names.get(layer.material, layer.material)}"
            + (f", {layer.note}" if layer.note else ""),
            *bodies[number],
            layer.thickness,
            SECTIONS[materials.index(layer.material) % len(SECTIONS)],
        )
        for number, layer in enumerate(stack.layers)
    ]
    if stack.backing:
        words = lang.say("padding, {thick} mm", thick=lang.number(stack.backing, 1))
        rows.insert(0, (lang.say("Backing"), words, bodies[0][0], (), stack.backing, BACKING))
    layers: list[_Layer] = []
    low = closed = 0.0
    for name, about, rings, resting, thickness, tint in rows:
        # Thin layers are drawn thicker than true; the strip says that outlines alone are to scale.
        drawn = max(thickness * scale, THIN)
        # Without the hatch, which tells of cut foam: here one looks at faces.
        plain = Tint(tint.css, tint.fill) if tint is not BACKING else BACKING
        beside = layer_words(name, about, WIDTH - LABELS - 1)
        layers.append(_Layer(beside, rings, resting, drawn, plain, low, closed))
        closed += drawn
        low += drawn + _gap(rings, scale)
    return layers


def _gap(bodies: tuple[tuple[Run, ...], ...], scale: float) -> float:
    """mm of the drawing to the next layer: enough to see this face, no more."""
    _, low, _, high = bounds(tuple(rings[0] for rings in bodies))
    # Chosen: four fifths of the depth that a face has in the drawing show what lies on it; at
    # least 11 mm, a little over the pitch of names; at most 24, or stacks of deep parts outgrow a
    # page.
    return min(24.0, max(11.0, 0.8 * UP * (high - low) * scale))


def _describe(stack: LayerStack, names: Mapping[str, str], lang: Words) -> str:
    thick = lang.number(stack.backing, 1)
    parts = [lang.say("backing of {thick} mm", thick=thick)] if stack.backing else []
    parts += [
        lang.say(
            "{layer} of {thick} mm {material}",
            layer=layer.name,
            thick=lang.number(layer.thickness, 1),
            material=names.get(layer.material, layer.material),
        )
        for layer in stack.layers
    ]
    return lang.say(
        "{count} layers above one another, from the body outward: {list}.",
        count=len(parts),
        list="; ".join(parts),
    )
