"""Rows of points and what lies there → fasteners whose posts hold it, counted with the holes."""

from collections.abc import Iterator
from itertools import combinations

from guidegen.buildfile.records.fastening import Fastener, Fastening
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.distances import distance_to_line
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.pieces.records import Fastened, PointRow
from guidegen.units import mm_text

NEAR = 0.05
"""mm under which two lengths are the same."""
HOLE_TOLERANCE = 0.5
"""mm by which a hole may differ from what its fastener needs. Common practice, no source: foam
gives that much."""


def fasten(holding: Holding) -> tuple[Fastened, ...]:
    """Every fastening of the guide, row by row."""
    return tuple(
        made
        for name, fastening in holding.file.guide.fastenings.items()
        for made in _rows(holding, name, fastening)
    )


def _rows(holding: Holding, name: str, fastening: Fastening) -> Iterator[Fastened]:
    choices = _choices(holding, name, fastening)
    for index, row_name in enumerate(fastening.points):
        row = holding.row(row_name)
        if row is None or not choices:
            continue  # told where it stands
        stack = _stack(holding, fastening, row, choices[0][1])
        # Shortest post first: a longer one that grips as well stands out inside and scratches.
        chosen = next((one for one in choices if one[1].grip[0] <= stack <= one[1].grip[1]), None)
        if chosen is None:
            _no_grip(holding, name, row_name, stack, choices)
            continue
        material, fastener = chosen
        if abs(row.diameter - fastener.hole) > HOLE_TOLERANCE:
            message = (
                f"{row_name} has holes of {mm_text(row.diameter, 1)} mm, and {material} needs "
                f"{mm_text(fastener.hole, 1)} mm"
            )
            holding.refuse("fastener-hole", message, "fastenings", name, "points", index)
        _check_head(holding, name, index, row, fastener.head)
        count = row.count * holding.worn(row.part)
        yield Fastened(
            name,
            row_name,
            material,
            count,
            stack,
            fastener.post,
            _layers(holding, fastening, row),
            fastening.washers,
            fastener.washer,
            fastener.grip,
            row.diameter,
            fastening.name,
        )


def _choices(holding: Holding, name: str, fastening: Fastening) -> list[tuple[str, Fastener]]:
    """The fastener and its longer brothers, the shortest post first."""
    materials = holding.stock.materials
    first = materials.get(fastening.fastener)
    if first is None or first.fastener is None:
        message = f'"{fastening.fastener}" has no "fastener" in stock: its grip is not known'
        holding.refuse("no-fastener", message, "fastenings", name, "fastener")
        return []
    found = [(fastening.fastener, first.fastener)]
    for other in first.fastener.longer:
        one = materials.get(other)
        if one is not None and one.fastener is not None:
            found.append((other, one.fastener))
    return sorted(found, key=lambda pair: pair[1].post)


def _stack(holding: Holding, fastening: Fastening, row: PointRow, fastener: Fastener) -> float:
    """mm from head to head: foam, what is named beside it, washers."""
    parts = (row.part, *row.through, *fastening.parts)
    # In this order a post passes them, but for a sum the order does not matter; _layers keeps it.
    foam = sum(holding.thickness(part) for part in parts)
    layers = sum(
        value for layer in fastening.layers for value in holding.material_number(layer, "thickness")
    )
    return foam + layers + fastening.washers * fastener.washer


def _check_head(holding: Holding, name: str, index: int, row: PointRow, head: float) -> None:
    """Heads lie flat: none stands over a rim of the part or on the next one."""
    one = next(one for one in holding.kit.finished if one.part == row.part)
    fold = next(piece.fold for piece in holding.kit.built(row.part))
    # The fold of a half template is no edge of the piece that is cut.
    rims = [flatten(edge.run) for edge in one.outline if edge.name != fold]
    spots = [spot.at for spot in row.spots]
    free = min((distance_to_line(rim, at) for rim in rims for at in spots), default=head)
    apart = min((distance(a, b) for a, b in combinations(spots, 2)), default=head)
    # Half a head reaches to the rim, two halves to the next head.
    for found, needed, where in ((free, head / 2, "the edge"), (apart, head, "the next one")):
        if found < needed - NEAR:
            message = (
                f"{row.part}.{row.name}: a head of {mm_text(head, 1)} mm has "
                f"{mm_text(found, 1)} mm to {where}, expected at least {mm_text(needed, 1)} mm"
            )
            holding.refuse("fastener-head", message, "fastenings", name, "points", index)


def _layers(holding: Holding, fastening: Fastening, row: PointRow) -> tuple[tuple[str, float], ...]:
    """What lies at a row from its part outward, with names for readers."""
    parts = holding.file.guide.parts
    foam = [
        (f"{parts[part].label} {parts[part].name}", holding.thickness(part))
        for part in (row.part, *row.through, *fastening.parts)
    ]
    goods = [
        (holding.stock.materials[layer].name, value)
        for layer in fastening.layers
        for value in holding.material_number(layer, "thickness")
    ]
    return (*foam, *goods)


def _no_grip(
    holding: Holding, name: str, row: str, stack: float, choices: list[tuple[str, Fastener]]
) -> None:
    held = ", ".join(
        f"{material} {one.grip[0]:g} to {one.grip[1]:g} mm" for material, one in choices
    )
    message = f"what lies at {row} is {mm_text(stack, 1)} mm thick, and none holds it: {held}"
    cure = "Add a longer post to stock.yaml and name it under longer, or take layers away"
    holding.refuse("fastener-grip", message, "fastenings", name, "fastener", cure=cure)
