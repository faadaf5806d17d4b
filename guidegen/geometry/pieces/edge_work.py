"""A part and its finished outline in → the allowances and bevels of its edges, in numbers."""

from guidegen.geometry.outline.allowances import EdgeAllowance
from guidegen.geometry.outline.bevels import STEEPEST, EdgeBevel, turning_bevel
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.pieces.sewn.casings import casing_edges
from guidegen.problems import did_you_mean

WIDEST_ALLOWANCE = 200.0
"""mm. Our choice: more is a part of its own."""


def _edge_known(asker: PartAsker, finished: Finished, key: str, edge: str) -> bool:
    """False, and a problem, for an edge that the template does not have or that is folded."""
    names = [own.name for own in finished.template.edges]
    if edge == finished.fold:
        asker.refuse("bad-fold", "this edge lies on the fold: nothing is cut there", key, edge)
        return False
    if edge not in names:
        hint = did_you_mean(edge, names)
        asker.refuse("unknown-edge", f'no edge "{edge}" on this part{hint}', key, edge)
        return False
    return True


def edge_allowances(asker: PartAsker, finished: Finished) -> dict[str, EdgeAllowance]:
    """Allowances in mm by edge of the template; what fails is noted by the asker."""
    # What goes into a slot ends at the face as a seam does; the author's own width comes first.
    found = {edge: EdgeAllowance("tab", deep) for edge, deep in finished.faces.tabs.items()}
    for edge, casing in casing_edges(asker).items():
        if edge in {own.name for own in finished.template.edges} - {finished.fold}:
            found[edge] = EdgeAllowance("casing", casing.allowance)
    for edge, allowance in asker.part.allowances.items():
        if edge in found and found[edge].kind == "casing":
            message = "a casing says already how much wider this edge is"
            asker.refuse("bad-allowance", message, "allowances", edge)
            continue
        if _edge_known(asker, finished, "allowances", edge):
            place = ("allowances", edge, "width")
            width = asker.between(allowance.width, 0, WIDEST_ALLOWANCE, *place)
            if width is not None:
                found[edge] = EdgeAllowance(allowance.kind, width)
    return found


def edge_bevels(asker: PartAsker, finished: Finished) -> dict[str, EdgeBevel]:
    """Bevels of the shape itself, and those that the author gives, which come first."""
    # The shape's own ones may be changed or, with an angle of 0, taken away.
    found: dict[str, EdgeBevel] = dict(finished.bevels)
    for edge, bevel in asker.part.bevels.items():
        if _edge_known(asker, finished, "bevels", edge):
            least = 0 if bevel.to is None else -STEEPEST
            angle = asker.between(bevel.angle, least, STEEPEST, "bevels", edge, "angle")
            found.pop(edge, None)
            end = angle
            if bevel.to is not None:
                end = asker.between(bevel.to, -STEEPEST, STEEPEST, "bevels", edge, "to")
            if angle is None or end is None:
                continue
            if angle != end:
                found[edge] = turning_bevel(angle, end, bevel.direction)
            elif angle:
                found[edge] = EdgeBevel(angle, bevel.direction)
    return found
