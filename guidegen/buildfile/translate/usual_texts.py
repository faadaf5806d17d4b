"""A guide's translation in → the same with shipped usual steps in that language under it.

A guide that takes usual steps has their texts in the language of the stock; nobody has to translate
them again. What the author translates goes before, and what the author says otherwise stays theirs.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from guidegen.buildfile.expand.expansion import USE, expand_steps
from guidegen.buildfile.expand.finding import sheet_facts
from guidegen.buildfile.records.steps import Sequence
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.translate.translation import Translation
from guidegen.buildfile.yaml.tree import Source, Trail, Value, read_tree
from guidegen.words import read_words


def on_top_of_usual(
    made: Translation, text: str, stock: Stock, taken: Mapping[str, Sequence]
) -> Translation:
    """A translation of a guide with shipped texts under it; `text` is the guide's build file,
    `taken` are the shipped sequences in the language of the translation."""
    if not any(name in text for name in taken):
        return made
    value, source, found = read_tree(text, "")
    if found or not isinstance(value, dict):
        return made
    named = _in_language(value, made)
    before = _steps(named, source, stock.sequences, stock, made.language)
    after = _steps(named, source, {**stock.sequences, **taken}, stock, made.language)
    added = _with_more(value)
    texts = {
        trail: said
        for trail, said in after.items()
        if said != before.get(trail) and trail not in added and trail not in made.outdated
    }
    missing = tuple(trail for trail in made.missing if trail not in texts)
    return replace(made, texts={**texts, **made.texts}, missing=missing)


def _in_language(value: dict[str, Value], made: Translation) -> dict[str, Value]:
    """The guide with the names of its parts in the language: steps speak of them."""
    parts = value.get("parts")
    named: dict[str, Value] = {}
    for id_, part in parts.items() if isinstance(parts, dict) else ():
        name = made.texts.get(("parts", id_, "name"))
        named[id_] = {**part, "name": name} if isinstance(part, dict) and name else part
    return {**value, "parts": named}


def _steps(
    value: Value, source: Source, sequences: Mapping[str, Sequence], stock: Stock, language: str
) -> dict[Trail, str]:
    """All texts of the plain steps, by lasting trail."""
    sheets, words = sheet_facts(stock.materials), read_words(language)
    made, _, _ = expand_steps(value, source, sequences, sheets, words)
    steps = made.get("steps") if isinstance(made, dict) else None
    return dict(_texts(steps, ("steps",)))


def _texts(value: Value, trail: Trail) -> Iterator[tuple[Trail, str]]:
    if isinstance(value, str):
        yield trail, value
    elif isinstance(value, dict):
        for key, one in value.items():
            yield from _texts(one, (*trail, key))
    elif isinstance(value, list):
        for number, one in enumerate(value):
            id_ = one.get("id") if isinstance(one, dict) else None
            yield from _texts(one, (*trail, id_ if isinstance(id_, str) else number))


def _with_more(value: dict[str, Value]) -> set[Trail]:
    """Texts of usual steps to which a guide adds a paragraph: half of one is no translation."""
    entries = value.get("steps")
    found: set[Trail] = set()
    for entry in entries if isinstance(entries, list) else ():
        changes = entry.get("steps") if isinstance(entry, dict) and USE in entry else None
        for name, change in changes.items() if isinstance(changes, dict) else ():
            if isinstance(change, dict) and "more" in change and isinstance(entry, dict):
                found.add(("steps", f"{entry.get('id')}-{name}", "text"))
    return found
