"""The unit that a file states and the lengths that its author states in → mm of one unit."""

from collections.abc import Sequence

from guidegen.bench.vectors.naming import StatedLength
from guidegen.bench.vectors.records import VectorError, refuse
from guidegen.geometry.drawing.scale import SCALE_SLACK, slip_words
from guidegen.problems import Place, Problem
from guidegen.units import MM_PER_INCH, MM_PER_UNIT, mm_text

MM_IN = {"pt": MM_PER_INCH / 72, "µm": 0.001, "ft": 304.8, "yd": 914.4, "dm": 100.0} | MM_PER_UNIT
"""mm of one unit of a file, by the names that files state."""

_GUESSED = ("mm", "cm", "in", "m", "pt")
"""Units that are tried for a file that states none."""


def mm_of_unit(
    file: str, unit: str, lengths: Sequence[tuple[StatedLength, float]], scale: float
) -> tuple[float, str]:
    """mm of one unit of a file, and the unit's name. Raises VectorError.

    `lengths` are what the author states and what that comes to in the file, `scale` by how much
    the drawing is smaller than what it shows. Without a unit a length decides which one it is.
    """
    if unit and unit not in MM_IN:
        cure = "say the right one with --unit"
        raise refuse("vector-unit", file, f"the file is in {unit}, which is no unit for foam", cure)
    fitting = [name for name in _GUESSED if _fits(lengths, MM_IN[name] * scale)]
    if not unit:
        if not lengths:
            cure = 'say how long something is, such as --length "width=300 mm", or --unit mm'
            raise refuse("vector-unit", file, "the file does not say in which unit it is", cure)
        if not fitting:
            raise _no_unit(file, lengths[0], scale)
        return MM_IN[fitting[0]] * scale, fitting[0]
    factor = MM_IN[unit] * scale
    if not _fits(lengths, factor):
        raise VectorError(*_misfits(file, unit, lengths, factor, fitting))
    return factor, unit


def _fits(lengths: Sequence[tuple[StatedLength, float]], factor: float) -> bool:
    return bool(lengths or factor) and all(
        abs(found * factor - stated.length) <= SCALE_SLACK + stated.length / 1000
        for stated, found in lengths
    )


def _no_unit(file: str, length: tuple[StatedLength, float], scale: float) -> VectorError:
    stated, found = length
    each = ", ".join(
        f"{mm_text(found * MM_IN[name] * scale, 1)} mm if it is in {name}" for name in _GUESSED
    )
    message = f"{stated.said}: the file has no unit, and none fits: it would be {each}"
    cure = "correct the length, or add --scale where the drawing is smaller than what it shows"
    return refuse("vector-length", file, message, cure)


def _misfits(
    file: str,
    unit: str,
    lengths: Sequence[tuple[StatedLength, float]],
    factor: float,
    fitting: Sequence[str],
) -> list[Problem]:
    """A problem for each length that is not as stated."""
    found: list[Problem] = []
    for stated, length in lengths:
        if _fits([(stated, length)], factor):
            continue
        ratio = length * factor / stated.length
        message = (
            f"{stated.said}: it is {mm_text(length * factor, 2)} mm in the file, which is in {unit}"
            f"{slip_words(ratio)}"
        )
        if fitting:
            cure = f"if the file is in {fitting[0]}, add --unit {fitting[0]}"
        elif ratio:
            cure = f"if the drawing is smaller than what it shows, add --scale {1 / ratio:.6g}"
        else:
            cure = "name two points that are apart"
        found.append(Problem("vector-length", Place(file), "", message, cure))
    return found
