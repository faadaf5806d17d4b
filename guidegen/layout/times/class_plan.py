"""People of a class with their kits in → one kit to nest, and how many of each tool."""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil

from guidegen.buildfile.records.stock import Stock, Tool
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import ToolLine
from guidegen.layout.times.class_records import Person, ToolCount


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


def count_tools(tools: Sequence[ToolLine], stock: Stock, people: int) -> tuple[ToolCount, ...]:
    """How many of each tool and of protective equipment."""
    return tuple(
        ToolCount(line, tool_count(tool, people), tool.shared_by)
        for line in tools
        for tool in [stock.tools[line.tool]]
    )
