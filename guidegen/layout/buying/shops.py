"""Lines of a bill of materials and the shops of the site in → where each is bought, in few ways."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from guidegen.buildfile.records.site import Shop
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.records import MaterialsList


def with_shops(materials: MaterialsList, stock: Stock, shops: Mapping[str, Shop]) -> MaterialsList:
    """The list with a shop for each line that says which sell it.

    A line is bought in the first of its own shops that one has to go to anyway.
    """
    sold = {
        line.material: tuple(shop for shop in stock.materials[line.material].shops if shop in shops)
        for line in materials.lines
        if line.material in stock.materials
    }
    visited = fewest_shops(tuple(sold.values()), tuple(shops))
    lines = []
    for line in materials.lines:
        sellers = sold.get(line.material, ())
        chosen = next((shop for shop in sellers if shop in visited), "")
        lines.append(
            replace(
                line,
                shop=shops[chosen].name if chosen else "",
                shop_id=chosen,
                other_shops=tuple(shops[shop].name for shop in sellers if shop != chosen),
            )
        )
    return replace(materials, lines=tuple(lines))


def fewest_shops(sellers: Sequence[tuple[str, ...]], order: Sequence[str]) -> frozenset[str]:
    """Shops that sell everything together: those without which it cannot be done, then again and
    again the one that sells most of what is left, the first in `order` of equals.

    The rule of the largest share (Johnson, Journal of Computer and System Sciences 9, 1974): at
    worst ln n times the least number, and with a dozen shops nearly always that number.
    """
    chosen = {shops[0] for shops in sellers if len(shops) == 1}
    while left := [shops for shops in sellers if shops and not chosen & set(shops)]:
        chosen.add(max(order, key=lambda shop: sum(shop in shops for shops in left)))
    return frozenset(chosen)
