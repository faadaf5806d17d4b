"""Rows of a part and the stock in → outlines of the things that sit on their points, in mm."""

from dataclasses import dataclass

from guidegen.buildfile.records.constructions.things import Footprint
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.pieces import assemble, paths_of
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import bounds, heading
from guidegen.geometry.outline.records import Arc, Point, Run
from guidegen.geometry.outline.transforms import RigidMotion, transform_run
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.problems import did_you_mean, has_errors

POLES = {"north": "N", "south": "S"}
"""What is written on a template where a pole looks to its partner: the same in all languages."""


@dataclass(frozen=True, slots=True)
class ThingShape:
    """The outline of a thing about its middle, lying along the x axis."""

    name: str
    ring: Run

    def at(self, point: Point, along: Point) -> Run:
        """Its outline on a point of a row that runs along a direction."""
        return transform_run(self.ring, RigidMotion(*point, heading(along)))


def thing_shapes(asker: PartAsker, stock: Stock) -> dict[str, ThingShape]:
    """Of each row of a part that has things, their outline; problems are noted by the asker."""
    found: dict[str, ThingShape] = {}
    for name, points in asker.part.points.items():
        material = stock.materials.get(points.thing or "")
        if material is None:
            continue  # none there, or told where it stands
        if points.drawing is not None:
            ring = _drawn(asker, name, points.drawing)
        elif material.footprint is not None:
            ring = footprint_ring(material.footprint)
        else:
            ring = None
            message = f'nothing says how large "{points.thing}" is: the template cannot show it'
            cure = 'Give it a "footprint" in stock.yaml, or the row a "drawing"'
            asker.refuse("thing-unknown", message, "points", name, "thing", cure=cure)
        if ring is not None:
            found[name] = ThingShape(material.name, ring)
    return found


def footprint_ring(footprint: Footprint) -> Run:
    """Its outline about the origin, counter-clockwise."""
    wide, high = footprint.width / 2, footprint.across / 2
    if footprint.shape == "box":
        return lines_through(
            (-wide, -high), (wide, -high), (wide, high), (-wide, high), (-wide, -high)
        )
    if abs(wide - high) < 1e-9:
        return (Arc((0.0, 0.0), wide, 0.0, 360.0),)
    # An oval thing is drawn as a slot is cut: two half circles and what is between.
    radius, reach = min(wide, high), abs(wide - high)
    turn = 0.0 if wide > high else 90.0
    dx, dy = (reach, 0.0) if wide > high else (0.0, reach)
    side = (-radius, 0.0) if turn else (0.0, radius)
    return (
        Arc((dx, dy), radius, turn - 90, 180.0),
        *lines_through((dx + side[0], dy + side[1]), (-dx + side[0], -dy + side[1])),
        Arc((-dx, -dy), radius, turn + 90, 180.0),
        *lines_through((-dx - side[0], -dy - side[1]), (dx - side[0], dy - side[1])),
    )


def _drawn(asker: PartAsker, row: str, named: str) -> Run | None:
    """The outline in a drawing, its middle in the origin; None, and problems, where it has none."""
    place = ("points", row, "drawing")
    name, _, group = named.partition("#")
    drawings = asker.file.drawings
    if name not in drawings:
        asker.refuse("no-drawing", f'no drawing "{name}"{did_you_mean(name, drawings)}', *place)
        return None
    drawing, problems = read_drawing(drawings[name], asker.file.drawing_files.get(name, name))
    asker.problems.extend(problems)
    if drawing is None:
        return None
    if group and not paths_of(drawing, group):
        hint = did_you_mean(group, drawing.names)
        asker.refuse("no-piece", f'nothing visible is called "{group}" in {name}{hint}', *place)
        return None
    piece, problems = assemble(drawing, group)
    asker.problems.extend(problems)
    if piece is None or has_errors(problems):
        return None
    ring = piece.ring()
    left, low, right, high = bounds((ring,))
    return transform_run(ring, RigidMotion(-(left + right) / 2, -(low + high) / 2))
