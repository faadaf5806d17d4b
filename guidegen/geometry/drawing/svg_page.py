"""Size and viewBox of svg and symbol elements in → viewports: how user units become mm."""

import re
from dataclasses import dataclass
from math import hypot
from typing import Literal

from guidegen.geometry.drawing.svg_document import DrawingError, Element, SvgDocument
from guidegen.geometry.drawing.svg_reader import (
    NUMBER,
    Affine,
    SvgValueError,
    length_unit,
    read_length,
    viewport_affine,
)
from guidegen.problems import Problem
from guidegen.units import SVG_UNITS_PER_MM

_NO_UNIT_CURE = (
    "set the document's width and height in mm, cm or in, not in px; then draw a line with the "
    'class "scale" and data-length="100 mm" as a check'
)


@dataclass(frozen=True, slots=True)
class Viewport:
    """Where elements are drawn."""

    affine: Affine
    """From user units to mm, y upward."""
    space: tuple[float, float]
    """Width and height in user units: what percentages refer to."""

    def length(self, units: float, axis: Literal["x", "y"]) -> float:
        """mm of a length in user units along an axis."""
        return hypot(*self.affine.vector((units, 0.0) if axis == "x" else (0.0, units)))

    def moved(self, transform: Affine) -> "Viewport":
        """The viewport inside an element with a transform."""
        return Viewport(self.affine.after(transform), self.space)


def page_viewport(document: SvgDocument) -> tuple[Viewport, float, bool, list[Problem]]:
    """The viewport of the whole drawing, its height in mm, whether its size is not in px.

    And a problem where it has none: then a viewBox stands for px, so that the rest can be looked
    at. Raises DrawingError with the place of the svg element for a size that cannot be used.
    """
    root = document.root
    try:
        width, height, physical, problems = _page_size(document)
        if not (width > 0 and height > 0):
            raise SvgValueError("has no width and height")
        inner, space = viewport_affine(
            (0.0, 0.0, width, height),
            root.get("viewBox", ""),
            root.get("preserveAspectRatio", ""),
        )
    except SvgValueError as error:
        raise DrawingError(document.problem("drawing-value", root, str(error))) from None
    scale = 1 / SVG_UNITS_PER_MM
    # px to mm, and y turned upward about the page's height: all geometry is y upward from here on.
    page = Affine(scale, 0.0, 0.0, -scale, 0.0, height * scale)
    return Viewport(page.after(inner), space), height * scale, physical, problems


def _page_size(document: SvgDocument) -> tuple[float, float, bool, list[Problem]]:
    """Width and height in px; one that is missing follows from the viewBox."""
    root = document.root
    texts = [root.get("width", ""), root.get("height", "")]
    given = [text.strip() not in {"", "auto"} and length_unit(text) != "%" for text in texts]
    sizes = [read_length(text) if there else 0.0 for text, there in zip(texts, given, strict=True)]
    view = [float(number) for number in re.findall(NUMBER, root.get("viewBox", ""))]
    if not all(given) and any(given) and len(view) == 4 and view[2] > 0 and view[3] > 0:
        # A size given one way follows the viewBox the other way, as viewers have it.
        ratio = view[3] / view[2]
        sizes = [sizes[0] or sizes[1] / ratio, sizes[1] or sizes[0] * ratio]
    if not all(size > 0 for size in sizes):
        message = "has no width and height, so its real size is unknown"
        problem = document.problem("drawing-no-unit", root, message, _NO_UNIT_CURE)
        if len(view) != 4:
            raise DrawingError(problem)
        return view[2], view[3], True, [problem]
    units = {length_unit(text) for text, there in zip(texts, given, strict=True) if there}
    return sizes[0], sizes[1], not units & {"", "px"}, []


def inner_viewport(element: Element, outer: Viewport, user: Element | None = None) -> Viewport:
    """The viewport of an inner svg, or of a symbol whose size comes from the `use` element.

    Raises SvgValueError for a size that cannot be used.
    """
    keys = ("width", "height")
    sizes = [(user.get(key) if user is not None else None) or element.get(key) for key in keys]
    width, height = (
        read_length(size if size and size != "auto" else "100%", whole)
        for size, whole in zip(sizes, outer.space, strict=True)
    )
    x, y = (
        (0.0, 0.0)
        if user is not None
        else (
            read_length(element.get("x") or "0", outer.space[0]),
            read_length(element.get("y") or "0", outer.space[1]),
        )
    )
    if width <= 0 or height <= 0:
        raise SvgValueError("has no width or height")
    inner, space = viewport_affine(
        (x, y, width, height), element.get("viewBox", ""), element.get("preserveAspectRatio", "")
    )
    return Viewport(outer.affine.after(inner), space)
