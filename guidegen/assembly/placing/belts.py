"""Plates in a row round the body → the belt that they sit on, as a band behind them."""

from guidegen.assembly.placing.hanging import plates_of
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.placing.wearing import round_bend
from guidegen.assembly.sheets.bends import Round
from guidegen.assembly.sheets.made import bent
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.records import Edge, Line, Shape
from guidegen.geometry.pieces.records import Piece, Side


def buckle_on(scene: Placing, stock: Stock) -> None:
    """Place every belt on which a row of plates sits; it lies right under them."""
    for name, strap in scene.guide.straps.items():
        material = stock.materials.get(strap.material)
        if strap.girth is None or material is None or material.width is None:
            continue
        width, thickness = scene.number(material.width), scene.number(material.thickness)
        plates = plates_of(scene, strap)
        if plates is None or width <= 0 or thickness <= 0:
            continue
        bend = round_bend(scene, plates)
        if not isinstance(bend, Round):
            continue
        # The plates' inner face is the belt's outer one.
        under = bend.under(plates.thickness / 2 + thickness / 2)
        length = under.girth()
        scene.add(
            bent(_band(name, strap.material, length, width, thickness), under, f"{name}@body")
        )


def _band(name: str, material: str, length: float, width: float, thickness: float) -> Piece:
    """A straight strip as a piece of its own."""
    x, y = length / 2, width / 2
    corners = [(-x, -y), (x, -y), (x, y), (-x, y)]
    sides = ("bottom", "right", "top", "left")
    edges = tuple(
        Edge(side, (Line(corners[k], corners[(k + 1) % 4]),)) for k, side in enumerate(sides)
    )
    shape = Shape(edges)
    return Piece(
        part=name, label="", name="", side=Side.ANY, copies=1, spares=0,
        material=material, thickness=thickness, template=shape, shape=shape,
    )  # fmt: skip
