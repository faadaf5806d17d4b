"""Drawings for machines → SVG files in real units, a group for each layer."""

from guidegen.pictures.machines.records import LASER_NOTE, Layer, MachineDrawing
from guidegen.pictures.pen.canvas import Canvas, Stroke

COLOURS: dict[Layer, str] = {
    Layer.CUT: "#000000",
    Layer.SCORE: "#0b6e75",
    Layer.GROOVE: "#7a4b9a",
    Layer.MARK: "#a8480f",
    Layer.GUIDE: "#6d757a",
    Layer.BEVEL: "#2c5aa0",
    Layer.LABEL: "#3b4449",
}
"""One colour a layer, since many cutting programs choose their settings by colour."""

HAIR = 0.1
"""mm; width of all lines: what is cut is the middle of the line."""


def machine_svg(drawing: MachineDrawing) -> str:
    """An SVG file in mm; the description holds the laser note."""
    canvas = Canvas(drawing.width, drawing.height, f"{drawing.title}, in mm", LASER_NOTE)
    for layer in Layer:
        lines = [line for line in drawing.lines if line.layer is layer]
        if lines:
            with canvas.group(id=layer, css=f"layer-{layer}"):
                for line in lines:
                    stroke = Stroke(HAIR, colour=COLOURS[layer])
                    canvas.path([line.run], stroke, closed=line.closed)
    with canvas.group(id=Layer.LABEL, css=f"layer-{Layer.LABEL}"):
        for label in drawing.labels:
            colour = COLOURS[Layer.LABEL]
            at = (label.x, label.y)
            canvas.text(at, label.words, label.size, anchor="middle", colour=colour)
    return canvas.svg()
