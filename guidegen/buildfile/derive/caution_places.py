"""Steps in their order → where each caution stands in full, and where in one line.

Three places after ANSI Z535.6 (from secondary sources; the standard was not read): grouped messages
in a chapter of their own, section messages before the part of the work that they concern, embedded
messages in the step. This module decides the last two.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from guidegen.buildfile.derive.cautions import GRAVITY, step_cautions
from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.safety.cautions import Caution, Reader, SignalWord
from guidegen.buildfile.records.stock import Stock

MOST_LETTERS = 60
"""Letters of a short form: what a reader takes in at a glance, on one line of a phone held at arm's
length. Our choice; a longer one is no line any more, and the whole caution stands in its place."""

GRAVE = frozenset({SignalWord.DANGER, SignalWord.WARNING})
"""Words of hazards that can kill or cause serious injury (ANSI Z535.6)."""


@dataclass(frozen=True, slots=True)
class CautionPlaces:
    """The cautions of one step, each list gravest first. Ids."""

    panels: tuple[str, ...]
    """In full before the step: at the head of its stage those of all its steps."""
    full: tuple[str, ...]
    """In full within the step, before its action."""
    lines: tuple[str, ...]
    """In one line within the step, before its action."""


def builder_cautions(step: Step, stock: Stock) -> tuple[str, ...]:
    """Cautions of a step for whoever does it, gravest first; those for a leader are left out."""
    return tuple(name for name in step_cautions(step, stock) if for_builders(stock.cautions[name]))


def for_builders(caution: Caution) -> bool:
    """False for what addresses the leader of a group."""
    return caution.reader is Reader.ALL


def in_one_line(caution: Caution) -> bool:
    """Whether its short form may stand for it in a step: never for DANGER."""
    short = caution.short
    return (
        caution.word is not SignalWord.DANGER and short is not None and len(short) <= MOST_LETTERS
    )


def caution_places(steps: Sequence[Step], stock: Stock) -> tuple[CautionPlaces, ...]:
    """Where the cautions of each step stand, in the order of `steps`.

    Whatever the order: a caution that is one line in a step stands in full before it, in the same
    stage.
    """
    places: list[CautionPlaces] = []
    met: set[str] = set()
    for _, group in groupby(steps, key=lambda step: step.stage):
        stage = [(step, builder_cautions(step, stock)) for step in group]
        panels = gravest_first({name for _, names in stage for name in names}, stock)
        before: tuple[str, ...] | None = None
        for number, (_, names) in enumerate(stage):
            if number:
                panels = _again(names, before, met, stock)
            # The first step with a hazard follows the head of its stage: nothing has changed yet.
            before = names if names or before is not None else None
            met.update(names)
            places.append(_places(panels, names, stock))
    return tuple(places)


def sheet_places(steps: Sequence[Step], stock: Stock) -> tuple[CautionPlaces, ...]:
    """The same for a sheet that stands alone: each caution in full once, all at its beginning."""
    every = gravest_first({name for step in steps for name in builder_cautions(step, stock)}, stock)
    return tuple(
        _places(every if number == 0 else (), builder_cautions(step, stock), stock)
        for number, step in enumerate(steps)
    )


def gravest_first(names: Iterable[str], stock: Stock) -> tuple[str, ...]:
    """Cautions by signal word, then as the stock lists them."""
    order = {name: number for number, name in enumerate(stock.cautions)}
    return tuple(sorted(names, key=lambda name: (GRAVITY[stock.cautions[name].word], order[name])))


def _again(
    names: tuple[str, ...], before: tuple[str, ...] | None, met: set[str], stock: Stock
) -> tuple[str, ...]:
    """Cautions that stand in full once more within a stage: new in the guide, or a change of hazard
    or place, since what the step before did not bring is grave or asks something of the room."""
    if before is None:
        return ()
    return tuple(
        name
        for name in names
        if name not in before
        and (name not in met or stock.cautions[name].word in GRAVE or stock.cautions[name].room)
    )


def _places(panels: tuple[str, ...], names: tuple[str, ...], stock: Stock) -> CautionPlaces:
    """What has no short form stands in full in its steps and nowhere else in its stage."""
    known = stock.cautions
    shown = tuple(
        name for name in panels if in_one_line(known[name]) or known[name].word is SignalWord.DANGER
    )
    full = tuple(name for name in names if not in_one_line(known[name]))
    return CautionPlaces(shown, full, tuple(name for name in names if name not in full))
