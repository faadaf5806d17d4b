"""A belt and the edges that it is worn over → mm round their outer faces, and whether it fits."""

from dataclasses import replace
from math import tau

from guidegen.buildfile.living.holes import Ask
from guidegen.buildfile.records.fastening import Strap
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.fastening.answers import answer
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.pieces.records import EdgeRef, FittedStrap
from guidegen.units import mm_text

NEAR = 0.05
"""mm under which two lengths are the same."""


def worn_over(holding: Holding, name: str, strap: Strap, fitted: FittedStrap) -> FittedStrap:
    """A belt with what it lies over; a problem where it does not close round that.

    The edges close round the body with the middle of their foam. What lies t farther out is longer
    by 2 pi t, whatever the outline of the body is, as long as that is convex (Steiner's formula). A
    belt does not follow hollows: what stands out farthest counts all round.
    """
    if not strap.lies_over or fitted.belt is None:
        return fitted
    length, out = 0.0, 0.0
    for at, ref in enumerate(strap.lies_over):
        part, _, edge = ref.partition(".")
        try:
            drawn = answer(holding.kit, Ask("edge", (part, edge)))
        except ExpressionError as error:
            holding.refuse("unknown-edge", str(error), "straps", name, "lies-over", at)
            return fitted
        halves = next(one.halves for one in holding.kit.finished if one.part == part)
        length += drawn * halves * holding.worn(part)
        out = max(out, holding.thickness(part) / 2 + _laid_on(holding, part, strap.over))
    _check_stacks(holding, name, strap)
    outside = length + tau * out
    low, high = fitted.asked
    if not low - NEAR <= outside <= high + NEAR:
        listed = ", ".join(strap.lies_over)
        message = (
            f"it lies over {listed}, which are {mm_text(outside, 1)} mm round at their outer "
            f"faces, and is to close round {mm_text(low, 1)} to {mm_text(high, 1)} mm"
        )
        holding.refuse("belt-over", message, "straps", name, "girth")
    parted = (ref.partition(".") for ref in strap.lies_over)
    over = tuple(EdgeRef(part, edge) for part, _, edge in parted)
    return replace(fitted, belt=replace(fitted.belt, over=over, outside=outside))


def _laid_on(holding: Holding, part: str, over: tuple[str, ...]) -> float:
    """mm of foam on a part under the belt: in its stacks, as far out as a part of `over`."""
    most = 0.0
    for stack in holding.kit.stacks:
        names = [layer.part for layer in stack.layers]
        if part not in names:
            continue
        first = names.index(part)
        for at, layer in enumerate(stack.layers):
            if at > first and layer.part in over:
                between = stack.layers[first + 1 : at + 1]
                most = max(most, sum(one.thickness for one in between))
    return most


def _check_stacks(holding: Holding, name: str, strap: Strap) -> None:
    """What is said to lie under the belt lies on one of its edges' parts, in some stack."""
    below = {ref.partition(".")[0] for ref in strap.lies_over}
    for at, part in enumerate(strap.over):
        orders = [[layer.part for layer in stack.layers] for stack in holding.kit.stacks]
        if not any(part in names and below & set(names[: names.index(part)]) for names in orders):
            message = f"no stack lays {part} on {' or '.join(sorted(below))}"
            holding.refuse("belt-over", message, "straps", name, "over", at)
