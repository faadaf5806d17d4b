"""People of a class with their kits in → one kit to nest, how many of each tool, and the hours."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from guidegen.buildfile.stock import Stock
from guidegen.geometry.records import Kit
from guidegen.layout.records import TimeLine, ToolLine


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the class."""

    name: str
    """Unique in the class: a name, or a size with a number."""
    size: str


@dataclass(frozen=True, slots=True)
class ToolCount:
    """A tool and how many of it the class needs."""

    tool: ToolLine
    count: int
    shared_by: int
    """People to one of it."""


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
            part=f"{number}-{piece.part}",
            label=f"{number}-{piece.label}",
            name=f"{piece.name} ({number})",
        )
        for number, kit in enumerate(kits, 1)
        for piece in kit.pieces
    )
    return Kit(kits[0].guide if kits else "", "class", (), (), pieces, (), ())


def count_tools(tools: Sequence[ToolLine], stock: Stock, people: int) -> tuple[ToolCount, ...]:
    """How many of each tool and of protective equipment: people ÷ shared by, rounded up."""
    shared = [stock.tools[tool.tool].shared_by for tool in tools]
    return tuple(
        ToolCount(tool, ceil(people / sharing), sharing)
        for tool, sharing in zip(tools, shared, strict=True)
    )


def minutes_over(time_line: TimeLine, hours: float) -> float:
    """Minutes by which the build does not fit in `hours`; 0 where it fits.

    Everybody works at the same time, each on an own kit; waits are used for other steps.
    """
    return max(0.0, time_line.elapsed - hours * 60)
