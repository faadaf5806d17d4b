"""Casings of a guide and one size → elastic and cord to cut, and how far cloth is gathered."""

from guidegen.buildfile.living.holes import Ask
from guidegen.buildfile.records.constructions.sewing import Casing
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.fastening.answers import answer
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.parts.sewing import FittedCasing
from guidegen.units import mm_text

PASSES = 1.0
"""mm by which a casing is wider than what goes through it, at the least. Common practice, no
source."""


def fit_casings(holding: Holding) -> tuple[FittedCasing, ...]:
    """Every casing of the guide; those whose numbers do not hold are told and left out."""
    made = (_fit(holding, name, one) for name, one in holding.file.guide.casings.items())
    return tuple(one for one in made if one is not None)


def _fit(holding: Holding, name: str, casing: Casing) -> FittedCasing | None:
    place = ("casings", name)
    edges = _edges(holding, name, casing)
    length = holding.asked(casing.length, *place, "length")
    count = holding.asked(casing.count, *place, "count")
    keys = ("room", "turn", "ends")
    plain = [holding.number(getattr(casing, key), *place, key) for key in keys]
    given = holding.number(casing.width, *place, "width") if casing.width is not None else None
    goods = next(holding.material_number(casing.goods, "width"), None)
    if goods is None:
        goods = next(holding.material_number(casing.goods, "thickness"), None)
    if goods is None:
        message = f'"{casing.goods}" has no width in stock: nothing says how wide its casing is'
        holding.refuse("strip-roll", message, *place, "goods")
        return None
    sure = [value for value in (*plain, length, count) if value is not None]
    if edges is None or len(sure) < 5 or (casing.width is not None and given is None):
        return None
    room, turn, ends, long, many = sure
    if min(room, turn, ends) < 0 or long <= 0 or round(many) < 1 or abs(many - round(many)) > 1e-6:
        holding.refuse("bad-casing", "expected 0 mm or more, and a whole count", *place)
        return None
    width = goods + room if given is None else given
    fitted = FittedCasing(
        id=name,
        name=casing.name,
        home=casing.along[0].partition(".")[0],
        material=casing.goods,
        width=width,
        goods=goods,
        turn=turn,
        edges=edges,
        length=long,
        ends=ends,
        count=round(many),
        stretch=holding.stock.materials[casing.goods].stretch or 0.0,
    )
    _check(holding, name, fitted)
    return fitted


def _edges(holding: Holding, name: str, casing: Casing) -> float | None:
    """mm of all edges on all worn pieces, both sides of templates on the fold."""
    total = 0.0
    for at, ref in enumerate(casing.along):
        part, _, edge = ref.partition(".")
        try:
            drawn = answer(holding.kit, Ask("edge", (part, edge)))
        except ExpressionError as error:
            holding.refuse("unknown-edge", str(error), "casings", name, "along", at)
            return None
        one = next(one for one in holding.kit.finished if one.part == part)
        total += drawn * one.halves * holding.worn(part)
    return total


def _check(holding: Holding, name: str, fitted: FittedCasing) -> None:
    place = ("casings", name)
    if fitted.width < fitted.goods + PASSES - 1e-6:
        message = (
            f"it is {mm_text(fitted.width, 1)} mm wide, and {fitted.material} "
            f"{mm_text(fitted.goods, 1)} mm: nothing is threaded through"
        )
        holding.refuse("bad-casing", message, *place, "width")
    if fitted.gathers < 1 - 1e-6:
        message = (
            f"what goes through is {mm_text(fitted.length * fitted.count, 1)} mm long, and its "
            f"edges {mm_text(fitted.edges, 1)} mm: it hangs loose in it"
        )
        holding.refuse("bad-casing", message, *place, "length")
    # Pulled over hips or a hand, the cloth opens to its full width and takes the elastic with it.
    pull = (fitted.gathers - 1) * 100
    if fitted.stretch and pull > fitted.stretch + 1e-6:
        message = (
            f"cloth of {fitted.gathers:.2f} times its length pulls it by {pull:.0f} per cent when "
            f"it opens, more than its {fitted.stretch:g}: it cannot open all the way"
        )
        holding.refuse("casing-tight", message, *place, "length")
