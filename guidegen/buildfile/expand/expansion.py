"""A guide's values with repeats and sequences in its steps in → the same with plain steps.

Every value keeps the place where its author wrote it: Source.moved leads there.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from guidegen.buildfile.expand.expansion_records import USE_LISTS, Values, Written
from guidegen.buildfile.expand.expansion_words import Names
from guidegen.buildfile.expand.finding import PartFinder, SheetFacts, plain_steps
from guidegen.buildfile.expand.repeats import Turn, repeat_step
from guidegen.buildfile.expand.sequences import sequence_faults, use_sequence
from guidegen.buildfile.records.steps import Sequence, SequenceUse, StepRepeat
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import MAX_VALUES, Source, Trail, Value
from guidegen.problems import Problem, did_you_mean
from guidegen.words import ENGLISH, Words

MAX_STEPS = 400
"""Steps of one guide after expansion. Our choice: ten times a long guide."""

REPEAT, USE = "same-as", "sequence"
"""Keys that tell an entry apart from a plain step."""


def expand_steps(
    value: Value,
    source: Source,
    shared: Mapping[str, Sequence],
    sheets: Mapping[str, SheetFacts] | None = None,
    words: Words = ENGLISH,
) -> tuple[Value, Source, list[Problem]]:
    """Plain steps for all entries that repeat one or use a sequence (of the guide or `shared`).

    `sheets` are the materials by which sequences find their parts, `words` those of the language
    of the build file.
    """
    entries = value.get("steps") if isinstance(value, dict) else None
    if not isinstance(value, dict) or not isinstance(entries, list):
        return value, source, []
    job = _Expansion(value, source, shared, sheets or {}, plain_steps(entries), words)
    job.read_sequences()
    if any(isinstance(entry, dict) and entry.keys() & {REPEAT, USE} for entry in entries):
        job.count_repeats(entries)
        for index, entry in enumerate(entries):
            job.take(entry, ("steps", index))
        return {**value, "steps": job.steps}, replace(source, moved=job.moved), job.problems
    return value, source, job.problems


@dataclass
class _Expansion:
    """The steps of one guide while they are put together."""

    guide: Values
    source: Source
    shared: Mapping[str, Sequence]
    sheets: Mapping[str, SheetFacts]
    written: list[Values]
    """Steps that the author wrote as such, before and behind."""
    words: Words
    steps: list[Value] = field(default_factory=list)
    moved: dict[Trail, Trail] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    known: dict[str, Written] = field(default_factory=dict)
    """Plain steps so far, by id."""
    sequences: dict[str, Sequence] = field(default_factory=dict)
    """Of the guide itself."""
    roots: dict[str, str] = field(default_factory=dict)
    """For each repeat the step that is done for the first time."""
    totals: dict[str, int] = field(default_factory=dict)
    done: dict[str, int] = field(default_factory=dict)
    values: int = 0

    def read_sequences(self) -> None:
        """Type the guide's own sequences; those that do not hold are reported with the guide."""
        found = self.guide.get("sequences")
        for name, value in found.items() if isinstance(found, dict) else ():
            trail: Trail = ("sequences", name)
            sequence, faults = validate(Sequence, value, self._inside(trail))
            if sequence is not None:
                self.sequences[name] = sequence
                faults = [*sequence_faults(sequence, trail, self.source)]
            self.problems += faults

    def count_repeats(self, entries: list[Value]) -> None:
        """How often every step is done in the whole guide."""
        for entry in entries:
            if isinstance(entry, dict) and isinstance(entry.get(REPEAT), str):
                first = str(entry[REPEAT])
                root = self.roots.get(first, first)
                self.roots[str(entry.get("id"))] = root
                times = entry.get("times", 1)
                self.totals[root] = self.totals.get(root, 1) + (
                    times if isinstance(times, int) else 1
                )

    def take(self, entry: Value, at: Trail) -> None:
        """Add what one entry stands for."""
        if not isinstance(entry, dict) or not entry.keys() & {REPEAT, USE}:
            self._add(Written(entry, at) if isinstance(entry, dict) else entry, at)
        elif REPEAT in entry:
            self._repeat(entry, at)
        else:
            self._use(entry, at)

    def _add(self, step: Written | Value, at: Trail) -> None:
        if len(self.steps) >= MAX_STEPS or self.values > MAX_VALUES:
            if not any(problem.code == "too-many-steps" for problem in self.problems):
                self._refuse("too-many-steps", at, f"more than {MAX_STEPS} steps in one guide")
            return
        place: Trail = ("steps", len(self.steps))
        if not isinstance(step, Written):
            self.moved[place] = at
            self.steps.append(step)
            return
        self.moved[place] = step.trail
        self.moved |= {(*place, *trail): origin for trail, origin in step.parts.items()}
        self.values += len(step.parts) + 20
        self.steps.append(step.step)
        self.known.setdefault(str(step.step.get("id")), step)

    def _repeat(self, values: Values, at: Trail) -> None:
        entry = self._typed(StepRepeat, values, at)
        if entry is None:
            return
        first = self.known.get(entry.same_as)
        if first is None:
            message = f'no earlier step "{entry.same_as}"{did_you_mean(entry.same_as, self.known)}'
            self._refuse("unknown-name", (*at, REPEAT), message)
            return
        held = [*_ids(first.step)]
        for name in entry.swap:
            if name not in held:
                message = f'that step has no "{name}"{did_you_mean(name, held)}'
                self._refuse("unknown-name", (*at, "with", name), message, key=True)
        root = self.roots.get(entry.same_as, entry.same_as)
        done = self.done.get(root, 1)
        self.done[root] = done + entry.times
        turn = Turn(done, self.totals.get(root, done + entry.times))
        self._add(repeat_step(entry, at, first, self._names(), turn), at)

    def _use(self, values: Values, at: Trail) -> None:
        entry = self._typed(SequenceUse, values, at)
        if entry is None:
            return
        known = {**self.shared, **self.sequences}
        if entry.sequence not in known:
            own = self.guide.get("sequences")
            if not isinstance(own, dict) or entry.sequence not in own:
                hint = did_you_mean(entry.sequence, known)
                message = f'no sequence "{entry.sequence}" in this guide or in stock{hint}'
                self._refuse("unknown-name", (*at, USE), message)
            return
        sequence = known[entry.sequence]
        if not self._takes(sequence, entry, at):
            return
        entry, absent = self._found(sequence, entry)
        home: Trail | None = (
            ("sequences", entry.sequence) if entry.sequence in self.sequences else None
        )
        try:
            steps = use_sequence(sequence, entry, at, home, self._names(), absent=absent)
        except ValueError as error:
            self._refuse("bad-value", (*at, "with"), str(error))
            return
        if not steps:
            finds = ", ".join(one.about for one in sequence.finds.values())
            message = f"nothing is left of it here: this guide has no {finds}"
            self._refuse("bad-value", (*at, USE), message)
        for step in steps:
            self._add(step, at)

    def _found(self, sequence: Sequence, entry: SequenceUse) -> tuple[SequenceUse, frozenset[str]]:
        """The use with the parts that the sequence finds, and names for which it finds none."""
        done = [step for step in self.steps if isinstance(step, dict)]
        finder = PartFinder(self.guide, self.sheets, [*self.written, *done])
        found = {
            name: finder.parts(wanted)
            for name, wanted in sequence.finds.items()
            if name not in entry.swap
        }
        swap = {name: parts for name, parts in found.items() if parts} | entry.swap
        return entry.model_copy(update={"swap": swap}), frozenset(found) - frozenset(swap)

    def _takes(self, sequence: Sequence, entry: SequenceUse, at: Trail) -> bool:
        """Whether a use gives every name of the sequence, and no other."""
        before = len(self.problems)
        missing = [name for name in sequence.takes if name not in entry.swap]
        if missing:
            words = ", ".join(f"{name} ({sequence.takes[name]})" for name in missing)
            self._refuse("missing-key", (*at, "with"), f"the sequence also takes {words}")
        names = [*sequence.takes, *sequence.finds]
        for name in entry.swap:
            if name not in names:
                message = f'the sequence takes no "{name}"{did_you_mean(name, names)}'
                self._refuse("unknown-key", (*at, "with", name), message, key=True)
        steps = [step.id for step in sequence.steps]
        for key, ids in (("without", entry.without), ("steps", entry.steps)):
            for index, name in enumerate(ids):
                if name not in steps:
                    place = (*at, key, name if key == "steps" else index)
                    message = f'the sequence has no step "{name}"{did_you_mean(name, steps)}'
                    self._refuse("unknown-name", place, message, key=key == "steps")
        return len(self.problems) == before

    def _typed[M: Model](self, model: type[M], values: Values, at: Trail) -> M | None:
        record, faults = validate(model, values, self._inside(at))
        self.problems += faults
        return record

    def _inside(self, at: Trail) -> Source:
        """The file as seen from one of its values."""
        return replace(self.source, moved={(): at})

    def _refuse(self, code: str, trail: Trail, message: str, *, key: bool = False) -> None:
        self.problems.append(self.source.problem(code, trail, message, key=key))

    def _names(self) -> Names:
        """Names of the guide's parts by id, as far as they are texts."""
        parts = self.guide.get("parts")
        names: dict[str, str] = {}
        for part_id, part in parts.items() if isinstance(parts, dict) else ():
            name = part.get("name") if isinstance(part, dict) else None
            if isinstance(name, str):
                names[part_id] = name
        return Names(names, self.words)


def _ids(step: Values) -> list[str]:
    """Everything in a step that a repeat may swap."""
    found: list[str] = []
    lists = [step.get(key) for key in ("parts", "seams", "stacks", "needs")]
    uses = step.get("uses")
    for use in uses if isinstance(uses, list) else []:
        if isinstance(use, dict):
            lists += [use.get(key) for key in USE_LISTS]
    for value in lists:
        found += (
            [name for name in value if isinstance(name, str)] if isinstance(value, list) else []
        )
    return found
