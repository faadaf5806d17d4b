"""People of a class with their kits in → one kit to nest, and how many of each tool."""

from collections.abc import Collection, Sequence
from dataclasses import replace
from math import ceil

from guidegen.buildfile.records.stock import Stock, Tool
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import ToolLine
from guidegen.layout.times.class_records import Means, Person, ToolCount


def people_of(counts: Sequence[tuple[str, int]]) -> tuple[Person, ...]:
    """People without names: M 1, M 2, L 1 and so on, in the order of `counts`."""
    return tuple(
        Person(f"{size} {number}", size) for size, count in counts for number in range(1, count + 1)
    )


def join_kits(kits: Sequence[Kit]) -> Kit:
    """One kit with the pieces of all, to nest together; all are numbered by their kit, from 1.

    For cut plans only: seams and stacks stay with each kit.
    """
    pieces = tuple(
        replace(
            piece,
            # Parts, labels and keys of two people must not meet: nesting knows pieces by their
            # key.
            part=f"{number}-{piece.part}",
            label=f"{number}-{piece.label}",
            name=f"{piece.name} ({number})",
        )
        for number, kit in enumerate(kits, 1)
        for piece in kit.pieces
    )
    return Kit(kits[0].guide if kits else "", "class", (), (), pieces, (), ())


def tool_count(tool: Tool, people: int) -> int:
    """How many of a tool a class needs: people ÷ shared by, rounded up."""
    return ceil(people / tool.shared_by)


def seats(tool: Tool, there: int) -> int:
    """How many people can be at a step with a tool of which there are so many.

    One person keeps a tool that is used in turns; others go around among those who share them.
    """
    return there if tool.turns else there * tool.shared_by


def count_tools(
    tools: Sequence[ToolLine],
    stock: Stock,
    people: int,
    means: Means | None = None,
    beforehand: Collection[str] = (),
    *,
    adults: int = 0,
) -> tuple[ToolCount, ...]:
    """How many of each tool and of protective equipment the steps in the room need.

    `adults` are those beside the `people` who take over work. They need protective equipment too,
    and so do the young who watch them.
    """
    # A tool of no step is for all of the work.
    inside = [line for line in tools if not line.steps or set(line.steps) - set(beforehand)]
    return _counted(inside, stock, people, means, adults)


def count_tools_before(
    tools: Sequence[ToolLine],
    stock: Stock,
    means: Means | None = None,
    beforehand: Collection[str] = (),
) -> tuple[ToolCount, ...]:
    """The same for the steps that the leader and the helpers do beforehand, side by side."""
    before = [line for line in tools if set(line.steps) & set(beforehand)]
    return _counted(before, stock, 1 + (means.helpers if means else 0), means)


def _counted(
    tools: Sequence[ToolLine], stock: Stock, people: int, means: Means | None, adults: int = 0
) -> tuple[ToolCount, ...]:
    there = means.tools if means else {}
    return tuple(
        ToolCount(
            line,
            tool_count(tool, people + adults * tool.protective),
            tool.shared_by,
            there.get(line.tool),
        )
        for line in tools
        for tool in [stock.tools[line.tool]]
    )
