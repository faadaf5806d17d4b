"""Steps with their liquids and tools in → what stays in brushes and cups, to be bought too."""

from collections.abc import Iterator, Mapping, Sequence
from math import ceil

from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import MaterialKind, Stock
from guidegen.layout.buying.consumption import Demand
from guidegen.words import SPACE, Words


def left_in_tools(
    guide: Guide,
    stock: Stock,
    makers: int,
    demands: Mapping[str, Sequence[Demand]],
    lang: Words,
) -> Iterator[Demand]:
    """ml of each liquid that stay in the tools of each step that uses it.

    As many of a tool as `makers` people share (`shared-by`), each with what it `holds`: a class
    wets a dozen brushes for what one reader does with one.
    """
    liquids: dict[str, list[str]] = {}
    for name, wanted in demands.items():
        if stock.materials[name].kind is MaterialKind.LIQUID:
            for used_in in dict.fromkeys(demand.step for demand in wanted):
                liquids.setdefault(used_in, []).append(name)
    for step in guide.steps:
        held = [stock.tools[name] for name in step_tools(step, stock) if name in stock.tools]
        for name in liquids.get(step.id, ()):
            for tool in held:
                if tool.holds is not None:
                    count = ceil(makers / tool.shared_by)
                    left = count * tool.holds
                    basis = lang.say(
                        "{count} × {amount} left in: {tool}",
                        count=count,
                        amount=f"{lang.number(tool.holds, 1)}{SPACE}ml",
                        tool=tool.name,
                    )
                    yield Demand(name, step.id, left, left, left, basis, thrown_away=True)
