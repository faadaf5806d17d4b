"""Label and rings in → the label written where it fits."""

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.label_places import Rings, label_spot
from guidegen.pictures.pen.lettering import CAP_HEIGHT, text_width
from guidegen.pictures.pen.tints import Tint


def write_label(
    canvas: Canvas,
    label: str,
    rings: Rings,
    sizes: tuple[float, ...],
    *,
    ground: Tint | None = None,
    avoid: Rings | None = None,
) -> bool:
    """Write a label inside rings in the largest of `sizes` that fits, level, or else upright.

    Lines to `avoid` are crossed only where there is no other place; `ground` is laid under the
    label, so that no line runs through it. False where there is no room.
    """
    found = _find(label, rings, sizes, avoid or [])
    if found is None and avoid:
        # Better across a line than not at all: a piece without its label cannot be found again.
        found = _find(label, rings, sizes, [])
    if found is None:
        return False
    size, (x, y), upright = found
    if ground is not None:
        width, height = _box(label, size)
        across, up = (height, width) if upright else (width, height)
        canvas.rectangle(
            x - across / 2, y - up / 2, across, up, None, fill=ground.fill, css=ground.css
        )
    drop = size * CAP_HEIGHT / 2
    canvas.text(
        (x + drop, y) if upright else (x, y - drop),
        label,
        size,
        anchor="middle",
        angle=90 if upright else 0,
        weight=600,
        css="label strong",
    )
    return True


def _box(label: str, size: float) -> tuple[float, float]:
    """Width and height of a label with air around it: more for larger letters."""
    air = max(0.8, size * 0.3)
    return text_width(label, size, 600) + air, size * CAP_HEIGHT + air


def _find(
    label: str, rings: Rings, sizes: tuple[float, ...], avoid: Rings
) -> tuple[float, Point, bool] | None:
    """Size, centre, and whether the label stands upright."""
    turned, turned_avoid = _turn(rings), _turn(avoid)
    for size in sizes:
        width, height = _box(label, size)
        spot = label_spot(rings, width, height, avoid)
        if spot is not None:
            return size, spot, False
        # Upright in a size before level in the next: size is what is read from afar.
        spot = label_spot(turned, width, height, turned_avoid)
        if spot is not None:
            return size, (-spot[1], spot[0]), True
    return None


def _turn(lines: Rings) -> Rings:
    """A quarter turn clockwise: upright words become level."""
    return [[(y, -x) for x, y in line] for line in lines]
