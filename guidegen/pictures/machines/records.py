"""What cutters, plotters and lasers are told: names, colours and the width of lines."""

from enum import StrEnum

from guidegen.words import msg

LASER_NOTE = msg(
    "Never cut PVC or vinyl, or a foam that may hold it, with a laser: it gives off chlorine and "
    "hydrogen chloride, which are toxic and corrosive. Ask the foam's supplier what it is made "
    "of, read its safety data sheet and the laser's manual, use extraction, and never leave a "
    "laser alone."
)
"""Common practice, no source."""
SHEET_NOTE = msg(
    "In DXF files of whole sheets the layer “sheet” is the sheet of foam: place the drawing by it, "
    "and do not cut it. Every line is one entity; nothing lies outside the sheet or the piece."
)


class MachineLayer(StrEnum):
    """Names of layers in machine files; each line lies on exactly one."""

    CUT = "cut"
    """Outlines and holes."""
    SCORE = "score"
    """Folds and engravings on the face."""
    GROOVE = "groove-on-back"
    """Middle lines of V-grooves on the back: not for this side."""
    RIM = "groove-rims-on-back"
    """Where the walls of V-grooves meet the back: not for this side."""
    MARK = "mark"
    """Match marks."""
    GUIDE = "guide"
    """Placements, centre lines, glue lines, texture rims: to draw with a pen, not to cut."""
    BEVEL = "bevel"
    """Where slanted edges end on the smaller face."""
    LABEL = "label"
    """Codes of pieces."""


COLOURS: dict[MachineLayer, str] = {
    MachineLayer.CUT: "#000000",
    MachineLayer.SCORE: "#0b6e75",
    MachineLayer.GROOVE: "#7a4b9a",
    MachineLayer.RIM: "#b07cc6",
    MachineLayer.MARK: "#a8480f",
    MachineLayer.GUIDE: "#6d757a",
    MachineLayer.BEVEL: "#2c5aa0",
    MachineLayer.LABEL: "#3b4449",
}
"""One colour a layer, since many cutting programs choose their settings by colour."""

HAIR = 0.1
"""mm; width of all lines: what is cut is the middle of the line."""
