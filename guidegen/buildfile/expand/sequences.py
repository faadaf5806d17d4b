"""A sequence of steps and the pieces of one use in → plain steps for these pieces."""

import re
from collections.abc import Collection, Iterator

from guidegen.buildfile.expand.expansion_records import USE_LISTS, Values, Written, swapped, texts
from guidegen.buildfile.expand.expansion_words import PLACEHOLDER, Names, filled
from guidegen.buildfile.records.meanings import Markup, Wording
from guidegen.buildfile.records.steps import Sequence, SequenceUse
from guidegen.buildfile.records.walk import Leaf, rebuilt, wordings
from guidegen.buildfile.yaml.tree import Source, Trail, Value
from guidegen.problems import Problem, did_you_mean

_LISTS = ("parts", "tools", "seams", "stacks", "cautions")
_NUMBERS = ("stitch", "length", "pieces", "count", "amount")

MAX_WORDS = 20_000
"""Characters of one text after names were put in: as many as any text may have."""


def use_sequence(
    sequence: Sequence,
    entry: SequenceUse,
    at: Trail,
    home: Trail | None,
    names: Names,
    *,
    absent: frozenset[str] = frozenset(),
) -> list[Written]:
    """The steps that an entry at `at` stands for.

    `home` is where the sequence itself stands in this file; None where it is in stock.yaml.
    `names` are those of parts by id; `absent` are names of the sequence for which the guide has no
    part. Raises ValueError where words grow beyond all measure.
    """
    kept = [
        (index, step)
        for index, step in enumerate(sequence.steps)
        if step.id not in entry.without and not (step.parts and absent.issuperset(step.parts))
    ]
    own = {step.id for _, step in kept}
    gone = {step.id for step in sequence.steps} - own
    made: list[Written] = []
    for index, step in kept:
        present = rebuilt(step, lambda leaf: _without_absent(leaf, absent))
        in_words = rebuilt(present, lambda leaf: _filled_text(leaf, entry, names))
        values: Values = in_words.model_dump(mode="json", by_alias=True, exclude_unset=True)
        _leave_out(values, absent, gone)
        trail = at if home is None else (*home, "steps", index)
        written = _filled_step(Written(values, trail), entry, at)
        written = _changed(written, sequence, step.id, entry, at)
        # Steps of the sequence itself come before names that happen to be called the same.
        inner = {name: (f"{entry.id}-{name}",) for name in own}
        needs, places, _ = swapped(written, "needs", {**entry.swap, **inner}, (*at, "with"))
        origins = {**written.parts, **places, ("id",): (*at, "id")}
        for number, need in enumerate(entry.needs if not made else ()):
            origins["needs", len(needs)] = (*at, "needs", number)
            needs.append(need)
        more: Values = {"id": f"{entry.id}-{step.id}", "needs": [*needs]}
        made.append(Written(written.step | more, trail, origins))
    return made


def _leave_out(values: Values, absent: frozenset[str], gone: Collection[str]) -> None:
    """Take away parts that the guide has not, what is used on them alone, and needs of steps that
    are left out."""
    for key in ("parts", "needs"):
        if key in values:
            away = absent if key == "parts" else gone
            values[key] = [name for name in texts(values[key]) if name not in away]
    uses = values.get("uses")
    kept: list[Value] = []
    for use in uses if isinstance(uses, list) else ():
        if not isinstance(use, dict):
            continue
        lists = [key for key in USE_LISTS if key in use]
        for key in lists:
            use[key] = [name for name in texts(use[key]) if name not in absent]
        if not lists or any(use[key] for key in lists):
            kept.append(use)
    if uses is not None:
        values["uses"] = kept


def _changed(
    step: Written, sequence: Sequence, name: str, entry: SequenceUse, at: Trail
) -> Written:
    """The step with its time for so many parts, and with what this use says otherwise."""
    values, origins = dict(step.step), dict(step.parts)
    each = sequence.time_each.get(name, 0.0)
    if each:
        time = values.get("time")
        values["time"] = float(str(time)) + each * len(texts(values.get("parts")))
    change = entry.steps.get(name)
    if change is not None:
        given = change.model_dump(mode="json", by_alias=True, exclude_none=True)
        more = given.pop("more", None)
        values |= given
        origins |= {(key,): (*at, "steps", name, key) for key in given}
        if more is not None:
            values["text"] = f"{values['text']}\n\n{more}"
            origins["text",] = (*at, "steps", name, "more")
    return Written(values, step.trail, origins)


def _without_absent(leaf: Leaf, absent: frozenset[str]) -> str:
    """A text without the paragraphs that speak of parts which the guide has not."""
    if not absent or not isinstance(leaf.meaning, Wording):
        return leaf.text
    paragraphs = re.split(r"\n[ \t]*\n", leaf.text)
    kept = [
        paragraph
        for paragraph in paragraphs
        if not any(match[1] in absent for match in PLACEHOLDER.finditer(paragraph))
    ]
    return leaf.text if len(kept) == len(paragraphs) else "\n\n".join(kept)


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
    for key in USE_LISTS:
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


def _filled_text(leaf: Leaf, entry: SequenceUse, names: Names) -> str:
    """Words with the pieces of this use, as links where links work. Raises ValueError."""
    if not isinstance(leaf.meaning, Wording):
        return leaf.text
    text, swap = leaf.text, entry.swap
    grown = sum(
        sum(len(name) + len(names.by_id.get(name, name)) + 16 for name in swap.get(match[1], ()))
        for match in PLACEHOLDER.finditer(text)
    )
    if len(text) + grown > MAX_WORDS:
        raise ValueError(f"a text grows longer than {MAX_WORDS} characters")
    return filled(text, swap, names, links=leaf.meaning.markup is Markup.BLOCKS)


def sequence_faults(sequence: Sequence, trail: Trail, source: Source) -> Iterator[Problem]:
    """Curly names in its words that it neither takes nor finds; steps that it has not."""
    known = [*sequence.takes, *sequence.finds]
    for name in sequence.finds.keys() & sequence.takes.keys():
        message = f'"{name}" stands under takes as well: expected one of both'
        yield source.problem("bad-value", (*trail, "finds", name), message, key=True)
    steps = [step.id for step in sequence.steps]
    for name in sequence.time_each:
        if name not in steps:
            message = f'the sequence has no step "{name}"{did_you_mean(name, steps)}'
            yield source.problem("unknown-name", (*trail, "time-each", name), message, key=True)
    for leaf, wording in wordings(sequence):
        for match in PLACEHOLDER.finditer(leaf.text) if wording.shown else ():
            if match[1] not in known:
                hint = did_you_mean(match[1], known)
                message = f'the sequence takes no "{match[1]}"{hint}'
                yield source.problem("unknown-name", (*trail, *leaf.trail), message)
