"""A template and its rings in → the lines that are drawn on it, out."""

from collections.abc import Iterator

import numpy as np

from guidegen.bench.photos import vision
from guidegen.bench.photos.arrays import Array
from guidegen.bench.photos.contour import TemplateRings
from guidegen.bench.photos.edges import SPACING, Sight, Sort, trace_edge
from guidegen.bench.photos.fitting.whole import Fitted, fit_run
from guidegen.bench.photos.region import line_steepness
from guidegen.bench.photos.strokes import strokes_in

BESIDE = 3.0
"""mm beside the edge where a line is taken for a part of it."""
DARK = 0.15
"""Light of a template below which lines on it are taken to be lighter than it."""
CLEAR = 0.2
"""Least difference in logarithms of light of a line that is meant."""


def marks_on(sight: Sight, log: Array, rings: TemplateRings, *, drawn: bool) -> Iterator[Fitted]:
    """Lines that are drawn on the template."""
    flat = sight.flat
    body = vision.filled(flat.owner.shape, [flat.to_cells(rings.outline)])
    body = vision.grown(body, -round(BESIDE / flat.step))
    for hole in rings.holes:
        body &= ~vision.grown(
            vision.filled(flat.owner.shape, [flat.to_cells(hole)]), round(2.5 / flat.step)
        )
    if not body.any():
        return
    dark = float(np.median(log[body])) < np.log(DARK)
    light = dark and not drawn
    steep = line_steepness(flat, log, light=light)
    usual = float(np.median(steep[body]))
    ink = body & (steep > max(CLEAR, 8 * usual))
    sort = Sort.LIGHT if light else Sort.DARK
    for way, closed in strokes_in(ink, flat.step):
        edge = trace_edge(sight, flat.to_mm(way), closed=closed, sort=sort)
        if edge.good.mean() > 0.7:
            yield fit_run(edge.points, edge.good, SPACING, edge.blur, closed=closed)
