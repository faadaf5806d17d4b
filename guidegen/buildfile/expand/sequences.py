"""A sequence of steps and the pieces of one use in → plain steps for these pieces."""

import re
from collections.abc import Iterator, Mapping

from guidegen.buildfile.expand.expansion_records import Values, Written, swapped
from guidegen.buildfile.expand.expansion_words import PLACEHOLDER, filled
from guidegen.buildfile.records.meanings import Markup, Wording
from guidegen.buildfile.records.steps import Sequence, SequenceUse
from guidegen.buildfile.records.walk import Leaf, rebuilt, wordings
from guidegen.buildfile.yaml.tree import Source, Trail, Value
from guidegen.problems import Problem, did_you_mean

_LISTS = ("parts", "tools", "seams", "stacks", "cautions")
_NUMBERS = ("length", "pieces", "count", "amount")

MAX_WORDS = 20_000
"""Characters of one text after names were put in: as many as any text may have."""


def use_sequence(
    sequence: Sequence, entry: SequenceUse, at: Trail, home: Trail | None, names: Mapping[str, str]
) -> list[Written]:
    """The steps that an entry at `at` stands for.

    `home` is where the sequence itself stands in this file; None where it is in stock.yaml.
    `names` are those of parts by id. Raises ValueError where words grow beyond all measure.
    """
    own = {step.id for step in sequence.steps}
    made = []
    for index, step in enumerate(sequence.steps):
        in_words = rebuilt(step, lambda leaf: _filled_text(leaf, entry, names))
        values: Values = in_words.model_dump(mode="json", by_alias=True, exclude_unset=True)
        trail = at if home is None else (*home, "steps", index)
        written = _filled_step(Written(values, trail), entry, at)
        # Steps of the sequence itself come before names that happen to be called the same.
        inner = {name: (f"{entry.id}-{name}",) for name in own}
        needs, places, _ = swapped(written, "needs", {**entry.swap, **inner}, (*at, "with"))
        origins = {**written.parts, **places, ("id",): (*at, "id")}
        for number, need in enumerate(entry.needs if index == 0 else ()):
            origins["needs", len(needs)] = (*at, "needs", number)
            needs.append(need)
        more: Values = {"id": f"{entry.id}-{step.id}", "needs": [*needs]}
        made.append(Written(written.step | more, trail, origins))
    return made


def _filled_step(step: Written, entry: SequenceUse, at: Trail) -> Written:
    """Ids and numbers of the use in the place of names."""
    values, origins = dict(step.step), dict[Trail, Trail]()
    for key in _LISTS:
        if key in values:
            ids, places, _ = swapped(step, key, entry.swap, (*at, "with"))
            values[key], origins = [*ids], origins | places
    process = str(values.get("process", ""))
    if process in entry.swap:
        values["process"] = " ".join(entry.swap[process])
        origins["process",] = (*at, "with", process)
    uses = values.get("uses")
    if isinstance(uses, list):
        filled_uses: list[Value] = []
        for index, use in enumerate(uses):
            if isinstance(use, dict):
                inner = Written(use, step.origin(("uses", index)))
                filled_use, places = _filled_use(inner, entry, at)
                origins |= {("uses", index, *trail): place for trail, place in places.items()}
                filled_uses.append(filled_use)
        values["uses"] = filled_uses
    return Written(values, step.trail, origins)


def _filled_use(use: Written, entry: SequenceUse, at: Trail) -> tuple[Values, dict[Trail, Trail]]:
    """A use with materials, joints, parts and numbers in the place of names."""
    values, origins = dict(use.step), dict[Trail, Trail]()
    for key in ("glue", "cover", "along", "cut"):
        if key in values:
            ids, places, _ = swapped(use, key, entry.swap, (*at, "with"))
            values[key], origins = [*ids], origins | places
    material = str(values["material"])
    if material in entry.swap:
        values["material"] = " ".join(entry.swap[material])
        origins["material",] = (*at, "with", material)
    for key in _NUMBERS:
        if key in values:
            values[key] = _number(str(values[key]), entry)
    return values, origins


def _number(text: str, entry: SequenceUse) -> str:
    """Arithmetic with the numbers of this use; names of one word may stand in it."""

    def put(match: re.Match[str]) -> str:
        words = entry.swap.get(match[0])
        return f"({' '.join(words)})" if words else match[0]

    return re.sub(r"[a-z][a-z0-9_]*", put, text)


def _filled_text(leaf: Leaf, entry: SequenceUse, names: Mapping[str, str]) -> str:
    """Words with the pieces of this use, as links where links work. Raises ValueError."""
    if not isinstance(leaf.meaning, Wording):
        return leaf.text
    text, swap = leaf.text, entry.swap
    grown = sum(
        sum(len(name) + len(names.get(name, name)) + 16 for name in swap.get(match[1], ()))
        for match in PLACEHOLDER.finditer(text)
    )
    if len(text) + grown > MAX_WORDS:
        raise ValueError(f"a text grows longer than {MAX_WORDS} characters")
    return filled(text, swap, names, links=leaf.meaning.markup is Markup.BLOCKS)


def sequence_faults(sequence: Sequence, trail: Trail, source: Source) -> Iterator[Problem]:
    """Curly names in the words of a sequence that it does not take."""
    for leaf, wording in wordings(sequence):
        for match in PLACEHOLDER.finditer(leaf.text) if wording.shown else ():
            if match[1] not in sequence.takes:
                hint = did_you_mean(match[1], sequence.takes)
                message = f'the sequence takes no "{match[1]}"{hint}'
                yield source.problem("unknown-name", (*trail, *leaf.trail), message)
