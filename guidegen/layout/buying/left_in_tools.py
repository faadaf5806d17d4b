"""Steps with their liquids and tools in → what stays in brushes and cups, to be bought too."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import ceil

from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.buying.consumption import Demand
from guidegen.words import SPACE, Words


@dataclass(frozen=True, slots=True)
class Wetters:
    """Who work with brushes and cups."""

    makers: int
    """With a kit each."""
    adults: int = 0
    """Who do the steps before a class; 0 where the makers do them."""
    before: frozenset[str] = frozenset()
    """Those steps."""
    there: Mapping[str, int] = field(default_factory=dict)
    """How many there are of some tools: no more can be wet at once."""

    def count(self, tool: str, shared_by: int, step: str) -> int:
        """How many of a tool are wetted in a step."""
        people = self.adults if self.adults and step in self.before else self.makers
        wanted = ceil(people / shared_by)
        return min(wanted, self.there.get(tool, wanted))


def left_in_tools(
    guide: Guide,
    stock: Stock,
    wetters: Wetters,
    demands: Mapping[str, Sequence[Demand]],
    lang: Words,
) -> Iterator[Demand]:
    """ml of each liquid that stay in the tools of each step that uses it.

    As many of a tool as the people of the step share (`shared-by`), each with what it `holds`: a
    class wets a dozen brushes for what one reader does with one.
    """
    liquids: dict[str, list[str]] = {}
    for name, wanted in demands.items():
        if stock.materials[name].kind is MaterialKind.LIQUID:
            for used_in in dict.fromkeys(demand.step for demand in wanted):
                liquids.setdefault(used_in, []).append(name)
    for step in guide.steps:
        held = [(key, stock.tools[key]) for key in step_tools(step, stock) if key in stock.tools]
        for name in liquids.get(step.id, ()):
            for key, tool in held:
                if tool.holds is not None:
                    count = wetters.count(key, tool.shared_by, step.id)
                    left = count * tool.holds
                    basis = lang.say(
                        "{count} × {amount} left in: {tool}",
                        count=count,
                        amount=f"{lang.number(tool.holds, 1)}{SPACE}ml",
                        tool=tool.name,
                    )
                    yield Demand(name, step.id, left, left, left, basis, thrown_away=True)
