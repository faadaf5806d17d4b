"""Strips of a guide and one size → lengths to cut from rolls, checked against where they lie."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.buildfile.living.holes import Ask
from guidegen.buildfile.records.strips import Strip
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.fastening.answers import answer
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.pieces.records import CutStrip
from guidegen.units import mm_text

NEAR = 0.05
"""mm under which two lengths are the same."""
PLAY = 1.5
"""mm of air beyond its thickness in which hook-and-loop still closes. Common practice, no source:
its hooks stand about so high."""
MOST_STRIPS = 2000
"""Strips of one kind. Our choice: ten times what a kit needs."""


@dataclass(frozen=True, slots=True)
class _Edge:
    """Edges that equal strips follow."""

    length: float
    """mm of one, whole where it crosses the fold."""
    count: int
    """On all pieces that are worn."""


def cut_strips(holding: Holding) -> tuple[CutStrip, ...]:
    """Every strip of the guide; those whose numbers do not hold are told and left out."""
    return tuple(
        one
        for name, strip in holding.file.guide.strips.items()
        for one in _cut(holding, name, strip)
    )


def _cut(holding: Holding, name: str, strip: Strip) -> Iterator[CutStrip]:
    """A strip for each length that its edges have; nothing, and problems, where one is missing."""
    place = ("strips", name)
    sizes = _across(holding, name, strip)
    each = holding.asked(strip.each, *place, "each")
    edges = _edges(holding, name, strip)
    if each is None or sizes is None or edges is None:
        return
    width, roll = sizes
    if abs(each - round(each)) > 1e-6 or not 1 <= round(each) <= MOST_STRIPS:
        message = f"expected a whole number from 1 to {MOST_STRIPS}, found {each:g}"
        holding.refuse("bad-count", message, *place, "each")
        return
    _check_face(holding, name, strip, width)
    _check_air(holding, name, strip)
    for edge in edges:
        if edge.length <= 0:
            message = f"nothing is left of it: {mm_text(edge.length, 1)} mm"
            holding.refuse("strip-room", message, *place)
            return
        count = edge.count * round(each)
        yield CutStrip(name, strip.name, strip.material, edge.length, width, roll, count)


def _across(holding: Holding, name: str, strip: Strip) -> tuple[float, float] | None:
    """mm of the strip across, and of the roll that it comes from; None, and a problem."""
    place = ("strips", name)
    roll = next(holding.material_number(strip.material, "width"), None)
    if roll is None:
        message = f'"{strip.material}" has no width in stock: nothing says what is cut from it'
        holding.refuse("strip-roll", message, *place, "material")
        return None
    width = holding.asked(strip.width, *place, "width") if strip.width is not None else roll
    if width is not None and not 0 < width <= roll + NEAR:
        message = f"{mm_text(width, 1)} mm are cut from a roll of {mm_text(roll, 1)} mm"
        holding.refuse("strip-roll", message, *place, "width")
        return None
    return None if width is None else (width, roll)


def _edges(holding: Holding, name: str, strip: Strip) -> list[_Edge] | None:
    """Lengths, and how many pieces or edges have them; equal ones together."""
    place = ("strips", name)
    margin = holding.number(strip.margin, *place, "margin")
    length = holding.asked(strip.length, *place, "length") if strip.length is not None else None
    if margin is None or (strip.length is not None and length is None):
        return None
    if not strip.along:
        count = holding.worn(strip.on) if strip.on is not None else 1
        return [_Edge(length or 0.0, count)]
    found: dict[float, int] = {}
    for at, ref in enumerate(strip.along):
        part, _, edge = ref.partition(".")
        try:
            drawn = answer(holding.kit, Ask("edge", (part, edge)))
        except ExpressionError as error:
            holding.refuse("unknown-edge", str(error), *place, "along", at)
            return None
        # Three cases on a half template: the edge crosses the fold and is twice as long, or the
        # whole has it twice, or it is no half at all.
        halves, twice = _sides(holding, part, edge)
        own = length if length is not None else drawn * (1 if twice else halves) - 2 * margin
        # Equal lengths are cut together; a thousandth of a mm apart is rounding.
        key = round(own, 3)
        found[key] = found.get(key, 0) + holding.worn(part) * (halves if twice else 1)
    return [_Edge(own, count) for own, count in found.items()]


def _sides(holding: Holding, part: str, edge: str) -> tuple[int, bool]:
    """Halves of a template, and whether the whole piece has the edge once on each of them."""
    piece = next(holding.kit.built(part))
    finished = next(one for one in holding.kit.finished if one.part == part)
    names = {own.name for own in piece.shape.edges}
    return finished.halves, finished.halves > 1 and f"{edge}-2" in names


def _check_face(holding: Holding, name: str, strip: Strip, width: float) -> None:
    """The strip is no wider than what it lies on."""
    place = ("strips", name)
    if strip.face is not None:
        face = holding.asked(strip.face, *place, "face")
        where = "the face"
    else:
        part = strip.on or (strip.along[0].partition(".")[0] if strip.along else "")
        one = next((one for one in holding.kit.finished if one.part == part), None)
        face = min(one.width, one.height) if one is not None else None
        where = part
    if face is not None and width > face + NEAR:
        message = (
            f"it is {mm_text(width, 1)} mm wide, and {where} that it lies on {mm_text(face, 1)} mm"
        )
        holding.refuse("strip-room", message, *place, "width" if strip.width else "material")


def _check_air(holding: Holding, name: str, strip: Strip) -> None:
    """Between its faces there is room for it, and not so much that it does not close."""
    if strip.air is None:
        return
    air = holding.asked(strip.air, "strips", name, "air")
    thick = next(holding.material_number(strip.material, "thickness"), None)
    if air is None:
        return
    if thick is None:
        message = f'"{strip.material}" has no thickness in stock: nobody knows whether it goes in'
        holding.refuse("strip-air", message, "strips", name, "material")
    # Both ways: too little air and it does not go in, too much and hooks do not reach.
    elif not thick - NEAR <= air <= thick + PLAY:
        fault = "it does not go in" if air < thick else "its halves do not meet"
        thick_words, air_words = mm_text(thick, 1), mm_text(air, 1)
        message = f"{strip.material} is {thick_words} mm thick, the air {air_words} mm: {fault}"
        holding.refuse("strip-air", message, "strips", name, "air")
