"""'The same as that step, on the other side' in → a plain step that sends to it and counts."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.buildfile.expand.expansion_records import USE_LISTS, Values, Written, swapped, texts
from guidegen.buildfile.expand.expansion_words import Names, link, spoken
from guidegen.buildfile.records.steps import StepRepeat
from guidegen.buildfile.yaml.fields import parse_duration
from guidegen.buildfile.yaml.tree import Trail, Value
from guidegen.words import msg

KEPT = (
    "stage", "process", "makes", "tools", "hands", "difficulty", "check", "cautions", "waive",
    "wait", "again",
)  # fmt: skip
"""Keys that a repeat takes over. Pictures and troubles stay with the step that it sends to."""


@dataclass(frozen=True, slots=True)
class Turn:
    """Which of several times a piece of work is done."""

    done: int
    """Times before this one."""
    total: int
    """Times in the whole guide."""


def repeat_step(entry: StepRepeat, at: Trail, first: Written, names: Names, turn: Turn) -> Written:
    """The step that an entry at `at` stands for; `names` are those of parts by id."""
    step: Values = {key: first.step[key] for key in KEPT if key in first.step}
    origins: dict[Trail, Trail] = {(key,): first.origin((key,)) for key in step}
    for key in ("parts", "needs"):
        ids, places, _ = swapped(first, key, entry.swap, (*at, "with"))
        step[key], origins = [*ids], origins | places
    for index, need in enumerate(entry.needs):
        origins["needs", len(texts(step["needs"]))] = (*at, "needs", index)
        step["needs"] = [*texts(step["needs"]), need]
    # What is kept was joined, and its glue counted, for both hands by the first step.
    for key in ("seams", "stacks"):
        ids, places, kept = swapped(first, key, entry.swap, (*at, "with"))
        new = [(name, places[key, n]) for n, name in enumerate(ids) if name not in kept]
        step[key] = [name for name, _ in new]
        origins |= {(key, n): place for n, (_, place) in enumerate(new)}
    step["uses"] = _uses(first, entry, at, origins)
    step |= _words(entry, first, names, turn)
    step["id"] = entry.id
    step["time"] = _time(entry, first)
    for key, given in (("wait", entry.wait), ("check", entry.check)):
        if given is not None:
            step[key] = given
            origins.pop((key,), None)
    return Written(step, at, origins)


def _uses(first: Written, entry: StepRepeat, at: Trail, origins: dict[Trail, Trail]) -> list[Value]:
    """What is used up again; what the first step counted for both sides is at hand, not counted."""
    uses: list[Value] = []

    def add(use: Values, origin: Trail) -> None:
        origins["uses", len(uses)] = origin
        uses.append(use)

    found = first.step.get("uses")
    for index, use in enumerate(found if isinstance(found, list) else []):
        origin = first.origin(("uses", index))
        if not isinstance(use, dict):
            add({"material": use}, origin)
            continue
        key = next((key for key in USE_LISTS if key in use), None)
        if key is None:
            add(_as_often(use, entry.times), origin)
            continue
        inner = Written(use, origin)
        ids, _, kept = swapped(inner, key, entry.swap, (*at, "with"))
        new: list[Value] = [name for name in ids if name not in kept]
        old: list[Value] = [name for name in ids if name in kept]
        if new:
            add({**use, key: new}, origin)
        if old:
            add({**use, key: old, "counted": False}, origin)
    return uses


def _as_often(use: Values, times: int) -> Values:
    """A use for as many times as the work is done."""
    if times == 1:
        return use
    if "length" in use:
        return {**use, "pieces": f"{times}*({use.get('pieces', 1)})"}
    return {**use} | {key: f"{times}*({use[key]})" for key in ("count", "amount") if key in use}


def _words(entry: StepRepeat, first: Written, names: Names, turn: Turn) -> Values:
    """Title and instruction: what is done again, with what, and which time of how many it is."""
    last = turn.done + entry.times
    parts = texts(first.step.get("parts"))
    new = [other for name in parts for other in entry.swap.get(name, ())]
    words, total = names.words, turn.total
    counter = (
        words.say("({first} to {last} of {total})", first=turn.done + 1, last=last, total=total)
        if entry.times > 1
        else words.say("({last} of {total})", last=last, total=total)
    )
    title = (
        words.say("Do the same for the {parts}", parts=spoken(new, names, links=False))
        if new
        else words.say("Do the same again")
    )
    told = words.say("This makes {last} of {total}.", last=last, total=total)
    return {
        "title": entry.title or f"{title} {_kept_together(counter)}",
        "text": entry.text or f"{_sent_back(entry, first, names, new)} {told}",
    }


def _sent_back(entry: StepRepeat, first: Written, names: Names, new: Sequence[str]) -> str:
    """The sentence that sends to the step which is done again."""
    words, times = names.words, entry.times
    step = link(str(first.step.get("title", "")), "step", str(first.step.get("id", "")))
    parts = spoken(new, names, links=True)
    if new and times > 1:
        text = msg("Do the same as in {step}, now with the {parts}, {times} times more.")
        return words.say(text, step=step, parts=parts, times=times)
    if new:
        return words.say("Do the same as in {step}, now with the {parts}.", step=step, parts=parts)
    if times > 1:
        return words.say("Do the same as in {step}, {times} times more.", step=step, times=times)
    return words.say("Do the same as in {step} once more.", step=step)


def _kept_together(words: str) -> str:
    """Words that stay on one line."""
    return words.replace(" ", "\u00a0")


def _time(entry: StepRepeat, first: Written) -> Value:
    if entry.time is not None or "time" not in first.step:
        return entry.time
    try:
        return parse_duration(first.step["time"]) * entry.times
    except ValueError:
        return first.step["time"]  # told where the first step is typed
