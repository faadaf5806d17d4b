"""A translation beside a build file in → its texts by trail, each known to fit the original or not.

guide.de.yaml has the keys of guide.yaml and holds texts only; steps are keyed by their id. Which
original each text was made from is kept in translated/de.json, so that a text whose original has
changed since can be told: it counts as missing until somebody has translated it again.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.yaml.tree import Source, Trail, Value, trail_text
from guidegen.problems import Problem, did_you_mean

MAX_PROBLEMS = 200
"""Problems told of one file. Our choice: nobody reads more."""


@dataclass(frozen=True)
class Translation:
    """The texts of one build file in another language."""

    language: str
    source: Source
    texts: Mapping[Trail, str] = field(default_factory=dict)
    """What fits the original as it is now."""
    outdated: frozenset[Trail] = frozenset()
    """Where the original has changed since."""
    missing: tuple[Trail, ...] = ()
    """Where there is no text at all."""
    kept: str = ""
    """What to keep beside it for the next time, as text."""


def read_translation(
    language: str, value: Value, source: Source, original: Mapping[Trail, str], kept: str
) -> tuple[Translation, list[Problem]]:
    """A translation of `original` texts; `kept` is what was kept the last time, or empty."""
    texts, problems = _texts(value, source, original)
    before = _parse_kept(kept)
    now: dict[str, str] = {}
    outdated: set[Trail] = set()
    for trail, text in texts.items():
        name, mark, own = trail_text(trail), _digest(original[trail]), _digest(text)
        made_from, written = before.get(name, (mark, own))
        if made_from != mark and written == own:
            outdated.add(trail)
            mark = made_from
        now[name] = f"{mark} {own}"
    return (
        Translation(
            language,
            source,
            {trail: text for trail, text in texts.items() if trail not in outdated},
            frozenset(outdated),
            tuple(trail for trail in original if trail not in texts),
            json.dumps(now, indent=0, sort_keys=True) + "\n",
        ),
        problems,
    )


def _digest(text: str) -> str:
    return hashlib.sha256(" ".join(text.split()).encode()).hexdigest()[:12]


def _parse_kept(text: str) -> dict[str, tuple[str, str]]:
    """What was kept; nothing where it cannot be read: then every text counts as new."""
    try:
        data = json.loads(text) if text else {}
    except (ValueError, RecursionError):
        return {}
    if not isinstance(data, dict):
        return {}
    return {
        name: (marks[0], marks[1])
        for name, both in data.items()
        if len(marks := str(both).split()) == 2
    }


def _texts(
    value: Value, source: Source, original: Mapping[Trail, str]
) -> tuple[dict[Trail, str], list[Problem]]:
    """Texts of a translation by trail, and what does not belong there."""
    below: dict[Trail, dict[str | int, None]] = {}
    for trail in original:
        for length in range(len(trail)):
            below.setdefault(trail[:length], {})[trail[length]] = None
    texts: dict[Trail, str] = {}
    problems: list[Problem] = []
    if not isinstance(value, dict):
        return {}, [source.problem("not-a-mapping", (), "expected keys with texts")]
    waiting: list[tuple[Trail, Value]] = [((), value)]
    while waiting and len(problems) < MAX_PROBLEMS:
        trail, found = waiting.pop()
        if trail in original:
            text = _text(found)
            if text:
                texts[trail] = text
            elif found is not None:
                problems.append(source.problem("bad-value", trail, "expected a text"))
            continue
        problems += _entries(trail, found, source, below[trail], waiting)
    return {trail: texts[trail] for trail in original if trail in texts}, problems


def _text(value: Value) -> str:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return ""
    return str(getattr(value, "written", value)).strip()


def _entries(
    trail: Trail,
    found: Value,
    source: Source,
    known: Mapping[str | int, None],
    waiting: list[tuple[Trail, Value]],
) -> list[Problem]:
    """Queue the entries of a collection that the original has; tell the others."""
    if isinstance(found, dict):
        entries: list[tuple[str | int, Value]] = list(found.items())
    elif isinstance(found, list):
        entries = list(enumerate(found))
    elif found is None:
        return []
    else:
        return [source.problem("bad-value", trail, "expected keys with texts, as in the original")]
    problems = []
    for key, below in entries:
        if key in known:
            waiting.append(((*trail, key), below))
        elif isinstance(key, int):
            if below is not None and not _is_hollow(below):
                message = f"the original has no entry {key + 1} with a text here"
                problems.append(source.problem("unknown-key", (*trail, key), message))
        else:
            hint = did_you_mean(key, [str(name) for name in known])
            message = f'the original has no text "{key}" here{hint}'
            problems.append(source.problem("unknown-key", (*trail, key), message, key=True))
    return problems


def _is_hollow(value: Value) -> bool:
    """An empty entry, which holds the place of one without texts in a list."""
    return value in ({}, [], "")
