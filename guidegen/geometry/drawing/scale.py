"""A drawing in → whether it is as large as it says, and what slip explains it if not."""

from guidegen.geometry.drawing.checks import path_problem
from guidegen.geometry.drawing.records import DrawnPath, Role, SvgDrawing
from guidegen.geometry.drawing.svg_reader import SvgValueError, length_unit, read_length
from guidegen.geometry.outline.measures import run_length
from guidegen.problems import Problem
from guidegen.units import MM_PER_INCH, SVG_UNITS_PER_MM, mm_text

SCALE_SLACK = 0.1
"""mm; how much a scale line may differ, with another 0.1 % of its length. Our choice: editors
round coordinates, and 0.1 % is under what a printer itself adds."""

_DPI = (72, 90, 96)
"""Units to the inch that editors use or once used; 96 is that of CSS Values and Units, 72 that of
PostScript."""
_DPI_SLIPS = [(made, read) for made in _DPI for read in _DPI if made != read]
_OTHER_SLIPS = {
    MM_PER_INCH: "mm were read as inches",
    1 / MM_PER_INCH: "inches were read as mm",
    10.0: "mm were read as cm",
    0.1: "cm were read as mm",
    MM_PER_INCH / 72: "mm were read as points",
    72 / MM_PER_INCH: "points were read as mm",
    1 / SVG_UNITS_PER_MM: "mm were read as px",
    SVG_UNITS_PER_MM: "px were read as mm",
}
"""Measured length by stated length, and what explains it."""


def scale_problems(drawing: SvgDrawing) -> list[Problem]:
    """Scale lines that are not as long as they say; a drawing in px without any scale line."""
    lines = [path for path in drawing.paths if path.role is Role.SCALE]
    if not lines and not drawing.physical:
        message = "the drawing's width and height are in px, so its real size is not certain"
        cure = (
            "set the document's width and height in mm, cm or in; or draw a line with the class "
            '"scale" and data-length="100 mm" beside the piece'
        )
        return [Problem("drawing-no-unit", drawing.place, "", message, cure)]
    return [problem for line in lines for problem in _scale_line(line)]


def _scale_line(line: DrawnPath) -> list[Problem]:
    stated = _stated(line.length)
    if stated is None or stated <= 0:
        message = "is a scale line but does not say how long it is in mm, cm or in"
        cure = 'give it data-length="100 mm", or the id "scale-100-mm"'
        return [path_problem("drawing-scale", line, message, cure)]
    measured = sum(run_length(subpath.run) for subpath in line.subpaths)
    # Both added: short lines suffer from rounded coordinates, long ones from the printer.
    if abs(measured - stated) <= SCALE_SLACK + stated / 1000:
        return []
    message = (
        f"should be {mm_text(stated, 2)} mm long but measures {mm_text(measured, 2)} mm"
        f"{slip_words(measured / stated)}"
    )
    factor = f"{stated / measured * 100:.2f}" if measured else "100"
    cure = f"correct the document's width and height, or enlarge everything to {factor} %"
    return [path_problem("drawing-scale", line, message, cure)]


def _stated(length: str) -> float | None:
    if length_unit(length) not in {"mm", "cm", "in"}:
        return None
    try:
        return read_length(length) / SVG_UNITS_PER_MM
    except SvgValueError:
        return None


def slip_words(ratio: float) -> str:
    """What a well-known ratio of measured to stated length betrays; empty for others."""
    # Half a percent around each: 90 and 96 are 6.7 percent apart, the nearest of all ratios here.
    for made, read in _DPI_SLIPS:
        if abs(ratio * read / made - 1) < 0.005:
            return f": it was drawn at {made} units to the inch and read at {read}"
    for known, words in _OTHER_SLIPS.items():
        if abs(ratio / known - 1) < 0.005:
            return f": {words}"
    return ""
