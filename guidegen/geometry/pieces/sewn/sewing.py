"""A cut template of cloth and the whole piece in → both with darts trued and pleats opened.

Last of all that is done to them: until then a piece is as it is when it is sewn, so that seams,
marks and places on it hold. Darts come first, since their legs count from the folded edge.
"""

from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.records import Shape
from guidegen.geometry.outline.transforms import mirror_across
from guidegen.geometry.outline.unfold import fold_line
from guidegen.geometry.parts.darts import DartPlace, taken_by
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.parts.sewing import TakenIn
from guidegen.geometry.pieces.sewn.darts import true_dart
from guidegen.geometry.pieces.sewn.opening import OpeningError
from guidegen.geometry.pieces.sewn.pleats import bands_of, open_bands


def sew_up(
    asker: PartAsker, finished: Finished, template: Shape, whole: Shape
) -> tuple[Shape, Shape, tuple[TakenIn, ...]]:
    """Both shapes, and what was folded away; problems are noted by the asker."""
    bands, taken = bands_of(asker, finished.template, finished.fold)
    darts = finished.darts
    if not bands and not darts:
        return template, whole, ()
    if not asker.sewn:
        key = "pleats" if bands else "darts"
        message = f"{key} are folded in cloth, and {asker.part.material} is none"
        cure = "Draw a dart of foam as two edges, and join them in a seam"
        asker.refuse("not-cloth", message, key, cure=cure)
        return template, whole, ()
    both_bands, both_darts = list(bands), list(darts)
    if finished.half is not None:
        mirror = mirror_across(*fold_line(finished.half, finished.fold))
        both_bands += [band.mirrored(mirror) for band in bands]
        both_darts += [dart.mirrored(mirror) for dart in darts]
    made = []
    for shape, ones, folds in ((template, darts, bands), (whole, both_darts, both_bands)):
        sewn = _trued(asker, shape, ones)
        try:
            made.append(open_bands(sewn, folds))
        except OpeningError as error:
            asker.refuse("bad-pleats", f"the line of a pleat {error}", "pleats")
            return template, whole, ()
    fault = fault_of(made[1])
    if fault is not None:
        asker.refuse("bad-outline", f"with its pleats and darts, {fault[0]}", "shape")
    return made[0], made[1], (*taken, *taken_by(list(darts)))


def _trued(asker: PartAsker, shape: Shape, darts: tuple[DartPlace, ...] | list[DartPlace]) -> Shape:
    for dart in darts:
        trued = true_dart(shape, dart)
        if trued is None:
            message = f"its legs do not reach the cut edge {dart.edge}"
            asker.refuse("bad-dart", message, "darts")
            return shape
        shape = trued
    return shape
